"""Bends of one part made on more than one tooling: one order over all, with its tool changes."""
