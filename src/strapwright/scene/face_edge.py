"""Hatch one face of a bar along its edge, so that it is told from the other by more than colour."""

from __future__ import annotations

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.scene.bar_outline import as_points
from strapwright.scene.primitives import Line

_SHARE = 0.42  # of the thickness that the strokes reach in
_LEAST, _MOST = 4.5, 9.0  # px that they reach in; the bar stays whole behind them
_HALF = 0.6  # of a thin bar at most
_APART = 6.5  # px between two strokes


def face_edge(mid_line: Floats, thickness: float, side: int, px: float) -> list[Line]:
    """Strokes from one face into the bar, slanting, evenly spaced.

    Parameters
    ----------
    mid_line
        Points, shape (k, 2), k >= 2 [mm].
    thickness
        [mm]
    side
        1 for the face on the left of the mid-line as it runs, -1 for the one on its right.
    px
        One pixel [mm].
    """
    deep = min(max(_SHARE * thickness, _LEAST * px), _MOST * px, _HALF * thickness)
    chords = np.diff(mid_line, axis=0)
    lengths = np.hypot(*chords.T)
    kept = np.concatenate(([True], lengths > 1e-9))
    points = mid_line[kept]
    ways = np.diff(points, axis=0)
    lengths = np.hypot(*ways.T)
    ways /= lengths[:, None]
    along = np.concatenate(([0.0], np.cumsum(lengths)))
    apart = _APART * px
    count = int(along[-1] / apart)
    places = (along[-1] - (count - 1) * apart) / 2 + apart * np.arange(count)
    cell = np.clip(np.searchsorted(along, places, side="right") - 1, 0, len(ways) - 1)
    way = ways[cell]
    across = side * np.column_stack((-way[:, 1], way[:, 0]))
    at = points[cell] + (places - along[cell])[:, None] * way
    outer = as_points(at + 0.5 * thickness * across + 0.5 * deep * way)
    inner = as_points(at + (0.5 * thickness - deep) * across - 0.5 * deep * way)
    return [Line(start=a, end=b, role="face-edge") for a, b in zip(outer, inner, strict=True)]
