"""Clip shapes to the picture and hatch them: no hit is told by colour alone."""

from __future__ import annotations

import math

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.scene.bar_outline import as_points
from strapwright.scene.boxes import Box
from strapwright.scene.primitives import Line, Path, Point, Role

_ROUND = 48  # corners that stand for a circle


def corners_of_circle(centre: Point, radius: float) -> Floats:
    """Corners of a polygon about a circle, shape (k, 2) [mm]."""
    at = np.linspace(0.0, 2.0 * math.pi, _ROUND, endpoint=False)
    return np.column_stack((centre[0] + radius * np.cos(at), centre[1] + radius * np.sin(at)))


def clipped(corners: Floats, window: Box) -> Floats:
    """Part of a convex polygon within a window (Sutherland and Hodgman, 1974), shape (k, 2)."""
    kept = corners
    for axis, limit, sign in (
        (0, window.left, 1.0),
        (0, window.right, -1.0),
        (1, window.bottom, 1.0),
        (1, window.top, -1.0),
    ):
        inside = sign * (kept[:, axis] - limit)
        found = []
        for k in range(len(kept)):
            a, b = inside[k - 1], inside[k]
            if (a < 0.0) != (b < 0.0):
                found.append(kept[k - 1] + a / (a - b) * (kept[k] - kept[k - 1]))
            if b >= 0.0:
                found.append(kept[k])
        if len(found) < 3:
            return np.empty((0, 2))
        kept = np.array(found)
    return kept


def edges(corners: Floats, window: Box, role: Role) -> list[Line | Path]:
    """Edges of a clipped polygon, without those where the picture cuts it off."""
    lines: list[Line | Path] = []
    for k, (x, y) in enumerate(corners):
        a, b = corners[k - 1]
        cut = any(
            abs(one - limit) < 1e-9 and abs(other - limit) < 1e-9
            for one, other, limits in (
                (a, x, (window.left, window.right)),
                (b, y, (window.bottom, window.top)),
            )
            for limit in limits
        )
        if not cut and math.hypot(x - a, y - b) > 1e-9:
            lines.append(Line(start=(float(a), float(b)), end=(float(x), float(y)), role=role))
    return lines


def hatch(corners: Floats, spacing: float) -> list[Line | Path]:
    """Hatch a polygon with lines that rise to the right, and draw it round heavily.

    Parameters
    ----------
    corners
        Shape (k, 2) [mm].
    spacing
        Between two lines [mm].
    """
    if len(corners) < 3:
        return []
    across = (corners[:, 1] - corners[:, 0]) / math.sqrt(2.0)  # constant along a hatch line
    along = (corners[:, 1] + corners[:, 0]) / math.sqrt(2.0)
    first = math.ceil(float(across.min()) / spacing)
    last = math.floor(float(across.max()) / spacing)
    shapes: list[Line | Path] = []
    for k in range(first, last + 1):
        ends = []
        for i in range(len(corners)):
            a, b = across[i - 1] - k * spacing, across[i] - k * spacing
            if (a < 0.0) != (b < 0.0):
                ends.append(float(along[i - 1] + a / (a - b) * (along[i] - along[i - 1])))
        ends.sort()
        for low, high in zip(ends[::2], ends[1::2], strict=True):
            if high - low > 1e-6:
                start, end = (
                    ((u - k * spacing) / math.sqrt(2.0), (u + k * spacing) / math.sqrt(2.0))
                    for u in (low, high)
                )
                shapes.append(Line(start=start, end=end, role="hatch"))
    shapes.append(Path(points=as_points(corners), role="hatched", closed=True))
    return shapes
