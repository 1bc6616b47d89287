"""Half-typed edits, so that a server that is stopped loses nothing that reached it.

A draft that nobody touched for :data:`KEPT` goes when the next one is kept, but for the latest
:data:`ALWAYS`: a clock that jumps by years takes none of them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import cast

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from strapwright.errors import InputError
from strapwright.store.database import Database
from strapwright.store.store_values import Draft, Kind
from strapwright.store.table_rows import read_kind
from strapwright.store.tables import DraftRow
from strapwright.store.text_check import check_text

KEPT = timedelta(days=90)
ALWAYS = 200  # drafts; what a small shop has half typed at a time is far fewer (common practice)


class Drafts:
    """The drafts of an opened store; each call is one transaction.

    Parameters
    ----------
    database
        Opened.
    """

    def __init__(self, database: Database) -> None:
        self._database = database

    def put(
        self,
        item_id: str,
        who: str,
        kind: Kind,
        base: int | None,
        fields: Mapping[str, str],
        at: datetime,
    ) -> None:
        """Keep what stands in the fields; an earlier draft of the same browser gives way.

        Drafts of anybody that were last touched longer ago than :data:`KEPT` are dropped, but for
        the latest :data:`ALWAYS`.

        Parameters
        ----------
        item_id
            Of the item, or the id that a new one will get.
        who
            Which browser.
        kind
            Of the item.
        base
            Version the edit began from, ``None`` for a new item.
        fields
            Field name -> text as typed.
        at
            Now, with its time zone.

        Raises
        ------
        InputError
            If it is too large, or the ids are no ids.
        """
        check_text(json.dumps(dict(fields), ensure_ascii=False).replace("\0", " "), "draft")
        for one, longest in ((item_id, 32), (who, 64)):
            if not 0 < len(one) <= longest or not one.isalnum() or not one.isascii():
                raise InputError("draft", "this is no id", "load the page again", value=one)
        with self._database.writing() as session:
            oldest_kept = session.scalar(
                select(DraftRow.updated)
                .order_by(DraftRow.updated.desc())
                .offset(ALWAYS - 1)
                .limit(1)
            )
            if oldest_kept is not None:
                over = DraftRow.updated < min(at - KEPT, oldest_kept)
                session.execute(delete(DraftRow).where(over))
            session.merge(
                DraftRow(
                    item=item_id,
                    who=who,
                    kind=read_kind(kind),
                    base=base,
                    fields=dict(fields),
                    updated=at,
                )
            )

    def get(self, item_id: str, who: str) -> Draft | None:
        """Return the draft of one browser, or ``None`` where it has none."""
        with self._database.reading() as session:
            row = session.get(DraftRow, (item_id, who))
            return None if row is None else _draft_of(row)

    def of(self, who: str) -> tuple[Draft, ...]:
        """Return all drafts of one browser, the newest first."""
        wanted = select(DraftRow).where(DraftRow.who == who).order_by(DraftRow.updated.desc())
        with self._database.reading() as session:
            return tuple(map(_draft_of, session.scalars(wanted)))

    def drop(self, item_id: str, who: str) -> None:
        """Drop a draft; one that is not there does no harm."""
        with self._database.writing() as session:
            drop_draft(session, item_id, who)


def drop_draft(session: Session, item_id: str, who: str | None) -> None:
    """Drop the draft of one browser within an action; nobody's where ``who`` is ``None``."""
    if who is not None:
        session.execute(delete(DraftRow).where(DraftRow.item == item_id, DraftRow.who == who))


def _draft_of(row: DraftRow) -> Draft:
    return Draft(
        item=row.item,
        who=row.who,
        kind=cast("Kind", row.kind),
        base=row.base,
        fields=dict(row.fields),
        updated=row.updated,
    )
