"""Words on the finished part: legs, turns, holes and ends, each where it meets nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from strapwright.drawing import drawn_figures
from strapwright.drawing.leg_lines import Leg, apex, leg_grips
from strapwright.planning.plan_values import Plan
from strapwright.scene.dimensions import dimension
from strapwright.scene.frame import Frame
from strapwright.scene.placing import Candidate, Layout, Row
from strapwright.scene.primitives import Arc, Line, Path, Point
from strapwright.shop.part import Hole
from strapwright.shop.part_holes import cut_kind, cut_reach

_FAR = 6.0  # type sizes from the bar past which the corner of a bend says nothing
_NEAR = 140.0  # cost of a place from which the words of a bend still point at its corner

# Places to try, cheapest first: what each costs, then its distance [px] and what else varies.
_LEG_SPOTS = sorted(
    (far * 4 + 60.0 * other_side, far, other_side)
    for far in (28.0, 44.0, 62.0, 84.0, 110.0, 140.0, 180.0, 230.0)
    for other_side in (False, True)
)
_TURN_SPOTS = sorted(
    (far * 6 + 40 * abs(share - 0.5) + 110 * (not 0.0 <= share <= 1.0), far, share)
    for far in (0.0, 10.0, 22.0, 36.0, 52.0)
    for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0, -0.3, -0.7)
)
_HOLE_SPOTS = sorted(
    (far * 5 + 60 * abs(slide) + (side < 0), far, slide, side)
    for far in (12.0, 24.0, 40.0, 60.0, 85.0, 115.0)
    for slide in (0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5)
    for side in (1.0, -1.0)
)


def clear_grips(layout: Layout, legs: tuple[Leg, ...], frame: Frame) -> None:
    """Keep words off the handles of a drawing that has any."""
    if not frame.grip:
        return
    spots = [leg.at(at) for leg, (at, _) in zip(legs, leg_grips(legs), strict=True)]
    spots += [apex(before, after) for before, after in pairwise(legs)]
    for x, y in spots:
        layout.keep_clear([(x, y), (x + 0.01 * layout.px, y)], frame.grip * layout.px)


def label_leg(layout: Layout, plan: Plan, leg: Leg, number: int, frame: Frame) -> float:
    """Dimension one leg as stated; ``number`` counts from 0.  Returns the area met [px2]."""
    part = plan.job.part
    px, half = layout.px, part.bar.thickness / 2
    # The outer side first: there the apex that an outside dimension runs to can be seen.
    turns = [part.bends[i].side for i in (number - 1, number) if 0 <= i < len(part.bends)]
    outer = -turns[0] if turns else -1
    text = drawn_figures.stated_length(plan.job, part.legs[number])
    start, end = leg.at(leg.span[0]), leg.at(leg.span[1])

    def candidates() -> Iterator[Candidate]:
        for cost, far, over in _LEG_SPOTS:
            side = -outer if over else outer
            shapes = dimension(
                start,
                end,
                side * (half + far * px),
                text,
                size=frame.reading,
                px=px,
                clear=half + 5 * px,
            )
            yield cost, shapes

    return layout.place(candidates())


def label_turn(
    layout: Layout, plan: Plan, legs: tuple[Leg, ...], number: int, frame: Frame
) -> float:
    """Show how far a bend turns the bar: the leg before runs on thin, the turn is an arc.

    A wide bend has its corner far from the bar: there the words stand at the middle of its arc.
    """
    part = plan.job.part
    bend = part.bends[number - 1]
    before = legs[number - 1]
    px, half = layout.px, part.bar.thickness / 2
    corner = apex(before, legs[number])
    near = plan.finished[np.argmin(np.hypot(*(plan.finished - corner).T))]
    far = math.hypot(corner[0] - near[0], corner[1] - near[1]) > half + _FAR * frame.body * px
    if far or bend.radius is not None:
        return _label_arc(layout, plan, (float(near[0]), float(near[1])), corner, number, frame)
    radius = max(1.9 * frame.body * px, 2.2 * half + 14 * px)
    clear = half * math.tan(min(bend.angle, 2.4) / 2) + 4 * px
    turn = bend.side * bend.angle
    low, high = sorted((before.heading, before.heading + turn))
    layout.add(
        Line(
            start=_polar(corner, clear, before.heading),
            end=_polar(corner, max(radius, clear) + 8 * px, before.heading),
            role="leader",
        )
    )
    layout.draw(Arc(centre=corner, radius=radius, start=low, end=high, role="dimension"))
    rows: list[Row] = [
        (drawn_figures.stated_angle(bend.angle), frame.reading * 1.2, "value"),
        (f"bend {number}", frame.body, "label"),
    ]
    half_wide, half_high = layout.half_size(rows)

    def candidates() -> Iterator[Candidate]:
        for cost, far, share in _TURN_SPOTS:
            way = before.heading + share * turn
            c, s = math.cos(way), math.sin(way)
            reach = radius + (5 + far) * px + abs(c) * half_wide + abs(s) * half_high
            centre = (corner[0] + c * reach, corner[1] + s * reach)
            yield cost, layout.centred(centre, rows)

    return layout.place(candidates(), _NEAR)


def _label_arc(
    layout: Layout, plan: Plan, middle: Point, corner: Point, number: int, frame: Frame
) -> float:
    """Words at the middle of a wide arc, outside first; how far it turns and its radius."""
    bend = plan.job.part.bends[number - 1]
    words = f"bend {number}"
    if bend.radius is not None:
        words += f", inside radius {drawn_figures.stated_length(plan.job, bend.radius)}"
    rows: list[Row] = [
        (drawn_figures.stated_angle(bend.angle), frame.reading * 1.2, "value"),
        (words, frame.body, "label"),
    ]
    half_wide, half_high = layout.half_size(rows)
    far = math.hypot(corner[0] - middle[0], corner[1] - middle[1])
    way = ((corner[0] - middle[0]) / far, (corner[1] - middle[1]) / far)
    half = plan.job.part.bar.thickness / 2

    def candidates() -> Iterator[Candidate]:
        for cost, gap, slide, side in _HOLE_SPOTS:
            reach = half + gap * layout.px + abs(way[0]) * half_wide + abs(way[1]) * half_high
            over = slide * half_wide
            centre = (
                middle[0] + side * way[0] * reach - way[1] * over,
                middle[1] + side * way[1] * reach + way[0] * over,
            )
            yield cost, layout.centred(centre, rows)

    return layout.place(candidates())


def hole_on_leg(hole: Hole, leg: Leg, half: float) -> tuple[float, Path]:
    """Where a hole stands along its leg [mm], and its gap in the bar; ``half`` a thickness [mm]."""
    from_start = hole.from_bend == hole.leg - 1 or (hole.from_bend is None and hole.leg == 1)
    at = leg.span[0] + hole.distance if from_start else leg.span[1] - hole.distance
    r = cut_reach(hole)
    corners = ((-r, half), (r, half), (r, -half), (-r, -half))
    points = tuple(leg.at(at + a, 1.02 * b) for a, b in corners)
    return at, Path(points=points, role="hole", closed=True)


def hole_start(hole: Hole) -> str:
    """Name what a hole's distance is counted from."""
    if hole.from_bend is not None:
        return f"bend {hole.from_bend}"
    return "end 1" if hole.leg == 1 else "end 2"


def label_hole(layout: Layout, plan: Plan, leg: Leg, index: int, frame: Frame) -> float:
    """Draw a hole through the thickness with its size and where it stands."""
    job = plan.job
    hole = job.part.holes[index]
    px, half = layout.px, job.part.bar.thickness / 2
    at, shown = hole_on_leg(hole, leg, half)
    layout.draw(
        shown,
        Line(start=leg.at(at, -half - 7 * px), end=leg.at(at, half + 7 * px), role="sight"),
    )
    place = hole_start(hole)
    size = drawn_figures.stated_length(job, hole.diameter)
    if hole.length is not None:
        size = f"{size} x {drawn_figures.stated_length(job, hole.length)}"
    named = f"{cut_kind(hole)} {size}"
    rows: list[Row] = [
        (named, frame.reading, "value"),
        (f"{drawn_figures.stated_length(job, hole.distance)} from {place}", frame.body, "label"),
    ]
    if frame.narrow:  # where it stands is read on the blank
        rows = [(named, frame.body, "value")]
    half_wide, half_high = layout.half_size(rows)

    def candidates() -> Iterator[Candidate]:
        for cost, far, slide, side in _HOLE_SPOTS:
            nx, ny = -math.sin(leg.heading) * side, math.cos(leg.heading) * side
            reach = abs(nx) * half_wide + abs(ny) * half_high + 2 * px
            foot = leg.at(at, side * (half + far * px))
            over = slide * half_wide
            centre = (
                foot[0] + nx * reach + math.cos(leg.heading) * over,
                foot[1] + ny * reach + math.sin(leg.heading) * over,
            )
            start = leg.at(at, side * (half + 7 * px))
            end = (
                _clamped(start[0], centre[0], half_wide + 3 * px),
                _clamped(start[1], centre[1], half_high + 3 * px),
            )
            line = Line(start=start, end=end, role="leader")
            yield cost, [line, *layout.centred(centre, rows)]

    return layout.place(candidates())


def label_end(
    layout: Layout, name: str, leg: Leg, at: float, *, forward: bool, half: float, frame: Frame
) -> float:
    """Name an end of the bar, just past it; ``half`` is half the thickness [mm]."""
    rows: list[Row] = [(name, frame.body, "label")]
    half_wide, half_high = layout.half_size(rows)
    way = 1.0 if forward else -1.0
    c, s = abs(math.cos(leg.heading)), abs(math.sin(leg.heading))
    past = c * half_wide + s * half_high + 8 * layout.px
    beside = s * half_wide + c * half_high + half + 8 * layout.px

    def candidates() -> Iterator[Candidate]:
        for shift in (0.0, 0.7, -0.7, 1.0, -1.0):
            yield 50 * abs(shift), layout.centred(leg.at(at + way * past, shift * beside), rows)
        for shift in (1.0, -1.0, 1.6, -1.6):
            yield 90 * abs(shift), layout.centred(leg.at(at - way * past, shift * beside), rows)

    return layout.place(candidates())


def _clamped(value: float, middle: float, half: float) -> float:
    return min(max(value, middle - half), middle + half)


def _polar(centre: Point, radius: float, angle: float) -> Point:
    return (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))
