"""Screens of any letters."""
