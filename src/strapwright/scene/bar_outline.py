"""From a mid-line and a thickness to the outline of the bar."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from strapwright.bending.bend_values import Floats
from strapwright.scene.boxes import Box
from strapwright.scene.primitives import Point

_SHARPEST = 0.2  # cosine of half a turn below which a corner is not mitred any further


def _cleaned(mid_line: ArrayLike) -> Floats:
    points = np.asarray(mid_line, dtype=np.float64)
    return points[_apart(points)]


def _apart(points: Floats) -> NDArray[np.bool_]:
    steps = np.hypot(*np.diff(points, axis=0).T)
    return np.concatenate(([True], steps > 1e-9))


def bar_outline(mid_line: ArrayLike, thickness: float) -> tuple[Point, ...]:
    """Outline of a bar of even thickness, ends cut square.

    Each corner of the mid-line is offset along its bisector, so a mid-line of fine steps gives a
    band whose area is thickness times length (Pappus).

    Parameters
    ----------
    mid_line
        Points, shape (k, 2), k >= 2 [mm].
    thickness
        [mm]

    Returns
    -------
    tuple
        Closed polygon: along the left of the mid-line, back along its right [mm].
    """
    points = _cleaned(mid_line)
    chords = np.diff(points, axis=0)
    units = chords / np.hypot(*chords.T)[:, None]
    before = np.vstack((units[:1], units))
    after = np.vstack((units, units[-1:]))
    mean = before + after
    mean /= np.maximum(np.hypot(*mean.T), 1e-12)[:, None]
    half_turn_cosine = np.maximum((mean * after).sum(axis=1), _SHARPEST)
    normals = np.column_stack((-mean[:, 1], mean[:, 0])) / half_turn_cosine[:, None]
    left = points + normals * (thickness / 2)
    right = points - normals * (thickness / 2)
    return as_points(np.vstack((left, right[::-1])))


def thinned(mid_line: ArrayLike, most: float) -> Floats:
    """Leave out points that a drawing does not need.

    Parameters
    ----------
    mid_line
        Points, shape (k, 2) [mm].
    most
        Farthest a point left out may be from what is drawn [mm].

    Returns
    -------
    Floats
        Points kept, the ends among them (Douglas and Peucker, 1973).
    """
    points = np.asarray(mid_line, dtype=np.float64)
    return points[kept_places(points, most)]


def kept_places(mid_line: ArrayLike, most: float) -> NDArray[np.int64]:
    """Return which points are kept; figures and ``most`` as for ``thinned``."""
    every = np.asarray(mid_line, dtype=np.float64)
    apart = _apart(every)
    points = every[apart]
    keep = np.zeros(len(points), dtype=bool)
    keep[[0, -1]] = True
    spans = [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        chord = points[last] - points[first]
        length = math.hypot(*chord)
        off = points[first + 1 : last] - points[first]
        # A span that returns to its start has no chord: what counts is the distance from there.
        far = (
            np.hypot(*off.T)
            if length < 1e-9
            else np.abs(off[:, 0] * chord[1] - off[:, 1] * chord[0]) / length
        )
        worst = int(np.argmax(far))
        if far[worst] > most:
            keep[first + 1 + worst] = True
            spans += [(first, first + 1 + worst), (first + 1 + worst, last)]
    return np.flatnonzero(apart)[keep]


def as_points(array: ArrayLike) -> tuple[Point, ...]:
    """Rows of an array of shape (k, 2) as points."""
    return tuple((float(x), float(y)) for x, y in np.asarray(array, dtype=np.float64))


def within(mid_line: ArrayLike, window: Box) -> tuple[Floats, bool, bool]:
    """Part of a mid-line that runs from x = 0 both ways without leaving a window.

    Parameters
    ----------
    mid_line
        Points, shape (k, 2), from left to right [mm].
    window
        Holds the point at x = 0 [mm].

    Returns
    -------
    points, cut_at_start, cut_at_end
        What is left, and whether either end was cut.
    """
    points = _with_crossings(_cleaned(mid_line))
    middle = int(np.argmin(np.abs(points[:, 0]) + 1e-6 * np.abs(points[:, 1])))
    start, cut_start = _walk(points[middle::-1], window)
    end, cut_end = _walk(points[middle:], window)
    return np.vstack((start[::-1], end[1:])), cut_start, cut_end


def _with_crossings(points: Floats) -> Floats:
    """Add the points where the line crosses x = 0, for a straight bar may have none near it."""
    x = points[:, 0]
    (at,) = np.nonzero(x[:-1] * x[1:] < 0.0)
    share = (x[at] / (x[at] - x[at + 1]))[:, None]
    return np.insert(points, at + 1, points[at] + share * (points[at + 1] - points[at]), axis=0)


def _walk(points: Floats, window: Box) -> tuple[Floats, bool]:
    for k in range(1, len(points)):
        before, there = points[k - 1], points[k]
        shares = [
            (limit - before[axis]) / (there[axis] - before[axis])
            for axis, limit, beyond in (
                (0, window.left, there[0] < window.left),
                (0, window.right, there[0] > window.right),
                (1, window.bottom, there[1] < window.bottom),
                (1, window.top, there[1] > window.top),
            )
            if beyond
        ]
        if shares:
            cut = before + max(min(shares), 0.0) * (there - before)
            return np.vstack((points[:k], cut)), True
    return points, False
