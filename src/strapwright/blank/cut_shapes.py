"""Slots and notches of the flat blank as outlines, and what they take out of the bar."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.blank.blank_values import FlatHole
from strapwright.shop.part_holes import Cut, Hole, cut_reach

_STEPS = 12  # of a quarter of a round, numerical

Spot = tuple[float, float]


def cut_points(cut: FlatHole, width: float) -> tuple[Spot, ...]:
    """Outline of a slot or a notch, counter-clockwise or clockwise.

    A slot has round ends.  A notch is as wide as it is along the bar, with corners of half its
    diameter at its ground, and open to the edge.

    Parameters
    ----------
    cut
        In the flat.
    width
        Of the bar [mm].

    Returns
    -------
    tuple
        Along the bar from end 1, and from the middle of the width, + to the far edge [mm].
    """
    radius, half = cut.diameter / 2, cut_reach(cut) - cut.diameter / 2
    if cut.opens == "no":
        return (
            *_round((cut.position + half, cut.across), radius, -90.0, 90.0),
            *_round((cut.position - half, cut.across), radius, 90.0, 270.0),
        )
    side = 1.0 if cut.opens == "far edge" else -1.0
    edge = side * width / 2
    ground = [
        *_round((cut.position - half, cut.across), radius, 180.0, 270.0),
        *_round((cut.position + half, cut.across), radius, 270.0, 360.0),
    ]
    turned = [(x, cut.across + side * (y - cut.across)) for x, y in ground]
    return ((turned[0][0], edge), *turned, (turned[-1][0], edge))


def cut_area(cut: Hole, width: float) -> float:
    """Area that a hole, a slot or a notch takes out of the bar [mm2].

    Parameters
    ----------
    cut
        As stated.
    width
        Of the bar [mm].
    """
    return _area(cut, cut.across, width)


def _area(cut: Cut, across: float, width: float) -> float:
    radius, reach = cut.diameter / 2, cut_reach(cut)
    straight = 2.0 * (reach - radius) * cut.diameter
    if cut.opens == "no":
        return math.pi * radius**2 + straight
    side = 1.0 if cut.opens == "far edge" else -1.0
    to_edge = width / 2 - side * across
    # Half a round at the ground, the rest as wide as it is along the bar.
    return 0.5 * (math.pi * radius**2 + straight) + 2.0 * reach * to_edge


def _round(centre: Spot, radius: float, first: float, last: float) -> Iterator[Spot]:
    steps = max(round((last - first) / 90.0), 1) * _STEPS
    for step in range(steps + 1):
        at = math.radians(first + (last - first) * step / steps)
        yield centre[0] + radius * math.cos(at), centre[1] + radius * math.sin(at)
