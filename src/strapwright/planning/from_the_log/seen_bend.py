"""A bend as it is read at this press: by what readings taught of first contact and of the solver.

The solver counts travel from where nose and shoulders just hold the bar, and has an error of its
own.  A person counts from first contact as found.  What the log taught of both goes in here, and
everything after it reads as the person does.
"""

from __future__ import annotations

import numpy as np
from attrs import evolve

from strapwright.bending.bend_values import StrokeCurve, StrokeState
from strapwright.bending.kernel_curve import FREE
from strapwright.bending.learned_spread import ANGLE, BACK, FORCE, TOUCH, LearnedSpread
from strapwright.bending.solver import state_of
from strapwright.bending.solver_model import Model

# Share of the angle below which what was learned of the solver's angles fades out, so that no bar
# is bent before it is pushed; and the least that is left of an angle once the solver's own error
# is taken off.  Both numerical.
_FADES, _LEAST = 0.5, 0.25


def model_state(model: Model, angle: float, learned: LearnedSpread | None) -> StrokeState | None:
    """Return the solver's own state for a free angle as it will be read [rad]."""
    if learned is not None:
        bias = learned.mean[ANGLE] - learned.mean[BACK]
        angle = max(angle - bias, _LEAST * angle)
    return state_of(model, FREE, 0.5 * angle)


def seen_state(state: StrokeState, angle: float, learned: LearnedSpread | None) -> StrokeState:
    """Return a state of the solver as it is read at the press; ``angle`` is the free one [rad]."""
    if learned is None:
        return state
    mean = learned.mean
    return evolve(
        state,
        travel=max(state.travel - mean[TOUCH], 0.0),
        force=state.force * (1.0 + mean[FORCE]),
        loaded_angle=state.loaded_angle + mean[ANGLE],
        free_angle=angle,
    )


def seen_curve(curve: StrokeCurve, angle: float, learned: LearnedSpread | None) -> StrokeCurve:
    """Return the stroke of the solver as it is read at the press; it begins at no travel."""
    if learned is None:
        return curve
    mean = learned.mean
    travel = curve.travel - mean[TOUCH]
    share = np.minimum(curve.free_angle / (_FADES * angle), 1.0)
    loaded = np.maximum(curve.loaded_angle + mean[ANGLE] * share, 0.0)
    free = np.maximum(curve.free_angle + (mean[ANGLE] - mean[BACK]) * share, 0.0)
    force = curve.force * (1.0 + mean[FORCE])
    inside = travel > 0.0

    def from_contact(values: np.ndarray) -> np.ndarray:
        # Contact found late leaves the bar pushed already; found early, it is not touched yet.
        return np.concatenate([[float(np.interp(0.0, travel, values))], values[inside]])

    return evolve(
        curve,
        travel=np.concatenate([[0.0], travel[inside]]),
        force=from_contact(force),
        loaded_angle=from_contact(loaded),
        free_angle=np.maximum.accumulate(from_contact(free)),
        nose_curvature=from_contact(curve.nose_curvature),
        wrap_length=from_contact(curve.wrap_length),
    )


def seen_travel(travel: float | None, learned: LearnedSpread | None) -> float | None:
    """Return a travel of the solver as it is counted at the press [mm]."""
    if travel is None or learned is None:
        return travel
    return max(travel - learned.mean[TOUCH], 0.0)
