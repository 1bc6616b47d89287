"""Where a made bend ends: the part of it that stays bent once it is let go.

Under the ram the bar curves all the way to the shoulders; let go, its outer stretch is straight
again but for a few hundredths of a degree.  Marks, straight bar and legs count from where the bar
stays bent.
"""

from __future__ import annotations

import math

import numpy as np
from attrs import evolve

from strapwright.bending.bar_shape import HalfShape
from strapwright.bending.bend_values import ReleasedBend

# What the stretch beyond may turn, each half; under what any protractor shows (common practice,
# no source).
STRAIGHT = math.radians(0.02)


def settled(shape: HalfShape, bend: ReleasedBend) -> tuple[HalfShape, ReleasedBend]:
    """Cut a bend where it is straight once let go; its angle stays exact.

    Parameters
    ----------
    shape
        From the middle to the shoulder contact.
    bend
        The same bend as the blank needs it.

    Returns
    -------
    HalfShape, ReleasedBend
        Up to where less than ``STRAIGHT`` is left to turn.  What the bend takes from the sum of
        its legs on the mid-line stays what it was, so the blank does.
    """
    lengths = np.diff(shape.arc)
    turned = np.cumsum(shape.free * lengths)
    left = np.abs(turned[-1] - turned)
    bent = np.flatnonzero(left > STRAIGHT)
    last = int(bent[-1]) + 1 if bent.size else 0
    # The little that is left goes to the bend in proportion, so that its angle stays.
    short = HalfShape(
        arc=shape.arc[: last + 2],
        loaded=shape.loaded[: last + 1],
        free=shape.free[: last + 1] * (turned[-1] / turned[last]),
        slope=shape.slope,
    )
    x, y, theta = short.points(released=True)
    angle, half = float(theta[-1]), 0.5 * bend.thickness
    apex = float(x[-1] / math.cos(angle))
    # Outer faces of both halves, along the leg that runs out on the right.
    outer_x, outer_y = x + half * np.sin(theta), y - half * np.cos(theta)
    along = [
        (x[-1] - side * outer_x) * math.cos(angle) + (y[-1] - outer_y) * math.sin(angle)
        for side in (1.0, -1.0)
    ]
    return short, evolve(
        bend,
        apex_distance=apex,
        outside_reach=max(float(np.max(along)), 0.0),
        flat_length=bend.flat_length - 2.0 * (bend.apex_distance - apex),
    )
