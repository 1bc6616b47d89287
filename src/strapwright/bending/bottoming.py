"""Where bottoming starts: up to there the model holds, past it no angle is promised.

Finite elements of a bar in a 90 deg vee: the force stays flat until the slope of the legs equals
that of the faces, doubles within 0.14 mm and then rises steeply, while the legs are bent past the
faces and back.  A tenth of a millimetre early is on the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from scipy.optimize import brentq

from strapwright.bending.bar_shape import THINNING, half_shape
from strapwright.bending.bend_values import Floats, StrokeCurve
from strapwright.bending.solver_model import FITTED, Model

# Fitted on one finite element case, rounded to the safe side.
EARLY = 0.1  # mm


def vee_onset(model: Model, curve: StrokeCurve, vee_angle: float, depth: float) -> float | None:
    """Travel at which bottoming starts in a vee, less 0.1 mm [mm].

    Where the faces run into the shoulders the legs lie flat on them as soon as they are as steep.
    In a deeper vee they turn past that and touch farther in; in a shallower one, before.

    Parameters
    ----------
    model, curve
        The bend and its stroke from touch.
    vee_angle
        Included angle between the faces [rad].
    depth
        Of the point where the faces meet, below the shoulder tops [mm].

    Returns
    -------
    float or None
        ``None`` where the curve ends before the bar meets the faces.
    """
    frame = model.frame
    steep = 0.5 * (math.pi - vee_angle)
    flush = 0.5 * frame.opening * math.tan(steep)
    flush += frame.shoulder * (1.0 - 1.0 / math.cos(steep))
    parallel = None
    if curve.loaded_angle[-1] > 2.0 * steep:
        parallel = float(np.interp(2.0 * steep, curve.loaded_angle, curve.travel))
    if abs(depth - flush) <= EARLY:
        return None if parallel is None else max(parallel - EARLY, 0.0)
    # Between the shoulders the faces end where the rounds stand upright.
    inner = 0.5 * frame.opening - frame.shoulder
    edge = (depth - frame.shoulder) / math.tan(steep)

    def gap(travel: float) -> float:
        x, deep = _outer_face(model, curve, travel)
        places = np.append(x[x <= inner], [min(max(edge, 0.0), inner), inner])
        face = np.maximum(depth - places * math.tan(steep), frame.shoulder)
        return float(np.min(face - np.interp(places, x, deep)))

    touched = _first_touch(gap, float(curve.travel[-1]))
    if depth < flush and parallel is not None:
        touched = parallel if touched is None else min(touched, parallel)
    return None if touched is None else max(touched - EARLY, 0.0)


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
    model: Model,
    curve: StrokeCurve,
    depth: float,
    *,
    walls_at: float | None = None,
    walls_top: float = 0.0,
) -> float | None:
    """Travel at which bottoming starts in a channel, a U: floor or walls, whichever is first [mm].

    The legs of a bend never stand as steep as an upright wall, so it is the upper edge of a wall
    that they come down on.

    Parameters
    ----------
    model, curve
        The bend and its stroke from touch.
    depth
        Of the channel's floor below the shoulder tops [mm].
    walls_at
        From the middle to a wall [mm]; ``None`` where the inner faces of the shoulders are the
        walls, whose upper edges are the shoulders themselves.
    walls_top
        Depth of the tops of the walls below the shoulder tops [mm].

    Returns
    -------
    float or None
        The floor less 0.1 mm as in :func:`floor_onset`, the walls likewise; ``None`` where the
        curve ends before either is reached.
    """
    thickness = model.frame.thickness
    floor = floor_onset(curve, depth, thickness)
    if walls_at is None:
        return floor
    last = float(curve.travel[-1]) if floor is None else floor
    touched = _first_touch(
        lambda travel: walls_top - face_depth(model, curve, travel, walls_at), last
    )
    return floor if touched is None else max(touched - EARLY, 0.0)


def face_depth(model: Model, curve: StrokeCurve, travel: float, out: float) -> float:
    """How deep the bar's outer face lies below the shoulder tops at a place [mm].

    Parameters
    ----------
    model, curve
        The bend and its stroke from touch.
    travel, out
        Of the ram, and from the middle of the opening [mm].
    """
    x, deep = _outer_face(model, curve, travel)
    return float(np.interp(out, x, deep))


def _outer_face(model: Model, curve: StrokeCurve, travel: float) -> tuple[Floats, Floats]:
    """Outer face from the middle to beyond the shoulder: places and depths, shape (k,) [mm]."""
    half = 0.5 * model.frame.thickness
    shape = half_shape(model, travel=travel)
    x, y, slope = shape.points(released=False)
    middle = float(np.interp(travel, curve.travel, sinking(curve, model.frame.thickness)))
    out = x + half * np.sin(slope)
    deep = middle - y - half * (1.0 - np.cos(slope))
    # Beyond its contact the leg is straight.
    far = out[-1] + model.frame.opening
    end = deep[-1] - model.frame.opening * math.tan(shape.slope)
    return np.append(out, far), np.append(deep, end)


def _first_touch(gap: Callable[[float], float], last: float) -> float | None:
    """Travel at which a gap that only ever closes is closed; ``None`` if not by ``last`` [mm].

    Nearer the middle than the shoulders the outer face only ever sinks.
    """
    if gap(last) > 0.0:
        return None
    first = 1e-3 * last
    if gap(first) <= 0.0:
        return 0.0
    return float(brentq(gap, first, last, xtol=1e-3))
