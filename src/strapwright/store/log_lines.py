"""The shop log: lines that are added to and never changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime

from attrs import evolve
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from strapwright.errors import InputError
from strapwright.store.database import Database
from strapwright.store.saving import LONGEST_NOTE
from strapwright.store.store_errors import Missing
from strapwright.store.store_values import LogEntry
from strapwright.store.table_rows import version_row
from strapwright.store.tables import LogRow
from strapwright.store.text_check import check_text

_LONGEST_NAME = 200


class Log:
    """The log of an opened store; each call is one transaction.

    Parameters
    ----------
    database
        Opened.
    """

    def __init__(self, database: Database) -> None:
        self._database = database
        # Every line as it was when so many states were kept, the last of them then.
        self._seen: tuple[tuple[int, datetime | None], tuple[LogEntry, ...]] | None = None

    def add(self, entry: LogEntry) -> LogEntry:
        """Keep a new line; it gets the next number.

        Parameters
        ----------
        entry
            With any number; its first state.

        Returns
        -------
        LogEntry
            As kept.

        Raises
        ------
        InputError
            If a name or a note is too long or no text.
        Missing
            If there is no such job or version.
        """
        with self._database.writing() as session:
            version_row(session, entry.item, entry.version)
            last = session.scalar(select(func.max(LogRow.line))) or 0
            return _put(session, evolve(entry, line=last + 1, revision=1))

    def change(
        self,
        line: int,
        why: str,
        at: datetime,
        *,
        typed: Mapping[str, str] | None = None,
        figures: Mapping[str, float] | None = None,
        counted: bool | None = None,
    ) -> LogEntry:
        """Correct a line, leave it out or count it again; its old states stay.

        Parameters
        ----------
        line
            Its number.
        why
            In the person's own words.
        at
            Now, with its time zone.
        typed, figures, counted
            What is new; the rest stays.

        Raises
        ------
        Missing
            If there is no such line.
        InputError
            If the reason is too long or no text.
        """
        with self._database.writing() as session:
            now = _latest(session, line)
            kept = evolve(
                now,
                revision=now.revision + 1,
                typed=now.typed if typed is None else typed,
                figures=now.figures if figures is None else figures,
                counted=now.counted if counted is None else counted,
                why=why,
                kept_at=at,
            )
            return _put(session, kept)

    def move(self, lines: Iterable[int], lot: str, why: str, at: datetime) -> tuple[LogEntry, ...]:
        """Give lines to another lot, all of them or none; their old states stay.

        Raises
        ------
        Missing
            If there is no such line.
        InputError
            If the name is too long or no text.
        """
        with self._database.writing() as session:
            moved = []
            for line in lines:
                now = _latest(session, line)
                kept = evolve(now, revision=now.revision + 1, lot=lot, why=why, kept_at=at)
                moved.append(_put(session, kept))
            return tuple(moved)

    def lines(self, item: str | None = None) -> tuple[LogEntry, ...]:
        """Return every line as it is now, oldest first; of one job where it is named."""
        newest = (
            select(LogRow.line, func.max(LogRow.revision).label("revision"))
            .group_by(LogRow.line)
            .subquery()
        )
        wanted = (
            select(LogRow)
            .join(newest, (LogRow.line == newest.c.line) & (LogRow.revision == newest.c.revision))
            .order_by(LogRow.line)
        )
        with self._database.reading() as session:
            # A page asks for them many times over; states are added and never changed.
            count, last = session.execute(select(func.count(), func.max(LogRow.kept_at))).one()
            seen = self._seen
            if seen is None or seen[0] != (count, last):
                seen = (count, last), tuple(_entry(row) for row in session.scalars(wanted))
                self._seen = seen
        return tuple(one for one in seen[1] if item in (None, one.item))

    def states_kept(self, item: str | None = None) -> int:
        """Return how many states of lines there are, of one job where it is named.

        It changes with everything that is kept.
        """
        wanted = select(func.count()).select_from(LogRow)
        if item is not None:
            wanted = wanted.where(LogRow.item == item)
        with self._database.reading() as session:
            return session.scalar(wanted) or 0

    def states(self, line: int) -> tuple[LogEntry, ...]:
        """Return every state of a line, the newest first; ``Missing`` if there is none."""
        wanted = select(LogRow).where(LogRow.line == line).order_by(LogRow.revision.desc())
        with self._database.reading() as session:
            _latest(session, line)
            return tuple(_entry(row) for row in session.scalars(wanted))


def _latest(session: Session, line: int) -> LogEntry:
    wanted = select(LogRow).where(LogRow.line == line).order_by(LogRow.revision.desc()).limit(1)
    # SQLite takes no greater number, and no log has as many lines.
    row = session.scalar(wanted) if 0 < line < 2**63 else None
    if row is None:
        raise Missing("log", f"there is no line {line}", "look it up in the list of the log")
    return _entry(row)


def check_typed(typed: Mapping[str, str], why: str) -> None:
    """Refuse what a line cannot keep of what was typed, before it is kept.

    Raises
    ------
    InputError
        If a text or the reason is too long or no text.
    """
    for where, text in (("note", why), *typed.items()):
        check_text(text, where)
        if len(text) > LONGEST_NOTE:
            raise InputError(where, f"it has more than {LONGEST_NOTE} characters", "shorten it")


def _put(session: Session, entry: LogEntry) -> LogEntry:
    for where, name in (("lot", entry.lot), ("press", entry.press), ("tooling", entry.tooling)):
        check_text(name, where)
        if len(name) > _LONGEST_NAME:
            raise InputError(where, f"it has more than {_LONGEST_NAME} characters", "shorten it")
    check_typed(entry.typed, entry.why)
    session.add(
        LogRow(
            line=entry.line,
            revision=entry.revision,
            item=entry.item,
            version=entry.version,
            part=entry.part,
            bend=entry.bend,
            lot=entry.lot,
            press=entry.press,
            tooling=entry.tooling,
            mounting=entry.mounting,
            typed=dict(entry.typed),
            figures=dict(entry.figures),
            counted=entry.counted,
            why=entry.why,
            kept_at=entry.kept_at,
        )
    )
    session.flush()
    return entry


def _entry(row: LogRow) -> LogEntry:
    return LogEntry(
        line=row.line,
        revision=row.revision,
        item=row.item,
        version=row.version,
        part=row.part,
        bend=row.bend,
        lot=row.lot,
        press=row.press,
        tooling=row.tooling,
        mounting=row.mounting,
        typed=row.typed,
        figures=row.figures,
        counted=row.counted,
        why=row.why,
        kept_at=row.kept_at,
    )
