"""Plates with their holes: a plate file, and the plates that stay on the press."""
