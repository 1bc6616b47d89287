"""Limits, weights and the pump in words."""
