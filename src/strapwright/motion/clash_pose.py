"""The bar where it clashes: at the angle, and with the bends made, at which a refusal says so."""

from __future__ import annotations

import numpy as np
from attrs import evolve, frozen
from shapely.affinity import translate
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot
from shapely.geometry.base import BaseGeometry

from strapwright.bending.bar_shape import half_shape
from strapwright.bending.solver_model import build
from strapwright.blank.blank_values import Blank
from strapwright.errors import BendAt, InputError
from strapwright.midline.bar_poses import half_bent, pose
from strapwright.midline.pose_values import DrawnPose, End
from strapwright.motion.bend_frames import tooling_of
from strapwright.ordering.order_values import Piece
from strapwright.ordering.refusal_values import AtHit, Hits, InStack, Refusal, TooNear, TooShallow
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.hits_and_stacks.hit_rows import hit_pose, rows_of
from strapwright.planning.hits_and_stacks.stacked_bars import stack_of
from strapwright.planning.plan_values import Plan, Step

_HALVINGS = 30  # of the nose's way down; a millionth of a millimetre is left


@frozen(kw_only=True)
class ClashPose:
    """A bend as it stands where it clashes.

    Attributes
    ----------
    pose
        Of the bar at the nose.
    end_left
        Which end of the blank points left.
    pieces
        What the bar runs into, which may consist of several; none where it meets itself.
    """

    pose: DrawnPose
    end_left: End
    pieces: tuple[Piece, ...]


def clash_pose(plan: Plan, step: Step, refusal: Refusal) -> ClashPose:
    """Set the bar as it stands where it clashes.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    refusal
        Of its bend, from :func:`strapwright.motion.refused_bends.clash_of`.

    Raises
    ------
    InputError
        Where the job has no tooling or no blank.
    """
    plan = plan.on_tooling_of(step.bend)
    blank = plan.blank
    if blank is None:
        raise InputError("part", "there is no blank to bend", "give the legs and the bends")
    end = refusal.end_left or step.hold.end_left
    reason, hit = refusal.reason, None
    while isinstance(reason, AtHit | InStack):
        hit = reason.hit if isinstance(reason, AtHit) else hit
        reason = reason.reason
    phase = reason.phase if isinstance(reason, Hits) else "stroke"
    # What only comes too near, or has no angle of its own, is shown where the stroke ends.
    angle = getattr(reason, "angle", step.loaded_angle) if phase == "stroke" else 0.0
    if hit is not None:
        found = _row_pose(plan, step, blank, refusal, end, hit=hit - 1, angle=angle)
    else:
        found = _bend_pose(plan, step, blank, refusal, end, angle)
    pieces = _pieces(plan, reason)
    if phase == "closing":
        found = evolve(found, nose_y=_first_touch(plan, found, pieces))
    return ClashPose(pose=found, end_left=end, pieces=pieces)


def _pieces(plan: Plan, reason: object) -> tuple[Piece, ...]:
    if isinstance(reason, TooShallow):
        return tuple(one for one in plan.pieces if one.kind == "floor")
    met = reason.piece if isinstance(reason, Hits | TooNear) else None
    if met is None:
        return ()
    return tuple(one for one in plan.pieces if (one.kind, one.name) == (met.kind, met.name))


def _bend_pose(
    plan: Plan, step: Step, blank: Blank, refusal: Refusal, end: End, angle: float
) -> DrawnPose:
    part = plan.job.part
    setup = bend_setup(plan.job, known_bar(plan.job), tooling_of(plan))
    stack = stack_of(setup, part.stacked, step.wanted, BendAt(step.bend))
    setup = setup if stack is None else stack.inner
    shape = None
    curve = step.curve
    if angle > float(curve.loaded_angle[1]):
        # Past the end of the curve the bar is shown as far as it was followed.
        travel = float(np.interp(angle, curve.loaded_angle, curve.travel))
        shape = half_shape(build(setup), travel=travel)
    line = half_bent(
        blank.length,
        [plan.zones[bend - 1] for bend in sorted(refusal.stage.made)],
        middle=blank.marks_of(step.bend)[0].nose,
        half_flat=0.0 if shape is None else float(shape.arc[-1]),
        side=part.bends[step.bend - 1].side,
        turned=step.hold.roll,
        end_left=end,
        shape=shape,
        released=False,
    )
    return pose(
        line,
        thickness=setup.thickness,
        nose_radius=setup.nose_radius,
        shoulder_radius=setup.shoulder_radius,
        slope=None if shape is None else shape.slope,
        beneath=(part.stacked - 1) * setup.thickness,
    )


def _row_pose(
    plan: Plan, step: Step, blank: Blank, refusal: Refusal, end: End, hit: int, angle: float
) -> DrawnPose:
    known = known_bar(plan.job)
    row = rows_of(plan.job, known)[step.bend - 1]
    if row is None:
        raise InputError(BendAt(step.bend), "this bend is made by one hit", "draw it as such")
    return hit_pose(
        blank.length,
        [plan.zones[bend - 1] for bend in sorted(refusal.stage.made)],
        blank.zone(step.bend),
        row,
        bend_setup(plan.job, known, tooling_of(plan)),
        hit=hit,
        side=plan.job.part.bends[step.bend - 1].side,
        turned=step.hold.roll,
        end_left=end,
        loaded=angle if angle > 0.0 else None,
    )


def _first_touch(plan: Plan, rest: DrawnPose, pieces: tuple[Piece, ...]) -> float:
    """Height of the nose's centre at which its side, coming down, first meets the bar [mm]."""
    bar = LineString(np.column_stack((rest.x, rest.y))).buffer(
        0.5 * plan.job.part.bar.thickness, cap_style="flat"
    )
    shapes = [_shape(one) for one in pieces]

    def meets(nose: float) -> bool:
        return any(translate(one, 0.0, nose).intersects(bar) for one in shapes)

    low = rest.nose_y
    # Above its own height and all of the piece nothing of the bar is met any more.
    high = (
        low + bar.bounds[3] - bar.bounds[1] + sum(one.bounds[3] - one.bounds[1] for one in shapes)
    )
    if meets(high) or not shapes:
        return low
    # The highest place of contact, looked for from above in steps of a bar's thickness at most.
    step = max(0.5 * plan.job.part.bar.thickness, (high - low) / 400.0)
    at = high
    while at > low and not meets(at):
        at -= step
    inside, clear = max(at, low), min(at + step, high)
    for _ in range(_HALVINGS):
        middle = 0.5 * (inside + clear)
        inside, clear = (middle, clear) if meets(middle) else (inside, middle)
    return inside


def _shape(piece: Piece) -> BaseGeometry:
    if piece.centre is not None:
        return Spot(piece.centre).buffer(piece.radius)
    return Polygon(piece.polygon)
