"""Drawing a bar that is twisted."""
