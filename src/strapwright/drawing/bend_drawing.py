"""One bend at the press, to scale: at rest, at full stroke and let go."""

from __future__ import annotations

import math

import numpy as np
from attrs import evolve

from strapwright.bending.bend_values import Floats
from strapwright.drawing import tooling_shapes
from strapwright.drawing.bend_names import clear_of, line_of, name_ends, name_face
from strapwright.drawing.surrounding import (
    apart,
    assumed_bed,
    hatched,
    nearest_pieces,
    surrounding_shapes,
)
from strapwright.drawing.surrounding_names import View, name_clash, name_nearest, name_others
from strapwright.drawing.words_beside_bend import Facts, fact_texts, facts_of, turn_rows
from strapwright.errors import InputError
from strapwright.midline.pose_values import Pose
from strapwright.ordering.order_values import Piece
from strapwright.planning.bar_hold import nose_of
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.bar_outline import bar_outline, within
from strapwright.scene.boxes import Box
from strapwright.scene.face_edge import face_edge
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.placing import Layout
from strapwright.scene.primitives import Line, Path, Point, Scene, Shape
from strapwright.shop.tooling import Tooling

_OUTLINED = ("shoulders", "around")  # no word stands across their edges where it can help it
_PAD = 16.0  # px
_SIDE = 1.95  # openings drawn to each side of the middle at most
_DROP = 1.2  # openings drawn below them at most
_UNDER_BED = 0.06  # openings drawn below an assumed bed
_RISE = 2.1  # openings drawn above the shoulders at most
_WHOLE = 1.7  # times these limits for a bar that is then drawn whole


def bend_scene(
    plan: Plan,
    step: Step,
    pose: Pose,
    frame: Frame = WIDE,
    *,
    figures: bool = True,
    clash: tuple[Piece, ...] | None = None,
) -> Scene:
    """Draw one bend.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    pose
        ``rest``, ``stroke`` or ``released``; all three are drawn at one scale.
    frame
        Room for the drawing; on a narrow one the figures stand under it.
    figures
        Whether turn, travel and gauge stand beside the picture; without them it takes the whole
        frame.
    clash
        What the bar runs into at this pose, hatched and named where it is met, or ``None``.

    Returns
    -------
    Scene
        To scale; the nose comes from below where the press says so.

    Raises
    ------
    InputError
        Where the job has no tooling.
    """
    plan = plan.on_tooling_of(step.bend)
    tooling = plan.job.tooling
    if tooling is None:
        raise InputError(
            "tooling", "there is no tooling to draw a bend on", "give the nose and the shoulders"
        )
    facts = facts_of(plan, step, pose)
    thickness = plan.job.part.bar.thickness
    window = _window(step, tooling, thickness, assumed_bed(plan))
    if clash:
        drawn = step.poses.of(pose)
        near = apart(line_of(drawn), thickness, clash, drawn.nose_y)
        window = window if near is None else _reaching(window, near.on_piece, 3.0 * thickness)
    beside = 16.5 * frame.body if figures and not frame.narrow else 0.0
    room = frame.width - 2 * _PAD - beside
    wide, high = window.right - window.left, window.top - window.bottom
    margin = 2.8 * frame.body  # for the names of the ends
    scale = min(
        (room - 2 * margin) / wide,
        (frame.height - 2 * _PAD - 1.5 * frame.body) / high if beside or not figures else math.inf,
    )
    over = nose_of(plan.job) == "below"
    layout, view = Layout(scale=scale), View(frame=frame, window=window, over=over)
    _picture(layout, plan, tooling, step, pose, view)
    hit = {one.kind for one in clash or ()}
    name_ends(layout, plan, step, pose, view, hit=hit)
    drawn = step.poses.of(pose)
    if clash is not None:
        name_clash(layout, plan, clash, line_of(drawn), drawn.nose_y, view)
        name_others(layout, plan, step, drawn.nose_y, view, nearest_named=True, bare=True)
        return _bare(layout, plan, facts, view)
    if not figures:
        # A small picture beside sentences: what is nearest is hatched, and the sentences name it.
        return _bare(layout, plan, facts, view)
    name_face(layout, plan, step, pose, view)
    if pose == "stroke":
        name_nearest(layout, plan, step, line_of(drawn), drawn.nose_y, view)
    name_others(layout, plan, step, drawn.nose_y, view, nearest_named=pose == "stroke")
    return _framed(layout, plan, facts, view, beside)


def _window(step: Step, tooling: Tooling, thickness: float, bed: float | None = None) -> Box:
    opening = tooling.shoulders.opening
    lines = [line_of(pose) for pose in step.poses.all]
    noses = [pose.nose_y for pose in step.poses.all]
    outer = tooling.shoulders.outer_edge or opening / 2 + tooling.shoulders.radius
    widest = max(float(np.abs(line[:, 0]).max()) for line in lines) + thickness
    highest = max(float(line[:, 1].max()) for line in lines) + thickness
    more = opening * (
        _WHOLE if widest <= _WHOLE * _SIDE * opening and highest <= _WHOLE * _RISE * opening else 1
    )
    side = max(_SIDE * more, 1.1 * outer)
    most = max(_RISE * more, max(noses) + 2.5 * tooling.nose.radius)
    top = max(
        min(highest, most),
        max(noses) + 2.5 * tooling.nose.radius,
    )
    plates = [tooling_shapes.plate_height(tooling.nose, nose) for nose in noses]
    plate = max((one for one in plates if one is not None), default=math.inf)
    if plate + 0.12 * opening <= max(1.25 * top, most):
        top = max(top, plate + 0.12 * opening)
    lowest = min(
        [-0.6 * opening]
        + [nose - tooling.nose.radius - thickness - 0.1 * opening for nose in noses]
    )
    if tooling.shoulders.depth is not None:
        lowest = min(lowest, max(-tooling.shoulders.depth - 0.1 * opening, -0.9 * opening))
    hanging = min(float(line[:, 1].min()) for line in lines) - 2 * thickness
    lowest = min(lowest, max(hanging, -_DROP * opening))
    if bed is not None:  # one that nobody stated is seen, dashed
        lowest = min(lowest, max(bed - _UNDER_BED * opening, -_DROP * opening))
    reach = max(
        1.15 * outer,
        min(side, widest),
    )
    return Box(-reach, lowest, reach, top)


def _reaching(window: Box, at: Point, margin: float) -> Box:
    """Window that has a place in it, with some room about it; the middle stays where it is."""
    side = max(window.right, abs(at[0]) + margin)
    low, high = min(window.bottom, at[1] - margin), max(window.top, at[1] + margin)
    return Box(-side, low, side, high)


def _picture(
    layout: Layout, plan: Plan, tooling: Tooling, step: Step, pose: Pose, view: View
) -> None:
    frame, window, flip = view.frame, view.window, view.flip
    thickness = plan.job.part.bar.thickness
    drawn = step.poses.of(pose)
    plate = next((one for one in plan.pieces if one.kind == "push plate"), None)
    half_plate = (
        1.1 * tooling.shoulders.opening if plate is None else max(x for x, _ in plate.polygon)
    )
    rest = step.poses.rest.nose_y - tooling.nose.radius
    bars = plan.job.part.at_once * plan.job.part.bar.width
    room = Box(
        window.left,
        window.bottom - _PAD * layout.px,
        window.right,
        window.top + _air(frame, layout),
    )
    shapes: list[Shape] = [
        *surrounding_shapes(plan.pieces, drawn.nose_y, room, 0.5 * bars),
        *tooling_shapes.shoulder_shapes(tooling.shoulders, room.bottom),
        *tooling_shapes.nose_shapes(
            tooling.nose,
            drawn.nose_y,
            room.top,
            min(half_plate, window.right),
            plate_stated=plate is None or not plate.assumed,
        ),
    ]
    if pose == "stroke":
        shapes.extend(hatched(nearest_pieces(plan, step), drawn.nose_y, room, layout.px))
    if pose != "rest":
        shapes.append(Line(start=(window.left, rest), end=(window.right, rest), role="touch"))
    if pose == "released":
        ghost, _, _ = within(line_of(step.poses.stroke), clear_of(window, thickness))
        shapes.append(Path(points=bar_outline(ghost, thickness), role="ghost", closed=True))
    line, cut_left, cut_right = within(line_of(drawn), clear_of(window, thickness))
    shapes.append(Path(points=bar_outline(line, thickness), role="bar", closed=True))
    shapes.append(Path(points=bar_outline(line, thickness * 0.4), role="bar-core", closed=True))
    # As held, the nose is on the left of the bar as it runs from left to right.
    shapes.extend(face_edge(line, thickness, 1, layout.px))
    for cut, end, before in ((cut_left, line[0], line[1]), (cut_right, line[-1], line[-2])):
        if cut:
            shapes.extend(_cut(end, before, thickness, layout.px))
    layout.draw(*(tooling_shapes.turned_over(shape) if view.over else shape for shape in shapes))
    for shape in shapes:
        if isinstance(shape, Path) and shape.role in _OUTLINED:
            ring = np.array((*shape.points, shape.points[0])) * (1.0, flip)
            layout.keep_clear(ring, 1.5 * layout.px)
    layout.keep_clear(line * (1.0, flip), thickness / 2 + 2 * layout.px)
    web = tooling.nose.web_thickness
    if web is not None:
        ends = [(0.0, flip * drawn.nose_y), (0.0, flip * room.top)]
        layout.keep_clear(ends, web / 2 + 2 * layout.px)


def _air(frame: Frame, layout: Layout) -> float:
    """Room above the picture for the names of the ends [mm]."""
    return (_PAD + 1.5 * frame.body) * layout.px


def _cut(end: Floats, before: Floats, thickness: float, px: float) -> list[Shape]:
    """Two short strokes where the bar runs on beyond the picture."""
    way = (end - before) / math.hypot(*(end - before))
    across = np.array([-way[1], way[0]]) * (thickness / 2 + 4 * px)
    strokes: list[Shape] = []
    for back in (2 * px, 7 * px):
        foot = end - way * back
        a, b = foot + across + way * 3 * px, foot - across - way * 3 * px
        strokes.append(
            Line(
                start=(float(a[0]), float(a[1])),
                end=(float(b[0]), float(b[1])),
                role="break",
            )
        )
    return strokes


def _edges(layout: Layout, view: View) -> tuple[float, float]:
    """Top and bottom of the picture alone, with all words set in it so far [mm]."""
    window, px, air = view.window, layout.px, _air(view.frame, layout)
    top, bottom = window.top + air, window.bottom - _PAD * px
    if view.over:
        top, bottom = -bottom, -top
    words = np.vstack(layout.words)
    return max(top, float(words[:, 3].max())), min(bottom, float(words[:, 1].min()))


def _bare(layout: Layout, plan: Plan, facts: Facts, view: View) -> Scene:
    """Close the frame around the picture alone."""
    top, bottom = _edges(layout, view)
    half = view.frame.width / 2 * layout.px
    return Scene(
        title=f"{plan.job.part.name}: bend {facts.bend}, {facts.state}",
        description=facts.sentence,
        bounds=(-half, bottom, half, top),
        scale=layout.scale,
        shapes=tuple(layout.shapes),
    )


def _framed(layout: Layout, plan: Plan, facts: Facts, view: View, beside: float) -> Scene:
    """Set the figures beside the picture, or under it, and close the frame around both."""
    frame, px = view.frame, layout.px
    top, bottom = _edges(layout, view)
    left = -(frame.width - beside) / 2 * px
    resting = facts.state == "at rest"
    column = 0.41 * frame.width
    turn = turn_rows(facts, frame, (beside or column) - 1.5 * _PAD)
    size = turn[0][1]
    if beside:
        x, room = left + (frame.width - beside - _PAD * 0.4) * px, beside - _PAD
        texts = layout.lines((x, 0.0), turn, "start")
        under = texts[-1].at[1] - 2.1 * frame.reading * px
        texts += fact_texts(facts, frame, (x, under), room, px, hold_first=resting)
        high = 0.75 * size * px
        tall = high - texts[-1].at[1]
        spare = tall + 2 * _PAD * px - (top - bottom)
        if spare > 0:
            top, bottom = top + spare / 2, bottom - spare / 2
        shift = (top + bottom) / 2 - high + tall / 2
    else:
        x = left + _PAD * px
        texts = layout.lines((x, 0.0), turn, "start")
        texts += fact_texts(
            facts,
            frame,
            (left + column * px, 0.35 * size * px),
            frame.width - column - 0.5 * _PAD,
            px,
            hold_first=resting,
        )
        shift = bottom - 0.85 * size * px
        bottom = min(text.at[1] for text in texts) + shift - _PAD * px
    layout.add(*(evolve(text, at=(text.at[0], text.at[1] + shift)) for text in texts))
    height = math.ceil((top - bottom) * layout.scale - 1e-6) * px
    return Scene(
        title=f"{plan.job.part.name}: bend {facts.bend}, {facts.state}",
        description=facts.sentence,
        bounds=(left, top - height, left + frame.width * px, top),
        scale=layout.scale,
        shapes=tuple(layout.shapes),
    )
