"""A bend as pictures made beforehand, so that moving the ram asks nobody."""

from __future__ import annotations

import math

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bar_shape import HalfShape, half_shape
from strapwright.bending.bend_values import BendSetup, Floats, StrokeCurve
from strapwright.bending.solver import curve_of
from strapwright.bending.solver_model import Model, build
from strapwright.blank.hit_spacing import Row
from strapwright.errors import BendAt, InputError
from strapwright.midline.pose_values import DrawnPose
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.hits_and_stacks.hit_rows import hit_pose, rows_of
from strapwright.planning.hits_and_stacks.stacked_bars import stack_of
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.tooling import Tooling

_FLAT = 1e-6  # mm
_STRAIGHT = 1e-4  # rad; own choice, less than is drawn: a bar turned by so little lies flat
AT_TOUCH, PUSHING, STROKE = "first contact", "pushing", "full stroke, under load"
LETTING_GO, LET_GO = "backing off", "released"


@frozen(kw_only=True)
class Pace:
    """How many pictures of each part of a bend.

    Attributes
    ----------
    pushing, letting_go
        From touch to full stroke, and from there until the bar is free.
    coming_off
        While the ram opens and the part comes off, about.
    row
        Of all hits of a row together, about.
    """

    pushing: int = 54
    letting_go: int = 14
    coming_off: int = 24
    row: int = 120


ONE_BEND = Pace()
WHOLE_PART = Pace(pushing=14, letting_go=4, coming_off=12, row=40)


@frozen(kw_only=True)
class Frame:
    """One picture: the bar's mid-line, the nose, and what is read there.

    Attributes
    ----------
    line
        Of the bar at the nose, from left to right, shape (k, 2), die coordinates [mm].
    nose
        Height of the nose's centre [mm].
    travel
        From touch; of a row, of this hit [mm].
    angle
        Of the bend as it is at that moment; of a row, of all its hits so far [rad].
    force
        On the nose, all bars [N].
    doing
        What happens, in words.
    """

    line: Floats
    nose: float
    travel: float
    angle: float
    force: float
    doing: str


def tooling_of(plan: Plan) -> Tooling:
    """Return the tooling that a bend is drawn on.

    Raises
    ------
    InputError
        Where the job has none.
    """
    if plan.job.tooling is None:
        raise InputError(
            "tooling", "there is no tooling to draw a bend on", "give the nose and the shoulders"
        )
    return plan.job.tooling


def frames_of(plan: Plan, step: Step, pace: Pace = ONE_BEND) -> tuple[Frame, ...]:
    """Make the pictures of a bend.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    pace
        How many.

    Returns
    -------
    tuple of Frame
        At rest, on the way down and on the way back until the bar is free; of a row of hits so for
        each hit in turn, from the end that carries the first mark.

    Raises
    ------
    InputError
        Where the job has no tooling.
    """
    plan = plan.on_tooling_of(step.bend)
    known = known_bar(plan.job)
    setup = bend_setup(plan.job, known, tooling_of(plan))
    row = rows_of(plan.job, known)[step.bend - 1]
    if row is not None:
        return _row_frames(plan, step, setup, row, pace)
    return _bend_frames(plan, step, setup, pace)


def stop_of(frames: tuple[Frame, ...]) -> int:
    """Return the number of the picture at full stroke; of a row, of its last hit."""
    return max(k for k, frame in enumerate(frames) if STROKE in frame.doing)


def _bend_frames(plan: Plan, step: Step, setup: BendSetup, pace: Pace) -> tuple[Frame, ...]:
    bars = plan.job.part.stacked
    stack = stack_of(setup, bars, step.wanted, BendAt(step.bend))
    # The bar at the nose; those beneath it follow it one thickness farther out each.
    setup = setup if stack is None else stack.inner
    beneath = (bars - 1) * setup.thickness
    model = build(setup)
    rest = _line_of(step.poses.rest)
    frames = [
        Frame(
            line=rest,
            nose=step.poses.rest.nose_y,
            travel=0.0,
            angle=0.0,
            force=0.0,
            doing=AT_TOUCH,
        )
    ]
    curve, own = step.curve, curve_of(model)
    shape = None
    for share in np.linspace(0.0, 1.0, pace.pushing + 1)[1:]:
        travel = step.setting.travel * float(share)
        angle = step.loaded_angle
        if share < 1.0:
            angle = float(np.interp(travel, curve.travel, curve.loaded_angle))
        shape = _read_shape(model, own, angle)
        frame = frames[0] if shape is None else _frame(setup, rest, shape, beneath)
        force = float(np.interp(travel, curve.travel, curve.force))
        doing = PUSHING if share < 1.0 else STROKE
        frames.append(evolve(frame, travel=travel, force=force, doing=doing))
    last = frames[-1]
    for share in np.linspace(0.0, 1.0, pace.letting_go + 1)[1:]:
        if shape is None:
            break
        # Letting go is elastic: every curvature goes back in step with the force, by as much in all
        # as the bend is said to spring back.
        back = shape.loaded - shape.free
        turned = 2.0 * float(np.sum(back * np.diff(shape.arc)))
        part = (step.loaded_angle - step.free_angle) / turned if turned > 0.0 else 1.0
        bent = shape.loaded - float(share) * part * back
        eased = evolve(shape, loaded=bent, slope=float(np.sum(bent * np.diff(shape.arc))))
        frame = _frame(setup, rest, eased, beneath)
        frames.append(
            evolve(
                frame,
                travel=last.travel - (frame.nose - last.nose),
                force=last.force * (1.0 - float(share)),
                doing=LETTING_GO if share < 1.0 else LET_GO,
            )
        )
    return tuple(frames)


def _read_shape(model: Model, own: StrokeCurve, angle: float) -> HalfShape | None:
    """Return the bar at a loaded angle as it is read at the press [rad]; ``None`` while it is flat.

    What the log taught moves angle and travel against the solver's own stroke, so the solver is
    asked by the angle, and what it misses of that is spread evenly over the bar.
    """
    if angle <= _STRAIGHT:
        return None
    shape = half_shape(model, travel=float(np.interp(angle, own.loaded_angle, own.travel)))
    share = 0.5 * angle / shape.slope
    loaded = shape.loaded * share
    return evolve(
        shape, loaded=loaded, free=loaded - (shape.loaded - shape.free), slope=0.5 * angle
    )


def _row_frames(
    plan: Plan, step: Step, setup: BendSetup, row: Row, pace: Pace
) -> tuple[Frame, ...]:
    """Every hit of a row: touch, on the way down, full stroke, let go."""
    part, blank = plan.job.part, plan.blank
    if blank is None:
        raise InputError("part", "there is no blank to bend", "give the legs and the bends")
    down = min(max(pace.row // row.hits - 2, 1), 10)
    before = [one.bend - 1 for one in plan.steps if one.order < step.order]
    zone, curve = blank.zone(step.bend), step.curve

    def posed(hit: int, angle: float | None) -> DrawnPose:
        return hit_pose(
            blank.length,
            [plan.zones[one] for one in before],
            zone,
            row,
            setup,
            hit=hit,
            side=part.bends[step.bend - 1].side,
            turned=step.hold.roll,
            end_left=step.hold.end_left,
            loaded=angle,
        )

    frames: list[Frame] = []
    for hit in range(row.hits):
        so_far, words = hit * row.angle, f"hit {hit + 1} of {row.hits}, "
        at_touch = posed(hit, None)
        for share in np.linspace(0.0, 1.0, down + 1):
            travel = step.setting.travel * float(share)
            angle = float(np.interp(travel, curve.travel, curve.loaded_angle))
            doing = AT_TOUCH if share == 0.0 else PUSHING if share < 1.0 else STROKE
            pose = at_touch if share == 0.0 else posed(hit, angle)
            frames.append(
                Frame(
                    line=_line_of(pose),
                    nose=pose.nose_y,
                    travel=travel,
                    angle=so_far + angle,
                    force=float(np.interp(travel, curve.travel, curve.force)),
                    doing=words + doing,
                )
            )
        pose, full = posed(hit, row.angle), frames[-1]
        frames.append(
            Frame(
                line=_line_of(pose),
                nose=pose.nose_y,
                travel=full.travel - (pose.nose_y - full.nose),
                angle=so_far + row.angle,
                force=0.0,
                doing=words + LET_GO,
            )
        )
    return tuple(frames)


def _line_of(pose: DrawnPose) -> Floats:
    return np.column_stack((pose.x, pose.y))


def _frame(setup: BendSetup, rest: Floats, shape: HalfShape, beneath: float) -> Frame:
    """Lay the bar over the shoulders: the bend from the solver, what lies beyond as it was."""
    x, y, theta = shape.points(released=False)
    slope = float(theta[-1])
    half, round_ = 0.5 * setup.thickness, setup.shoulder_radius
    lift = beneath - round_ + (round_ + half) * math.cos(slope) - float(y[-1])
    reach = float(shape.arc[-1])
    right = _wing(rest, reach, 1.0)
    left = _wing(rest, reach, -1.0)
    c, s = math.cos(slope), math.sin(slope)

    def swung(wing: Floats) -> Floats:
        out, up = wing[:, 0] - reach, wing[:, 1] - half - beneath
        return np.column_stack((x[-1] + c * out - s * up, y[-1] + s * out + c * up))

    right_side = np.vstack((np.column_stack((x, y)), swung(right)))
    left_side = np.vstack((np.column_stack((x, y)), swung(left)))[:0:-1] * (-1.0, 1.0)
    line = np.vstack((left_side, right_side)) + np.array([0.0, lift])
    return Frame(
        line=line,
        nose=lift + half + setup.nose_radius,
        travel=0.0,
        angle=2.0 * slope,
        force=0.0,
        doing="",
    )


def _wing(rest: Floats, reach: float, sign: float) -> Floats:
    """Bar beyond ``reach`` from the middle on one side, mirrored to the right, as it lies flat."""
    line = (rest if sign > 0 else rest[::-1]) * (sign, 1.0)
    lying = np.flatnonzero(np.abs(line[:, 1] - line[_middle(line), 1]) < _FLAT)
    after = line[lying[np.argmin(np.abs(line[lying, 0]))] :]
    run = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(after, axis=0).T)))) + after[0, 0]
    beyond = after[run > reach]
    return beyond if len(beyond) else after[-1:]


def _middle(line: Floats) -> int:
    """Point of a bar at rest that lies nearest to where the nose touches it."""
    return int(np.argmin(np.hypot(line[:, 0], line[:, 1])))
