"""Strapwright: a bench-side planner for bent bar parts on a small hydraulic press."""

__version__ = "0.1.0"
