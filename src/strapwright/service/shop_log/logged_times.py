"""Times that the log has of laying parts in."""

from __future__ import annotations

from pathlib import Path

from strapwright.service.user_folders import default_store
from strapwright.store import Store, open_store


def times_in(store: Store) -> tuple[float, ...]:
    """Return the minutes of every line that has them and is counted [min].

    Parameters
    ----------
    store
        Opened.
    """
    return tuple(
        one.figures["minutes"]
        for one in store.log.lines()
        if one.counted and "minutes" in one.figures
    )


def times_of(folder: Path | None) -> tuple[float, ...]:
    """Return the same from the store in a folder; the user's own where not given [min].

    Raises
    ------
    StoreError
        If the store cannot be opened.
    """
    with open_store(folder or default_store()) as store:
        return times_in(store)
