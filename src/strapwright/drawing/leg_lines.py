"""Where the straight legs of a finished part lie, and where their stated lengths begin and end."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import Floats
from strapwright.scene.primitives import Point
from strapwright.shop.part import Part

_STRAIGHT = math.radians(0.05)  # a segment this near to the leg's heading belongs to the leg


@frozen(kw_only=True)
class Leg:
    """One leg of the finished part.

    Attributes
    ----------
    origin
        A point of its mid-line [mm].
    heading
        [rad]
    span
        Where its stated length begins and ends, along the heading from ``origin`` [mm].
    """

    origin: Point
    heading: float
    span: tuple[float, float]

    def at(self, along: float, left: float = 0.0) -> Point:
        """Point at a distance along and to the left of the mid-line [mm]."""
        c, s = math.cos(self.heading), math.sin(self.heading)
        return (
            self.origin[0] + c * along - s * left,
            self.origin[1] + s * along + c * left,
        )

    def along(self, point: Point) -> float:
        """Distance of a point along the heading [mm]."""
        c, s = math.cos(self.heading), math.sin(self.heading)
        return (point[0] - self.origin[0]) * c + (point[1] - self.origin[1]) * s


def find_legs(
    part: Part, finished: Floats, dimensions: Sequence[tuple[Point, Point]] = ()
) -> tuple[Leg, ...]:
    """Find the legs on a finished mid-line.

    Parameters
    ----------
    part
        Legs and bends as stated.
    finished
        Mid-line from end 1, running right, shape (k, 2) [mm].
    dimensions
        Points between which each leg's dimension runs, one pair a leg; worked out from the
        mid-line where there are none [mm].

    Returns
    -------
    tuple
        One :class:`Leg` for each of ``part.legs``.
    """
    runs = straight_runs(part, finished)
    headings = _headings(part)
    legs = []
    for number, ((first, last), heading) in enumerate(zip(runs, headings, strict=True)):
        bare = Leg(origin=_point(finished[first]), heading=heading, span=(0.0, 0.0))
        if dimensions:
            start, stop = (bare.along(point) for point in dimensions[number])
            legs.append(Leg(origin=bare.origin, heading=heading, span=(start, stop)))
            continue
        begin = _reference(part, finished, runs, number, bare, at_end=False)
        finish = _reference(part, finished, runs, number, bare, at_end=True)
        if number == 0:
            begin = bare.along(_point(finished[0]))
        if last >= len(finished) - 1 or number == len(runs) - 1:
            finish = bare.along(_point(finished[-1]))
        legs.append(Leg(origin=bare.origin, heading=heading, span=(begin, finish)))
    return tuple(legs)


def apex(first: Leg, second: Leg) -> Point:
    """Point where the mid-lines of two legs meet, halfway where they are parallel [mm]."""
    cross = math.sin(second.heading - first.heading)
    if abs(cross) < 1e-9:
        end, start = first.at(first.span[1]), second.at(second.span[0])
        return ((end[0] + start[0]) / 2, (end[1] + start[1]) / 2)
    dx = second.origin[0] - first.origin[0]
    dy = second.origin[1] - first.origin[1]
    along = (dx * math.sin(second.heading) - dy * math.cos(second.heading)) / cross
    return first.at(along)


def leg_grips(legs: Sequence[Leg]) -> list[tuple[float, float]]:
    """Place where each leg is taken hold of, and a mm on the way it grows [mm].

    A free end is where one would pull; between two bends the middle is clear of both.
    """
    found = []
    for number, leg in enumerate(legs, start=1):
        first, last = number == 1, number == len(legs)
        at = leg.span[0] if first else leg.span[1] if last else sum(leg.span) / 2
        found.append((at, at - 1.0 if first else at + 1.0))
    return found


def _headings(part: Part) -> list[float]:
    headings = [0.0]
    for bend in part.bends:
        headings.append(headings[-1] + bend.side * bend.angle)
    return headings


def _point(row: Floats) -> Point:
    return (float(row[0]), float(row[1]))


def straight_runs(part: Part, finished: Floats) -> list[tuple[int, int]]:
    """First and last point of the straight of each leg on the mid-line in one plane."""
    chords = np.diff(finished, axis=0)
    turned = np.unwrap(np.arctan2(chords[:, 1], chords[:, 0]))
    lengths = np.hypot(*chords.T)
    turned -= turned[0]
    runs: list[tuple[int, int]] = []
    begin = 0
    for heading in _headings(part):
        off = np.abs(turned - heading)
        off[:begin] = np.inf
        off[lengths < 1e-9] = np.inf
        near = np.flatnonzero(off < _STRAIGHT)
        # Bends that meet leave no straight: the leg is then the one place with its heading.
        first = int(near[0]) if near.size else int(np.argmin(off))
        last = first
        while last + 1 < len(off) and off[last + 1] < _STRAIGHT:
            last += 1
        runs.append((first, last + 1))
        begin = last + 1
    return runs


def _reference(
    part: Part,
    finished: Floats,
    runs: list[tuple[int, int]],
    number: int,
    leg: Leg,
    *,
    at_end: bool,
) -> float:
    """Where the stated length of a leg ends at a bend, along the leg [mm].

    Outside: the apex of the outer faces, past 90 deg the farthest point of the outer face;
    inside: the apex of the inner faces; centre: the apex of the mid-lines.
    """
    index = number if at_end else number - 1
    if not 0 <= index < len(part.bends):
        return 0.0
    bend = part.bends[index]
    half = part.bar.thickness / 2
    sign = 1.0 if at_end else -1.0
    if part.measured == "straight":
        return leg.along(_point(finished[runs[number][1 if at_end else 0]]))
    if part.measured == "outside" and bend.angle > math.pi / 2:
        zone = finished[runs[index][1] - 1 : runs[index + 1][0] + 2]
        chords = np.diff(zone, axis=0)
        units = chords / np.maximum(np.hypot(*chords.T), 1e-12)[:, None]
        outer = bend.side * half * np.column_stack((units[:, 1], -units[:, 0]))
        faces = np.vstack((zone[:-1] + outer, zone[1:] + outer))
        way = np.array([math.cos(leg.heading), math.sin(leg.heading)])
        return float(sign * (sign * (faces - np.array(leg.origin)) @ way).max())
    other = runs[number + 1][0] if at_end else runs[number - 1][0]
    heading = leg.heading + sign * bend.side * bend.angle
    neighbour = Leg(origin=_point(finished[other]), heading=heading, span=(0.0, 0.0))
    meeting = leg.along(apex(leg, neighbour))
    setback = half * math.tan(min(bend.angle, math.pi * 0.98) / 2)
    shift = {"outside": setback, "centre": 0.0, "inside": -setback}[part.measured]
    return meeting + sign * shift
