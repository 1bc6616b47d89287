"""A part out of one plane, rolled or twisted, in isometric projection (ISO 5456-3, clause 5.2).

The view is from above, in front and on the right, so that the three axes are shortened alike: a leg
along an axis shows its length times sqrt(2/3).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.drawing import drawn_figures
from strapwright.drawing.leg_lines import straight_runs
from strapwright.drawing.twisted.twisted_bar import (
    corners_of,
    drawn_box,
    sections_of,
    twisted_shapes,
)
from strapwright.planning.plan_values import Plan
from strapwright.scene.bar_outline import bar_outline, kept_places, thinned
from strapwright.scene.boxes import shape_box
from strapwright.scene.frame import Frame
from strapwright.scene.placing import Candidate, Layout, Row
from strapwright.scene.primitives import Line, Path, Point

_RIGHT = np.array([1.0, 0.0, -1.0]) / math.sqrt(2.0)
_UP = np.array([-1.0, 2.0, -1.0]) / math.sqrt(6.0)
_TOWARDS = np.array([1.0, 1.0, 1.0]) / math.sqrt(3.0)
_VIEW = np.vstack([_RIGHT, _UP, _TOWARDS])
_STEPS = 24  # of scales
_FINE = 0.005  # mm that a line on which crossings are looked for may lie off the bar's
_SPOTS = sorted(
    (far * 3 + 50 * abs(turn), far, turn)
    for far in (6.0, 16.0, 30.0, 48.0, 70.0, 100.0, 140.0)
    for turn in (0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0, 3.14)
)


def in_space(plan: Plan) -> bool:
    """Whether the part leaves one plane."""
    part = plan.job.part
    leaves = any(part.rolls) or bool(part.twists)
    return leaves and plan.finished_3d.shape[0] == plan.finished.shape[0]


def projected(points: Floats) -> Floats:
    """Points in space as the picture shows them, shape (k, 2) [mm]."""
    return np.column_stack((points @ _RIGHT, points @ _UP))


def space_layout(plan: Plan, frame: Frame, wide: float, high: float) -> Layout:
    """Lay out a part in space, as large as it fits ``wide`` by ``high`` [px] with its words."""
    thickness = plan.job.part.bar.thickness
    line = projected(plan.finished_3d)
    bar = shape_box(Path(points=bar_outline(thinned(line, 0.05), thickness), role="bar"), 1.0)
    if plan.job.part.twists:
        bar = drawn_box(_corners(plan)[0], _VIEW)
    words = 4 * frame.body
    scale = min((wide - words) / (bar.right - bar.left), (high - words) / (bar.top - bar.bottom))
    layout = _laid_out(plan, line, frame, scale)
    for _ in range(_STEPS):
        box = layout.extent()
        if (box.right - box.left) * scale <= wide and (box.top - box.bottom) * scale <= high:
            break
        scale *= 0.93
        layout = _laid_out(plan, line, frame, scale)
    return layout


def _laid_out(plan: Plan, line: Floats, frame: Frame, scale: float) -> Layout:
    part = plan.job.part
    layout = Layout(scale=scale)
    half = part.bar.thickness / 2
    if part.twists:
        half = 0.5 * part.bar.width * math.sqrt(2.0 / 3.0)
        corners, middles = _corners(plan)
        layout.draw(*twisted_shapes(corners, _VIEW))
    else:
        middles = ()
        _bar(layout, line, part.bar.thickness)
        kept = kept_places(line, _FINE)  # the straights are long rows of points
        for front in _crossings(line[kept], (plan.finished_3d @ _TOWARDS)[kept]):
            _in_front(layout, line[kept], front, part.bar.thickness)
    layout.keep_clear(line, half + 2 * layout.px)
    runs = straight_runs(part, plan.finished)
    middle = _point(line.mean(axis=0))
    for number, bend in enumerate(part.bends):
        first, last = runs[number][1], runs[number + 1][0]
        at = _point(line[(first + last) // 2])
        rows: list[Row] = [
            (drawn_figures.stated_angle(bend.angle), frame.reading * 1.2, "value"),
            (f"bend {number + 1}", frame.body, "label"),
        ]
        # On the outside of the bend, where nothing of it can lie under the words.
        ends = (line[first] + line[last]) / 2
        way = math.atan2(at[1] - ends[1], at[0] - ends[0])
        layout.place(_around(layout, at, way, rows, half))
    for number, (first, last) in enumerate(runs):
        at = _point((line[first] + line[last]) / 2)
        along = line[last] - line[first]
        way = math.atan2(along[0], -along[1])
        if math.cos(way) * (at[0] - middle[0]) + math.sin(way) * (at[1] - middle[1]) < 0.0:
            way += math.pi
        rows = [
            (drawn_figures.stated_length(plan.job, part.legs[number]), frame.reading, "value"),
            (f"leg {number + 1}", frame.body, "label"),
        ]
        layout.place(_around(layout, at, way, rows, half))
    for spot in middles:
        at = _point(projected(corners[spot].mean(axis=0)[None, :])[0])
        rows = [("quarter twist", frame.body, "label")]
        layout.place(_around(layout, at, 0.0, rows, half))
    for name, end, before in (("end 1", line[0], line[1]), ("end 2", line[-1], line[-2])):
        way = math.atan2(end[1] - before[1], end[0] - before[0])
        words: list[Row] = [(name, frame.body, "label")]
        layout.place(_around(layout, _point(end), way, words, 0.0))
    return layout


def _corners(plan: Plan) -> tuple[Floats, tuple[int, ...]]:
    """Corners of the sections of a twisted part, and the middles of its twisted runs."""
    line, wide, middles = sections_of(plan)
    bar = plan.job.part.bar
    return corners_of(line, wide, bar.thickness, bar.width), middles


def _bar(layout: Layout, line: Floats, thickness: float) -> None:
    drawn = thinned(line, 0.1 * layout.px)
    layout.draw(
        Path(points=bar_outline(drawn, thickness), role="bar", closed=True),
        Path(points=bar_outline(drawn, thickness * 0.4), role="bar-core", closed=True),
    )


def _around(
    layout: Layout, at: Point, way: float, rows: list[Row], half: float
) -> Iterator[Candidate]:
    """Places for words about a point, first in the direction ``way`` [rad]."""
    half_wide, half_high = layout.half_size(rows)
    px = layout.px
    for cost, far, turn in _SPOTS:
        c, s = math.cos(way + turn), math.sin(way + turn)
        reach = half + far * px + abs(c) * half_wide + abs(s) * half_high
        texts = layout.centred((at[0] + c * reach, at[1] + s * reach), rows)
        if far < 40.0:
            yield cost, texts
            continue
        start = (at[0] + c * (half + 3 * px), at[1] + s * (half + 3 * px))
        end = (at[0] + c * (half + (far - 4) * px), at[1] + s * (half + (far - 4) * px))
        yield cost, [Line(start=start, end=end, role="leader"), *texts]


def _crossings(line: Floats, towards: Floats) -> list[float]:
    """Find where the bar passes in front of itself: places as fractions of its points."""
    found = []
    starts, steps = line[:-1], np.diff(line, axis=0)
    for i in range(len(steps)):
        others = np.arange(i + 2, len(steps))
        cross = steps[i, 0] * steps[others, 1] - steps[i, 1] * steps[others, 0]
        gap = starts[others] - starts[i]
        with np.errstate(divide="ignore", invalid="ignore"):
            here = (gap[:, 0] * steps[others, 1] - gap[:, 1] * steps[others, 0]) / cross
            there = (gap[:, 0] * steps[i, 1] - gap[:, 1] * steps[i, 0]) / cross
        met = (np.abs(cross) > 1e-12) & (here >= 0) & (here < 1) & (there >= 0) & (there < 1)
        for j, a, b in zip(others[met], here[met], there[met], strict=True):
            near = towards[i] + a * (towards[i + 1] - towards[i])
            far = towards[j] + b * (towards[j + 1] - towards[j])
            found.append(float(i + a) if near > far else float(j + b))
    return found


def _in_front(layout: Layout, line: Floats, place: float, thickness: float) -> None:
    """Draw a short piece of the bar once more, over a gap in what lies behind it."""
    index = int(place)
    at = line[index] + (place - index) * (line[index + 1] - line[index])
    run = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))))
    middle = run[index] + float(np.hypot(*(at - line[index])))
    px = layout.px

    def piece(reach: float) -> Floats:
        stations = np.linspace(middle - reach, middle + reach, 9).clip(0.0, run[-1])
        return np.column_stack([np.interp(stations, run, line[:, k]) for k in range(2)])

    gap = bar_outline(piece(0.5 * thickness + 5 * px), thickness + 10 * px)
    layout.draw(Path(points=gap, role="hole", closed=True))
    _bar(layout, piece(0.5 * thickness + 8 * px), thickness)


def _point(row: Floats) -> Point:
    return (float(row[0]), float(row[1]))
