"""What the pages show of work away from the press."""
