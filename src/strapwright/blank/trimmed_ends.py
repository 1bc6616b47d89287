"""End legs that are left longer for bending and sawn off after.

A bend needs straight bar out to its shoulder until the end of the stroke.  Where the finished leg
is shorter than that, the bar is bent with the leg left longer, and the rest is sawn off.
"""

from __future__ import annotations

from attrs import evolve

from strapwright.blank.blank_values import Blank, SawLine
from strapwright.shop.part import Hole, Part, Weld


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
    """
    saws = []
    if part.trim_1 is not None:
        saws.append(SawLine(end=1, position=part.trim_1, length=part.trim_1))
    if part.trim_2 is not None:
        saws.append(SawLine(end=2, position=blank.length - part.trim_2, length=part.trim_2))
    return evolve(blank, saws=tuple(saws))
