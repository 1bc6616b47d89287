"""Words on the drawing of a bend: ends of the bar, its hatched face, nose, shoulders and plate."""

from __future__ import annotations

import math
from collections.abc import Collection

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.drawing import tooling_shapes
from strapwright.drawing.surrounding_names import View, optional, within_picture
from strapwright.midline.pose_values import DrawnPose, Pose
from strapwright.motion.bend_frames import tooling_of
from strapwright.ordering.order_values import PieceKind
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.bar_outline import thinned, within
from strapwright.scene.boxes import Box
from strapwright.scene.placing import Layout, Row
from strapwright.shop.tooling import Tooling
from strapwright.wording.steps import hold_words

_FINE = 0.02  # mm a drawn mid-line may be off


def line_of(pose: DrawnPose) -> Floats:
    """Mid-line of a pose with as few points as a drawing needs, shape (k, 2) [mm]."""
    return thinned(np.column_stack((pose.x, pose.y)), _FINE)


def clear_of(window: Box, thickness: float) -> Box:
    """Window for a mid-line whose bar stays in the picture above and below."""
    return Box(window.left, window.bottom + thickness, window.right, window.top - thickness)


def name_ends(
    layout: Layout,
    plan: Plan,
    step: Step,
    pose: Pose,
    view: View,
    *,
    hit: Collection[PieceKind] = (),
) -> None:
    """Name the ends of the bar and the pieces of the tooling, but for what is named as hit."""
    frame, window, flip, px = view.frame, view.window, view.flip, layout.px
    tooling, thickness = tooling_of(plan), plan.job.part.bar.thickness
    drawn = step.poses.of(pose)
    line, _, _ = within(line_of(drawn), clear_of(window, thickness))
    # Where the plate is what comes nearest, its name stands beside its distance.
    near = step.nearest if pose == "stroke" else None
    named: set[PieceKind] = set(hit)
    if near is not None and near.kind == "push plate":
        named.add("push plate")
    if "push plate" not in named:  # it has one place, and the ends have several
        _name_plate(layout, tooling, drawn.nose_y, view)
    for end, before, name in (
        (line[0], line[1], step.hold.end_left),
        (line[-1], line[-2], 3 - step.hold.end_left),
    ):
        rows: list[Row] = [(f"end {name}", frame.body, "label")]
        wide, high = layout.half_size(rows)
        way = (end - before) / math.hypot(*(end - before))
        spots = []
        for sx, sy in (
            (way[0], way[1]),
            (0.0, 1.0),
            (0.0, -1.0),
            (way[0], -way[1]),
            (1, 0),
            (-1, 0),
        ):
            gap = 7 * px + thickness / 2 * (1 - abs(sx * way[0] + sy * way[1]))
            x = float(end[0]) + sx * (gap + abs(sx) * wide + abs(sy) * high)
            y = float(end[1]) + sy * (gap + abs(sx) * wide + abs(sy) * high)
            spots.append((x, flip * y))
        layout.place_words(rows, spots)
    _name_tools(layout, tooling, drawn.nose_y, view, named)
    if pose != "rest":
        rest = step.poses.rest.nose_y - tooling.nose.radius
        rows = [("first contact", frame.body, "label")]
        wide, high = layout.half_size(rows)
        spots = [
            (sign * (window.right - wide), flip * rest + side * (high + 5 * px))
            for side in (1.0, -1.0)
            for sign in (1.0, -1.0)
        ]
        layout.place_words(rows, spots, optional(frame))


def name_face(layout: Layout, plan: Plan, step: Step, pose: Pose, view: View) -> None:
    """Set the word of the hatched face beside it, out along the bar where the nose is not."""
    frame, window, flip, px = view.frame, view.window, view.flip, layout.px
    thickness = plan.job.part.bar.thickness
    line, _, _ = within(line_of(step.poses.of(pose)), clear_of(window, thickness))
    rows: list[Row] = [(words, frame.body, "label") for words in hold_words.marked(plan, step)]
    wide, high = layout.half_size(rows)
    lengths = np.hypot(*np.diff(line, axis=0).T)
    along = np.concatenate(([0.0], np.cumsum(lengths)))
    spots = []
    for far in (4.0, 12.0, 24.0):
        for share in (0.85, 0.15, 0.75, 0.25, 0.92, 0.08, 0.65, 0.35):
            at = share * along[-1]
            cell = min(int(np.searchsorted(along, at, side="right")) - 1, len(lengths) - 1)
            way = (line[cell + 1] - line[cell]) / lengths[cell]
            across = np.array([-way[1], way[0]])
            reach = 0.5 * thickness + far * px + abs(across[0]) * wide + abs(across[1]) * high
            x, y = line[cell] + (at - along[cell]) * way + reach * across
            spots.append((float(x), flip * float(y)))
    # At rest the hold is what is looked for.
    most = math.inf if pose == "rest" else optional(frame)
    layout.place_words(rows, within_picture(spots, wide, high, window, flip), most)


def _name_tools(
    layout: Layout, tooling: Tooling, nose_y: float, view: View, named: Collection[PieceKind]
) -> None:
    frame, window, flip = view.frame, view.window, view.flip
    px, nose, shoulders = layout.px, tooling.nose, tooling.shoulders
    rows: list[Row] = [("nose", frame.body, "tool-label")]
    wide, high = layout.half_size(rows)
    if nose.radius > wide + 3 * px:
        spots = [(0.0, flip * nose_y)]
    else:
        aside = (nose.web_thickness or 0.0) / 2 + wide + 4 * px
        up = nose_y + nose.radius + high
        spots = [(sign * aside, flip * (up + k * high)) for k in range(6) for sign in (1.0, -1.0)]
    if not {"nose", "nose web"}.intersection(named):
        layout.place_words(rows, spots, optional(frame))
    rows = [("shoulders", frame.body, "label")]
    wide, high = layout.half_size(rows)
    outer = shoulders.outer_edge or shoulders.opening / 2 + shoulders.radius
    foot = window.bottom if shoulders.height is None else max(window.bottom, -shoulders.height)
    y = flip * (foot + high + 5 * px)
    sides = [(outer + wide + 8 * px, y), (-outer - wide - 8 * px, y)]
    if "shoulder" not in named:
        layout.place_words(rows, sides, optional(frame))


def _name_plate(layout: Layout, tooling: Tooling, nose_y: float, view: View) -> None:
    frame, window, flip, px = view.frame, view.window, view.flip, layout.px
    plate = tooling_shapes.plate_height(tooling.nose, nose_y)
    if plate is not None and window.top - plate > -0.4 * frame.body * px:
        rows: list[Row] = [("push plate", frame.body, "tool-label")]
        wide, _ = layout.half_size(rows)
        y = flip * (plate + 0.6 * frame.body * px)
        if 0.5 * (tooling.plate_width or math.inf) > wide + 4 * px:
            layout.add(*layout.centred((0.0, y), rows))
        else:  # a plate narrower than its name has it beside it
            aside = 0.5 * (tooling.plate_width or 0.0) + wide + 8 * px
            layout.place_words(rows, [(aside, y), (-aside, y)], optional(frame))
