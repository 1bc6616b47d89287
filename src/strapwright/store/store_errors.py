"""Why the store could not do it, as one sentence."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from strapwright.errors import StrapwrightError, joined, short_place
from strapwright.store.store_values import Version


class StoreError(StrapwrightError):
    """The store cannot be opened, read or written.

    Parameters
    ----------
    where
        Folder or file of the store.
    problem
        What is wrong, without a full stop.
    remedy
        What to do, as an order.
    """

    def __init__(self, where: Path | str, problem: str, remedy: str) -> None:
        self.where = str(where)
        self.problem = problem
        self.remedy = remedy
        super().__init__(self.sentence)

    @property
    def sentence(self) -> str:
        """The whole error as one sentence."""
        return f"{short_place(self.where)}: {joined(self.problem, self.remedy)}"


class Missing(StoreError):  # noqa: N818 - it reads as what it says: something is missing
    """There is no such item or version."""


class Conflict(StoreError):  # noqa: N818 - it reads as what it says
    """Somebody saved in between; nothing was overwritten.

    Parameters
    ----------
    name
        Of the item.
    base
        The version this edit began from.
    current
        The version that is current now.
    """

    def __init__(self, name: str, base: int | None, current: Version) -> None:
        self.base = base
        self.current = current
        began = "a new one" if base is None else f"version {base}"
        super().__init__(
            name,
            f"someone saved version {current.number} while you were editing {began}; nothing was "
            "overwritten",
            "look at the current version, then save yours again on top of it or leave it",
        )


def refusal(folder: Path, error: DBAPIError | sqlite3.Error) -> StoreError:
    """Return what the database said, as a sentence of ours.

    Parameters
    ----------
    folder
        Of the store.
    error
        As raised by the database.
    """
    cause = error.orig if isinstance(error, DBAPIError) else error
    code = (getattr(cause, "sqlite_errorcode", None) or 0) & 0xFF  # the primary code
    known = {
        sqlite3.SQLITE_FULL: ("the disk is full, nothing was saved", "make room, then save again"),
        sqlite3.SQLITE_BUSY: (
            "another program holds the store, nothing was saved",
            "close it, then save again",
        ),
        sqlite3.SQLITE_READONLY: (
            "the store may not be written, nothing was saved",
            "give yourself permission to write into it",
        ),
        sqlite3.SQLITE_IOERR: (
            "the disk did not take or give what was asked, nothing was saved",
            "check the disk, then save again",
        ),
        sqlite3.SQLITE_CANTOPEN: (
            "the store's file cannot be opened",
            "check the folder and its permissions",
        ),
        sqlite3.SQLITE_CORRUPT: damaged_words(),
        sqlite3.SQLITE_NOTADB: damaged_words(),
    }
    problem, remedy = known.get(
        code,
        (
            f"the database refused it ({cause}), nothing was saved",
            "save again, and restore a backup if that stays so",
        ),
    )
    return StoreError(folder, problem, remedy)


def damaged_words() -> tuple[str, str]:
    """Return problem and remedy for a store whose file is damaged."""
    return (
        "the store's file is damaged and was left as it is",
        "restore a backup, which keeps the damaged file aside",
    )
