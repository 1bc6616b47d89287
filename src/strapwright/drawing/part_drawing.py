"""The finished part to scale, with legs as stated, turns and holes."""

from __future__ import annotations

import math

from strapwright.drawing import figures
from strapwright.drawing.bar_outline import bar_outline, thinned
from strapwright.drawing.boxes import shape_box
from strapwright.drawing.frame import WIDE, Frame
from strapwright.drawing.layout import Layout
from strapwright.drawing.legs import Leg, find_legs
from strapwright.drawing.lettering import wrap
from strapwright.drawing.part_labels import label_end, label_hole, label_leg, label_turn
from strapwright.drawing.scene import Path, Scene
from strapwright.planning.values import Plan
from strapwright.shop.part import Part

_HOW = {
    "outside": "legs measured outside",
    "inside": "legs measured inside",
    "centre": "legs measured on the centre line",
}
_PAD = 14.0  # px
_TRIES = 4  # smaller scales looked at where words still meet


def part_scene(plan: Plan, frame: Frame = WIDE) -> Scene:
    """Draw the finished part.

    Parameters
    ----------
    plan
        Its ``finished`` is the mid-line of the part [mm].
    frame
        Room for the drawing; the height taken is what the part needs.

    Returns
    -------
    Scene
        To scale.
    """
    part = plan.job.part
    words = f"{figures.section(plan)}, {_HOW[part.measured]}, in {figures.length_unit(plan.job)}"
    notes = wrap(words + _rolls(part), frame.body, frame.width - 2 * _PAD)
    note = (1.3 * len(notes) + 0.9) * frame.body
    layout = _largest(plan, frame, frame.width - 2 * _PAD, frame.height - 2 * _PAD - note)
    px, box = layout.px, layout.extent()
    height = math.ceil((box.top - box.bottom) * layout.scale + 2 * _PAD + note)
    left = (box.left + box.right) / 2 - frame.width / 2 * px
    top = box.top + _PAD * px
    bottom = top - height * px
    first = bottom + (0.7 + 1.3 * (len(notes) - 1)) * frame.body * px
    layout.draw(
        *layout.lines(
            (left + _PAD * px, first), [(line, frame.body, "label") for line in notes], "start"
        )
    )
    return Scene(
        title=f"{part.name}: finished part",
        description=_description(plan),
        bounds=(left, bottom, left + frame.width * px, top),
        scale=layout.scale,
        shapes=tuple(layout.shapes),
    )


def _largest(plan: Plan, frame: Frame, wide: float, high: float) -> Layout:
    """Lay the part out as large as it fits ``wide`` by ``high`` [px] with its words around it.

    Which words come first decides where the others still find room, so both ways are tried; the
    one where less meets is taken, and of two that are clear the larger.
    """
    legs = find_legs(plan.job.part, plan.finished, plan.dimension_points)
    outline = Path(points=bar_outline(plan.finished, plan.job.part.bar.thickness), role="bar")
    bar = shape_box(outline, 1.0)
    words = 4 * frame.body  # the least that words take beside the bar
    largest = min((wide - words) / (bar.right - bar.left), (high - words) / (bar.top - bar.bottom))
    best = Layout(scale=largest)
    least = (math.inf, 0.0)
    for holes_first in (False, True) if plan.job.part.holes else (False,):
        scale, fits = largest, 0
        while True:
            layout, met = _laid_out(plan, legs, frame, scale, holes_first=holes_first)
            box = layout.extent()
            over = max((box.right - box.left) * scale / wide, (box.top - box.bottom) * scale / high)
            if over <= 1.0 + 1e-9:
                fits += 1
                if (round(met), -scale) < least:
                    best, least = layout, (round(met), -scale)
                if met < 1.0 or fits == _TRIES:
                    break
            scale *= 0.93
    return best


def _laid_out(
    plan: Plan, legs: tuple[Leg, ...], frame: Frame, scale: float, *, holes_first: bool
) -> tuple[Layout, float]:
    """Lay out at one scale; also return how much area words share with other things [px2]."""
    part = plan.job.part
    thickness = part.bar.thickness
    half = thickness / 2
    layout = Layout(scale=scale)
    line = thinned(plan.finished, 0.1 * layout.px)
    layout.draw(
        Path(points=bar_outline(line, thickness), role="bar", closed=True),
        Path(points=bar_outline(line, thickness * 0.4), role="bar-core", closed=True),
    )
    layout.keep_clear(plan.finished, half + 2 * layout.px)
    met = 0.0
    for number in range(1, len(legs)):
        met += label_turn(layout, part, legs, number, frame)
    for what in ("holes", "legs") if holes_first else ("legs", "holes"):
        if what == "legs":
            for number, leg in enumerate(legs):
                met += label_leg(layout, plan, leg, number, frame)
        else:
            for index, hole in enumerate(part.holes):
                met += label_hole(layout, plan, legs[hole.leg - 1], index, frame)
    first, last = legs[0], legs[-1]
    met += label_end(layout, "end 1", first, first.span[0], forward=False, half=half, frame=frame)
    met += label_end(layout, "end 2", last, last.span[1], forward=True, half=half, frame=frame)
    return layout, met


def _rolls(part: Part) -> str:
    """Say where the bar is turned about itself, for the picture shows all legs in one plane."""
    rolled = [
        f"rolled {figures.stated_angle(abs(part.roll_before(bend)))} before bend {bend + 1}"
        for bend in range(len(part.bends))
        if part.roll_before(bend) != 0.0
    ]
    return f"; {', '.join(rolled)}, drawn as if in one plane" if rolled else ""


def _description(plan: Plan) -> str:
    part, job = plan.job.part, plan.job
    words = [f"leg 1 {figures.length(job, part.legs[0])}"]
    for number, (bend, leg) in enumerate(zip(part.bends, part.legs[1:], strict=True), 1):
        way = "up" if bend.side > 0 else "down"
        words.append(f"bend {number} turns {way} {figures.stated_angle(bend.angle)}")
        words.append(f"leg {number + 1} {figures.length(job, leg)}")
    return f"{figures.section(plan)}; {', '.join(words)}; {_HOW[part.measured]}{_rolls(part)}."
