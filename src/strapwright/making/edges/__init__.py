"""What is worked on the edges of a piece."""
