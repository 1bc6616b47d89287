"""Coming off: can the bent part be taken off the tooling, and how."""
