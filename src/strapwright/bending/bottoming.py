"""Where bottoming starts: up to there the model holds, past it no angle is promised."""

from __future__ import annotations

import math

import numpy as np

from strapwright.bending.values import StrokeCurve

# Finite elements of a 90 deg vee: force stays flat until the leg slope equals the face slope, then
# doubles within 0.14 mm; a tenth of a millimetre early is on the safe side.
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


def floor_onset(curve: StrokeCurve, depth: float) -> float | None:
    """Travel at which the bar's outer face meets a flat floor, less 0.1 mm [mm].

    The outer face sinks with the tip of the nose; the bar thins a little under it, which is left
    out and errs early.
    """
    onset = max(depth - EARLY, 0.0)
    return onset if curve.travel[-1] > onset else None
