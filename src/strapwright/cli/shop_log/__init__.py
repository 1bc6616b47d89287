"""Commands about what was read at the press."""
