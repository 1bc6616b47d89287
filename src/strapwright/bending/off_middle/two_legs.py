"""The bar under a nose off the middle of the opening: two unlike legs under one nose.

Statics (our own derivation from plane beam theory).  Each leg is a half of an even bend of its own:
laid out from the section under the nose, whose tangent is turned by ``tilt``, it meets its shoulder
at its own slope.  Turned back, both shoulders stand where they stand.  Curvature and moment are the
same on both sides of the nose, so both legs have one and the same unknown z; where the bar has
wrapped, the section taken is the middle of the wrapped zone.  Free of friction the first integral
of each leg then makes the axial force the same on both sides too, so the nose pushes at right
angles to the bar there, off the line of the ram by ``tilt``.  Friction on the nose is left out of
this balance.

While the bar is flat it comes to the statics of a beam on two supports, load F at e off the middle
of the span W, q = 2 e/W: M = F (W/4)(1 - q^2), the nearer support carries F (1 + q)/2, the angle at
one travel grows by 1/(1 - q^2).  Checked against an integration along the bar that has neither
first integral nor halves (``tests/reference/uneven_bar.py``).
"""

from __future__ import annotations

import math

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import BendSetup, Floats
from strapwright.bending.kernel_curve import FREE, TRAVEL, solve_for
from strapwright.bending.kernel_frame import OK, Point, friction_angle, nose_curvature
from strapwright.bending.kernel_section import softness
from strapwright.bending.kernel_springback import release
from strapwright.bending.kernel_stroke import try_leg
from strapwright.bending.solver_model import FITTED, Effects, Model, build

# Newton: most rounds, when it is there, step of the differences; numerical.
_ROUNDS, _CLOSE, _STEP = 40, 1e-9, 1e-6


@frozen(kw_only=True)
class UnevenBend:
    """A position of the bar under a nose off the middle; ``near`` is the nearer shoulder's side.

    Attributes
    ----------
    travel
        From touch [mm].
    force
        On the nose along the ram, all bars [N].
    loaded_angle, free_angle
        Total, under the ram and let go [rad].
    near_slope, far_slope
        Of each leg against a flat bar [rad].
    near_push, far_push
        On each shoulder, along the ram [N].
    near_outward, far_outward
        On each shoulder, across it [N].
    tilt
        By which the section under the nose is turned, towards the nearer shoulder [rad].
    """

    travel: float
    force: float
    loaded_angle: float
    free_angle: float
    near_slope: float
    far_slope: float
    near_push: float
    far_push: float
    near_outward: float
    far_outward: float
    tilt: float

    @property
    def near_share(self) -> float:
        """Share of the force on the nearer shoulder [-]."""
        return self.near_push / self.force

    @property
    def across_nose(self) -> float:
        """Force across the nose, away from the nearer shoulder [N]."""
        return self.near_outward - self.far_outward


@frozen(kw_only=True)
class _Half:
    """One leg seen from the section under the nose, forces of the kernels.

    Attributes
    ----------
    out, sunk
        From the nose's middle out to the shoulder's, and travel of a nose in the middle of twice
        that opening [mm].
    push, direction
        On the shoulder, and its direction [rad].
    """

    out: float
    sunk: float
    push: float
    direction: float
    free: float


def uneven_at_travel(
    setup: BendSetup, offset: float, travel: float, effects: Effects = FITTED
) -> UnevenBend | None:
    """Return the bar at a travel from touch [mm], ``None`` where there is no answer.

    Parameters
    ----------
    offset
        How far the nose stands off the middle, 0 or more [mm].
    """
    return _solved(build(setup, effects), offset, TRAVEL, travel)


def uneven_for_free_angle(
    setup: BendSetup, offset: float, angle: float, effects: Effects = FITTED
) -> UnevenBend | None:
    """Return the bar where it leaves a total angle [rad], ``None`` where there is no answer."""
    return _solved(build(setup, effects), offset, FREE, 0.5 * angle)


def _solved(model: Model, offset: float, which: int, target: float) -> UnevenBend | None:
    frame = model.frame
    alpha, point, _ = solve_for(
        frame,
        model.table,
        model.rule,
        which=which,
        target=target,
        top=model.top,
        guess=0.0,
        root=0.0,
    )
    if point.status != OK:
        return None
    still = model_without_give(model)
    # Slopes of the two legs seen from the section under the nose, z, its tilt, and the travel.
    at = np.array([alpha, alpha, point.root, 0.0, point.travel])
    size = np.array([1.0, 1.0, point.root, 1.0, frame.opening])
    wanted = 2.0 * target if which == FREE else target
    misses = _misses(still, offset, which, wanted, at)
    for _ in range(_ROUNDS):
        if misses is None:
            return None
        if float(np.max(np.abs(misses))) < _CLOSE:
            return _bend(still, model, at)
        slopes = np.zeros((5, 5))
        for k in range(5):
            moved = at.copy()
            moved[k] += _STEP * size[k]
            other = _misses(still, offset, which, wanted, moved)
            if other is None:
                return None
            slopes[:, k] = (other - misses) / _STEP
        try:
            step = np.linalg.solve(slopes, -misses) * size
        except np.linalg.LinAlgError:
            return None
        # Go the step, or halves of it until less is missed.
        before, start, misses = float(np.max(np.abs(misses))), at, None
        for halvings in range(12):
            at = start + 0.5**halvings * step
            found = _misses(still, offset, which, wanted, at)
            if found is not None and float(np.max(np.abs(found))) < before:
                misses = found
                break
    return None


def model_without_give(model: Model) -> Model:
    """The same bend on a machine that does not give; what it gives is added to the whole."""
    return Model(
        inputs=model.inputs,
        frame=model.frame._replace(give=0.0),
        table=model.table,
        rule=model.rule,
        scale=model.scale,
        state=model.state,
        top=model.top,
        jam=model.jam,
    )


def _half(model: Model, alpha: float, z: float) -> _Half | None:
    frame, table = model.frame, model.table
    if not 0.0 < alpha < 0.5 * math.pi or z <= 0.0:
        return None
    leg = try_leg(frame, table, model.rule, alpha, z, nose_curvature(frame))
    if not leg.valid:
        return None
    point: Point = release(
        frame,
        table.stiffness,
        softness(table, leg.curvature),
        alpha=alpha,
        leg=leg,
        z=z,
        steps=0,
        growth=0.0,
    )
    if point.status != OK:
        return None
    direction = alpha - friction_angle(frame, alpha)
    return _Half(
        out=0.5 * frame.opening - leg.miss,
        sunk=point.travel,
        push=0.5 * point.force / math.cos(direction),
        direction=direction,
        free=point.free,
    )


def _misses(model: Model, offset: float, which: int, wanted: float, at: Floats) -> Floats | None:
    """What is missing: both shoulders where they stand, and the travel or free angle wanted."""
    near, far = _half(model, at[0], at[2]), _half(model, at[1], at[2])
    if near is None or far is None:
        return None
    frame, tilt = model.frame, float(at[3])
    force = near.push * math.cos(near.direction + tilt) + far.push * math.cos(far.direction - tilt)
    above = frame.shoulder + frame.thickness + frame.nose
    travel = at[4] - model.inputs.give * model.scale * force
    missing = []
    for leg, turn, away in ((near, tilt, -offset), (far, -tilt, offset)):
        below = above - leg.sunk
        out = leg.out * math.cos(turn) + below * math.sin(turn)
        missing.append((out - 0.5 * frame.opening - away) / frame.opening)
        sunk = above - below * math.cos(turn) + leg.out * math.sin(turn)
        missing.append((sunk - travel) / frame.opening)
    reached = at[4] / frame.opening if which == TRAVEL else near.free + far.free
    missing.append(reached - (wanted / frame.opening if which == TRAVEL else wanted))
    return np.array(missing)


def _bend(still: Model, model: Model, at: Floats) -> UnevenBend | None:
    near, far = _half(still, at[0], at[2]), _half(still, at[1], at[2])
    if near is None or far is None:
        return None
    tilt, scale = float(at[3]), model.scale
    near_push = scale * near.push * math.cos(near.direction + tilt)
    far_push = scale * far.push * math.cos(far.direction - tilt)
    return UnevenBend(
        travel=float(at[4]),
        force=near_push + far_push,
        loaded_angle=float(at[0] + at[1]),
        free_angle=near.free + far.free,
        near_slope=float(at[0]) + tilt,
        far_slope=float(at[1]) - tilt,
        near_push=near_push,
        far_push=far_push,
        near_outward=scale * near.push * math.sin(near.direction + tilt),
        far_outward=scale * far.push * math.sin(far.direction - tilt),
        tilt=tilt,
    )
