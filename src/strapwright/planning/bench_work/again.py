"""A bend that is pushed on from the angle it has: where the nose touches and how hard it pushes.

The legs are straight from the bend to the shoulders and the nose touches the inside of the bend, so
where it touches follows from angle and roundness alone.  Legs, shoulders and nose then stand as for
a bend made in one push, but for what is bent already: a rounder bend keeps the nose higher at every
angle, see :func:`stops_higher`.  What the bar resists is not the same either: where it was bent
before it is harder.  So at every angle the force of a bend made
in one push is raised by what the metal flows at in the tightest spot that either nose makes, over
what it flows at under the nose at that angle.  The lever is the same, and no spot of the bar is
harder: too much rather than too little.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bend_values import Floats, FlowCurve
from strapwright.midline.pose_values import DrawnPose
from strapwright.ordering.kernel_kinematics import arc_centre
from strapwright.planning.bench_work.closing_force import outer_stress
from strapwright.planning.made_bend import SHARES, MadeBend

_FLAT = 1e-9  # 1/mm, a straight bar; numerical
_STRAIGHT = 1e-9  # rad that a straight leg turns from point to point; numerical


@frozen(kw_only=True)
class Again:
    """One bend that is pushed on, after all others are as they are by then.

    Attributes
    ----------
    bend
        0-based.
    begins
        Angle after release that it has [rad].
    tightest
        Inside radius of its tightest spot by then [mm].
    """

    bend: int
    begins: float
    tightest: float


def touches_lower(
    angle: float, opening: float, shoulder_radius: float, thickness: float, inside: float
) -> float:
    """How much lower a nose touches the inside of a bend than a straight bar.

    Parameters
    ----------
    angle
        Bend angle of the bar that lies on the shoulders [rad].
    opening, shoulder_radius
        Of the shoulders [mm].
    thickness, inside
        Of the bar, and inside radius of the bend [mm].

    Returns
    -------
    float
        t - y + r with the height y = -s + (r + t + s - (W/2) sin(a/2))/cos(a/2) of the arc's
        centre above the shoulder tops (right triangle of arc centre, shoulder centre and contact)
        [mm].
    """
    reach = inside + thickness + shoulder_radius
    centre = arc_centre(0.5 * angle, 0.5 * opening, reach, shoulder_radius)
    return thickness - (centre - inside)


def apex_gap(pose: DrawnPose, nose_radius: float, thickness: float) -> float:
    """How far above the meeting point of its straight legs a bend that is let go has its middle.

    Parameters
    ----------
    pose
        As it lies let go, the middle of the bend at x = 0.
    nose_radius, thickness
        That the height of the nose in the pose is told with [mm].

    Returns
    -------
    float
        On the mid-line; rho (1/cos(a/2) - 1) of an even arc of radius rho and angle a [mm].
    """
    start, middle = _middle(pose, nose_radius, thickness)
    x, y = pose.x[start:], pose.y[start:]
    turned = np.arctan2(np.diff(y), np.diff(x))
    leg = int(np.argmax(np.abs(np.diff(turned)) < _STRAIGHT))
    return float(middle - (y[leg] - x[leg] * math.tan(turned[leg])))


def _middle(pose: DrawnPose, nose_radius: float, thickness: float) -> tuple[int, float]:
    """Which point of a pose is the middle of the bend, and how high that is [mm]."""
    height = pose.nose_y - nose_radius - 0.5 * thickness
    return int(np.argmin(np.hypot(pose.x, pose.y - height))), height


def drawn_higher(
    pose: DrawnPose, by: float, *, half_opening: float, nose_radius: float, thickness: float
) -> DrawnPose:
    """Return a pose with nose and middle of the bend higher, its legs as they lie on the shoulders.

    Parameters
    ----------
    pose
        The middle of the bend at x = 0.
    by
        How much higher the middle is [mm].
    half_opening
        Of the shoulders; from the middle to there less and less of it [mm].
    nose_radius, thickness
        That the height of the nose in the pose is told with [mm].
    """
    middle = _middle(pose, nose_radius, thickness)[0]
    share = np.clip(1.0 - np.abs(pose.x) / half_opening, 0.0, 1.0)
    # What comes back over the middle farther out along the bar stays.
    share[middle:] = np.minimum.accumulate(share[middle:])
    share[: middle + 1] = np.minimum.accumulate(share[middle::-1])[::-1]
    return DrawnPose(x=pose.x, y=pose.y + by * share, nose_y=pose.nose_y + by)


def stops_higher(rounder: float, begins: float, loaded: Floats | float) -> Floats:
    """How much higher the nose stands at an angle where the bar was bent rounder before.

    What was bent keeps its shape on both sides of the nose, the most there is: under load it yields
    again, which takes the nose down to where it stands for a bend made in one push.

    Parameters
    ----------
    rounder
        How much more of :func:`apex_gap` it begins with than a bend of this tooling has [mm].
    begins, loaded
        Angle that it has, and under load [rad].

    Returns
    -------
    Floats
        e cos(b/2)/cos(a/2): a leg through e below the middle, at b/2, turned about the middle to
        a/2 (plane geometry) [mm].
    """
    return np.asarray(rounder * math.cos(0.5 * begins) / np.cos(0.5 * np.asarray(loaded)))


def harder(flow: FlowCurve, thickness: float, tightest: float, curvature: float) -> float:
    """How much more a bar resists that was bent tighter before.

    Parameters
    ----------
    flow
        Flow curve of the bar.
    thickness, tightest
        Of the bar, and inside radius of its tightest spot [mm].
    curvature
        Of its mid-line under the nose [1/mm].

    Returns
    -------
    float
        Stress of the outer face in that spot over the one under the nose, 1 at least, see
        :func:`~strapwright.planning.bench_work.closing_force.outer_stress` [-].
    """
    under_nose = max(1.0 / max(curvature, _FLAT) - 0.5 * thickness, tightest)
    return outer_stress(flow, thickness, tightest) / outer_stress(flow, thickness, under_nose)


def pushed_again(made: Sequence[MadeBend], again: Again | None) -> list[MadeBend]:
    """Return bends as solved, one of them as hard as it is when it is pushed on.

    Parameters
    ----------
    made
        All bends of a part, each as if made in one push.
    again
        Which is pushed on; ``None`` for none.
    """
    if again is None:
        return list(made)
    this = made[again.bend]
    setup, curve, travel = this.setup, this.curve, this.state.travel
    tightest = min(again.tightest, this.radii.tightest)
    shares = np.array(
        [harder(setup.flow, setup.thickness, tightest, float(one)) for one in curve.nose_curvature]
    )
    pushed = (curve.free_angle >= again.begins) & (curve.travel <= travel)
    # The upper half of the band of the gauge as well, where the bend is pushed on.
    there = SHARES * travel
    begun = np.interp(there, curve.travel, curve.free_angle) >= again.begins
    raised = np.where(begun, np.interp(there, curve.travel, shares), 1.0)
    middle = np.interp(there, curve.travel, curve.force)
    sample = np.where(this.sample.force > middle, this.sample.force * raised, this.sample.force)
    resists = evolve(
        this,
        rubbed=float(np.max((curve.force * shares)[pushed], initial=this.peak)),
        force_high=this.force_high * shares,
        sample=evolve(this.sample, force=sample),
    )
    return [resists if k == again.bend else one for k, one in enumerate(made)]
