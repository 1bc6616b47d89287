"""Both halves at full opening and the part on its way off, or what it is locked on."""

from __future__ import annotations

import math

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.drawing import tooling_shapes
from strapwright.drawing.surrounding import corners_of, hatched, others, surrounding_shapes
from strapwright.drawing.surrounding_names import View, name_others
from strapwright.errors import InputError
from strapwright.motion.off_places import nose_height, off_lines
from strapwright.planning.bar_hold import nose_of
from strapwright.planning.plan_values import (
    Plan,
    Step,
)
from strapwright.planning.surroundings.off_values import ComingOff
from strapwright.scene.bar_outline import bar_outline, thinned
from strapwright.scene.boxes import Box
from strapwright.scene.face_edge import face_edge
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.lettering import wrap
from strapwright.scene.placing import Layout, Row
from strapwright.scene.primitives import Line, Path, Scene, Shape
from strapwright.shop.tooling import Tooling
from strapwright.wording.steps.way_off_words import VERDICTS, way_off_words

_PAD = 16.0  # px
_FINE = 0.05  # mm a drawn mid-line may be off
_MORE = 0.6  # of what part, nose and shoulders take, for what else stands there
_BESIDE = ("guide rod", "column", "obstacle")
_EDGES = ("assumed", "beside", "around-edge")
_PLACES = 5  # of the part from the nose to off it
_HEADS = {
    "free": "comes off",
    "locked on": VERDICTS["locked on"],
    "too close to call": "not checked",
    "not decided": "not checked",
}


def off_scene(plan: Plan, step: Step, frame: Frame = WIDE) -> Scene:
    """Draw how the part comes off the nose after a bend.

    Parameters
    ----------
    plan, step
        The step belongs to the plan and says how the part comes off.
    frame
        Room for the drawing; on a narrow one the words stand under it.

    Returns
    -------
    Scene
        To scale, with all that stands there, what nobody stated dashed: where the part is once the
        halves are open and places on its way as outlines, the last one solid.  Of a part that is
        locked on what holds it is hatched.

    Raises
    ------
    InputError
        Where the job has no tooling, or coming off was not looked at.
    """
    plan = plan.on_tooling_of(step.bend)
    tooling, off = plan.job.tooling, step.coming_off
    if tooling is None:
        raise InputError(
            "tooling", "there is no tooling to draw the part on", "give the nose and the shoulders"
        )
    if off is None:
        raise InputError(
            f"bend {step.bend}",
            "how the part comes off after it is not checked",
            "plan the job with the search for its order",
        )
    height = nose_height(step)
    lines = [
        thinned(line, _FINE) + np.array([0.0, height])
        for line in off_lines(step, tooling.nose.radius, _PLACES)
    ]
    window = _window(plan, lines, tooling, height)
    beside = 16.5 * frame.body if not frame.narrow else 0.0
    scale = min(
        (frame.width - 2 * _PAD - beside) / (window.right - window.left),
        (frame.height - 2 * _PAD) / (window.top - window.bottom),
    )
    over = nose_of(plan.job) == "below"
    layout = Layout(scale=scale)
    shapes = _picture(plan, off, tooling, lines, window, height=height, px=layout.px)
    layout.draw(*(tooling_shapes.turned_over(shape) if over else shape for shape in shapes))
    flip = -1.0 if over else 1.0
    for line in lines:
        layout.keep_clear(line * (1.0, flip), 0.5 * plan.job.part.bar.thickness + 2 * layout.px)
    r = tooling.nose.radius
    layout.keep_clear([(0.0, flip * (height - 0.1 * r)), (0.0, flip * (height + 0.1 * r))], r)
    for shape in shapes:  # no word stands across an edge where it can help it
        if isinstance(shape, Line) and shape.role in _EDGES:
            ends = [(x, flip * y) for x, y in (shape.start, shape.end)]
            layout.keep_clear(ends, 1.5 * layout.px)
    view = View(frame=frame, window=window, over=over)
    name_others(layout, plan, step, height, view, nearest_named=False)
    return _framed(layout, plan, step, off, frame, window, beside=beside, over=over)


def _window(plan: Plan, lines: list[Floats], tooling: Tooling, height: float) -> Box:
    """What is seen: part, nose and shoulders, and the bed and what stands near them."""
    every = np.vstack(lines)
    thickness, r = plan.job.part.bar.thickness, tooling.nose.radius
    shoulders = tooling.shoulders
    low = every.min(axis=0) - thickness
    high = every.max(axis=0) + thickness
    edge = shoulders.outer_edge or 0.5 * shoulders.opening + shoulders.radius
    across = max(float(high[0]), -float(low[0]), 1.15 * edge, 2.0 * r)
    bottom = min(float(low[1]), -0.6 * shoulders.opening)
    top = max(float(high[1]), height + 3.0 * r)
    room = top - bottom
    plate = tooling_shapes.plate_height(tooling.nose, height)
    if plate is not None and plate + r <= top + _MORE * room:
        top = max(top, plate + r)
    for piece in others(plan.pieces):
        corners = corners_of(piece, height)
        near = float(np.abs(corners[:, 0]).min()) if abs(corners[:, 0].sum()) > 0.0 else 0.0
        far = float(np.abs(corners[:, 0]).max())
        if piece.kind == "bed" and corners[:, 1].max() > bottom - _MORE * room:
            bottom = min(bottom, float(corners[:, 1].max()) - r)
        elif piece.kind in _BESIDE and near < (1.0 + _MORE) * across:
            across = max(across, min(far + r, (1.0 + _MORE) * across))
    return Box(-across, bottom, across, top)


def _picture(
    plan: Plan,
    off: ComingOff,
    tooling: Tooling,
    lines: list[Floats],
    window: Box,
    *,
    height: float,
    px: float,
) -> list[Shape]:
    thickness = plan.job.part.bar.thickness
    plate = next((one for one in plan.pieces if one.kind == "push plate"), None)
    half_plate = tooling.shoulders.opening if plate is None else max(x for x, _ in plate.polygon)
    half = 0.5 * plan.job.part.at_once * plan.job.part.bar.width
    # What carries the nose beside the bar is seen when the part slides past it, not from here.
    about = [
        one
        for one in plan.pieces
        if one.side != "nose" or one.z is None or (one.z[0] < half and one.z[1] > -half)
    ]
    shapes: list[Shape] = [
        *surrounding_shapes(about, height, window, half),
        *tooling_shapes.shoulder_shapes(tooling.shoulders, window.bottom),
        *tooling_shapes.nose_shapes(
            tooling.nose,
            height,
            window.top,
            min(half_plate, -window.left, window.right),
            plate_stated=plate is None or not plate.assumed,
        ),
    ]
    if off.verdict == "locked on":
        names = ("nose",) if tooling.nose.drawable or not off.held_by else off.held_by
        holds = (one for one in plan.pieces if one.owner in names)
        shapes += hatched(holds, height, window, px)
    *before, last = lines
    shapes += [
        Path(points=bar_outline(line, thickness), role="ghost", closed=True) for line in before
    ]
    shapes += [
        Path(points=bar_outline(last, thickness), role="bar", closed=True),
        Path(points=bar_outline(last, 0.4 * thickness), role="bar-core", closed=True),
        *face_edge(last, thickness, 1, px),
    ]
    return shapes


def _framed(
    layout: Layout,
    plan: Plan,
    step: Step,
    off: ComingOff,
    frame: Frame,
    window: Box,
    *,
    beside: float,
    over: bool,
) -> Scene:
    """Set the words beside the picture, or under it, and close the frame around both."""
    px = layout.px
    top, bottom = (-window.bottom, -window.top) if over else (window.top, window.bottom)
    top, bottom = top + _PAD * px, bottom - _PAD * px
    middle = 0.5 * (window.left + window.right)
    left = middle - 0.5 * (frame.width - beside) * px
    room = (beside or frame.width - _PAD) - _PAD
    size = 0.55 * frame.large
    rows: list[Row] = [
        (f"after bend {step.bend}", frame.body, "label"),
        (_HEADS[off.verdict], size, "figure"),
    ]
    rows += [
        (row, frame.reading, "value") for row in wrap(way_off_words(step), frame.reading, room)
    ]
    x = left + ((frame.width - beside) if beside else _PAD) * px
    texts = layout.lines((x, 0.0), rows, "start")
    high = layout.half_size(rows)[1]
    shift = 0.5 * (top + bottom) + high - 0.75 * size * px if beside else bottom - 0.9 * size * px
    if not beside:
        bottom = texts[-1].at[1] + shift - _PAD * px
    elif 2 * (high + _PAD * px) > top - bottom:
        spare = 2 * (high + _PAD * px) - (top - bottom)
        top, bottom = top + 0.5 * spare, bottom - 0.5 * spare
    layout.add(*layout.lines((x, shift), rows, "start"))
    height = math.ceil((top - bottom) * layout.scale - 1e-6) * px
    return Scene(
        title=f"{plan.job.part.name}: off the nose after bend {step.bend}",
        description=f"After bend {step.bend}: {way_off_words(step)}",
        bounds=(left, top - height, left + frame.width * px, top),
        scale=layout.scale,
        shapes=tuple(layout.shapes),
    )
