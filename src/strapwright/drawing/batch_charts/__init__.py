"""Charts of what was read of the parts of a batch."""
