"""What the part may be out by and what a hand pump is, read from a job."""
