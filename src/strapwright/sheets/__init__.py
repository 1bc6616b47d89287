"""Sheets for the wall: a plan laid out on paper."""

from strapwright.sheets.setup_sheet import Paper, setup_sheet

__all__ = ["Paper", "setup_sheet"]
