"""Where bottoming starts: up to there the model holds, past it no angle is promised.

Finite elements of a bar in a 90 deg vee: the force stays flat until the slope of the legs equals
that of the faces, doubles within 0.14 mm and then rises steeply, while the legs are bent past the
faces and back.  A tenth of a millimetre early is on the safe side.
"""

from __future__ import annotations

import math

import numpy as np

from strapwright.bending.model import FITTED
from strapwright.bending.shape import THINNING
from strapwright.bending.values import Floats, StrokeCurve

EARLY = 0.1  # mm


def vee_onset(curve: StrokeCurve, vee_angle: float) -> float | None:
    """Travel at which the legs meet the faces of a vee, less 0.1 mm [mm].

    Parameters
    ----------
    curve
        Stroke from touch.
    vee_angle
        Included angle between the faces [rad].

    Returns
    -------
    float or None
        ``None`` where the curve ends before the legs reach the faces.
    """
    total = math.pi - vee_angle
    if curve.loaded_angle[-1] <= total:
        return None
    return max(float(np.interp(total, curve.loaded_angle, curve.travel)) - EARLY, 0.0)


def sinking(curve: StrokeCurve, thickness: float) -> Floats:
    """How far the outer face has sunk under the nose at every point of a stroke [mm].

    It leads the nose by the gap that a tight bend leaves at the tip, lambda t^2 kappa, and lags by
    what the bar thins there, 0.055 (kappa t)^2 of its thickness (finite elements of the reference
    cases).  Machine give is part of the travel and is left in: the bar sinks less, so this errs
    early.
    """
    turn = thickness * curve.nose_curvature
    lead = thickness * (FITTED.offset * turn - THINNING * turn**2)
    sunk: Floats = curve.travel + np.maximum(lead, 0.0)
    return sunk


def floor_onset(curve: StrokeCurve, depth: float, thickness: float = 0.0) -> float | None:
    """Travel at which the bar's outer face meets a flat floor, less 0.1 mm [mm].

    Parameters
    ----------
    curve
        Stroke from touch.
    depth
        Of the floor below the shoulder tops, where the outer face lies at touch [mm].
    thickness
        Of the bar; 0 leaves out the gap under the tip of the nose [mm].

    Returns
    -------
    float or None
        ``None`` where the curve ends before the bar reaches the floor.
    """
    sunk = sinking(curve, thickness)
    if sunk[-1] <= depth:
        return None
    return max(float(np.interp(depth, sunk, curve.travel)) - EARLY, 0.0)


def channel_onset(
    curve: StrokeCurve, depth: float, thickness: float, *, walls_at: float, nose_radius: float
) -> float | None:
    """Travel at which bottoming starts in a channel, a U: floor or walls, whichever is first [mm].

    Parameters
    ----------
    curve, depth, thickness
        As for :func:`floor_onset`.
    walls_at
        From the middle to a wall [mm].
    nose_radius
        [mm]

    Returns
    -------
    float or None
        ``None`` where neither is reached.  A wall is: where the nose and the bar on both its sides
        no longer pass between the walls, there is no stroke, and the onset is 0.
    """
    if walls_at <= nose_radius + thickness:
        return 0.0
    return floor_onset(curve, depth, thickness)
