"""Where this person's files lie, by the custom of their system."""

from __future__ import annotations

import os
import sys
from pathlib import Path


def user_data_folder() -> Path:
    """Folder for what the user makes, by the system's own custom."""
    if sys.platform == "win32":
        named = os.environ.get("LOCALAPPDATA")
        return Path(named) if named else Path.home() / "AppData" / "Local"
    named = os.environ.get("XDG_DATA_HOME")
    # The XDG base directory specification says to ignore a path that is not absolute.
    if named and Path(named).is_absolute():
        return Path(named)
    return Path.home() / ".local" / "share"


def default_store() -> Path:
    """Return the folder of the store where none is named."""
    return user_data_folder() / "strapwright"
