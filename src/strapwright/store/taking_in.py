"""Take a backup into a store that is open and empty."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import func, select

from strapwright.store.database import FILE
from strapwright.store.schema import connect
from strapwright.store.store import Store
from strapwright.store.store_errors import StoreError, refusal
from strapwright.store.tables import ItemRow


def take_in(store: Store, made: Path, kept: str) -> None:
    """Put a whole store in the place of an open one that has nothing in it.

    Nobody saves meanwhile: what was saved just before is seen, and refuses it.

    Parameters
    ----------
    store
        Open; who reads from it sees all of the new one from here on.
    made
        File of a store of this program's own version, which nobody has open; it is changed.
    kept
        Name of the fact about the store that stays as it is, whatever ``made`` says of it.

    Raises
    ------
    StoreError
        If the store has something in it, or cannot be written; nothing is changed then.
    """
    with store.database.nobody_saves():
        with store.database.reading() as session:
            count = session.scalar(select(func.count()).select_from(ItemRow)) or 0
        if count:
            things = "job or shop file" if count == 1 else "jobs or shop files"
            raise StoreError(
                store.folder, f"the store has {count} {things}",
                "bring the backup into another folder with strapwright restore",
            )  # fmt: skip
        try:
            with (
                closing(connect(made)) as source,
                closing(connect(store.folder / FILE)) as live,
            ):
                # As it is at this moment: what was taken back just before stays taken back.
                source.execute("DELETE FROM meta WHERE key = ?", (kept,))
                now = live.execute("SELECT key, value FROM meta WHERE key = ?", (kept,)).fetchall()
                source.executemany("INSERT INTO meta (key, value) VALUES (?, ?)", now)
                source.backup(live)  # all pages at once: one moment
        except sqlite3.Error as error:
            raise refusal(store.folder, error) from error
