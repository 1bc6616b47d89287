"""Words for what is logged at the press and what is learned from it."""
