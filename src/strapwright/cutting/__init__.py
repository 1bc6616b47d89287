"""Cutting stock: what is sawn from which piece, what the saw takes, and what the pieces cost."""
