"""The nose side as a bar finds it that lies tilted on the shoulders, and ways off told back.

A bar that was hit before does not lie level, while the nose side stands upright on it.  Coming off
is looked at with the hit's middle upright, so there the nose side is tilted the other way.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
from attrs import evolve, frozen

from strapwright.midline.pose_values import DrawnPose
from strapwright.ordering.order_results import FreeingPose
from strapwright.ordering.order_values import Piece, Point

# The nose is let off by so much when the bar starts to come off: it lies on corners of the row
# that the even arcs of the half-bent bar round off; numerical [mm].
LET_OFF = 0.5


@frozen(kw_only=True)
class Tilt:
    """How the nose stands to the middle of a hit.

    Attributes
    ----------
    angle
        How far the bar is tilted anticlockwise [rad].
    x, y
        From the nose's centre over a level bar to where it is over the tilted one, as the bar
        sees it [mm].
    """

    angle: float
    x: float
    y: float

    def tilted(self, pieces: Iterable[Piece]) -> tuple[Piece, ...]:
        """Nose-side pieces as the bar sees them."""

        def seen(point: Point) -> Point:
            x, y = _turned(point, -self.angle)
            return x + self.x, y + self.y

        found = []
        for piece in pieces:
            if piece.side != "nose":
                found.append(piece)
            elif piece.centre is not None:
                found.append(evolve(piece, centre=seen(piece.centre)))
            else:
                found.append(evolve(piece, polygon=tuple(seen(p) for p in piece.polygon)))
        return tuple(found)

    def told_back(self, motion: Iterable[FreeingPose]) -> tuple[FreeingPose, ...]:
        """A way off as the nose sees it: turns about its own centre, shifts along its own axes."""
        found = []
        for pose in motion:
            x, y = _turned((self.x, self.y), pose.theta)
            x, y = _turned((pose.x - self.x + x, pose.y - self.y + y), self.angle)
            found.append(evolve(pose, x=x, y=y))
        return tuple(found)


def tilt_of(pose: DrawnPose, over: float) -> Tilt:
    """Return the tilt of a bar laid on the shoulders.

    Parameters
    ----------
    over
        From the mid-line to the nose's centre over a level bar [mm].
    """
    there = np.flatnonzero(np.abs(pose.x) < 1e-6)
    under = int(there[np.argmin(pose.y[there])])
    # The hit is even to both sides of its middle.
    across = pose.x[under + 1] - pose.x[under - 1], pose.y[under + 1] - pose.y[under - 1]
    angle = math.atan2(float(across[1]), float(across[0]))
    x, y = _turned((0.0, pose.nose_y + LET_OFF - float(pose.y[under])), -angle)
    return Tilt(angle=angle, x=x, y=y - over)


def _turned(point: Point, angle: float) -> Point:
    c, s = math.cos(angle), math.sin(angle)
    return c * point[0] - s * point[1], s * point[0] + c * point[1]
