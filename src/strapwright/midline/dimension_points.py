"""Between which points of the finished part each leg's dimension runs.

Up to 90 deg a dimension ends where the faces (or mid-lines) of two legs meet; past 90 deg, an acute
opening, at the farthest point of that face along the leg, as DIN 6935 has it for the outside.
Straight lengths end where the bend begins.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from types import MappingProxyType

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.midline.pose_values import Point
from strapwright.shop.part import Measured, Part

# In thicknesses from the mid-line, exact; a straight length is drawn on it.
_SHIFTS: Mapping[Measured, float] = MappingProxyType(
    {"outside": -0.5, "centre": 0.0, "inside": 0.5, "straight": 0.0}
)
_RIGHT_ANGLE = 0.5 * math.pi + 1e-9  # numerical, so that 90 deg counts as one


def dimension_points(
    part: Part, thickness: float, finished: Floats, ends: Sequence[tuple[int, int]]
) -> tuple[tuple[Point, Point], ...]:
    """Return the two points of every leg's dimension.

    Parameters
    ----------
    part
        Bends and how its legs are measured.
    thickness
        Of the bar [mm].
    finished
        Mid-line in one plane from end 1, heading right, shape (k, 2) [mm].
    ends
        First and last point of every bend's zone on it, shape (bends, 2).

    Returns
    -------
    tuple
        One pair of (x, y) a leg [mm].
    """
    headings = [0.0]
    for bend in part.bends:
        headings.append(headings[-1] + bend.side * bend.angle)
    # Outside lies away from the side to which the bend turns.
    shift = _SHIFTS[part.measured] * thickness
    pairs = []
    for leg, heading in enumerate(headings):
        way = np.array([math.cos(heading), math.sin(heading)])
        left = np.array([-way[1], way[0]])
        points = []
        for number, forward in ((leg - 1, False), (leg, True)):
            if 0 <= number < len(part.bends):
                points.append(
                    _at_bend(
                        part, finished, ends, bend=number, forward=forward, way=way, shift=shift
                    )
                )
                continue
            # A free end: square across, on the face that the other end is measured on.
            other = part.bends[leg if leg == 0 else leg - 1].side
            at = finished[-1 if forward else 0] + shift * other * left
            points.append((float(at[0]), float(at[1])))
        pairs.append((points[0], points[1]))
    return tuple(pairs)


def _at_bend(
    part: Part,
    finished: Floats,
    ends: Sequence[tuple[int, int]],
    bend: int,
    forward: bool,
    way: Floats,
    shift: float,
) -> Point:
    """Where a leg's dimension ends at a bend; ``forward`` where the leg runs into it."""
    first, last = ends[bend]
    zone = finished[first : last + 1]
    side, angle = part.bends[bend].side, part.bends[bend].angle
    sign = 1.0 if forward else -1.0
    left = np.array([-way[1], way[0]])
    if part.measured == "straight":
        at = zone[0] if forward else zone[-1]
        return float(at[0]), float(at[1])
    if angle <= _RIGHT_ANGLE:
        start = zone[0] if forward else zone[-1]
        chord = zone[-1] - zone[0]
        # A bend is symmetric about its middle: both tangents are half the chord over cos(angle/2).
        apex = 0.5 * float(np.hypot(*chord)) / math.cos(0.5 * angle)
        reach = apex - shift * math.tan(0.5 * angle)
        at = start + sign * reach * way + side * shift * left
        return float(at[0]), float(at[1])
    chords = np.diff(zone, axis=0)
    units = chords / np.hypot(*chords.T)[:, None]
    normal = np.column_stack([-units[:, 1], units[:, 0]])
    faces = np.vstack([zone[:-1] + side * shift * normal, zone[1:] + side * shift * normal])
    at = faces[int(np.argmax(sign * (faces @ way)))]
    return float(at[0]), float(at[1])
