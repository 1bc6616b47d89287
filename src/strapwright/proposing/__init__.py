"""Proposing a tooling from a rack for a family of parts."""
