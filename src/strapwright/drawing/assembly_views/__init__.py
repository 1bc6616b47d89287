"""The tooling put together, drawn: three views with their sizes, and taken apart with numbers."""
