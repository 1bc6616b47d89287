"""Bolts of a tooling as holes: which, how long, and whether they reach."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from attrs import frozen

from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError
from strapwright.making.shop_lengths import round_up, size
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
    stated: bool = False
    places: tuple[float, ...] = ()
    off: float = 0.0
    bush: float = 0.0

    @property
    def edge(self) -> float:
        """Least distance to an edge [mm]."""
        return EDGE * self.thread.major


def bolting(
    members: Members | None,
    holds: Holds,
    *,
    clamped: float,
    tapped: float,
    along: float,
    edge: float,
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
    along, edge
        Length and thickness of the edge that is tapped [mm].
    units
        Of the job, for the usual bolts.
    names
        Threads to choose from where none is stated, in place of the usual ones.

    Raises
    ------
    InputError
        Where the thread is unknown, a stated bolt finds no room in the edge, cannot reach or
        bottoms, or no usual one finds room.
    """
    stated = _stated(members, holds)
    where = f"tooling.members.bolt ({holds})"
    names = (names or USUAL[units]) if stated is None else (stated.size,)
    count = 2 if stated is None else stated.count
    length = None if stated is None else stated.length
    for last, name in zip(range(len(names) - 1, -1, -1), names, strict=True):
        thread = find_thread(name, where)
        try:
            _room(thread, count, along, edge, where, units)
            reach = reach_of(thread, length, clamped, tapped, where, units)
        except InputError:
            if last == 0:
                raise
        else:
            return Bolting(thread=thread, count=count, length=reach, stated=stated is not None)
    raise AssertionError("there is always one usual bolt")


def _room(thread: Thread, count: int, along: float, edge: float, where: str, units: Units) -> None:
    if 2 * thread.major > edge + 1e-6:
        raise InputError(
            where,
            f"a bolt {thread.name} is too thick for an edge of {size(edge, units)}",
            "use one of half its thickness or less, or a thicker plate",
        )
    needed = 2 * EDGE * thread.major + (count - 1) * SPACING * thread.major
    if along < needed - 1e-6:
        raise InputError(
            where,
            f"{count} bolts {thread.name} find no room along {size(along, units)}",
            f"use fewer or thinner bolts, or {size(round_up(needed, units), units)} of width",
        )


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
    """Return where the bolts stand along an edge of some length [mm]: evenly, near its ends."""
    if bolts.places:
        return bolts.places
    if bolts.count == 1:
        return (length / 2,)
    step = (length - 2 * bolts.edge) / (bolts.count - 1)
    return tuple(bolts.edge + step * n for n in range(bolts.count))
