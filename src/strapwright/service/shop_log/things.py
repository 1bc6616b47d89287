"""Bar lots, presses and toolings as things with memory: where used, merged, split, retired."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from attrs import frozen

from strapwright.errors import InputError
from strapwright.quantities import Units
from strapwright.service.shop_log.learned_jobs import MERGED, Things, things_in
from strapwright.service.user_folders import default_store
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import read_job
from strapwright.store import Item, Kind, Store, open_store
from strapwright.wording.shop_log.thing_words import name_words

_EMPTY = "format = 1\n\n[lot]\n"
# No log has lines of more digits, and nobody moves more of them at once; ends a slip early.
_DIGITS, _MOST_RANGE = 9, 100_000


@frozen(kw_only=True)
class Thing:
    """One bar lot, press or tooling.

    Attributes
    ----------
    kind
        ``lot``, ``press`` or ``tooling``.
    name
        Its file, or what tells it apart where no file names it.
    retired
        Whether it is put away: kept, and no longer offered.
    jobs
        Names of the jobs that are made with it.
    lines
        Numbers of the lines of the log.
    merged_into
        Another lot that it is one with, or empty.
    units
        Of the jobs that are made with it, else of most jobs of the shop.
    """

    kind: Kind
    name: str
    retired: bool
    jobs: tuple[str, ...]
    lines: tuple[int, ...]
    merged_into: str = ""
    units: Units = "metric"


def list_things(folder: Path | None) -> tuple[Thing, ...]:
    """List every bar lot, press and tooling with where it is used."""
    with open_store(folder or default_store()) as store:
        return things_of_store(store)


def things_of_store(store: Store) -> tuple[Thing, ...]:
    """List every bar lot, press and tooling of an opened store with where it is used."""
    jobs: dict[tuple[Kind, str], list[str]] = {}
    units: dict[tuple[Kind, str], list[Units]] = {}
    shop: list[Units] = []
    for item in store.list("job"):
        named = _named(store, item)
        if named is None:
            continue  # a job that cannot be read is made with nothing yet
        things, stated, _ = named
        shop.append(stated)
        for kind, name in _pairs(things):
            jobs.setdefault((kind, name), []).append(item.name)
            units.setdefault((kind, name), []).append(stated)
    lines: dict[tuple[Kind, str], list[int]] = {}
    for one in store.log.lines():
        for kind, name in _pairs(Things(lot=one.lot, press=one.press, tooling=one.tooling)):
            lines.setdefault((kind, name), []).append(one.line)
    kinds: tuple[Kind, ...] = ("lot", "press", "tooling")
    kept = {
        (kind, item.file): item
        for kind in kinds
        for item in (*store.list(kind), *store.list(kind, archived=True))
    }
    return tuple(
        Thing(
            kind=kind,
            name=name,
            retired=(kind, name) in kept and kept[kind, name].archived,
            jobs=tuple(jobs.get((kind, name), ())),
            lines=tuple(lines.get((kind, name), ())),
            merged_into=store.setting(MERGED + name) or "" if kind == "lot" else "",
            units=_most(units.get((kind, name), shop)),
        )
        for kind in kinds
        for name in sorted(
            {name for of, name in (*jobs, *lines, *kept) if of == kind}, key=str.casefold
        )
    )


def metals_of_lot(store: Store, lot: str) -> tuple[str, ...]:
    """Return the metals of the jobs that are made of a lot, each once.

    Parameters
    ----------
    store
        Opened.
    lot
        By the name that the log has it under.
    """
    found = dict.fromkeys(
        named[2].part.material
        for item in store.list("job")
        if (named := _named(store, item)) is not None and named[0].lot == lot
    )
    return tuple(found)


def new_lot(folder: Path | None, name: str, text: str = _EMPTY) -> str:
    """Keep a new bar lot; return the file name that jobs take it by.

    Raises
    ------
    InputError
        If the name cannot be kept.
    """
    with open_store(folder or default_store()) as store:
        return lot_made(store, name, text)


def lot_made(store: Store, name: str, text: str = _EMPTY) -> str:
    """Keep a new bar lot in an opened store; return the file name that jobs take it by.

    Raises
    ------
    InputError
        If the name is empty or cannot be kept.
    """
    if not name.strip():
        raise InputError("name", "the lot has no name", "enter a name, for example A36 rack 2")
    return store.create("lot", name.strip(), text, datetime.now(UTC)).file


def merge_lots(folder: Path | None, lot: str, into: str) -> int:
    """Make one lot of two; see :func:`lots_made_one`."""
    with open_store(folder or default_store()) as store:
        return lots_made_one(store, lot, into)


def lots_made_one(store: Store, lot: str, into: str) -> int:
    """Make one lot of two: the lines of the first go to the second, which states both.

    Returns
    -------
    int
        How many lines went over.

    Raises
    ------
    InputError
        If one of them is not known, or both are the same.
    """
    known = {one.name: one for one in things_of_store(store) if one.kind == "lot"}
    merged, target = _thing(known, lot), _thing(known, into)
    lot, into, lines = merged.name, target.name, merged.lines
    if lot == into:
        raise InputError("lot", "a lot cannot be merged with itself", "name two lots")
    if target.merged_into:
        raise InputError(
            "lot",
            f"{into} is one with {target.merged_into} already",
            f"merge into {target.merged_into}",
        )
    store.log.move(lines, into, f"{lot} merged into {into}", datetime.now(UTC))
    store.set_setting(MERGED + lot, into)
    item = _item(store, "lot", lot)
    if item is not None:
        store.archive(item.id)
    return len(lines)


def split_lot(folder: Path | None, lot: str, lines: Sequence[int], name: str) -> str:
    """Make a new lot of some lines of another; see :func:`split_off`."""
    with open_store(folder or default_store()) as store:
        return split_off(store, lot, lines, name)


def split_off(store: Store, lot: str, lines: Sequence[int], name: str) -> str:
    """Make a new lot of some lines of another; it states what the other states.

    Returns
    -------
    str
        The file name that jobs take it by.

    Raises
    ------
    InputError
        If the lot is not known, or a line is not of it.
    """
    known = {one.name: one for one in things_of_store(store) if one.kind == "lot"}
    whole = _thing(known, lot)
    lot = whole.name
    others = sorted(set(lines) - set(whole.lines))
    if others or not lines:
        said = ", ".join(map(str, others))
        raise InputError(
            "lines",
            f"line {said} is not of {lot}" if others else "no line is named",
            "see the list of lots for the lines of each",
        )
    if not name.strip():
        raise InputError("name", "the new lot has no name", "enter a name, for example odd bar")
    item = _item(store, "lot", lot)
    text = _EMPTY if item is None else store.text_of(item.id)
    now = datetime.now(UTC)
    made = store.create("lot", name.strip(), text, now, f"split from {lot}").file
    store.log.move(lines, made, f"split from {lot}", now)
    return made


def read_lines(text: str) -> list[int]:
    """Read numbers of lines of the log: ``3-7, 9``; each once, in order.

    Raises
    ------
    InputError
        If a part of it is neither a number nor a range of them.
    """
    found: set[int] = set()
    for one in text.replace(",", " ").split():
        first, dash, last = one.partition("-")
        ends = (first, last if dash else first)
        short = all(end.isascii() and end.isdecimal() and len(end) <= _DIGITS for end in ends)
        if not short or int(ends[0]) > int(ends[1]) or int(ends[1]) - int(ends[0]) > _MOST_RANGE:
            raise InputError(
                "lines",
                "this is neither the number of a line nor a range of them",
                "write numbers and ranges with commas between, for example 3-7, 9",
                value=one,
            )
        found.update(range(int(ends[0]), int(ends[1]) + 1))
    return sorted(found)


def retire(folder: Path | None, name: str) -> Kind:
    """Put a lot, press or tooling away: kept with its log, no longer offered; return its kind.

    Raises
    ------
    InputError
        If no file of the store has that name.
    """
    with open_store(folder or default_store()) as store:
        return put_away(store, name)


def put_away(store: Store, name: str) -> Kind:
    """Put a lot, press or tooling of an opened store away; return its kind.

    Raises
    ------
    InputError
        If no file of the store has that name.
    """
    for kind in ("lot", "press", "tooling"):
        item = _item(store, kind, name)
        if item is not None:
            store.archive(item.id)
            return item.kind
    raise _unknown(name)


def _pairs(things: Things) -> tuple[tuple[Kind, str], ...]:
    return (("lot", things.lot), ("press", things.press), ("tooling", things.tooling))


def _most(units: Sequence[Units]) -> Units:
    return "inch" if 2 * units.count("inch") > len(units) else "metric"


def _named(store: Store, item: Item) -> tuple[Things, Units, Job] | None:
    text = store.text_of(item.id)
    try:
        job = read_job(text, beside=store.beside(text))
        return things_in(store, text, job), job.units, job
    except InputError:
        return None


def _item(store: Store, kind: Kind, file: str) -> Item | None:
    both = (*store.list(kind), *store.list(kind, archived=True))
    return next((one for one in both if one.file == file), None)


def _thing(known: dict[str, Thing], name: str) -> Thing:
    """Find a thing by the name it is kept by, or by the one it is listed by."""
    listed = {name_words(one.name, one.units): one for one in known.values()}
    found = {**listed, **known}.get(name)
    if found is None:
        raise _unknown(name)
    return found


def _unknown(name: str) -> InputError:
    return InputError(
        "lot", "there is no such lot, press or tooling", "see strapwright lot list", value=name
    )
