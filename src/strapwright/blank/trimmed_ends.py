"""End legs that are left longer for bending and sawn off after.

A bend needs straight bar out to its shoulder until the end of the stroke.  Where the finished leg
is shorter than that, the bar is bent with the leg left longer, and the rest is sawn off.
"""

from __future__ import annotations

from math import ceil

from attrs import evolve

from strapwright.blank.blank_values import Blank, SawLine
from strapwright.errors import HoleAt, InputError, KeyAt, either_unit
from strapwright.quantities import either_length
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.part import Hole, Part, Weld
from strapwright.shop.part_holes import cut_reach

_ROUNDING = 1e-6  # mm, numerical


def is_trimmed(part: Part) -> bool:
    """Whether an end leg is sawn off after bending.

    Parameters
    ----------
    part
        As the shop states it.
    """
    return part.trim_1 is not None or part.trim_2 is not None


def left_long(part: Part) -> Part:
    """Return the part as it is bent: end legs with what is left on them, nothing more to trim.

    Parameters
    ----------
    part
        As the shop states it: legs of the finished part [mm].

    Returns
    -------
    Part
        What is counted from a free end stays where it is on the finished part.
    """
    first, last = part.trim_1 or 0.0, part.trim_2 or 0.0
    legs = list(part.legs)
    legs[0] += first
    legs[-1] += last

    def from_end(place: Hole | Weld) -> float:
        if place.from_bend is not None:
            return place.distance
        return place.distance + (first if place.leg == 1 else last)

    return evolve(
        part,
        legs=tuple(legs),
        holes=tuple(evolve(one, distance=from_end(one)) for one in part.holes),
        welds=tuple(evolve(one, distance=from_end(one)) for one in part.welds),
        twists=tuple(
            evolve(one, middle=one.middle + (first if one.leg == 1 else 0.0)) for one in part.twists
        ),
        trim_1=None,
        trim_2=None,
    )


def with_saw_lines(blank: Blank, part: Part) -> Blank:
    """Return a blank with the lines along which its ends are sawn off.

    Parameters
    ----------
    blank
        Of the part as it is bent.
    part
        As the shop states it.

    Raises
    ------
    InputError
        Where a saw line would run through a bend, a hole or a weld, or leave one of them on what is
        sawn off.
    """
    saws = []
    if part.trim_1 is not None:
        saws.append(SawLine(end=1, position=part.trim_1, length=part.trim_1))
    if part.trim_2 is not None:
        saws.append(SawLine(end=2, position=blank.length - part.trim_2, length=part.trim_2))
    for saw in saws:
        _refuse_in_bend(blank, part, saw)
        _refuse_in_what_stands(blank, saw)
    return evolve(blank, saws=tuple(saws))


def _past(saw: SawLine, position: float) -> float:
    """How far a position lies past a saw line, on what is sawn off [mm]."""
    return position - saw.position if saw.end == 2 else saw.position - position


def _refuse_in_bend(blank: Blank, part: Part, saw: SawLine) -> None:
    bend, leg = (1, 0) if saw.end == 1 else (len(part.bends), len(part.legs) - 1)
    begin, end = blank.zone(bend)
    inside = _past(saw, begin if saw.end == 1 else end)
    if inside <= _ROUNDING:
        return
    least = part.legs[leg] + inside
    # Up in both systems: what is typed from this sentence is then long enough.
    shown = either_unit(
        f"{ceil(least * 100) / 100:.2f} mm", f"{ceil(least / INCH_MM * 1000) / 1000:.3f} in"
    )
    raise InputError(
        f"part.trim.end_{saw.end}",
        f"leg {leg + 1} is {either_length(part.legs[leg], 2)} once it is sawn off, and the saw "
        f"line would lie in bend {bend}",
        f"make leg {leg + 1} at least {shown}, or bend with a smaller radius",
    )


def _refuse_in_what_stands(blank: Blank, saw: SawLine) -> None:
    for hole in blank.holes:
        past = _past(saw, hole.position) + cut_reach(hole)
        if past >= 0.0:
            raise InputError(
                HoleAt(hole.hole),
                f"its edge comes to the saw line at end {saw.end} or past it",
                f"move it more than {either_length(past, 2)} towards the bend",
            )
    for weld in blank.welds:
        if _past(saw, weld.position) > _ROUNDING:
            raise InputError(
                KeyAt(f"part.weld[{weld.weld}]"),
                f"it lies past the saw line at end {saw.end}",
                "move it towards the bend",
            )
