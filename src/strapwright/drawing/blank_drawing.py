"""The flat blank as a strip, with everything measured from end 1."""

from __future__ import annotations

import math

from strapwright.blank.blank_values import Blank
from strapwright.drawing import drawn_figures
from strapwright.drawing.blank_breaks import Map, broken_map
from strapwright.drawing.blank_strip import Item, draw_strip, items_of, quiet_hits, spread
from strapwright.errors import InputError
from strapwright.planning.plan_values import Plan
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.lettering import text_width, wrap
from strapwright.scene.placing import Layout, Row
from strapwright.scene.primitives import Scene
from strapwright.shop.part_holes import cut_kind

_PAD = 18.0  # px
_MOST_LINES = 40
_SPARE = 1.08  # of a line over its even share
_CLEAR = 16.0  # px between a mark and where the strip is carried on
_PLAIN_WIDTHS = 1.5  # a plain stretch longer than so many widths of the bar may be cut short


def blank_scene(plan: Plan, frame: Frame = WIDE) -> Scene:
    """Draw the blank.

    Where the figures have no room side by side, plain stretches are cut short with break lines,
    and if that is not enough the strip is carried on over several lines, like a line of writing:
    figures keep their size and stand by their marks.

    Parameters
    ----------
    plan
        With a blank.
    frame
        Room for the drawing; the height taken is what the lines need.

    Returns
    -------
    Scene
        To scale along the strip but for its breaks; lines stand under each other.

    Raises
    ------
    InputError
        Where the plan has no blank.
    """
    blank = plan.blank
    if blank is None:
        raise InputError(
            "part.inside_radius",
            "there is no blank to draw",
            "give an inside radius or the tooling",
        )
    above, below = items_of(plan, blank, frame)
    places = [item.position for item in (*above, *below)]
    places += [mark.nose for mark in quiet_hits(blank)]
    room = frame.width - 2 * _PAD
    strip = broken_map(blank.length, places, math.inf)
    scale, windows = _lines_needed(strip, frame, room, above, below)
    if len(windows) > 1:
        strip = broken_map(blank.length, places, _PLAIN_WIDTHS * plan.job.part.bar.width)
        scale, windows = _lines_needed(strip, frame, room, above, below)
    per_line = room / scale
    layout = Layout(scale=scale)
    y = -_heading(layout, plan, blank, frame, short=bool(strip.breaks))
    for window in windows:
        y = draw_strip(layout, plan, blank, frame, strip, (above, below), window=window, top=y)
    height = math.ceil(-y * scale + 0.5 * _PAD)
    return Scene(
        title=f"{plan.job.part.name}: blank",
        description=_description(plan, blank),
        bounds=(-_PAD / scale, -height / scale, per_line + _PAD / scale, 0.0),
        scale=scale,
        shapes=tuple(layout.shapes),
    )


def _heading(layout: Layout, plan: Plan, blank: Blank, frame: Frame, *, short: bool) -> float:
    """Write how long to cut; return the height taken [mm]."""
    px = layout.px
    figure = drawn_figures.length(plan.job, blank.length)
    large = frame.large
    y = (_PAD + large * 0.75) * px
    layout.add(*layout.lines((0.0, -y), [(figure, large, "figure")], "start"))
    words = (
        f"to cut, {drawn_figures.section(plan)}; {drawn_figures.length_unit(plan.job)} from end 1"
    )
    for bend in dict.fromkeys(mark.bend for mark in quiet_hits(blank)):
        row = blank.marks_of(bend)
        pitch = drawn_figures.setting(plan.job, row[1].nose - row[0].nose)
        words += f"; noses {row[0].label} to {row[-1].label} each {pitch} on"
    if short:
        words += "; plain stretches cut short here"
    room = frame.width - 2 * _PAD
    beside = text_width(figure, large) + frame.body
    if beside + text_width(words, frame.body) <= room:
        layout.add(*layout.lines((beside * px, -y), [(words, frame.body, "label")], "start"))
        return y + 1.2 * frame.body * px
    rows: list[Row] = [(line, frame.body, "label") for line in wrap(words, frame.body, room)]
    texts = layout.lines((0.0, -y - 1.6 * frame.body * px), rows, "start")
    layout.add(*texts)
    return -texts[-1].at[1] + 1.2 * frame.body * px


def _lines_needed(
    strip: Map, frame: Frame, room: float, above: list[Item], below: list[Item]
) -> tuple[float, list[tuple[float, float]]]:
    """Scale [px/mm] and windows of the fewest lines whose words find room near their places."""
    farthest = 5.5 * frame.body
    sides = [[(strip.drawn(item.position), item.width) for item in side] for side in (above, below)]
    drawn = sorted(at for side in sides for at, _ in side)
    for count in range(1, _MOST_LINES + 1):
        # A little over the even share, so that a line can end before a mark.
        per_line = strip.length / count * (1.0 if count == 1 else _SPARE)
        scale = room / per_line
        windows = _windows(strip.length, per_line, drawn, _CLEAR / scale)
        drift = max(_drift(side, window, scale) for side in sides for window in windows)
        if drift <= farthest or count == _MOST_LINES:
            return scale, windows
    raise AssertionError("the last count of lines is always taken")


def _windows(
    length: float, per_line: float, marks: list[float], clear: float
) -> list[tuple[float, float]]:
    """Cut a strip into lines, never within ``clear`` of a mark where that can be helped [mm]."""
    windows = []
    start = 0.0
    while length - start > per_line * (1 + 1e-9):
        end = latest = start + per_line
        for mark in reversed(marks):
            if end - clear < mark < end + clear:
                end = mark - clear
        if end < start + 0.5 * per_line:
            end = latest
        windows.append((start, end))
        start = end
    return [*windows, (start, length)]


def _drift(side: list[tuple[float, float]], window: tuple[float, float], scale: float) -> float:
    """How far the words of a line stand from their marks at most [px]."""
    start, end = window
    wanted = [((at - start) * scale, width) for at, width in side if start <= at <= end]
    places = spread(wanted, (end - start) * scale)
    if places is None:
        return math.inf
    return max((abs(x - at) for x, (at, _) in zip(places, wanted, strict=True)), default=0.0)


def _description(plan: Plan, blank: Blank) -> str:
    job = plan.job
    words = [f"Cut {drawn_figures.length(job, blank.length)} of {drawn_figures.section(plan)}."]
    for mark in blank.marks:
        nose = drawn_figures.length(job, mark.nose)
        said = f"Mark {mark.label}: nose centre at {nose} from end 1"
        if blank.carries_sight(mark):
            said += f", sight mark at {drawn_figures.length(job, mark.sight)}"
        words.append(f"{said}.")
    words.extend(
        f"{cut_kind(hole).capitalize()} {hole.hole}: "
        f"{drawn_figures.length(job, hole.position)} from end 1."
        for hole in blank.drilled_flat
    )
    return " ".join(words)
