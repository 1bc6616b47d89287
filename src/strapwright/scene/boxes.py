"""Boxes that hold what is drawn, so that no word lands on another or on the bar."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

import numpy as np
from attrs import frozen
from numpy.typing import ArrayLike

from strapwright.bending.bend_values import Floats
from strapwright.scene.kernel_box_overlap import clash
from strapwright.scene.lettering import ASCENT, DESCENT, FOOT, left_of, text_width
from strapwright.scene.primitives import Arc, Circle, Line, Path, Shape, Text

_LOW = re.compile(r"[gjpqyQ,;()\[\]]")  # what reaches below the line


@frozen
class Box:
    """An upright box [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    def grown(self, by: float) -> Box:
        """Return the box with ``by`` [mm] added on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)


def text_box(text: Text, scale: float) -> Box:
    """Room one line of type takes, by estimate; ``scale`` in px/mm."""
    width = text_width(text.text, text.size) / scale
    left = text.at[0] - left_of(text.anchor, width)
    size = text.size / scale
    below = DESCENT if _LOW.search(text.text) else FOOT
    return Box(left, text.at[1] - below * size, left + width, text.at[1] + ASCENT * size)


def shape_box(shape: Shape, scale: float) -> Box:
    """Box around one shape; arcs count as their whole circle."""
    if isinstance(shape, Text):
        return text_box(shape, scale)
    if isinstance(shape, Circle | Arc):
        x, y, r = *shape.centre, shape.radius
        return Box(x - r, y - r, x + r, y + r)
    points = shape.points if isinstance(shape, Path) else (shape.start, shape.end)
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


def around(boxes: Iterable[Box]) -> Box:
    """Return the smallest box around all of them."""
    all_of = list(boxes)
    return Box(
        min(box.left for box in all_of),
        min(box.bottom for box in all_of),
        max(box.right for box in all_of),
        max(box.top for box in all_of),
    )


def rows_along(points: ArrayLike, half: float, pitch: float) -> Floats:
    """Cover a polyline by square boxes.

    Parameters
    ----------
    points
        Shape (k, 2) [mm].
    half
        Half the side of a box [mm].
    pitch
        Largest distance between boxes [mm].

    Returns
    -------
    Floats
        Rows left, bottom, right, top, shape (n, 4) [mm].
    """
    line = np.asarray(points, dtype=np.float64)
    run = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))))
    stations = np.linspace(0.0, run[-1], max(2, math.ceil(run[-1] / pitch) + 1))
    x, y = np.interp(stations, run, line[:, 0]), np.interp(stations, run, line[:, 1])
    return np.column_stack((x - half, y - half, x + half, y + half))


@frozen
class BoxRow:
    """Equal boxes in a row.

    Attributes
    ----------
    first
        Left, bottom, width and height of the first [mm].
    way
        From the first to the last, along and up [mm].
    count
        Of boxes, evenly spaced.
    """

    first: tuple[float, float, float, float]
    way: tuple[float, float] = (0.0, 0.0)
    count: int = 1

    def rows(self) -> Floats:
        """Rows left, bottom, right, top, shape (count, 4) [mm]."""
        left, bottom, wide, high = self.first
        if self.count == 1:
            return np.array([[left, bottom, left + wide, bottom + high]])
        share = np.arange(self.count) / (self.count - 1)
        x, y = left + share * self.way[0], bottom + share * self.way[1]
        return np.column_stack((x, y, x + wide, y + high))

    def shared(self, taken: Floats) -> float:
        """Area shared with boxes that are there, pair by pair [mm2]; ``taken`` as ``rows``."""
        return clash(self.first, self.way, self.count, taken)


def room_of(shape: Shape, scale: float) -> BoxRow | None:
    """What a shape keeps clear: a word its line with 4 px of air, a line itself.

    Other shapes keep nothing clear; what words must not cover is stated where it is drawn.
    """
    if isinstance(shape, Text):
        box = text_box(shape, scale).grown(4.0 / scale)
        return BoxRow((box.left, box.bottom, box.right - box.left, box.top - box.bottom))
    if isinstance(shape, Line):
        (x0, y0), (x1, y1) = shape.start, shape.end
        half = 1.0 / scale
        along, up = x1 - x0, y1 - y0
        if min(abs(along), abs(up)) < half:  # level or upright: one box holds it
            wide, high = abs(along) + 2.0 * half, abs(up) + 2.0 * half
            return BoxRow((min(x0, x1) - half, min(y0, y1) - half, wide, high))
        count = max(2, math.ceil(math.hypot(along, up) / (4.0 * half)) + 1)
        return BoxRow((x0 - half, y0 - half, 2.0 * half, 2.0 * half), (along, up), count)
    return None
