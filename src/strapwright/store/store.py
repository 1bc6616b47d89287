"""Items and their versions: every saving adds one, none is ever changed or lost."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Self

from sqlalchemy import select

from strapwright.store.database import Database
from strapwright.store.drafts import Drafts, drop_draft
from strapwright.store.item_names import fold, place, read_name
from strapwright.store.log_lines import Log
from strapwright.store.saving import add_item, add_version, set_sought, texts_beside
from strapwright.store.searches import Searches
from strapwright.store.store_errors import Conflict
from strapwright.store.store_values import Item, Kind, Version
from strapwright.store.table_rows import item_of, item_row, version_of, version_row
from strapwright.store.tables import ItemRow, MetaRow, VersionRow


def open_store(folder: Path) -> Store:
    """Open the store in a folder, or make one there.

    Parameters
    ----------
    folder
        Made where it is missing.

    Returns
    -------
    Store
        To be closed, best by ``with``; safe to use from several threads.

    Raises
    ------
    StoreError
        If another program has it open, it cannot be written, or its file is damaged, newer than
        this program or not ours.
    """
    return Store(Database(folder))


class Store:
    """An opened store; each call is one transaction.

    Parameters
    ----------
    database
        Opened.

    Attributes
    ----------
    drafts
        Half-typed edits.
    searches
        Long work and what it found.
    log
        What was read at the press.
    """

    def __init__(self, database: Database) -> None:
        self.database = database
        self.drafts = Drafts(database)
        self.searches = Searches(database)
        self.log = Log(database)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def folder(self) -> Path:
        """Where it lies."""
        return self.database.folder

    def close(self) -> None:
        """Let go of the folder; every later call is refused."""
        self.database.close()

    def create(
        self,
        kind: Kind,
        name: str,
        text: str,
        at: datetime,
        note: str = "",
        *,
        item_id: str | None = None,
        who: str | None = None,
    ) -> Item:
        """Keep a new item; its text is version 1.

        Parameters
        ----------
        kind, name, text
            What to keep; a text that cannot be read is kept too and marked.
        at
            Now, with its time zone.
        note
            Why.
        item_id
            Where a draft has given it one already, see :func:`new_id`.
        who
            Browser whose draft of it is done with.

        Returns
        -------
        Item
            As kept; the one that is there if the same was sent twice.

        Raises
        ------
        InputError
            If name, note or text cannot be kept.
        Conflict
            If there is an item of this id with another text.
        """
        with self.database.writing() as session:
            there = None if item_id is None else session.get(ItemRow, item_id)
            if there is None:
                there = add_item(session, kind, name, text, at, note, item_id=item_id)
            else:
                current = version_row(session, there.id, there.current)
                if current.text != text:
                    raise Conflict(there.name, None, version_of(current))
            drop_draft(session, there.id, who)
            return item_of(there)

    def save(
        self,
        item_id: str,
        text: str,
        base_version: int,
        at: datetime,
        note: str = "",
        *,
        who: str | None = None,
    ) -> Version:
        """Save a text as the next version.

        Parameters
        ----------
        item_id
            Of the item.
        text
            The whole file.
        base_version
            The version that this edit began from.
        at
            Now, with its time zone.
        note
            Why.
        who
            Browser whose draft of it is done with.

        Returns
        -------
        Version
            The current one; none is added where the text is the current one already, so that a
            saving may be sent again after a lost answer.

        Raises
        ------
        Conflict
            If another version became current since; nothing is overwritten.
        InputError
            If text or note cannot be kept.
        Missing
            If there is no such item.
        """
        with self.database.writing() as session:
            row = item_row(session, item_id)
            version = add_version(session, row, text, base_version, at, note)
            drop_draft(session, item_id, who)
            return version

    def restore_version(
        self, item_id: str, number: int, base_version: int, at: datetime, note: str = ""
    ) -> Version:
        """Make an old text current again, as a new version.

        Parameters
        ----------
        item_id, number
            The version whose text comes back.
        base_version, at, note
            As in :meth:`save`, with its errors.
        """
        with self.database.writing() as session:
            row = item_row(session, item_id)
            text = version_row(session, item_id, number).text
            return add_version(
                session,
                row,
                text,
                base=base_version,
                at=at,
                note=note or f"version {number} again",
                restores=number,
            )

    def rename(self, item_id: str, name: str, at: datetime) -> Item:
        """Give an item another name; its texts and the name of its file stay.

        Raises
        ------
        InputError
            If the name is empty, too long or not one line.
        Missing
            If there is no such item.
        """
        with self.database.writing() as session:
            row = item_row(session, item_id)
            row.name = read_name(name)
            row.updated = at
            set_sought(row)
            return item_of(row)

    def archive(self, item_id: str) -> Item:
        """Put an item away: kept in full, not listed any more; ``Missing`` if there is none."""
        return self._put_away(item_id, away=True)

    def unarchive(self, item_id: str) -> Item:
        """List an item again; ``Missing`` if there is none."""
        return self._put_away(item_id, away=False)

    def item(self, item_id: str) -> Item:
        """Return an item; ``Missing`` if there is none."""
        with self.database.reading() as session:
            return item_of(item_row(session, item_id))

    def history(self, item_id: str) -> tuple[Version, ...]:
        """Return all versions, the newest first; ``Missing`` if there is no such item."""
        with self.database.reading() as session:
            item_row(session, item_id)
            rows = session.scalars(
                select(VersionRow)
                .where(VersionRow.item == item_id)
                .order_by(VersionRow.number.desc())
            )
            return tuple(version_of(row) for row in rows)

    def text_of(self, item_id: str, number: int | None = None) -> str:
        """Return the text of a version, the current one where no number is given.

        Raises
        ------
        Missing
            If there is no such item or version.
        """
        with self.database.reading() as session:
            row = item_row(session, item_id)
            return version_row(session, item_id, row.current if number is None else number).text

    def list(
        self, kind: Kind | None = None, search: str = "", *, archived: bool = False
    ) -> tuple[Item, ...]:
        """List items by name.

        Parameters
        ----------
        kind
            Only these; all where not given.
        search
            Words that all stand in name, file, material or bar; capitals do not matter.
        archived
            List those put away instead.
        """
        wanted = select(ItemRow).where(ItemRow.archived == archived)
        if kind is not None:
            wanted = wanted.where(ItemRow.kind == kind)
        for word in fold(search).split():
            wanted = wanted.where(ItemRow.sought.contains(word, autoescape=True))
        with self.database.reading() as session:
            found = session.scalars(wanted.order_by(ItemRow.file_key))
            return tuple(sorted(map(item_of, found), key=lambda item: place(item.name)))

    def recent(self, kind: Kind = "job", limit: int = 8) -> tuple[Item, ...]:
        """Return the items last saved or renamed, the newest first."""
        wanted = (
            select(ItemRow)
            .where(ItemRow.kind == kind, ItemRow.archived.is_(False))
            .order_by(ItemRow.updated.desc(), ItemRow.id)
            .limit(limit)
        )
        with self.database.reading() as session:
            return tuple(map(item_of, session.scalars(wanted)))

    def beside(self, text: str) -> dict[str, str]:
        """Return the shop files a job names and the store has, as ``read_job`` takes them.

        Parameters
        ----------
        text
            Of the job.
        """
        with self.database.reading() as session:
            return texts_beside(session, text)

    def setting(self, key: str) -> str | None:
        """Return a fact about the store itself, or ``None`` where it was never set."""
        with self.database.reading() as session:
            row = session.get(MetaRow, key)
            return None if row is None else row.value

    def set_setting(self, key: str, value: str) -> None:
        """Keep a fact about the store itself."""
        with self.database.writing() as session:
            session.merge(MetaRow(key=key, value=value))

    def _put_away(self, item_id: str, *, away: bool) -> Item:
        with self.database.writing() as session:
            row = item_row(session, item_id)
            row.archived = away
            return item_of(row)
