"""The part as convex pieces that hold, or are held by, every pose of a slab of angles.

A point at distance d from the reference moves at most k d while the part turns by no more than
half a slab, k = 2 sin(half slab / 2).  Grown by that the pieces cover the part in all these
poses; shrunk by it they lie within it in all of them.  Growth is put on the corners: d is convex
along a straight, so what lies between errs to the safe side.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from strapwright.ordering.kernel_pieces import (
    ANGLE,
    HALF,
    INNER,
    KIND,
    OUTER,
    SECTOR,
    Floats,
    X,
    Y,
)


@frozen(kw_only=True)
class Slab:
    """How wide a slab of angles is, and how finely arcs are cut.

    Attributes
    ----------
    count
        Slabs in a full turn; 0 for a single angle.
    chord_error
        Largest distance between an arc and the chord pieces that stand for it [mm].
    """

    count: int
    chord_error: float

    @property
    def travel(self) -> float:
        """k, how far a point moves for each mm from the reference [-]."""
        return 2.0 * math.sin(math.pi / (2.0 * self.count)) if self.count else 0.0


def convex_pieces(
    rows: Floats, reference: tuple[float, float], slab: Slab, *, grown: bool
) -> NDArray[np.float64]:
    """Four-cornered pieces relative to the reference, anticlockwise, shape (n, 4, 2) [mm].

    Rows of several bars follow each other; a bar begins and ends with a straight.
    """
    first = [True, *(a[KIND] != SECTOR and b[KIND] != SECTOR for a, b in pairwise(rows))]
    last = [*first[1:], True]
    pieces = [np.empty((0, 4, 2))]
    for k, row in enumerate(rows):
        if row[KIND] == SECTOR:
            pieces.append(_arc(row, reference, slab, grown=grown))
        else:
            ends = (first[k], last[k])
            pieces.append(_straight(row, reference, slab.travel, ends, grown=grown))
    return np.concatenate(pieces)


def _straight(
    row: Floats,
    reference: tuple[float, float],
    travel: float,
    ends: tuple[bool, bool],
    *,
    grown: bool,
) -> NDArray[np.float64]:
    """One piece; only the bar's own ends are lengthened or shortened, the rest goes on."""
    sign = 1.0 if grown else -1.0
    ux, uy = math.cos(row[ANGLE]), math.sin(row[ANGLE])
    x, y = row[X] - reference[0], row[Y] - reference[1]
    faces = []
    for end, side in ((0, -1.0), (1, 1.0)):
        along = side * row[HALF]
        far = max(
            math.hypot(x + along * ux - w * uy, y + along * uy + w * ux)
            for w in (-row[INNER], row[INNER])
        )
        move = sign * travel * far
        faces.append((along + (side * move if ends[end] else 0.0), row[INNER] + move))
    (a, ha), (b, hb) = faces
    if min(ha, hb) <= 0.0 or a >= b:
        return np.empty((0, 4, 2))
    corners = ((a, -ha), (b, -hb), (b, hb), (a, ha))
    return np.array([[(x + along * ux - w * uy, y + along * uy + w * ux) for along, w in corners]])


def _arc(
    row: Floats, reference: tuple[float, float], slab: Slab, *, grown: bool
) -> NDArray[np.float64]:
    middle = np.array([row[X] - reference[0], row[Y] - reference[1]])
    inner, outer = row[INNER], row[OUTER]
    widest = 2.0 * math.acos(1.0 / (1.0 + slab.chord_error / outer))
    count = max(1, math.ceil(2.0 * row[HALF] / widest))
    step = 2.0 * row[HALF] / count
    spread = 1.0 / math.cos(0.5 * step)
    angles = row[ANGLE] - row[HALF] + step * np.arange(count + 1)
    out = np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    far = np.maximum(*(np.hypot(*(middle + r * out).T) for r in (inner, outer)))
    move = slab.travel * (np.maximum(far[:-1], far[1:]) + outer * (spread - 1.0))
    low = np.maximum(0.0, inner - move) if grown else (inner + move) * spread
    high = (outer + move) * spread if grown else outer - move
    (start, end), (low, high) = (out[:-1], out[1:]), (low[:, None], high[:, None])
    pieces = np.stack([low * start, high * start, high * end, low * end], axis=1)
    kept: NDArray[np.float64] = middle + pieces[(low < high)[:, 0]]
    return kept
