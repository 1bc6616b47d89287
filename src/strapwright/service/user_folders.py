"""Where this person's files lie, by the custom of their system."""

from __future__ import annotations

import sys
from pathlib import Path

import platformdirs


def user_data_folder() -> Path:
    """Folder for what the user makes, by the system's own custom."""
    return platformdirs.user_data_path()


def user_cache_folder() -> Path:
    """Folder for what can be made again, by the system's own custom."""
    return platformdirs.user_cache_path()


def default_store() -> Path:
    """Return the folder of the store where none is named.

    One that an earlier version made on macOS, by the custom of Linux, goes on being used.
    """
    folder = user_data_folder() / "strapwright"
    earlier = Path.home() / ".local" / "share" / "strapwright"
    if sys.platform == "darwin" and earlier.is_dir() and not folder.exists():
        return earlier
    return folder
