"""Where this person's files lie, by the custom of their system."""

from __future__ import annotations

import os
import sys
from pathlib import Path


def user_data_folder() -> Path:
    """Folder for what the user makes, by the system's own custom."""
    return _by_custom("XDG_DATA_HOME", ".local/share")


def user_cache_folder() -> Path:
    """Folder for what can be made again, by the system's own custom."""
    return _by_custom("XDG_CACHE_HOME", ".cache")


def default_store() -> Path:
    """Return the folder of the store where none is named."""
    return user_data_folder() / "strapwright"


def _by_custom(variable: str, below_home: str) -> Path:
    if sys.platform == "win32":
        named = os.environ.get("LOCALAPPDATA")
        return Path(named) if named else Path.home() / "AppData" / "Local"
    named = os.environ.get(variable)
    # The XDG base directory specification says to ignore a path that is not absolute.
    if named and Path(named).is_absolute():
        return Path(named)
    return Path.home() / below_home
