"""Long work on jobs: what was asked, how it stands, what it found."""

from __future__ import annotations

from datetime import datetime
from typing import cast

from sqlalchemy import select, update

from strapwright.store.database import Database
from strapwright.store.store_errors import Missing
from strapwright.store.store_values import Search, State, new_id
from strapwright.store.table_rows import item_row
from strapwright.store.tables import SearchRow


class Searches:
    """The searches of an opened store; each call is one transaction.

    Parameters
    ----------
    database
        Opened.
    """

    def __init__(self, database: Database) -> None:
        self._database = database

    def begin(self, item_id: str, asked: str, at: datetime) -> Search:
        """Keep that a search was begun.

        Parameters
        ----------
        item_id
            Of the job.
        asked
            Digest of what it is asked from.
        at
            Now, with its time zone.

        Raises
        ------
        Missing
            If there is no such item.
        """
        with self._database.writing() as session:
            item_row(session, item_id)
            row = SearchRow(
                id=new_id(),
                item=item_id,
                state="running",
                asked=asked,
                begun=at,
                said="",
                result="",
            )
            session.add(row)
            session.flush()
            return _search_of(row)

    def end(self, search_id: str, state: State, said: str = "", result: str = "") -> None:
        """Keep how a search ended; one that has ended already stays as it did.

        Parameters
        ----------
        search_id
            Of the search.
        state, said, result
            As in :class:`Search`.
        """
        with self._database.writing() as session:
            session.execute(
                update(SearchRow)
                .where(SearchRow.id == search_id, SearchRow.state == "running")
                .values(state=state, said=said, result=result)
            )

    def end_all(self, said: str) -> None:
        """Mark what still runs as stopped, for whoever ran it is gone."""
        with self._database.writing() as session:
            session.execute(
                update(SearchRow)
                .where(SearchRow.state == "running")
                .values(state="stopped", said=said)
            )

    def get(self, search_id: str) -> Search:
        """Return a search; ``Missing`` if there is none."""
        with self._database.reading() as session:
            row = session.get(SearchRow, search_id)
            if row is None:
                raise Missing("store", "there is no such search", "begin a new one")
            return _search_of(row)

    def latest(self, item_id: str) -> Search | None:
        """Return the search of a job that was begun last, or ``None`` where there was none."""
        wanted = (
            select(SearchRow)
            .where(SearchRow.item == item_id)
            .order_by(SearchRow.begun.desc(), SearchRow.id)
            .limit(1)
        )
        with self._database.reading() as session:
            row = session.scalar(wanted)
            return None if row is None else _search_of(row)


def _search_of(row: SearchRow) -> Search:
    return Search(
        id=row.id,
        item=row.item,
        state=cast("State", row.state),
        asked=row.asked,
        begun=row.begun,
        said=row.said,
        result=row.result,
    )
