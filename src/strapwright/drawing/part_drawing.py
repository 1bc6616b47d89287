"""The finished part to scale, with legs as stated, turns and holes."""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import evolve

from strapwright.drawing import drawn_figures
from strapwright.drawing.leg_lines import Leg, find_legs
from strapwright.drawing.part_edges import NOTE, nose_edges
from strapwright.drawing.part_labels import (
    clear_grips,
    label_end,
    label_hole,
    label_leg,
    label_turn,
)
from strapwright.drawing.part_numbered import numbered_layout
from strapwright.drawing.part_space import in_space, space_layout
from strapwright.errors import InputError
from strapwright.planning.plan_values import Plan
from strapwright.scene.bar_outline import bar_outline, thinned
from strapwright.scene.boxes import Box, around, shape_box
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.lettering import wrap
from strapwright.scene.placing import Layout
from strapwright.scene.primitives import Path, Scene, Shape
from strapwright.shop.part import Part
from strapwright.wording.blank_words import how_measured

_PAD = 14.0  # px
_TRIES = 4  # smaller scales looked at where words still meet
_STEPS = 24  # of scales in all; the last is a fifth of the first
_CLEAR = 1.0  # px2 that words may share with other things
_TOO_MUCH = 400.0  # px2 (25-fold, as lines and words are weighed) past which words leave the bar
_THICKET, _THICK_TRIES = 5 * _TOO_MUCH, 3  # px2, and scales one after the other that meet as much
_MANY = 8  # bends; with more, words around the bar are a thicket


def part_scene(
    plan: Plan, frame: Frame = WIDE, *, hurried: bool = False, near: float | None = None
) -> Scene:
    """Draw the finished part.

    Parameters
    ----------
    plan
        Its ``finished`` is the mid-line of the part [mm].
    frame
        Room for the drawing; the height taken is what the part needs.
    hurried
        Whether the first places that words find must do, for a drawing that follows somebody's
        typing; words may then meet.
    near
        Scale of the drawing before, from which a hurried one begins to look for its own, so that it
        mostly need not look further; ``None`` where there was none [px/mm].

    Returns
    -------
    Scene
        To scale.  A part with rolls or twists is seen from its upper right, in isometric
        projection.  Where words find no room around the bar, its legs carry numbers and a table
        lists them.

    Raises
    ------
    InputError
        Where the shape is not known, for lack of a radius.
    """
    if not plan.finished.size:
        raise InputError(
            "part.inside_radius",
            "the part cannot be drawn without a radius",
            "give an inside radius or the tooling",
        )
    part = plan.job.part
    unit = drawn_figures.length_unit(plan.job)
    words = f"{drawn_figures.section(plan)}, legs measured {how_measured(part)}, in {unit}"
    edges = f"; {NOTE}" if part.bends and not in_space(plan) else ""
    notes = wrap(words + _ends(plan) + _rolls(part) + edges, frame.body, frame.width - 2 * _PAD)
    note = (1.3 * len(notes) + 0.9) * frame.body
    wide = frame.width - 2 * _PAD
    # Many words under a small part take more height; they never take the part's own.
    high = max(frame.height - 2 * _PAD - note, _LEAST_FOR_THE_PART * frame.height)
    layout = (
        space_layout(plan, frame, wide, high)
        if in_space(plan)
        else _in_plane(plan, frame, wide, high, hurried=hurried, near=near)
    )
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


def _in_plane(
    plan: Plan, frame: Frame, wide: float, high: float, *, hurried: bool, near: float | None
) -> Layout:
    """Lay out with words around the bar, at need with more height; else with a table."""
    if len(plan.job.part.bends) <= _MANY:
        rooms = ((1.0, frame),) if hurried else [(more, frame) for more in (1.0, 1.3, 1.7)]
        if frame.grip and not hurried:  # a word beside a handle is better than none
            rooms = [*rooms, (1.3, evolve(frame, grip=0.0))]
        for more, room in rooms:
            layout = _largest(plan, room, wide, more * high, hurried=hurried, near=near)
            if layout is not None:
                return layout
    return numbered_layout(plan, frame, wide, high)


def _largest(
    plan: Plan, frame: Frame, wide: float, high: float, *, hurried: bool, near: float | None
) -> Layout | None:
    """Lay the part out as large as it fits ``wide`` by ``high`` [px] with its words around it.

    Which words come first decides where the others still find room, so several orders are tried;
    the one where least meets is taken, and of two that are clear the larger.  ``None`` where the
    words find no room at all.
    """
    part = plan.job.part
    legs = find_legs(part, plan.finished, plan.dimension_points)
    outline = Path(points=bar_outline(plan.finished, part.bar.thickness), role="bar")
    bar = shape_box(outline, 1.0)
    words = 4 * frame.body  # the least that words take beside the bar
    largest = min((wide - words) / (bar.right - bar.left), (high - words) / (bar.top - bar.bottom))
    if largest <= 0.0:
        return None
    if hurried and near is not None:
        largest = min(largest, near)
    best: Layout | None = None
    least = (math.inf, 0.0)
    orders = _ORDERS[:1] if hurried else _ORDERS if part.holes else _ORDERS[::2]
    for order in orders:
        room = (wide, high, bar)
        for layout, met in _that_fit(plan, legs, frame, room, largest, order, hurried=hurried):
            if (round(met), -layout.scale) < least:
                best, least = layout, (round(met), -layout.scale)
        if least[0] < _CLEAR:
            break
    if best is None or not (hurried or least[0] <= _TOO_MUCH):
        return None
    best.draw_first(*_bar(plan, best.px))
    return best


def _that_fit(
    plan: Plan,
    legs: tuple[Leg, ...],
    frame: Frame,
    room: tuple[float, float, Box],
    scale: float,
    order: tuple[str, ...],
    *,
    hurried: bool,
) -> Iterator[tuple[Layout, float]]:
    """Lay out at smaller and smaller scales; give those that fit, with the area met [px2].

    ``room`` is the width and the height that there are [px], and the box around the bar.
    """
    wide, high, bar = room
    fits = thick = 0
    for _ in range(_STEPS):
        layout, met = _words_laid_out(plan, legs, frame, scale, order)
        box = around((bar, layout.extent()))
        over = max((box.right - box.left) * scale / wide, (box.top - box.bottom) * scale / high)
        if over <= 1.0 + 1e-9:
            fits += 1
            yield layout, met
            if met < _CLEAR or fits == _TRIES or hurried:
                return
        # Words seldom find room at a smaller scale where they are in a thicket already.
        thick = thick + 1 if met > _THICKET else 0
        if thick == _THICK_TRIES and not hurried:
            return
        # Words do not shrink with the bar, so the way that is left is taken in small steps, but
        # by a drawing that follows somebody's typing.
        scale *= min(0.9, 0.9 / over) if hurried else 0.93


_LEAST_FOR_THE_PART = 0.5  # of the frame's height
_ORDERS = (
    ("turns", "legs", "holes"),
    ("turns", "holes", "legs"),
    ("legs", "turns", "holes"),
    ("holes", "legs", "turns"),
)


def _bar(plan: Plan, px: float) -> list[Shape]:
    thickness = plan.job.part.bar.thickness
    line = thinned(plan.finished, 0.1 * px)
    return [
        Path(points=bar_outline(line, thickness), role="bar", closed=True),
        Path(points=bar_outline(line, thickness * 0.4), role="bar-core", closed=True),
        *nose_edges(plan, px),
    ]


def _words_laid_out(
    plan: Plan, legs: tuple[Leg, ...], frame: Frame, scale: float, order: tuple[str, ...]
) -> tuple[Layout, float]:
    """Lay out the words at one scale, the bar kept clear of but not drawn.

    Also return how much area they share with other things [px2].
    """
    part = plan.job.part
    half = part.bar.thickness / 2
    layout = Layout(scale=scale)
    layout.keep_clear(plan.finished, half + 2 * layout.px)
    clear_grips(layout, legs, frame)
    met = 0.0
    for what in order:
        if what == "turns":
            for number in range(1, len(legs)):
                met += label_turn(layout, plan, legs, number, frame)
        elif what == "legs":
            for number, leg in enumerate(legs):
                met += label_leg(layout, plan, leg, number, frame)
        else:
            for index, hole in enumerate(part.holes):
                met += label_hole(layout, plan, legs[hole.leg - 1], index, frame)
    first, last = legs[0], legs[-1]
    met += label_end(layout, "end 1", first, first.span[0], forward=False, half=half, frame=frame)
    met += label_end(layout, "end 2", last, last.span[1], forward=True, half=half, frame=frame)
    return layout, met


def _ends(plan: Plan) -> str:
    """Say how the ends of a closed shape meet."""
    close = plan.job.part.close
    if close is None:
        return ""
    size = drawn_figures.stated_length(plan.job, close.size)
    if close.kind == "overlap":
        return f"; the ends overlap by {size}"
    weld = ", for a weld" if close.kind == "weld gap" else ""
    return f"; the ends are {size} apart{weld}"


def _rolls(part: Part) -> str:
    """Say where the bar is turned about itself or twisted, and from where the picture shows it."""
    rolled = [
        f"rolled {drawn_figures.stated_angle(abs(part.roll_before(bend)))} before bend {bend + 1}"
        for bend in range(len(part.bends))
        if part.roll_before(bend) != 0.0
    ]
    rolled += [f"quarter twist in leg {one.leg}" for one in part.twists]
    return f"; {', '.join(rolled)}, seen from above on the right" if rolled else ""


def _description(plan: Plan) -> str:
    part, job = plan.job.part, plan.job
    words = [f"leg 1 {drawn_figures.length(job, part.legs[0])}"]
    for number, (bend, leg) in enumerate(zip(part.bends, part.legs[1:], strict=True), 1):
        way = "up" if bend.side > 0 else "down"
        words.append(f"bend {number} {way} {drawn_figures.stated_angle(bend.angle)}")
        words.append(f"leg {number + 1} {drawn_figures.length(job, leg)}")
    return (
        f"{drawn_figures.section(plan)}; {', '.join(words)}; "
        f"legs measured {how_measured(part)}{_ends(plan)}{_rolls(part)}."
    )
