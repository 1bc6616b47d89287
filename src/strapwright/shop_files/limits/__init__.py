"""What legs and angles of the part may be out by, read from a job."""
