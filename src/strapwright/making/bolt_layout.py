"""Bolts of a tooling as holes: which, how long, and whether they reach."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from attrs import frozen

from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError
from strapwright.making.shop_lengths import round_down, round_up, size
from strapwright.making.threads.tap_drills import drill_deeper
from strapwright.quantities import Units
from strapwright.shop.members import Bolt, Holds, Members

# Largest first; what a shop of this size has in its drawers.  Common practice, no source.
USUAL = {"inch": ("3/8-16", "5/16-18", "1/4-20"), "metric": ("M10", "M8", "M6")}
# Grade of bolts that are chosen; likewise.
GRADE: Mapping[Units, str] = MappingProxyType({"inch": "8", "metric": "8.8"})
# Thread in steel that holds a bolt: one diameter; the tapped hole has half a diameter more
# (common practice, no source).
ENGAGEMENT, TAPPED = 1.0, 1.5
EDGE = 1.5  # diameters from the middle of a bolt to an edge; common practice, no source
SPACING = 8 / 3  # diameters between bolts at least, AISC 360 J3.3 (from memory)
POINT = 0.3  # of its diameter, how long the point of a drill of 118 degrees is: tan 31 degrees / 2


@frozen(kw_only=True)
class Bolting:
    """The bolts between two members.

    Attributes
    ----------
    thread
        Of the tapped member.
    count
        Of one carrier or one shoulder [-].
    length
        Under the head [mm].
    across
        Places of the rows from one side of the edge [mm].
    ends
        From the first and the last bolt of a row to the ends of the edge [mm].
    stated
        Whether the job states them; else they were chosen by room alone.
    places
        Along the edge from its end, where they follow holes that are there [mm]; else empty.
    off
        How far they stand off the middle of the edge, away from the middle of the tooling [mm].
    bush
        Outside diameter of the bushes in which they pass holes that are there [mm]; 0 without.
    """

    thread: Thread
    count: int
    length: float
    across: tuple[float, ...]
    ends: float
    stated: bool = False
    places: tuple[float, ...] = ()
    off: float = 0.0
    bush: float = 0.0


def bolting(
    members: Members | None,
    holds: Holds,
    *,
    clamped: float,
    tapped: float,
    solid: float,
    along: float,
    edge: float,
    two_rows: bool,
    units: Units,
    names: tuple[str, ...] = (),
) -> Bolting:
    """Return the bolts that hold a member, stated or the largest usual ones that find room.

    Parameters
    ----------
    members
        As stated, or ``None``.
    holds
        Which member.
    clamped
        What the bolt passes before its thread takes hold [mm].
    tapped
        How deep the tapped hole is at most [mm].
    solid
        How deep the drill can go before it comes out, less a wall [mm].
    along, edge
        Length and thickness of the edge that is tapped [mm].
    two_rows
        Whether a spacing is that of two rows across the edge; else it is from the first to the last
        bolt of one row.
    units
        Of the job, for the usual bolts.
    names
        Threads to choose from where none is stated, in place of the usual ones.

    Raises
    ------
    InputError
        Where the thread is unknown, a stated bolt finds no room in the edge, cannot reach, bottoms
        or is drilled for too deep, or no usual one finds room.
    """
    stated = _stated(members, holds)
    where = f"tooling.members.bolt ({holds})"
    names = (names or USUAL[units]) if stated is None else (stated.size,)
    count = 2 if stated is None else stated.count
    length = None if stated is None else stated.length
    spacing = None if stated is None else stated.spacing
    for last, name in zip(range(len(names) - 1, -1, -1), names, strict=True):
        thread = find_thread(name, where)
        try:
            rows = rows_across(stated if two_rows else None, thread, edge, where, units)
            ends = _ends(thread, count // len(rows), along, None if two_rows else spacing, where,
                         units)  # fmt: skip
            reach = reach_of(thread, length, clamped, tapped, where, units)
            _clear(thread, max(TAPPED * thread.major, reach - clamped), solid, where, units)
        except InputError:
            if last == 0:
                raise
        else:
            return Bolting(
                thread=thread, count=count, length=reach, across=rows, ends=ends,
                stated=stated is not None,
            )  # fmt: skip
    raise AssertionError("there is always one usual bolt")


def rows_across(
    bolt: Bolt | None, thread: Thread, thick: float, where: str, units: Units
) -> tuple[float, ...]:
    """Return one row in the middle of an edge, or two as far apart as stated or as it has room for.

    Parameters
    ----------
    bolt
        As stated, or ``None`` for one row.
    thread
        Of it.
    thick
        Thickness of the edge [mm].
    where
        Key path of the bolt, for the message.
    units
        Of the job.

    Raises
    ------
    InputError
        Where they find no room, or do not make two rows.
    """
    least, side = SPACING * thread.major, thread.major
    apart = None if bolt is None else bolt.spacing
    if bolt is not None and apart is None and bolt.count >= 4 and bolt.count % 2 == 0:
        room = round_down(thick - 2 * side, units)
        apart = room if room >= least else None
    wide = 2 * side + (apart or 0.0)
    if thick < wide - 1e-6:
        what = f"{thread.name} bolts"
        if apart is not None:
            what = f"two rows {size(apart, units)} apart"
        raise InputError(
            where,
            f"{what} find no room in a thickness of {size(thick, units)}, a diameter from each "
            "side",
            f"use {size(round_up(wide, units), units)} or more, or thinner bolts"
            + ("" if apart is None else ", or rows closer together"),
        )
    if apart is None:
        return (thick / 2,)
    if apart < least - 1e-6:
        raise InputError(
            where,
            f"two rows {size(apart, units)} apart are too close for {thread.name} bolts",
            f"leave {size(round_up(least, units), units)} between the rows, or use thinner bolts",
        )
    if bolt is not None and bolt.count % 2:
        raise InputError(where, f"{bolt.count} bolts do not make two rows", "enter an even count")
    return thick / 2 - apart / 2, thick / 2 + apart / 2


def _ends(
    thread: Thread, count: int, along: float, spacing: float | None, where: str, units: Units
) -> float:
    """How far the outer bolts of a row of so many are from its ends [mm]."""
    wide = max((count - 1) * SPACING * thread.major, spacing or 0.0)
    needed = 2 * EDGE * thread.major + wide
    if along < needed - 1e-6:
        raise InputError(
            where,
            f"{count} bolts {thread.name} in a row find no room along {size(along, units)}",
            f"use fewer or thinner bolts, or {size(round_up(needed, units), units)} of width",
        )
    if spacing is None or count == 1:
        return EDGE * thread.major
    if spacing < (count - 1) * SPACING * thread.major - 1e-6:
        raise InputError(
            where,
            f"{count} bolts {thread.name} are too close within {size(spacing, units)}",
            "use fewer or thinner bolts, or a wider spacing",
        )
    return (along - spacing) / 2


def _clear(thread: Thread, depth: float, solid: float, where: str, units: Units) -> None:
    """Refuse a hole whose drill comes out where something else lies."""
    deep = drill_goes(thread, depth)
    if deep > solid + 1e-6:
        raise InputError(
            where,
            f"a tapped hole {thread.name} is drilled {size(deep, units)} deep with its point, and "
            f"there is metal for {size(max(solid, 0.0), units)}",
            "use thinner or shorter bolts, or a taller piece",
        )


def drill_goes(thread: Thread, depth: float) -> float:
    """Return how deep the drill goes for a thread of a depth, tap's lead and point too [mm]."""
    return depth + drill_deeper(thread) + POINT * thread.major


def reach_of(
    thread: Thread, length: float | None, clamped: float, tapped: float, where: str, units: Units
) -> float:
    """Return the length of a bolt [mm], stated or the shortest that holds.

    Parameters
    ----------
    thread
        Of the bolt.
    length
        As stated [mm], or ``None``.
    clamped, tapped
        What it passes before its thread takes hold, and how deep its hole is at most [mm].
    where
        Key path of the bolt, for the message.
    units
        Of the job.

    Raises
    ------
    InputError
        Where it cannot reach, or bottoms.
    """
    least = clamped + ENGAGEMENT * thread.major
    if length is None:
        length = round_up(least, units)
    if length < least - 1e-6:
        raise InputError(
            where,
            f"a bolt {thread.name} of {size(length, units)} cannot reach: it passes "
            f"{size(clamped, units)} and needs {size(ENGAGEMENT * thread.major, units)} of thread",
            f"use one of {size(round_up(least, units), units)} or longer",
        )
    if length - clamped > tapped + 1e-6:
        raise InputError(
            where,
            f"a bolt {thread.name} of {size(length, units)} would bottom: it goes "
            f"{size(length - clamped, units)} into a hole that can be {size(tapped, units)} deep",
            "use a shorter one",
        )
    return length


def bolt_words(bolts: Bolting, pieces: int, units: Units) -> str:
    """Say bolts to lay ready; ``pieces`` is how many carriers or shoulders there are [-]."""
    grade = GRADE["metric" if bolts.thread.name.startswith("M") else "inch"]
    proof = (
        ""
        if bolts.stated
        else f" Sized to fit the space, grade {grade}; enter your own bolts if you can."
    )
    return f"{bolts.count * pieces} of {bolts.thread.name} x {size(bolts.length, units)}.{proof}"


def welded(members: Members | None, holds: Holds) -> bool:
    """Whether a member is stated as held by welds and by no bolt."""
    return (
        members is not None
        and any(one.holds == holds for one in members.weld)
        and _stated(members, holds) is None
    )


def _stated(members: Members | None, holds: Holds) -> Bolt | None:
    if members is None:
        return None
    return next((one for one in members.bolt if one.holds == holds), None)


def bolt_row(length: float, bolts: Bolting) -> tuple[float, ...]:
    """Return where the bolts of a row stand along an edge of some length [mm]: evenly."""
    if bolts.places:
        return bolts.places
    each = bolts.count // len(bolts.across)
    if each == 1:
        return (length / 2,)
    step = (length - 2 * bolts.ends) / (each - 1)
    return tuple(bolts.ends + step * n for n in range(each))


def bolt_places(length: float, bolts: Bolting) -> tuple[tuple[float, float], ...]:
    """Return where the bolts are in an edge of some length, along it and across [mm]."""
    return tuple((x, y + bolts.off) for x in bolt_row(length, bolts) for y in bolts.across)
