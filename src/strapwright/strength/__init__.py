"""Whether a tooling stands what is done to it: loads, members, sums, and what fixes a weak one."""
