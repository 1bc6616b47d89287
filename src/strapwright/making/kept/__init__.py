"""Plates that stay on the press: new tooling is made to their holes, or they get new ones."""
