"""A part with many bends: legs carry numbers in the picture, and a table says what they are."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.drawing import drawn_figures
from strapwright.drawing.leg_lines import Leg, find_legs
from strapwright.drawing.part_edges import nose_edges
from strapwright.drawing.part_labels import clear_grips, hole_on_leg, hole_start, label_end
from strapwright.planning.plan_values import Plan
from strapwright.scene.bar_outline import bar_outline, thinned
from strapwright.scene.boxes import shape_box
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import text_width
from strapwright.scene.placing import Candidate, Layout, Row
from strapwright.scene.primitives import Line, Path, Text
from strapwright.shop.part_holes import cut_kind

_SPOTS = sorted(
    (far * 3 + 30 * abs(slide), far, slide, side)
    for far in (8.0, 20.0, 34.0, 50.0, 70.0, 95.0, 125.0)
    for slide in (0.0, 0.3, -0.3)
    for side in (1.0, -1.0)
)
_LEADING = 1.5  # of the table


def numbered_layout(plan: Plan, frame: Frame, wide: float, high: float) -> Layout:
    """Lay out a part with numbers on its legs and a table under it.

    Parameters
    ----------
    plan
        With a part in one plane.
    frame
        Sizes of type.
    wide, high
        Room [px]; the table may take more height.

    Returns
    -------
    Layout
        Complete but for the note under it.
    """
    part = plan.job.part
    legs = find_legs(part, plan.finished, plan.dimension_points)
    outline = Path(points=bar_outline(plan.finished, part.bar.thickness), role="bar")
    bar = shape_box(outline, 1.0)
    air = 5.0 * frame.body  # numbers and the names of the ends
    room = max(high - _table_height(plan, frame, wide), 0.6 * high)
    # However little room the words leave, the bar is drawn; the drawing is higher then.
    least = 4.0 * frame.body
    scale = min(
        max(wide - air, least) / (bar.right - bar.left),
        max(room - air, least) / (bar.top - bar.bottom),
    )
    layout = _numbered(plan, legs, frame, scale)
    box = layout.extent()
    # Words do not shrink with the bar; once they are known, the bar takes what they leave.
    over = (box.right - box.left) * scale - wide
    if over > 0.0:
        scale *= max(1.0 - over / ((bar.right - bar.left) * scale), 0.3)
        layout = _numbered(plan, legs, frame, scale)
    _table(layout, plan, frame, wide)
    return layout


def _numbered(plan: Plan, legs: tuple[Leg, ...], frame: Frame, scale: float) -> Layout:
    part = plan.job.part
    half = part.bar.thickness / 2
    layout = Layout(scale=scale)
    px = layout.px
    line = thinned(plan.finished, 0.1 * px)
    layout.draw(
        Path(points=bar_outline(line, 2 * half), role="bar", closed=True),
        Path(points=bar_outline(line, 0.8 * half), role="bar-core", closed=True),
    )
    layout.draw(*nose_edges(plan, px))
    layout.keep_clear(plan.finished, half + 2 * px)
    clear_grips(layout, legs, frame)
    layout.draw(*(hole_on_leg(hole, legs[hole.leg - 1], half)[1] for hole in part.holes))
    for number, leg in enumerate(legs, 1):
        rows: list[Row] = [(str(number), frame.reading, "value")]
        layout.place(_number_spots(layout, leg, rows, half))
    first, last = legs[0], legs[-1]
    label_end(layout, "end 1", first, first.span[0], forward=False, half=half, frame=frame)
    label_end(layout, "end 2", last, last.span[1], forward=True, half=half, frame=frame)
    return layout


def _number_spots(layout: Layout, leg: Leg, rows: list[Row], half: float) -> Iterator[Candidate]:
    half_wide, half_high = layout.half_size(rows)
    px = layout.px
    middle, long = (leg.span[0] + leg.span[1]) / 2, leg.span[1] - leg.span[0]
    nx, ny = abs(math.sin(leg.heading)), abs(math.cos(leg.heading))
    for cost, far, slide, side in _SPOTS:
        at = middle + slide * long
        reach = half + far * px + nx * half_wide + ny * half_high
        texts = layout.centred(leg.at(at, side * reach), rows)
        if far < 30.0:
            yield cost, texts
            continue
        foot = leg.at(at, side * (half + 4 * px))
        end = leg.at(at, side * (half + (far - 4) * px))
        yield cost, [Line(start=foot, end=end, role="leader"), *texts]


def _lines(plan: Plan) -> list[tuple[str, str, str]]:
    """Rows of the table: number, length, and what follows."""
    part = plan.job.part
    rows = []
    for number, leg in enumerate(part.legs, 1):
        then = "end 2"
        if number <= len(part.bends):
            bend = part.bends[number - 1]
            then = f"{'up' if bend.side > 0 else 'down'} {drawn_figures.stated_angle(bend.angle)}"
        rows.append((str(number), drawn_figures.stated_length(plan.job, leg), then))
    for number, hole in enumerate(part.holes, 1):
        size = drawn_figures.stated_length(plan.job, hole.diameter)
        place = drawn_figures.stated_length(plan.job, hole.distance)
        rows.append(
            (
                f"{cut_kind(hole)} {number}",
                size,
                f"on leg {hole.leg}, {place} from {hole_start(hole)}",
            )
        )
    return rows


def _columns(plan: Plan, frame: Frame, wide: float) -> tuple[list[float], int, int]:
    """Widths of the three parts of a row, how many columns of rows, how many rows in each."""
    rows = _lines(plan)
    sizes = (frame.reading, frame.reading, frame.body)
    widths = [
        max(text_width(row[k], sizes[k]) for row in rows) + 0.8 * frame.body for k in range(3)
    ]
    count = max(1, int(wide // (sum(widths) + frame.body)))
    return widths, count, math.ceil(len(rows) / count)


def _table_height(plan: Plan, frame: Frame, wide: float) -> float:
    _, _, deep = _columns(plan, frame, wide)
    return (deep + 1.5) * _LEADING * frame.reading


def _table(layout: Layout, plan: Plan, frame: Frame, wide: float) -> None:
    """Set the table under what is drawn, over the whole width."""
    px = layout.px
    box = layout.extent()
    widths, _, deep = _columns(plan, frame, wide)
    left = (box.left + box.right) / 2 - wide / 2 * px
    top = box.bottom - 1.8 * frame.reading * px
    over = top + 0.95 * frame.reading * px
    layout.draw(Line(start=(left, over), end=(left + wide * px, over), role="paper-rule"))
    for index, (number, length, then) in enumerate(_lines(plan)):
        column, row = divmod(index, deep)
        x = left + column * (sum(widths) + frame.body) * px
        y = top - row * _LEADING * frame.reading * px
        layout.draw(
            Text(at=(x, y), text=number, size=frame.reading, role="label"),
            Text(at=(x + widths[0] * px, y), text=length, size=frame.reading, role="value"),
            Text(at=(x + sum(widths[:2]) * px, y), text=then, size=frame.body, role="label"),
        )
