"""Commands that plan many jobs at once."""
