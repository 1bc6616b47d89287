"""Limits of the part, a hand pump and minutes of handling, read from a job."""
