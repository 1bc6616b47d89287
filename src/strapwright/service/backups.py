"""Backups of the store as a person takes and restores them."""

from __future__ import annotations

import shutil
import tempfile
from datetime import UTC, datetime
from pathlib import Path

from attrs import frozen

from strapwright.service.network.kept_passes import PASSES
from strapwright.service.user_folders import default_store
from strapwright.store import (
    Store,
    StoreError,
    backup_store,
    open_store,
    restore_store,
    verify_file,
)
from strapwright.store.database import FILE
from strapwright.store.taking_in import take_in

_GONE = "The search ended with the server of its time; start it again."


@frozen(kw_only=True)
class Restored:
    """What came back.

    Attributes
    ----------
    folder
        Of the store.
    items
        How many jobs and shop files it has, those put away included.
    aside
        File with what was there before, ``None`` where there was nothing.
    """

    folder: Path
    items: int
    aside: Path | None

    @property
    def sentence(self) -> str:
        """What was done, in words."""
        said = f"Restored {self.items} {_things(self.items)} into {self.folder}."
        return said if self.aside is None else f"{said} What was there is in {self.aside}."


def take_backup(target: Path, folder: Path | None = None) -> Path:
    """Copy the store into one file, also while the pages are served from it.

    Parameters
    ----------
    target
        A file that is not there yet, or a folder; in a folder the file is named by the moment.
    folder
        Of the store; the user's own where not given.

    Returns
    -------
    Path
        The file made.

    Raises
    ------
    StoreError
        If there is no store, something of that name is there, or it cannot be written.
    """
    if target.is_dir():
        target = target / f"strapwright-{datetime.now(UTC):%Y-%m-%d-%H%M%S}.db"
    return backup_store(folder or default_store(), target)


def bring_back(backup: Path, folder: Path | None = None, *, aside: bool = False) -> Restored:
    """Put a backup into an empty store.

    Parameters
    ----------
    backup
        As :func:`take_backup` made it; it stays as it is.
    folder
        Of the store; the user's own where not given, and made where it is missing.
    aside
        Whether a store that is not empty is kept aside and replaced.

    Raises
    ------
    StoreError
        If the backup is not whole, the store is in use, or it is not empty and ``aside`` was not
        asked for; nothing is changed then.
    """
    folder = folder or default_store()
    # First: whoever names the wrong file learns that, whatever is in the store.
    verify_file(backup, sealed=True)
    if not aside and (there := _what_is_there(folder)):
        raise StoreError(
            folder,
            there,
            "name another folder with --store, or keep what is there beside it with --aside",
        )
    # Passes end: one that was taken back since the backup must not come back with it.
    kept = restore_store(backup, folder, datetime.now(UTC), forget=PASSES)
    return Restored(folder=folder, items=_items(folder), aside=kept)


def bring_into_open(backup: Path, store: Store) -> int:
    """Put a backup into a store that is open and empty, as the pages have it.

    Devices that were let in before stay so; those of the backup get in by a new code.

    Parameters
    ----------
    backup
        As :func:`take_backup` made it, perhaps by an older version of the program; it stays as it
        is.
    store
        Open.

    Returns
    -------
    int
        How many jobs and shop files came back, those put away included.

    Raises
    ------
    StoreError
        If the backup is not whole, or the store is not empty; nothing is changed then.
    """
    verify_file(backup, sealed=True)
    if count := _count(store):
        raise StoreError(
            store.folder,
            f"the store has {count} {_things(count)}",
            "bring the backup into another folder with strapwright restore",
        )
    try:
        with tempfile.TemporaryDirectory(prefix=".restoring-", dir=store.folder) as beside:
            folder = Path(beside)
            shutil.copyfile(backup, folder / FILE)
            with open_store(folder) as made:  # brings one of an older version up to date
                made.searches.end_all(_GONE)
            take_in(store, folder / FILE, PASSES)
    except OSError as error:
        raise StoreError(
            store.folder, f"the store cannot be written ({error.strerror})", "make room on the disk"
        ) from error
    return _count(store)


def _what_is_there(folder: Path) -> str:
    """Say what a store already has, nothing where it is empty or missing."""
    if not (folder / FILE).exists():
        return ""
    count = _items(folder)
    return f"the store has {count} {_things(count)}" if count else ""


def _things(count: int) -> str:
    return "job or shop file" if count == 1 else "jobs or shop files"


def _items(folder: Path) -> int:
    with open_store(folder) as store:
        return _count(store)


def _count(store: Store) -> int:
    return len(store.list()) + len(store.list(archived=True))
