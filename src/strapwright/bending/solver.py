"""The stroke solver as the rest of the project calls it: whole curves and single states."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from strapwright.bending.bend_values import BendSetup, Floats, Solved, StrokeCurve, StrokeState
from strapwright.bending.kernel_curve import FREE, TRAVEL, solve_for, stroke_points
from strapwright.bending.kernel_frame import OK, Point, nose_curvature
from strapwright.bending.kernel_stroke import solve_slope
from strapwright.bending.solver_model import FITTED, Effects, Model, build
from strapwright.errors import InputError, SolverError
from strapwright.quantities import either_length

# Numerical: slopes looked at, what is called no jam, from which share of the nose's curvature a bar
# whose change-over is rounded counts as wrapped, and halvings towards a lock by friction.
_MOST_SLOPE = math.radians(85.0)
_NO_JAM = 179.0  # deg; nose and shoulders that pass each other never grip the bar
_WRAPPED = 0.98
_HALVINGS = 12


def solve_curve(setup: BendSetup, points: int = 100, effects: Effects = FITTED) -> StrokeCurve:
    """Return the stroke from touch to the jam.

    Parameters
    ----------
    setup
        The bend.
    points
        Number of points after touch, closer together at the start.

    Raises
    ------
    InputError
        Where a dimension means nothing.
    SolverError
        Where not even the first positions can be solved.
    """
    return curve_of(build(setup, effects), points)


@lru_cache(maxsize=16)
def _shares(points: int) -> Floats:
    """Slopes of a curve as shares of its last, closer together at the start."""
    found: Floats = (np.arange(1, points + 1) / points) ** 1.5
    found.setflags(write=False)
    return found


def curve_of(model: Model, points: int = 100, most: float | None = None) -> StrokeCurve:
    """Return the stroke of a prepared bend up to a leg slope ``most`` [rad]."""
    top = min(model.top, _MOST_SLOPE)
    end = top if most is None else min(most, top)
    slopes = end * _shares(points)
    rows, solved, steps, worst = stroke_points(model.frame, model.table, model.rule, slopes)
    if solved < 2:
        raise SolverError("the stroke solver found no answer near touch")
    rows = rows[: solved + 1]
    return StrokeCurve(
        travel=rows[:, 1],
        force=rows[:, 2] * model.scale,
        loaded_angle=2.0 * rows[:, 0],
        free_angle=2.0 * rows[:, 3],
        nose_curvature=rows[:, 4],
        wrap_length=rows[:, 5],
        jam_angle=2.0 * (model.jam if solved == points else _locked_at(model, slopes, solved)),
        jammed=solved < points or end >= model.top,
        solved=Solved(converged=True, iterations=steps, residual=worst),
    )


def _locked_at(model: Model, slopes: Floats, solved: int) -> float:
    """Leg slope at which friction locks the bar before the tooling grips it [rad].

    The last slope that has an answer, between two points of a curve, by halving.
    """
    low, high = float(slopes[solved - 1]), float(slopes[solved])
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        point = solve_slope(model.frame, model.table, model.rule, middle, 0.0, 0.05)
        low, high = (middle, high) if point.status == OK else (low, middle)
    return low


def state_at_travel(setup: BendSetup, travel: float, effects: Effects = FITTED) -> StrokeState:
    """Return the position of the bar at a ram travel from touch [mm].

    Raises
    ------
    InputError
        Where the travel is not positive or lies past the jam, naming the jam angle.
    """
    model = build(setup, effects)
    if not travel > 0.0:
        raise InputError(
            "travel", "must be more than 0", "push at least to touch", value=f"{travel:g}"
        )
    return _state(model, TRAVEL, travel, f"a travel of {either_length(travel, 2)}", "push less")


def state_for_free_angle(setup: BendSetup, angle: float, effects: Effects = FITTED) -> StrokeState:
    """Return the position of the bar that leaves a total bend angle ``angle`` [rad] once let go.

    Raises
    ------
    InputError
        Where the angle is not positive or lies past the jam, naming the jam angle.
    """
    model = build(setup, effects)
    if not angle > 0.0:
        raise InputError("angle", "must be more than 0°", "give the bend angle")
    what = f"a {math.degrees(angle):.4g}° bend"
    return _state(model, FREE, 0.5 * angle, what, "open the shoulders or use a smaller nose")


def state_of(model: Model, which: int, target: float) -> StrokeState | None:
    """Return the state of a prepared bend at a travel or half free angle, ``None`` past the jam."""
    top = min(model.top, _MOST_SLOPE)
    alpha, point, steps = solve_for(
        model.frame,
        model.table,
        model.rule,
        which=which,
        target=target,
        top=top,
        guess=0.0,
        root=0.0,
    )
    if point.status != OK:
        return None
    return _as_state(model, alpha, point, steps)


def _state(model: Model, which: int, target: float, what: str, remedy: str) -> StrokeState:
    state = state_of(model, which, target)
    if state is None:
        raise InputError("bend", f"{what} cannot be reached: {end_of(curve_of(model, 60))}", remedy)
    return state


def jams_at(curve: StrokeCurve) -> float:
    """Loaded angle at which a whole stroke ends [rad].

    Nose and shoulders that pass each other never grip the bar; then the last position that can be
    worked out stands for the jam, which errs to the safe side.
    """
    if math.degrees(curve.jam_angle) >= _NO_JAM:
        return float(curve.loaded_angle[-1])
    return curve.jam_angle


def end_of(curve: StrokeCurve) -> str:
    """Say in a clause where a whole stroke ends."""
    jam = math.degrees(jams_at(curve))
    return (
        f"the tooling jams at {jam:.0f}° under load, which leaves "
        f"{math.degrees(curve.free_angle[-1]):.0f}° after release"
    )


def _as_state(model: Model, alpha: float, point: Point, steps: int) -> StrokeState:
    frame = model.frame
    reach = frame.nose + frame.shoulder + frame.thickness
    left = (0.5 * frame.opening - reach * math.sin(alpha)) / math.cos(alpha)
    return StrokeState(
        travel=point.travel,
        force=point.force * model.scale,
        loaded_angle=2.0 * alpha,
        free_angle=2.0 * point.free,
        nose_curvature=point.curvature,
        wrap_length=point.wrap,
        wrapped=point.curvature >= _WRAPPED * nose_curvature(frame),
        straight_left=left,
        solved=Solved(converged=True, iterations=steps, residual=point.miss),
    )
