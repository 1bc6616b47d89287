"""Words for what is done away from the press, and what speaks against it."""
