"""Gauge against travel for one bend: the curve in its band, the stop, and where to ease off."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import Floats
from strapwright.drawing import drawn_figures
from strapwright.drawing.curve_axes import Axis, load_axis, travel_axis
from strapwright.planning.plan_values import Plan, Step
from strapwright.quantities.inside_units import INCH_MM
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.lettering import text_width
from strapwright.scene.placing import Candidate, Layout, Row, middle_baseline
from strapwright.scene.primitives import Circle, Line, Path, Point, Scene, Text
from strapwright.wording.figures import figures_for
from strapwright.wording.steps.gauge_words import STOP_ABOVE, ease_off_words, no_gauge_words

_SCALE = 96 / INCH_MM  # px/mm, so that a mm of this sheet is a mm on paper
_PAD = 16.0  # px
_BEYOND = 1.12  # part of the stroke past the stop that is still drawn
_HEAD = 1.1  # free above the highest thing drawn


def curve_scene(plan: Plan, step: Step, frame: Frame = WIDE) -> Scene:
    """Draw the stroke curve of a step.

    Parameters
    ----------
    plan, step
        The step belongs to the plan; where it has no gauge reading, the force is drawn.
    frame
        Room for the drawing.

    Returns
    -------
    Scene
        A sheet in mm with travel running right.
    """
    sheet = _sheet(plan, step, frame)
    load, at, last = _load_of(plan, step), sheet.at, sheet.last
    ease = None if step.gauge is None else step.gauge.ease_off
    layout = Layout(scale=_SCALE)
    px = layout.px
    _axes(layout, sheet.across, sheet.up, at, frame, sheet.box)
    _curve(layout, step, load, at, last)
    _ease_off(layout, plan, ease, at, last, frame)
    _stop(layout, plan, step, load=load, at=at, most=sheet.most, frame=frame)
    name = sheet.up.name.split(",")[0]
    return Scene(
        title=f"{plan.job.part.name}: bend {step.bend}, {name} against travel",
        description=_description(plan, step),
        bounds=(0.0, -sheet.high * px, frame.width * px, 0.0),
        scale=_SCALE,
        shapes=tuple(layout.shapes),
    )


def marker_places(plan: Plan, step: Step, frame: Frame, travel: Floats, force: Floats) -> Floats:
    """Where the marker of a stroke curve stands on the way.

    Parameters
    ----------
    plan, step, frame
        As for :func:`curve_scene`.
    travel, force
        From touch and on the nose, shape (k,) [mm], [N].

    Returns
    -------
    array
        From the left and from the top of the drawing, shape (k, 2) [px at nominal size].
    """
    sheet = _sheet(plan, step, frame)
    heights = _load_of(plan, step)(force)
    spots = [sheet.at(float(x), float(y)) for x, y in zip(travel, heights, strict=True)]
    return np.array(spots) * (_SCALE, -_SCALE)


@frozen(kw_only=True)
class _Sheet:
    """Where axes and values come on the sheet, in mm; ``high`` in px."""

    across: Axis
    up: Axis
    last: float
    most: float
    box: tuple[float, float, float, float]
    high: float

    def at(self, x: float, y: float) -> Point:
        left, bottom, right, top = self.box
        return (left + (right - left) * x / self.last, bottom + (top - bottom) * y / self.most)


def _sheet(plan: Plan, step: Step, frame: Frame) -> _Sheet:
    load, travel = _load_of(plan, step), step.curve.travel
    last = min(float(travel[-1]), step.setting.travel * _BEYOND)
    ease = None if step.gauge is None else step.gauge.ease_off
    most = _HEAD * max(float(load(step.curve_high)[travel <= last].max()), ease or 0.0)
    across, up = travel_axis(plan, last, frame), load_axis(plan, step, most)
    px = 1.0 / _SCALE
    wide, high = frame.width, min(frame.height, 0.62 * frame.width + 60)
    numbers = max(text_width(text, frame.body) for _, text in up.ticks())
    left, right = (_PAD + numbers + 10) * px, (wide - _PAD - 6) * px
    top, bottom = -(_PAD + 2.1 * frame.body) * px, -(high - _PAD - 3.0 * frame.body) * px
    return _Sheet(
        across=across, up=up, last=last, most=most, box=(left, bottom, right, top), high=high
    )


def _load_of(plan: Plan, step: Step) -> Callable[[Floats], Floats]:
    """From forces to what the vertical axis shows, in the units inside.

    A gauge reads the no-load pressure plus a share of the force; that share follows from the
    step's own reading at full stroke, so curve and figure agree.
    """
    if step.gauge is None:
        return lambda force: force
    idle = 0.0 if plan.job.press is None else plan.job.press.no_load
    share = (step.gauge.value - idle) / step.force
    return lambda force: idle + share * force


def _axes(
    layout: Layout,
    across: Axis,
    up: Axis,
    at: Callable[[float, float], Point],
    frame: Frame,
    box: tuple[float, float, float, float],
) -> None:
    px, body = layout.px, frame.body
    left, bottom, right, top = box
    layout.draw(
        Line(start=(left, bottom), end=(right, bottom), role="paper-rule"),
        Line(start=(left, bottom), end=(left, top), role="paper-rule"),
    )
    for value, text in across.ticks():
        x, _ = at(value, 0.0)
        layout.draw(Line(start=(x, bottom), end=(x, bottom - 6 * px), role="paper-rule"))
        y = bottom - (8 + 0.85 * body) * px
        layout.add(Text(at=(x, y), text=text, size=body, role="label", anchor="middle"))
    for value, text in up.ticks():
        _, y = at(0.0, value)
        layout.draw(Line(start=(left - 6 * px, y), end=(left, y), role="paper-rule"))
        if value > 0:
            layout.draw(Line(start=(left, y), end=(right, y), role="grid"))
        base = middle_baseline(y, body, px)
        layout.add(Text(at=(left - 9 * px, base), text=text, size=body, role="label", anchor="end"))
    layout.add(
        Text(
            at=(right, bottom - (12 + 2.2 * body) * px),
            text=across.name,
            size=body,
            role="label",
            anchor="end",
        ),
        Text(at=(_PAD * px, -(_PAD + 0.8 * body) * px), text=up.name, size=body, role="label"),
    )


def _curve(
    layout: Layout,
    step: Step,
    load: Callable[[Floats], Floats],
    at: Callable[[float, float], Point],
    last: float,
) -> None:
    travel, stop = step.curve.travel, min(step.setting.travel, last)
    if step.bottoming_travel is not None:
        stop = min(stop, step.bottoming_travel)

    def line(force: Floats, start: float, end: float) -> tuple[Point, ...]:
        inner = travel[(travel > start) & (travel < end)]
        stations = np.concatenate(([start], inner, [end]))
        heights = load(np.interp(stations, travel, force))
        return tuple(at(float(x), float(y)) for x, y in zip(stations, heights, strict=True))

    low, high = line(step.curve_low, 0.0, last), line(step.curve_high, 0.0, last)
    layout.draw(Path(points=high + low[::-1], role="veil", closed=True))
    if last > stop:
        layout.draw(Path(points=line(step.curve.force, stop, last), role="beyond"))
    made = line(step.curve.force, 0.0, stop)
    layout.draw(Path(points=made, role="curve"))
    layout.keep_clear(made, 3 * layout.px)


def _ease_off(
    layout: Layout,
    plan: Plan,
    ease: float | None,
    at: Callable[[float, float], Point],
    last: float,
    frame: Frame,
) -> None:
    if ease is None:
        return
    px = layout.px
    start, end = at(0.0, ease), at(last, ease)
    layout.draw(Line(start=start, end=end, role="caution"))
    x, y = start[0] + 12 * px, start[1] + 8 * px
    side = 0.9 * frame.body * px
    layout.add(
        Path(
            points=((x, y), (x + side, y), (x + side / 2, y + 0.87 * side)),
            role="caution-mark",
            closed=True,
        ),
        Text(
            at=(x + side + 7 * px, y),
            text=f"{STOP_ABOVE} {drawn_figures.pressure_below(plan.job, ease)}",
            size=frame.body,
            role="value",
        ),
    )


def _stop(
    layout: Layout,
    plan: Plan,
    step: Step,
    load: Callable[[Floats], Floats],
    at: Callable[[float, float], Point],
    most: float,
    frame: Frame,
) -> None:
    """Draw the stop with its travel and reading, and where the staged push lets off."""
    px = layout.px
    stop = step.setting.travel
    reading = float(load(np.array([step.force]))[0])
    foot, point = at(stop, 0.0), at(stop, reading)
    layout.add(Line(start=foot, end=at(stop, most), role="stop"))
    layout.draw(Circle(centre=point, radius=6.5 * px, role="marker"))
    said = drawn_figures.banded_load(plan.job, step)
    rows: list[Row] = [
        ("stop", frame.body, "label"),
        (drawn_figures.setting(plan.job, stop), frame.reading * 1.3, "figure"),
        (said.shown, frame.reading, "value"),
        (said.between, frame.body, "label"),
    ]
    _, half_high = layout.half_size(rows)
    highest, lowest = point[1] - 16 * px - half_high, foot[1] + 6 * px + half_high
    spots = [
        (foot[0] - 12 * px, lowest + (highest - lowest) * share) for share in (0.6, 0.4, 0.2, 0.0)
    ]
    candidates: list[Candidate] = [
        (float(k), layout.centred(spot, rows, "end")) for k, spot in enumerate(spots)
    ]
    layout.place(candidates)
    if step.staged is not None:
        _pause(layout, plan, step, first=step.staged.first_travel, load=load, at=at, frame=frame)


def _pause(
    layout: Layout,
    plan: Plan,
    step: Step,
    first: float,
    load: Callable[[Floats], Floats],
    at: Callable[[float, float], Point],
    frame: Frame,
) -> None:
    """Mark where the staged push lets off, in words below the band."""
    px = layout.px
    here, low = (
        float(load(np.interp([first], step.curve.travel, force))[0])
        for force in (step.curve.force, step.curve_low)
    )
    x, y = at(first, here)
    words: list[Row] = [
        ("back off and measure", frame.body, "label"),
        (f"at {drawn_figures.setting(plan.job, first)}", frame.body, "value"),
    ]
    _, half_high = layout.half_size(words)
    under = at(first, low)[1] - 10 * px - half_high
    candidates: list[Candidate] = []
    for k, aside in enumerate((8, 30, 60, 100, 150)):
        for drop in (0.0, 14.0, 30.0, 50.0, 75.0, 100.0, 130.0):
            spot = (x - aside * px, under - drop * px)
            foot = (x - (aside - 3) * px, spot[1] + half_high * 0.4)
            line = Line(start=(x, y - 5 * px), end=foot, role="leader")
            candidates.append((40.0 * k + drop, [line, *layout.centred(spot, words, "end")]))
    layout.place(sorted(candidates, key=lambda one: one[0]))
    layout.draw(Circle(centre=(x, y), radius=4.5 * px, role="pause"))


def _description(plan: Plan, step: Step) -> str:
    job = plan.job
    said = drawn_figures.banded_load(job, step)
    stop = f"The stop is at {drawn_figures.setting(job, step.setting.travel)} of travel"
    band = f"{said.shown} ({said.between})"
    if step.gauge is None:
        return f"{stop}, with {band}, on the nose; gauge: {no_gauge_words(step.no_gauge)}."
    return f"{stop}; the gauge then reads {band}. {ease_off_words(step.gauge, figures_for(job))}"
