"""A bend as some seventy pictures made beforehand, so that moving the ram asks nobody."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.hydraulics import pressure_for
from strapwright.bending.model import build
from strapwright.bending.shape import HalfShape, half_shape
from strapwright.bending.values import Band, BendSetup, Floats
from strapwright.drawing.bar_outline import thinned
from strapwright.drawing.bench import turned_over
from strapwright.drawing.moving_bend import MovingBend, moving_bend
from strapwright.drawing.svg import shapes_to_svg
from strapwright.planning.figures import Figures, figures_for
from strapwright.planning.off_motion import off_lines
from strapwright.planning.setups import bend_setup, known_bar
from strapwright.planning.values import Plan, Step
from strapwright.quantities import round_to_band

PUSHING = 54  # pictures from touch to full stroke
LETTING_GO = 14  # and from there until the bar is free
COMING_OFF = 16  # and on the way off the nose, at most
_FLAT = 1e-6  # mm


@frozen(kw_only=True)
class Frame:
    """One picture: the bar's mid-line, the nose, and what is read there.

    Attributes
    ----------
    line
        From left to right, shape (k, 2), die coordinates [mm].
    nose
        Height of the nose's centre [mm].
    travel
        From touch [mm].
    angle
        Of the bend as it is at that moment [rad].
    force
        On the nose [N].
    """

    line: Floats
    nose: float
    travel: float
    angle: float
    force: float


def frames_of(plan: Plan, step: Step) -> tuple[Frame, ...]:
    """Make the pictures of a bend.

    Parameters
    ----------
    plan, step
        The step belongs to the plan; the plan has tooling.

    Returns
    -------
    tuple of Frame
        At rest, ``PUSHING`` on the way down and ``LETTING_GO`` on the way back.  A hit of a row and
        a stack of bars are not one bend of straight bar: of these there are the three poses alone.
    """
    stops = {"rest": (0.0, 0.0, 0.0), "stroke": _full(step), "released": _free(step)}
    if step.hits > 1 or plan.job.part.stacked > 1 or plan.job.tooling is None:
        return tuple(
            Frame(
                line=np.column_stack((step.poses[name].x, step.poses[name].y)),
                nose=step.poses[name].nose_y,
                travel=travel,
                angle=angle,
                force=force,
            )
            for name, (travel, angle, force) in stops.items()
        )
    setup = bend_setup(plan.job, known_bar(plan.job), plan.job.tooling)
    model = build(setup)
    rest = np.column_stack((step.poses["rest"].x, step.poses["rest"].y))
    frames = [Frame(line=rest, nose=step.poses["rest"].nose_y, travel=0.0, angle=0.0, force=0.0)]
    curve = step.curve
    shape = None
    for share in np.linspace(0.0, 1.0, PUSHING + 1)[1:]:
        travel = step.setting.travel * float(share)
        shape = half_shape(model, travel=travel)
        frames.append(
            _frame(setup, rest, shape, travel, float(np.interp(travel, curve.travel, curve.force)))
        )
    if shape is None:
        return tuple(frames)
    last = frames[-1]
    for share in np.linspace(0.0, 1.0, LETTING_GO + 1)[1:]:
        # Letting go is elastic: every curvature goes back in step with the force.
        bent = shape.loaded + float(share) * (shape.free - shape.loaded)
        slope = float(np.sum(bent * np.diff(shape.arc)))
        eased = evolve(shape, loaded=bent, slope=slope)
        frame = _frame(setup, rest, eased, last.travel, last.force * (1.0 - float(share)))
        frames.append(evolve(frame, travel=last.travel - (frame.nose - last.nose)))
    return tuple(frames)


def off_frames(plan: Plan, step: Step) -> tuple[Floats, ...]:
    """Mid-lines of the part from where it was let go until it is off the nose.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.

    Returns
    -------
    tuple of array
        At most ``COMING_OFF`` lines of shape (k, 2), die coordinates with the nose where it let go
        [mm]; none where the part does not come off in this plane or nobody looked.
    """
    off, tooling = step.coming_off, plan.job.tooling
    if tooling is None or off is None or off.verdict != "free":
        return ()
    lift = np.array([0.0, step.poses["released"].nose_y])
    return tuple(line + lift for line in off_lines(step, tooling.nose.radius, COMING_OFF))


def _full(step: Step) -> tuple[float, float, float]:
    return step.setting.travel, step.loaded_angle, step.force


def _free(step: Step) -> tuple[float, float, float]:
    rise = step.poses["released"].nose_y - step.poses["stroke"].nose_y
    return step.setting.travel - rise, step.free_angle, 0.0


def _frame(setup: BendSetup, rest: Floats, shape: HalfShape, travel: float, force: float) -> Frame:
    """Lay the bar over the shoulders: the bend from the solver, what lies beyond as it was."""
    x, y, theta = shape.points(released=False)
    slope = float(theta[-1])
    half, round_ = 0.5 * setup.thickness, setup.shoulder_radius
    lift = -round_ + (round_ + half) * math.cos(slope) - float(y[-1])
    reach = float(shape.arc[-1])
    right = _wing(rest, reach, 1.0)
    left = _wing(rest, reach, -1.0)
    c, s = math.cos(slope), math.sin(slope)

    def swung(wing: Floats) -> Floats:
        out, up = wing[:, 0] - reach, wing[:, 1] - half
        return np.column_stack((x[-1] + c * out - s * up, y[-1] + s * out + c * up))

    right_side = np.vstack((np.column_stack((x, y)), swung(right)))
    left_side = np.vstack((np.column_stack((x, y)), swung(left)))[:0:-1] * (-1.0, 1.0)
    line = np.vstack((left_side, right_side)) + np.array([0.0, lift])
    return Frame(
        line=line,
        nose=lift + half + setup.nose_radius,
        travel=travel,
        angle=2.0 * slope,
        force=force,
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


def frames_to_data(plan: Plan, step: Step) -> dict[str, Any]:
    """Turn the pictures into what the page needs: paths in mm with y down, and words.

    Returns
    -------
    dict
        ``view`` left, top, width, height; per picture ``bar``, ``nose``, ``ends``, ``turn``,
        ``travel``, ``load``; ``stop`` the number of the picture at full stroke; ``off`` the bar on
        its way off the nose after the last picture, ``off_text`` how it comes off.
    """
    moving = moving_bend(plan, step)
    frames = frames_of(plan, step)
    flip = 1.0 if moving.over else -1.0  # y runs down on the page
    view = moving.view
    wide = view.right - view.left
    places = 1 if wide > 120 else 2
    show = figures_for(plan.job)
    stop = PUSHING if len(frames) > PUSHING else 1
    return {
        "view": _view(moving, flip),
        "thickness": round(plan.job.part.bar.thickness, 3),
        "bar": [_path(frame.line, flip, wide, places) for frame in frames],
        "nose": [round(flip * frame.nose, places + 1) for frame in frames],
        "ends": [_ends(frame.line, moving, flip) for frame in frames],
        "turn": [_turn(step, frame.angle) for frame in frames],
        "travel": [show.setting(frame.travel) for frame in frames],
        "load": [_load(plan, step, show, frame.force) for frame in frames],
        "stop": stop,
        "off": [_path(line, flip, wide, places) for line in off_frames(plan, step)],
        "off_text": "" if step.coming_off is None else step.coming_off.text,
    }


def still_svg(moving: MovingBend) -> str:
    """Draw what stands still, in mm with y down."""
    return (
        shapes_to_svg(turned_over(one) for one in moving.still)
        if moving.over
        else (shapes_to_svg(moving.still))
    )


def ram_svg(moving: MovingBend) -> str:
    """Draw the ram about the nose's centre, in mm with y down."""
    return (
        shapes_to_svg(turned_over(one) for one in moving.ram)
        if moving.over
        else (shapes_to_svg(moving.ram))
    )


def _view(moving: MovingBend, flip: float) -> list[float]:
    view = moving.view
    top = view.bottom if flip > 0 else -view.top
    return [
        round(one, 2) for one in (view.left, top, view.right - view.left, view.top - view.bottom)
    ]


def _path(line: Floats, flip: float, wide: float, places: int) -> str:
    points = thinned(line, wide / 4000) * (1.0, flip)
    words = [f"{round(x, places):g} {round(y, places):g}" for x, y in points.tolist()]
    return f"M{'L'.join(words)}"


def _ends(line: Floats, moving: MovingBend, flip: float) -> list[float]:
    """Where the names of both ends stand: beside the end, inside the picture [mm]."""
    view, out = moving.view, []
    room = 0.06 * (view.right - view.left)
    for end, before in ((line[0], line[3]), (line[-1], line[-4])):
        way = (end - before) / max(math.hypot(*(end - before)), 1e-9)
        x = min(max(end[0] + room * way[0], view.left + room), view.right - room)
        y = min(max(end[1] + room * way[1], view.bottom + room), view.top - room)
        out += [round(float(x), 1), round(float(flip * y), 1)]
    return out


def _turn(step: Step, angle: float) -> str:
    band = step.bands["loaded_angle_deg"]
    half = 0.5 * (band.high - band.low)
    degrees = math.degrees(angle)
    return f"{round_to_band(degrees, degrees - half, degrees + half)}°"


def _load(plan: Plan, step: Step, show: Figures, force: float) -> str:
    press = plan.job.press
    share = force / step.force
    if press is None or press.bore is None or step.gauge is None:
        band = step.bands["force_N"]
        return show.force(force, Band(low=band.low * share, high=band.high * share))
    reading = pressure_for(force, press.bore, press.efficiency, press.no_load)
    half = 0.5 * (step.gauge.high - step.gauge.low)
    return show.pressure(reading, Band(low=reading - half, high=reading + half))
