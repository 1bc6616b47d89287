"""One opened store: its lock, its engine, and transactions."""

from __future__ import annotations

import errno
import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout
from sqlalchemy import URL, Connection, Engine, create_engine, delete, event, select
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from strapwright.store.schema import check_file, is_current, upgrade
from strapwright.store.store_errors import StoreError, refusal
from strapwright.store.tables import SealRow

FILE = "store.db"
COMING = "store.db-coming"  # a checked backup that takes the store's place, whatever happens
_LOCK = "store.lock"
_WAIT = 5000  # ms that one saving waits for another
# What a shared disk answers that cannot be told to write names through; it writes when it likes.
_NO_SYNC = (errno.EINVAL, errno.ENOTSUP, errno.ENOSYS)


class Database:
    """One opened store; every transaction passes here.

    Parameters
    ----------
    folder
        Of the store; made where it is missing.

    Raises
    ------
    StoreError
        If the folder cannot be made or written, another program works in it, or its file is
        damaged, newer than this program or not ours.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._lock = lock_folder(folder)
        self._engine: Engine | None = None
        self._turn = threading.Lock()  # of who writes; the file lets one at a time too
        try:
            path = folder / FILE
            finish_restore(folder)
            _check_existing(path)
            current = is_current(path)
            self._engine = _engine(path)
            if not current:
                upgrade(self._engine)
            self._break_seal()
        except BaseException as error:
            self.close()
            if isinstance(error, DBAPIError | sqlite3.Error):
                raise refusal(folder, error) from error
            raise

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """One moment of the store, unchanged while it is looked at."""
        with self._session(writing=False) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """One action of a person: all of it is kept, or nothing."""
        with self._turn, self._session(writing=True) as session:
            yield session

    @contextmanager
    def nobody_saves(self) -> Iterator[None]:
        """Keep every saving waiting, so that the file can be put in order as a whole."""
        with self._turn:
            yield

    def close(self) -> None:
        """Let go of the file and the folder; closing twice does no harm."""
        if self._engine is not None:
            self._engine.dispose()
            self._engine = None
        self._lock.release()

    def _break_seal(self) -> None:
        """Take the seal of a backup off the store that goes on from it."""
        with self.reading() as session:
            sealed = session.scalar(select(SealRow.of_table).limit(1)) is not None
        if sealed:
            with self.writing() as session:
                session.execute(delete(SealRow))

    @contextmanager
    def _session(self, *, writing: bool) -> Iterator[Session]:
        if self._engine is None:
            raise StoreError(self.folder, "the store is closed", "open it again")
        try:
            bound = self._engine.execution_options(writing=writing)
            with Session(bound, expire_on_commit=False) as session, session.begin():
                yield session
        except DBAPIError as error:
            raise refusal(self.folder, error) from error


def lock_folder(folder: Path) -> FileLock:
    """Make the folder of a store and keep every other program out of it.

    Parameters
    ----------
    folder
        Of the store.

    Returns
    -------
    FileLock
        Held; a program that is killed lets go of it by that.

    Raises
    ------
    StoreError
        If another program holds it, or the folder cannot be made or written.
    """
    try:
        missing = [one for one in (folder, *folder.parents) if not one.exists()]
        folder.mkdir(parents=True, exist_ok=True)
        for one in missing:  # or a power cut after the first saving takes the folder away
            sync(one.parent)
        if not os.access(folder, os.W_OK | os.X_OK):
            raise _unwritable(folder, "no permission to write into it")
        # Whichever thread closes the store lets go; a file that merely lies there locks nothing,
        # since it would outlive a program that is killed.
        lock = FileLock(folder / _LOCK, timeout=0, thread_local=False, fallback_to_soft=False)
        lock.acquire()
    except Timeout as error:
        raise StoreError(
            folder,
            "this store is open in another window or program already",
            "go on there, or close it first, or name another folder",
        ) from error
    except NotImplementedError as error:
        raise StoreError(
            folder, "this disk cannot lock files", "name a folder on a disk of this computer"
        ) from error
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        words = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise _unwritable(folder, words[:1].lower() + words[1:]) from error
    return lock


def finish_restore(folder: Path) -> None:
    """Let a backup that was decided on take the place of the store, also after a power cut.

    From the moment it lies there whole under its name, what the old file had not yet taken in is
    that of a file that goes; so whoever opens the folder next does the rest.

    Parameters
    ----------
    folder
        Of a store that the caller has locked.

    Raises
    ------
    StoreError
        If the folder cannot be written.
    """
    coming = folder / COMING
    if not coming.exists():
        return
    try:
        for ending in ("-wal", "-shm"):
            (folder / (FILE + ending)).unlink(missing_ok=True)
        sync(folder)
        coming.replace(folder / FILE)
        sync(folder)
    except OSError as error:
        raise _unwritable(folder, error.strerror or "it cannot be changed") from error


def sync(path: Path) -> None:
    """See to it that a file, or what a folder lists, outlives a power cut."""
    if path.is_dir() and os.name != "posix":
        return  # elsewhere a folder cannot be opened
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _NO_SYNC or not path.is_dir():
            raise
    finally:
        os.close(handle)


def _check_existing(path: Path) -> None:
    if path.exists():
        if not os.access(path, os.W_OK):
            raise _unwritable(path, "no permission to write it")
        check_file(path, thorough=False)


def _engine(path: Path) -> Engine:
    engine = create_engine(URL.create("sqlite", database=str(path)))

    @event.listens_for(engine, "connect")
    def prepare(connection: sqlite3.Connection, record: Any) -> None:
        del record
        # The driver begins transactions late and not before changes of the schema; we begin them.
        connection.isolation_level = None
        for setting in (
            f"busy_timeout = {_WAIT}",
            "journal_mode = WAL",
            "synchronous = FULL",  # what was acknowledged outlives a power cut
            "foreign_keys = ON",
            "trusted_schema = OFF",
        ):
            connection.execute(f"PRAGMA {setting}")

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        writing = connection.get_execution_options().get("writing", False)
        # A saving takes its turn at once: two that had both read would else refuse each other.
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")

    return engine


def _unwritable(where: Path, why: str) -> StoreError:
    return StoreError(
        where, f"the store cannot be written here ({why})", "name a folder that you may write to"
    )
