"""Where the holes and welds of the finished part come in the flat."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from strapwright.blank.blank_values import FlatHole, FlatWeld
from strapwright.blank.leg_straights import Setback, bar_thickness
from strapwright.errors import HoleAt, InputError, KeyAt, Place
from strapwright.quantities import either_length
from strapwright.shop.part import Hole, Part, Weld
from strapwright.shop.part_holes import CutKind, cut_kind, cut_off_bar, cut_reach

# Thicknesses from a bend within which a hole goes oval: common practice, no source.  A slot along
# the bar and a notch leave less metal beside them: sheet-metal design guides, from memory.
NEAR: Mapping[CutKind, float] = MappingProxyType({"hole": 2.0, "slot": 4.0, "notch": 3.0})


def flat_holes(
    part: Part, ends: Sequence[Setback], zones: Sequence[tuple[float, float]], length: float
) -> tuple[FlatHole, ...]:
    """Place the holes of a part in its blank.

    A hole that reaches into a bend zone is placed as if its leg ran on straight; its
    ``edge_to_zone`` is then negative, and it will not come out round or exactly there.

    Parameters
    ----------
    part
        The finished part.
    ends
        Setback at each bend, shape (bends,).
    zones
        Where each bend begins and ends in the flat, from end 1, shape (bends,) [mm].
    length
        Of the blank [mm].

    Returns
    -------
    tuple of FlatHole
        In the part's own order.

    Raises
    ------
    InputError
        Where a hole names a leg or bend that is not there, lies beyond its leg's ends or breaks
        out of the bar.
    """
    placed = []
    for number, hole in enumerate(part.holes, start=1):
        where = HoleAt(number)
        _check_names(part, hole, where)
        position = _position(part, hole, ends, zones, length)
        _check_on_bar(part, hole, position, length, where)
        gaps = [max(begin - position, position - end) - cut_reach(hole) for begin, end in zones]
        nearest = min(range(len(gaps)), key=gaps.__getitem__)
        placed.append(
            FlatHole(
                hole=number,
                position=position,
                across=hole.across,
                diameter=hole.diameter,
                length=hole.length,
                opens=hole.opens,
                bend=nearest + 1,
                edge_to_zone=gaps[nearest],
                after=_after(part, hole, gaps[nearest]),
            )
        )
    return tuple(placed)


def _after(part: Part, hole: Hole, gap: float) -> bool:
    """Whether a hole is drilled after bending.

    By rule it is where its edge is nearer to a bend than it may be, where it would go oval; one
    that reaches into the bend is in the wrong place instead.
    """
    if hole.drilled == "by rule":
        return 0.0 <= gap < NEAR[cut_kind(hole)] * bar_thickness(part)
    return hole.drilled == "after bending"


def flat_welds(
    part: Part, ends: Sequence[Setback], zones: Sequence[tuple[float, float]], length: float
) -> tuple[FlatWeld, ...]:
    """Place the welds of a part in its blank.

    Parameters
    ----------
    part, ends, zones, length
        As in :func:`flat_holes`.

    Returns
    -------
    tuple of FlatWeld
        In the part's own order.

    Raises
    ------
    InputError
        Where a weld names a leg or bend that is not there, or lies beyond its leg's ends.
    """
    placed = []
    for number, weld in enumerate(part.welds, start=1):
        where = KeyAt(f"part.weld[{number}]")
        _check_names(part, weld, where)
        _check_on_leg(part, weld, where)
        position = _position(part, weld, ends, zones, length)
        gaps = [max(begin - position, position - end) for begin, end in zones]
        nearest = min(range(len(gaps)), key=gaps.__getitem__)
        placed.append(
            FlatWeld(weld=number, position=position, bend=nearest + 1, to_zone=gaps[nearest])
        )
    return tuple(placed)


def _position(
    part: Part,
    hole: Hole | Weld,
    ends: Sequence[Setback],
    zones: Sequence[tuple[float, float]],
    length: float,
) -> float:
    if hole.from_bend is None:
        return hole.distance if hole.leg == 1 else length - hole.distance
    setback = ends[hole.from_bend - 1].to(part.measured)
    begin, end = zones[hole.from_bend - 1]
    if hole.from_bend == hole.leg:  # the bend at the leg's far end: measured back towards end 1
        return begin + setback - hole.distance
    return end - setback + hole.distance


def _check_names(part: Part, hole: Hole | Weld, where: Place) -> None:
    count = len(part.legs)
    if not 1 <= hole.leg <= count:
        raise InputError(
            f"{where}.leg",
            f"the part has legs 1 to {count}",
            "name one of them",
            value=str(hole.leg),
        )
    beside = [bend for bend in (hole.leg - 1, hole.leg) if 1 <= bend < count]
    named = " or ".join(str(bend) for bend in beside)
    if hole.from_bend is None and hole.leg not in {1, count}:
        raise InputError(
            where,
            f"leg {hole.leg} lies between two bends and has no free end to measure from",
            f"measure from bend {named}",
        )
    if hole.from_bend is not None and hole.from_bend not in beside:
        raise InputError(
            f"{where}.from_bend",
            f"leg {hole.leg} lies beside bend {named}",
            "measure from there or from the free end",
            value=str(hole.from_bend),
        )


def _check_on_leg(part: Part, hole: Hole | Weld, where: Place) -> None:
    leg = part.legs[hole.leg - 1]
    if not 0 <= hole.distance <= leg:
        raise InputError(
            where,
            f"its distance of {either_length(hole.distance)} lies off leg {hole.leg}, which is "
            f"{either_length(leg)}",
            f"give a distance between 0 and {either_length(leg)}",
        )


def _check_on_bar(part: Part, hole: Hole, position: float, length: float, where: Place) -> None:
    _check_on_leg(part, hole, where)
    along = cut_reach(hole)
    if not along < position < length - along:
        raise InputError(
            where,
            f"its edge comes past the end of the blank, which is {either_length(length)} long: "
            f"middle at {either_length(position)} from end 1, {either_length(2 * along)} along it",
            f"keep its middle more than {either_length(along)} from the bar's ends",
        )
    if cut_off_bar(hole, hole.across, part.bar.width) >= 0.0:
        raise InputError(
            where,
            f"its edge comes past the side of the bar, which is "
            f"{either_length(part.bar.width)} wide: diameter {either_length(hole.diameter)}, "
            f"{either_length(abs(hole.across))} from the middle",
            "make it smaller or move it towards the middle",
        )
