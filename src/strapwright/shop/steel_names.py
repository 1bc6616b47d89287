"""The steel that is meant where none is named."""

UNKNOWN_STEEL = "unknown steel"
