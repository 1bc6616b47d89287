"""What the pages play: the tooling drawn once, and per picture where it, bar and marker stand."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import Band, Floats
from strapwright.drawing import PHONE, curve_scene, marker_places, moving_bend, to_svg
from strapwright.drawing import Frame as Sheet
from strapwright.drawing.moving_bend import held_shapes
from strapwright.drawing.tooling_shapes import turned_over
from strapwright.motion.bend_frames import (
    AT_TOUCH,
    ONE_BEND,
    STROKE,
    WHOLE_PART,
    Frame,
    Pace,
    frames_of,
    stop_of,
)
from strapwright.motion.off_frames import OffFrame, off_frames, placed
from strapwright.planning.plan_values import Plan, Step
from strapwright.quantities import round_to_band
from strapwright.scene.bar_outline import thinned, within
from strapwright.scene.boxes import Box
from strapwright.scene.primitives import Shape
from strapwright.scene.svg import shapes_to_svg
from strapwright.wording.figures import Figures, figures_for

CURVE = Sheet(width=620.0, height=380.0, body=15.0)
CURVES = {"wide": CURVE, "phone": PHONE}
_TALLEST = 0.86  # of its width a picture may become so that the part stays in it
_SIDES = ((1.0, 0.0), (0.0, 1.0), (0.0, -1.0))  # of an end: beyond it, to the left, to the right
_EDGE = 0.36  # of its thickness the face towards the nose is hatched
_THIN = 0.94  # of its thickness a bar of a stack is drawn, so that each is seen


@frozen(kw_only=True)
class Act:
    """One bend as it is played.

    Attributes
    ----------
    bend
        1-based.
    frames, off
        Pictures of the stroke, and of coming off.
    """

    bend: int
    frames: tuple[Frame, ...]
    off: tuple[OffFrame, ...]

    @property
    def stop(self) -> int:
        """Picture at full stroke."""
        return stop_of(self.frames)


@frozen(kw_only=True)
class Stage:
    """What stands on a page where bends are played.

    Attributes
    ----------
    still, ram, held, held_still
        Drawings in mm with y down: what stands still, the ram about the nose's centre, and what
        holds a part that is locked on, hatched: of the ram's side about the same, and what stands.
    data
        What the page's script takes, and what a page without one shows.
    """

    still: str
    ram: str
    held: str
    held_still: str
    data: dict[str, Any]


def stage_of(plan: Plan, step: Step) -> Stage:
    """Make the pictures of one bend.

    Parameters
    ----------
    plan, step
        The step belongs to the plan; the plan has tooling.
    """
    return _staged(plan, (step,), ONE_BEND)


def whole_stage(plan: Plan) -> Stage:
    """Make the pictures of the whole part, bend after bend; there is a step at least."""
    return _staged(plan, plan.steps, WHOLE_PART)


def _staged(plan: Plan, steps: Sequence[Step], pace: Pace) -> Stage:
    default = _around([moving_bend(plan, step).view for step in steps])
    acts, lowest = [], default.bottom
    for step in steps:
        frames = frames_of(plan, step, pace)
        off = off_frames(plan, step, frames[-1], default.top, pace.coming_off)
        acts.append(Act(bend=step.bend, frames=frames, off=off))
        for one in (one for one in off if one.shift != (0.0, 0.0)):
            lowest = min(lowest, float(placed(frames[-1].line, one, frames[-1])[:, 1].min()))
    thick = plan.job.part.bar.thickness
    # The picture grows downwards for a part that comes off that way, within reason.
    tallest = max(_TALLEST * (default.right - default.left), default.top - default.bottom)
    bottom = max(min(default.bottom, lowest - 2.0 * thick), default.top - tallest)
    view = Box(default.left, bottom, default.right, default.top)
    moving = moving_bend(plan, steps[-1], view)
    flip = 1.0 if moving.over else -1.0  # y runs down on the page
    held = {name for step in steps for name in _holders(plan, step)}

    def drawn(shapes: Sequence[Shape]) -> str:
        return shapes_to_svg(turned_over(one) if moving.over else one for one in shapes)

    return Stage(
        still=drawn(moving.still),
        ram=drawn(moving.ram),
        held=drawn(held_shapes(plan, tuple(sorted(held)), view, "nose")) if held else "",
        held_still=drawn(held_shapes(plan, tuple(sorted(held)), view, "shoulders")) if held else "",
        data={
            "view": _view(view, flip),
            "thickness": round(thick * (1.0 if plan.job.part.stacked == 1 else _THIN), 3),
            "edge_thickness": round(_EDGE * thick, 3),
            "acts": [
                _act_data(plan, step, act, view, flip, curve=len(steps) == 1)
                for step, act in zip(steps, acts, strict=True)
            ],
        },
    )


def _around(views: Sequence[Box]) -> Box:
    return Box(
        min(one.left for one in views),
        min(one.bottom for one in views),
        max(one.right for one in views),
        max(one.top for one in views),
    )


def _holders(plan: Plan, step: Step) -> tuple[str, ...]:
    """Bodies that hold a part that is locked on; of a nose that can be drawn that alone."""
    off = step.coming_off
    if off is None or off.verdict != "locked on":
        return ()
    plan = plan.on_tooling_of(step.bend)
    drawable = plan.job.tooling is not None and plan.job.tooling.nose.drawable
    return ("nose",) if drawable or not off.held_by else off.held_by


def _act_data(
    plan: Plan, step: Step, act: Act, view: Box, flip: float, *, curve: bool
) -> dict[str, Any]:
    """One bend: a list an entry a picture; ``bar``, ``edge`` and ``marker`` of the stroke alone."""
    frames, off, let_go = act.frames, act.off, act.frames[-1]
    wide = view.right - view.left
    places = 1 if wide > 120 else 2
    show = figures_for(plan.job)
    thick, bars = plan.job.part.bar.thickness, plan.job.part.stacked
    going = [placed(let_go.line, one, let_go) for one in off]
    after = len(off)
    noses = [frame.nose for frame in frames] + [one.nose for one in off]
    loads = [_load(plan, step, show, frame.force) for frame in frames]
    turns = [_turn(step, frame.angle) for frame in frames]
    start = step.bottoming_travel
    past = [start is not None and frame.travel > start for frame in frames]
    if any(past):  # no angle is promised from there on, nor after it
        turns[past.index(True) :] = [NO_ANGLE] * (len(turns) - past.index(True))
    data: dict[str, Any] = {
        "bend": act.bend,
        "stop": act.stop,
        "free": len(frames) - 1,
        "count": len(frames) + after,
        "locked": bool(_holders(plan, step)),
        "names": [step.hold.end_left, 3 - step.hold.end_left],
        "bar": [_bars(frame.line, thick, bars, flip, wide, places) for frame in frames],
        "edge": [_edge(frame.line, thick, flip, wide) for frame in frames],
        "part": [""] * len(frames) + [_motion(one, let_go, flip) for one in off],
        "seen": [1] * len(frames) + [round(one.seen, 2) for one in off],
        "nose": [round(flip * nose, places + 1) for nose in noses],
        "sunk": [0] * len(frames) + [round(-flip * one.sunk, places) for one in off],
        "ends": _ends([frame.line for frame in frames], going, view, flip),
        "turn": turns + turns[-1:] * after,
        "travel": [show.setting(frame.travel) for frame in frames] + ["ram back"] * after,
        "load": loads + ["\N{EN DASH}"] * after,
        "doing": [frame.doing for frame in frames] + [one.doing for one in off],
        "touches": [k for k, frame in enumerate(frames) if AT_TOUCH in frame.doing],
        "strokes": [k for k, frame in enumerate(frames) if STROKE in frame.doing],
    }
    if not curve:  # among several bends there is less room for words
        data["doing"] = [doing.removesuffix(", under load") for doing in data["doing"]]
    if curve:
        travels = np.array([frame.travel for frame in frames])
        forces = np.array([frame.force for frame in frames])
        data["marker"] = {
            name: marker_places(plan, step, sheet, travels, forces).round(1).tolist()
            for name, sheet in CURVES.items()
        }
    return data


def curve_pictures(plan: Plan, step: Step) -> dict[str, str]:
    """Return the stroke curve of a bend as SVG, by the sheets that a page has room for.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    """
    return {name: to_svg(curve_scene(plan, step, sheet), None) for name, sheet in CURVES.items()}


def _view(view: Box, flip: float) -> list[float]:
    top = view.bottom if flip > 0 else -view.top
    return [
        round(one, 2) for one in (view.left, top, view.right - view.left, view.top - view.bottom)
    ]


def _bars(line: Floats, thickness: float, bars: int, flip: float, wide: float, places: int) -> str:
    """Mid-lines of all bars of a stack: their legs stay parallel, each one thickness farther out.

    Let go, every bar opens by itself; what each opens to is said, not drawn.
    """
    way = np.gradient(line, axis=0)
    out = np.column_stack((way[:, 1], -way[:, 0])) / np.hypot(*way.T)[:, None]
    paths = []
    for number in range(bars):
        shifted = thinned(line + number * thickness * out, wide / 4000) * (1.0, flip)
        words = [f"{round(x, places):g} {round(y, places):g}" for x, y in shifted.tolist()]
        paths.append(f"M{'L'.join(words)}")
    return "".join(paths)


def _edge(line: Floats, thickness: float, flip: float, wide: float) -> str:
    """Line along the face towards the nose, inside the bar; as held that is the bar's left."""
    way = np.gradient(line, axis=0)
    out = np.column_stack((-way[:, 1], way[:, 0])) / np.hypot(*way.T)[:, None]
    inside = line + 0.5 * (1.0 - _EDGE) * thickness * out
    shown = thinned(inside, wide / 700) * (1.0, flip)
    return "M" + "L".join(f"{round(x, 1):g} {round(y, 1):g}" for x, y in shown.tolist())


def _motion(one: OffFrame, let_go: Frame, flip: float) -> str:
    x, y = one.shift
    words = f"translate({x:.1f} {flip * y:.1f})" if x or y else ""
    if one.turn:
        words += f"rotate({flip * math.degrees(one.turn):.2f} 0 {flip * let_go.nose:.2f})"
    return words


def _ends(
    stroke: Sequence[Floats], off: Sequence[Floats], view: Box, flip: float
) -> list[list[float]]:
    """Where the names of both ends stand in each picture: beside the end, inside it [mm].

    On which side of an end is settled once a bend, so that names do not jump.  Where the bar leaves
    the picture its name stands there; a part on its way off takes its names out of it.
    """
    room = 0.06 * (view.right - view.left)
    cut = [within(line, view)[0] for line in stroke]
    some = cut[::9] + cut[-1:]
    left = max(_SIDES, key=lambda side: min(_away(one, side, 0, room) for one in some))
    others = [_beside(one, left, 0, room) for one in some]
    right = max(
        _SIDES,
        key=lambda side: min(
            min(_away(one, side, -1, room), 0.5 * math.dist(_beside(one, side, -1, room), other))
            for one, other in zip(some, others, strict=True)
        ),
    )
    out = []
    for k, line in enumerate((*cut, *off)):
        spots = []
        for end, side in ((0, left), (-1, right)):
            x, y = _beside(line, side, end, room)
            if k < len(cut):
                x = min(max(x, view.left + room), view.right - room)
                y = min(max(y, view.bottom + room), view.top - room)
            spots += [round(x, 1), round(flip * y, 1)]
        out.append(spots)
    return out


def _beside(line: Floats, side: tuple[float, float], end: int, room: float) -> tuple[float, float]:
    """Spot ``room`` from an end (0 or -1): ``side`` is along the bar and across it."""
    before = min(3, len(line) - 1)
    way = line[end] - line[before if end == 0 else -1 - before]
    way = way / max(math.hypot(*way), 1e-9)
    x, y = line[end] + room * (side[0] * way + side[1] * np.array([-way[1], way[0]]))
    return float(x), float(y)


def _away(line: Floats, side: tuple[float, float], end: int, room: float) -> float:
    """How far a name beside an end stands from the bar, no farther than counts [mm]."""
    spot = np.array(_beside(line, side, end, room))
    starts, ways = line[:-1], np.diff(line, axis=0)
    share = ((spot - starts) * ways).sum(axis=1) / np.maximum((ways**2).sum(axis=1), 1e-12)
    foot = starts + np.clip(share, 0.0, 1.0)[:, None] * ways
    return min(float(np.hypot(*(spot - foot).T).min()), 0.99 * room)


NO_ANGLE = "\N{EN DASH}"


def _turn(step: Step, angle: float) -> str:
    band = step.bands.loaded_angle
    half = 0.5 * math.degrees(band.high - band.low)
    degrees = math.degrees(angle)
    return f"{round_to_band(degrees, degrees - half, degrees + half)}°"


def _load(plan: Plan, step: Step, show: Figures, force: float) -> str:
    press = plan.job.press
    share = force / step.force
    if press is None or press.bore is None or step.gauge is None:
        band = step.bands.force
        return show.force(force, Band(low=band.low * share, high=band.high * share))
    # In proportion to the plan's own figure at the setting, which knows what the log taught.
    reading = press.no_load + share * (step.gauge.value - press.no_load)
    half = 0.5 * (step.gauge.high - step.gauge.low)
    return show.pressure(reading, Band(low=reading - half, high=reading + half))
