"""Tooling as something to make and to trust: loads, strength, drawings, hole tables, steps."""
