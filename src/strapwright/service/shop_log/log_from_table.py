"""A table of pushes imported into the log: one that was written from a log, or typed at a desk."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path

from attrs import frozen

from strapwright.errors import InputError
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.plan import plan
from strapwright.service.file_access import read_text_file
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import within
from strapwright.service.shop_log.learned_jobs import Things, things_in
from strapwright.service.shop_log.log_files import Shop, shop_of
from strapwright.service.shop_log.logged_push import log_push
from strapwright.service.shop_log.typed_readings import (
    FIELDS,
    LEGS,
    TIMED,
    read_typed,
    refuse_unread,
)
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import read_job
from strapwright.store import LogEntry, check_typed
from strapwright.wording.reader import at_command
from strapwright.wording.shop_log.thing_words import other_thing_words
from strapwright.wording.telling import tell_all

# A table is taken row by row, and each is held to all before it (a choice of ours).
MOST_ROWS = 500
# A column of a written log: a figure and its unit.
_WRITTEN = re.compile(r"(\w+)_(mm|deg|MPa)", re.ASCII)
_LEG = re.compile(r"leg_([1-9]\d{0,2})_mm", re.ASCII)
_BACK: Mapping[str, str] = {figure: name for name, (_, figure) in FIELDS.items()}
_MINUTES = "handling_min"  # as a written log names it
_NOT, _YES = ("no", "false", "0"), ("", "yes", "true", "1")
_THINGS = ("lot", "press", "tooling")


@frozen(kw_only=True)
class Row:
    """One push of a table.

    Attributes
    ----------
    number
        Its line in the file, from 1.
    part
        ``None`` where the table has none: the next part.
    typed
        Names of texts -> as they would be typed.
    things
        ``lot``, ``press`` and ``tooling`` -> as written; left out where the table has none.
    mounting
        As written; empty where the table has none.
    """

    number: int
    part: int | None
    bend: int
    typed: Mapping[str, str]
    counted: bool
    why: str
    things: Mapping[str, str]
    mounting: str
    at: datetime


@frozen(kw_only=True)
class Taken:
    """What became of a table.

    Attributes
    ----------
    kept
        Lines of the log.
    asked
        Rows that were not kept, with the questions about each.
    """

    kept: tuple[LogEntry, ...]
    asked: tuple[tuple[int, tuple[str, ...]], ...]


def import_table(path: Path, folder: Path | None, table: Path, *, sure: bool) -> Taken:
    """Import the rows of a table into the log of a job.

    A row that cannot be, or hardly, or that is of another lot, press or tooling, is asked about and
    not kept; the others are.

    Parameters
    ----------
    path, folder
        Of the job file, and of the store; the user's own where not given.
    table
        With a first row of names: those of ``log csv``, or ``part``, ``bend`` and those of
        ``log add``.
    sure
        Whether what is asked about is kept all the same.

    Raises
    ------
    InputError
        If any row cannot be read, so that none is taken.
    """
    job = load_job(path)
    rows = rows_of(read_text_file(table, "table"), datetime.now(UTC))
    _refuse(rows, job)
    with shop_of(path, folder) as shop:
        return _take(shop, rows, sure=sure)


def rows_of(text: str, now: datetime) -> tuple[Row, ...]:
    """Read the rows of a table.

    Parameters
    ----------
    text
        With commas, or semicolons, between its columns.
    now
        When a row was kept that does not say.

    Raises
    ------
    InputError
        If a number or a moment cannot be read, a column is not known, or there is no row or too
        many.
    """
    head = text.partition("\n")[0]
    between = ";" if head.count(";") > head.count(",") else ","
    table = csv.DictReader(io.StringIO(text, newline=""), delimiter=between)
    names = [name.strip() for name in table.fieldnames or ()]
    _refuse_names(names)
    table.fieldnames = names
    rows: list[Row] = []
    try:
        for found in table:
            row = {name: cell.strip() for name, cell in found.items() if isinstance(cell, str)}
            if None in found:
                raise InputError(
                    f"row {table.line_num}", "it has more cells than the first row", "fix it"
                )
            if any(row.values()):
                rows.append(_row(row, table.line_num, now))
            if len(rows) > MOST_ROWS:
                raise InputError("table", f"it has more than {MOST_ROWS} rows", "split it")
    except csv.Error:
        raise InputError("table", "it is no table of columns", "save it as CSV") from None
    if not rows:
        raise InputError("table", "there is no row in it", "write a row for each push")
    return tuple(rows)


def _refuse_names(names: Sequence[str]) -> None:
    if "bend" not in names:
        raise InputError(
            "table",
            "its first row names no column bend",
            "name the columns in the first row, for example part, bend, angle, gauge",
        )
    if len(set(names)) < len(names):
        raise InputError("table", "two columns have one name", "name each column once")
    known = {
        *("line", "kept_at", "part", "bend", *_THINGS, "mounting"),
        *("counted", "why", "note", LEGS, TIMED, _MINUTES, *FIELDS),
    }
    for name in names:
        if name not in known and _LEG.fullmatch(name) is None and _written(name) is None:
            raise InputError(
                "table",
                "this column is not known",
                f"leave it out, or name it one of {', '.join((*FIELDS, LEGS, TIMED, 'note'))}",
                value=name[:60],
            )


def _written(name: str) -> tuple[str, str] | None:
    """Name and unit of what was typed, by a column of a written log."""
    found = _WRITTEN.fullmatch(name)
    return None if found is None or found[1] not in _BACK else (_BACK[found[1]], found[2])


def _row(cells: Mapping[str, str], number: int, now: datetime) -> Row:
    typed = {name: cells[name] for name in (*FIELDS, LEGS, TIMED, "note") if cells.get(name)}
    legs: dict[int, str] = {}
    for name, cell in cells.items():
        written, leg = _written(name), _LEG.fullmatch(name)
        if leg is not None and cell:
            legs[int(leg[1])] = f"{cell} mm"
        elif written is not None and cell:
            typed[written[0]] = f"{cell} {written[1]}"
    if legs:
        typed[LEGS] = "; ".join(legs.get(place, "") for place in range(1, max(legs) + 1))
    if cells.get(_MINUTES):
        typed[TIMED] = cells[_MINUTES]
    if "note" in typed:
        typed["note"] = _told(typed["note"])
    return Row(
        number=number,
        part=_whole(cells["part"], "part", number) if cells.get("part") else None,
        bend=_whole(cells.get("bend", ""), "bend", number),
        typed=typed,
        counted=_counts(cells.get("counted", ""), number),
        why=_told(cells.get("why", "")),
        things={name: _told(cells[name]) for name in _THINGS if cells.get(name)},
        mounting=cells.get("mounting", ""),
        at=_moment(cells["kept_at"], number) if cells.get("kept_at") else now,
    )


def _counts(text: str, number: int) -> bool:
    if text.casefold() not in (*_YES, *_NOT):
        raise InputError(
            f"row {number}, counted", "this is neither yes nor no", "write one of them", value=text
        )
    return text.casefold() not in _NOT


def _moment(text: str, number: int) -> datetime:
    """Read when a row was kept; one without a time zone is of UTC."""
    try:
        said = datetime.fromisoformat(text)
        return (said if said.tzinfo is not None else said.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, OverflowError):  # the latter: a moment before all calendars
        raise InputError(
            f"row {number}, kept_at",
            "this is no date",
            "write it as 2031-05-04 or 2031-05-04T06:00, or leave it empty for now",
            value=text[:60],
        ) from None


def _told(text: str) -> str:
    """Take off the quote by which a written log tells a text from a formula."""
    return text[1:] if re.match(r"'[=+\-@\t\r]", text) else text


def _whole(text: str, name: str, number: int) -> int:
    if re.fullmatch(r"[1-9]\d{0,5}", text, re.ASCII) is None:
        raise InputError(
            f"row {number}, {name}", "this is no number", "write 1 or more", value=text
        )
    return int(text)


def _refuse(rows: Sequence[Row], job: Job) -> None:
    """Refuse a table before anything of it is kept."""
    made = plan(job, keep_going=within())
    closed = {step.bend for step in made.steps if has_no_stop(made, step)}
    for row in rows:
        where = f"row {row.number}"
        if row.bend > len(job.part.bends):
            raise InputError(where, f"there is no bend {row.bend}", "number them along the bar")
        if row.bend in closed:
            raise InputError(
                where,
                f"bend {row.bend} cannot be made as entered, so nothing is compared with it",
                "plan the job again and fix what it refuses first",
            )
        try:
            if row.counted:
                refuse_unread(row.typed)
            read_typed(row.typed, job)
            check_typed(row.typed, row.why)
        except InputError as error:
            raise InputError(
                f"{where}, {error.where}", error.problem, error.remedy, value=error.value
            ) from None


def _take(shop: Shop, rows: Sequence[Row], *, sure: bool) -> Taken:
    kept: list[LogEntry] = []
    asked: list[tuple[int, tuple[str, ...]]] = []
    mounted, text = "", shop.job.text
    job = read_job(text, beside=shop.store.beside(text))
    things = things_in(shop.store, text, job)
    for row in rows:
        others = () if sure or not row.counted else _others(row, things, job)
        if others:
            asked.append((row.number, others))
            continue
        found = log_push(
            shop.store,
            shop.job,
            row.typed,
            bend=row.bend,
            at=row.at,
            part=row.part,
            sure=sure,
            new_mounting=bool(mounted and row.mounting) and row.mounting != mounted,
            counted=row.counted,
            why=row.why,
        )
        if found.entry is None:
            told = tell_all(found.asked, at_command(found.job))
            asked.append((row.number, tuple(one.sentence for one in told)))
            continue
        mounted = row.mounting or mounted  # a row that is not kept tells the next of none
        kept.append(found.entry)
    return Taken(kept=tuple(kept), asked=tuple(asked))


def _others(row: Row, things: Things, job: Job) -> tuple[str, ...]:
    """Say of which lot, press and tooling a row is, where that is not the job's."""
    own = {"lot": things.lot, "press": things.press, "tooling": things.tooling}
    return tuple(
        other_thing_words(kind, said, own[kind], job.units)
        for kind, said in row.things.items()
        if said != own[kind]
    )
