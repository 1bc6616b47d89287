"""Boxes that hold what is drawn, so that no word lands on another or on the bar."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np
from attrs import frozen

from strapwright.bending.values import Floats
from strapwright.drawing.lettering import ASCENT, DESCENT, left_of, text_width
from strapwright.drawing.scene import Arc, Circle, Line, Path, Point, Shape, Text


@frozen
class Box:
    """An upright box [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    def overlap(self, other: Box) -> float:
        """Area in common [mm2]."""
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.top, other.top) - max(self.bottom, other.bottom)
        return max(wide, 0.0) * max(high, 0.0)

    def grown(self, by: float) -> Box:
        """Return the box with ``by`` [mm] added on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)


def text_box(text: Text, scale: float) -> Box:
    """Room one line of type takes, by estimate; ``scale`` in px/mm."""
    width = text_width(text.text, text.size) / scale
    left = text.at[0] - left_of(text.anchor, width)
    size = text.size / scale
    return Box(left, text.at[1] - DESCENT * size, left + width, text.at[1] + ASCENT * size)


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


def along(points: Sequence[Point], half: float, pitch: float) -> list[Box]:
    """Cover a polyline by square boxes.

    Parameters
    ----------
    points
        [mm]
    half
        Half the side of a box [mm].
    pitch
        Largest distance between boxes [mm].
    """
    found = []
    for (x0, y0), (x1, y1) in pairwise(points):
        steps = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / pitch))
        for k in range(steps + 1):
            x, y = x0 + (x1 - x0) * k / steps, y0 + (y1 - y0) * k / steps
            found.append(Box(x - half, y - half, x + half, y + half))
    return found


def line_boxes(line: Line, scale: float) -> list[Box]:
    """Cover a thin line, 2 px wide."""
    return along((line.start, line.end), 1.0 / scale, 3.0 / scale)


def clash(boxes: Sequence[Box], taken: Floats) -> float:
    """Area that new boxes share with what is there [mm2]; ``taken`` has shape (n, 4)."""
    if not boxes or not taken.size:
        return 0.0
    new = as_rows(boxes)[:, None, :]
    wide = np.minimum(new[..., 2], taken[:, 2]) - np.maximum(new[..., 0], taken[:, 0])
    high = np.minimum(new[..., 3], taken[:, 3]) - np.maximum(new[..., 1], taken[:, 1])
    return float((wide.clip(0.0) * high.clip(0.0)).sum())


def as_rows(boxes: Sequence[Box]) -> Floats:
    """Boxes as rows left, bottom, right, top, shape (n, 4) [mm]."""
    rows = [(box.left, box.bottom, box.right, box.top) for box in boxes]
    return np.array(rows, dtype=np.float64).reshape(-1, 4)
