"""Legs that come out unlike: a nose off the middle, and bends beside their marks."""
