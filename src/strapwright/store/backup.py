"""Copies of the whole store, taken while it is in use, and back again."""

from __future__ import annotations

import itertools
import os
import shutil
import sqlite3
import tempfile
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from strapwright.store.database import COMING, FILE, finish_restore, lock_folder, sync
from strapwright.store.schema import check_file, connect, is_current
from strapwright.store.seal import knows_seal, seal, unseal
from strapwright.store.store_errors import StoreError, refusal


def verify_file(path: Path, *, sealed: bool = False) -> None:
    """Refuse the file of a store, or a backup, in which anything is not as it was saved.

    Parameters
    ----------
    path
        The file.
    sealed
        Whether it must be a backup as :func:`backup_store` makes it, with its seal.

    Raises
    ------
    StoreError
        If it is missing, damaged, newer than this program or not ours, or a row is not what was
        backed up, or a text does not match its digest, or an item lacks a version.
    """
    if not path.is_file():
        raise StoreError(path, "there is no such file", "check the name and the folder")
    if path.stat().st_size == 0:  # nothing, or what the system writes while it is read
        raise StoreError(path, "there is nothing in it", "name a backup that this program made")
    if sealed and _has_more_beside(path):
        raise StoreError(
            path,
            "there is a file beside it with what it has not yet taken in, so it is no backup",
            "put both into an empty folder as store.db and store.db-wal and back that up",
        )
    check_file(path, thorough=True, sealed=sealed)


def _has_more_beside(path: Path) -> bool:
    beside = path.with_name(path.name + "-wal")
    return beside.exists() and beside.stat().st_size > 0


def backup_store(folder: Path, target: Path) -> Path:
    """Copy a store into one file, also while another program works in it.

    Parameters
    ----------
    folder
        Of the store.
    target
        The file to make; it appears only once it is whole and checked.

    Returns
    -------
    Path
        ``target``; it holds everything saved before the copy began.

    Raises
    ------
    StoreError
        If there is no store, something of that name is there, the disk is full or the store is
        damaged.
    """
    source = folder / FILE
    if (folder / COMING).exists():  # whoever opens it next takes it over; a copy of the old is none
        raise StoreError(
            folder, "a restore into it was cut off", "start the program on it once, then back up"
        )
    if not source.is_file():
        raise StoreError(folder, "there is no store here", "name the folder of a store")
    if target.exists():
        raise StoreError(target, "there is something of that name", "give another name")
    copy: Path | None = None
    try:
        # Beside the target, so that it takes its place as a whole by one rename.
        copy = _beside(target)
        with closing(connect(source)) as live, closing(connect(copy)) as made:
            live.backup(made)  # all pages at once: one moment of the store
            made.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it
        check_file(copy, thorough=True)
        if is_current(copy):  # an older program's store, backed up before this one opened it
            with closing(connect(copy)) as made:
                seal(made)
        check_file(copy, thorough=True, sealed=True)
        _replace(copy, target)
    except sqlite3.Error as error:
        raise refusal(folder, error) from error
    except (OSError, ValueError) as error:
        raise StoreError(
            target, f"it cannot be written ({error})", "name a file in a folder of your own"
        ) from error
    finally:
        _discard(copy)
    return target


def restore_store(backup: Path, folder: Path, at: datetime, *, forget: str = "") -> Path | None:
    """Put a backup in the place of a store; what was there is kept aside.

    Parameters
    ----------
    backup
        As :func:`backup_store` made it; it stays as it is.
    folder
        Of the store, which nobody may have open; made where it is missing.
    at
        Now, with its time zone; it names what is kept aside.
    forget
        Name of a fact about the store that does not come back with it; empty for none.

    Returns
    -------
    Path or None
        The file kept aside, ``None`` where there was none.

    Raises
    ------
    StoreError
        If the backup is not whole, or the store is in use or cannot be written; nothing is changed
        then.
    """
    verify_file(backup, sealed=True)
    with lock_folder(folder):
        copy: Path | None = None
        try:
            copy = _beside(folder / FILE)
            shutil.copyfile(backup, copy)
            check_file(copy, thorough=True, sealed=True)
            if forget:
                _without(copy, forget)
            finish_restore(folder)  # of one that was cut off: it is what is kept aside now
            kept = _keep_aside(folder / FILE, at)
            # Decided by one rename; what the old file had not yet taken in must not be taken for
            # the new one's, and goes before it.
            _replace(copy, folder / COMING)
            finish_restore(folder)
        except (OSError, ValueError) as error:
            raise StoreError(
                folder, f"it cannot be written ({error})", "make room or give yourself permission"
            ) from error
        finally:
            _discard(copy)
    return kept


def _without(copy: Path, fact: str) -> None:
    """Take a fact out of a copy that nobody has open, and the seal, which holds no more."""
    with closing(connect(copy)) as made:
        made.execute("BEGIN")
        made.execute("DELETE FROM meta WHERE key = ?", (fact,))
        if knows_seal(made):
            unseal(made)
        made.execute("COMMIT")


def _keep_aside(path: Path, at: datetime) -> Path | None:
    """Copy the file that is to be replaced, with what it had not yet taken in.

    As they are, without opening them: a damaged one would be changed by that.
    """
    if not path.exists():
        return None
    moment = f"before-restore-{at.astimezone(UTC):%Y%m%dT%H%M%S%f}Z"
    number = itertools.count(2)
    stem = f"{moment}.db"
    while path.with_name(stem).exists():  # a clock that was set back comes by this moment again
        stem = f"{moment}-{next(number)}.db"
    for ending in ("-wal", ""):
        part = path.with_name(path.name + ending)
        if part.exists():
            kept = path.with_name(stem + ending)
            shutil.copyfile(part, kept)
            sync(kept)
    return path.with_name(stem)


def _beside(target: Path) -> Path:
    handle, name = tempfile.mkstemp(prefix=".copying-", suffix=".db", dir=target.absolute().parent)
    os.close(handle)
    return Path(name)


def _replace(copy: Path, target: Path) -> None:
    """Let a copy take its place so that it is there after a power cut too."""
    sync(copy)
    copy.replace(target)
    sync(target.absolute().parent)


def _discard(copy: Path | None) -> None:
    if copy is not None:
        for ending in ("", "-wal", "-shm", "-journal"):
            copy.with_name(copy.name + ending).unlink(missing_ok=True)
