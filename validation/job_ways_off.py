"""Plain ways off the nose: straight in some direction, or along the nose; and given ways."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

from job_things import Thing
from strapwright.shop.job import Job


def straight_off(bar: BaseGeometry, things: Sequence[Thing], reach: float = 2500.0) -> bool:
    """Whether a bar comes off the nose side straight, in one of many directions in its plane.

    ``things`` of the nose side that stand where the bar lies; the bar at the nose's centre.
    """
    walls = [thing.outline.buffer(-0.05) for thing in things if thing.side == "nose"]
    if not walls:
        return True
    wall = shapely.union_all(walls)
    shapely.prepare(wall)
    for angle in np.linspace(0.0, 2.0 * math.pi, 73)[:-1]:
        ways = np.concatenate([np.arange(0.5, 40.0, 1.5), np.linspace(40.0, reach, 120)])
        dx, dy = math.cos(angle), math.sin(angle)
        moved = [translate(bar, float(s * dx), float(s * dy)) for s in ways]
        if not any(shapely.intersects(wall, moved)):
            return True
    return False


def moved_bar(
    bar: BaseGeometry, x: float, y: float, theta: float, about: tuple[float, float]
) -> BaseGeometry:
    """Turn a bar about a point [rad], then shift it."""
    return translate(rotate(bar, theta, origin=about, use_radians=True), x, y)


def slides_off(bar: BaseGeometry, job: Job, things: Sequence[Thing]) -> bool:
    """Whether a bar on the nose slides off along it as it lies."""
    half = 0.5 * job.part.at_once * job.part.bar.width
    for sign in (1.0, -1.0):
        reach = [max(sign * t.along[0], sign * t.along[1]) for t in things]
        near = [min(sign * t.along[0], sign * t.along[1]) for t in things]
        ahead = [
            t
            for t, far, close in zip(things, reach, near, strict=True)
            # What stands all the way beside it goes on beside it.
            if t.side == "nose" and far > half and close > -half
        ]
        if not any(bar.intersects(t.outline) for t in ahead):
            return True
    return False
