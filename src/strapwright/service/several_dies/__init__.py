"""Several toolings of one press: plates that they share, and the change from one to another."""
