"""Lay a bar that is no longer straight between the shoulders on both of them."""

from __future__ import annotations

import math

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.midline.pose_values import DrawnPose

# Numerical.
_SPACING = 0.5  # mm between the points that contact is looked for at
_MOST_TILT = 0.8  # rad
_HALVINGS = 34  # to a billionth of a degree
# No round of a nose or a shoulder carries bar that stands up more steeply; numerical.
_STEEPEST = math.radians(80.0)


def seated(
    x: Floats,
    y: Floats,
    *,
    thickness: float,
    nose_radius: float,
    shoulder_radius: float,
    opening: float,
) -> DrawnPose:
    """Tilt and lift a bar until it rests on both shoulders, and set the nose on it.

    Only the run about the nose, see :func:`carried`, lies on anything: a leg that was bent round
    before may stand over the nose, and does not lift it.

    Parameters
    ----------
    x, y
        Mid-line from the left end to the right end, the point under the nose at the origin,
        shape (k,) [mm].
    thickness, nose_radius, shoulder_radius, opening
        [mm]
    """
    along = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), np.diff(y)))])
    fine = np.linspace(0.0, along[-1], max(int(along[-1] / _SPACING), 2))
    first, last = carried(x, y)
    fine = fine[(fine >= along[first]) & (fine <= along[last])]
    at = np.column_stack([np.interp(fine, along, x), np.interp(fine, along, y)])
    half, reach = 0.5 * opening, shoulder_radius + 0.5 * thickness

    def lift(tilt: float, side: int) -> float:
        points = at @ _turn(tilt)
        return _above(points[:, 0] - side * half, -shoulder_radius - points[:, 1], reach)

    low, high = -_MOST_TILT, _MOST_TILT
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        # A tilt to the left raises the right wing, which then needs less lift.
        if lift(middle, 1) > lift(middle, -1):
            low = middle
        else:
            high = middle
    tilt = 0.5 * (low + high)
    raised = max(lift(tilt, 1), lift(tilt, -1))
    turned = np.column_stack([x, y]) @ _turn(tilt)
    points = at @ _turn(tilt)
    rests = _above(points[:, 0], points[:, 1] + raised, nose_radius + 0.5 * thickness)
    return DrawnPose(x=turned[:, 0], y=turned[:, 1] + raised, nose_y=rests)


def carried(x: Floats, y: Floats) -> tuple[int, int]:
    """First and last point of the run about the nose that does not stand up steeply.

    Parameters
    ----------
    x, y
        Mid-line from the left end to the right end, the point under the nose at the origin,
        shape (k,) [mm].
    """
    middle = int(np.argmin(np.hypot(x, y)))
    headings = np.unwrap(np.arctan2(np.diff(y), np.diff(x)))
    headings -= 2.0 * math.pi * round(float(headings[min(middle, len(headings) - 1)]) / math.tau)
    steep = np.flatnonzero(np.abs(headings) > _STEEPEST)
    left, right = steep[steep < middle], steep[steep >= middle]
    first = int(left[-1]) + 1 if left.size else 0
    last = int(right[0]) if right.size else len(x) - 1
    return first, last


def _above(across: Floats, height: Floats, reach: float) -> float:
    """How far a round of radius ``reach`` over points must rise to clear them [mm]."""
    near = np.abs(across) < reach
    # A bar too short to lie over the round is drawn as it falls; a finding refuses it.
    lowest = float(np.min(height))
    return float(np.max(height[near] + np.sqrt(reach**2 - across[near] ** 2), initial=lowest))


def _turn(angle: float) -> Floats:
    """Rotation to the left, for points as rows."""
    c, s = math.cos(angle), math.sin(angle)
    return np.array([[c, s], [-s, c]])
