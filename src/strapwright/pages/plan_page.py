"""What a page says of a plan, as words ready to be set."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from attrs import evolve, frozen

from strapwright.drawing import PHONE, WIDE, Frame, bend_scene, part_scene, to_svg
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.drawing.leg_lines import apex, find_legs, leg_grips
from strapwright.drawing.part_space import in_space
from strapwright.errors import StrapwrightError
from strapwright.findings import BendAt
from strapwright.motion.refused_bends import clash_of, has_no_stop
from strapwright.pages.figure_reasons import Why, why_blank, why_gauge, why_travel, why_turn
from strapwright.pages.page_statements import Said, on_page, said
from strapwright.planning import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.job import Job
from strapwright.wording.blank_words import cut_words, leg_words, legs_lead, mark_words, opens_to
from strapwright.wording.caution_words import LOADED
from strapwright.wording.relief_words import relief_words
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.gauge_words import ease_off_figure, gauge_figure, no_gauge_words
from strapwright.wording.steps.handling_words import handling_words as handling_text
from strapwright.wording.steps.lay_words import mark_figures
from strapwright.wording.steps.staged_words import staged_words
from strapwright.wording.steps.step_words import (
    bend_name,
    end_stop_figure,
    force_figure,
    free_figure,
    loaded_figure,
)
from strapwright.wording.steps.stop_words import block_figure, distance_figure, travel_figure
from strapwright.wording.steps.way_off_words import VERDICTS, not_looked_words, way_off_words
from strapwright.wording.telling import tell_all

Size = Literal["wide", "phone"]
_GRIP, _SMALL_GRIP = 20.0, 8.0  # px; the ring of a handle with a little air, and on a phone
_PART = Frame(width=760.0, height=600.0, body=16.0, grip=_GRIP)
_BENCH = Frame(width=560.0, height=460.0, body=16.0)
FRAMES = {"wide": _PART, "phone": evolve(PHONE, grip=_SMALL_GRIP), "full": WIDE}


@frozen(kw_only=True)
class Number:
    """One number of a page.

    Attributes
    ----------
    name, value
        What it is, and it.
    beneath
        What stands under it: its band, the other unit.
    why
        How it came about, or ``None``.
    """

    name: str
    value: str
    beneath: str = ""
    why: Why | None = None


@frozen(kw_only=True)
class Handle:
    """A place on the drawing of the part that changes one field when it is moved.

    Attributes
    ----------
    field
        Name of the field.
    x, y
        Where it stands, as a share of the drawing.
    along
        Direction on the screen in which the value grows.
    per_pixel
        Growth of the value for a pixel at nominal size [mm or degrees].
    """

    field: str
    x: float
    y: float
    along: tuple[float, float]
    per_pixel: float


@frozen(kw_only=True)
class PartPicture:
    """The drawing of the part with its handles; ``width`` at nominal size [px]."""

    svg: str
    width: float
    handles: tuple[Handle, ...]


def sketch(job: Job) -> Plan | None:
    """Return the part without its tooling, which is quick; ``None`` where that draws nothing.

    The radius is that of the nose, so what is drawn differs from the plan by less than a line.
    """
    radius = job.part.assumed_radius or job.part.inside_radius
    if job.tooling is not None:
        radius = job.tooling.nose.radius
    if radius is None:
        radius = job.part.bar.thickness
    part = evolve(job.part, assumed_radius=radius)
    try:
        made = plan(evolve(job, part=part, tooling=None, press=None))
    except StrapwrightError:
        return None
    return made if len(made.finished) else None


def part_picture(
    made: Plan, size: Size, shape_places: dict[str, str], *, hurried: bool = False
) -> PartPicture:
    """Draw the part.

    Parameters
    ----------
    made
        With a finished line.
    size
        Room it has.
    shape_places
        ``leg 1`` or ``bend 1`` -> name of its field.
    hurried
        Whether somebody is typing, and words need not find their best places.
    """
    scene = part_scene(made, FRAMES[size], hurried=hurried)
    shape_places = {} if in_space(made) else shape_places  # one drags in the plane of the paper
    left, bottom, right, top = scene.bounds
    wide, high = right - left, top - bottom
    part = made.job.part
    legs = find_legs(part, made.finished, made.dimension_points)
    handles, grips = [], leg_grips(legs)
    for number, leg in enumerate(legs, start=1):
        name = shape_places.get(f"leg {number}")
        if name is None:
            continue
        at, grown = grips[number - 1]
        x, y = leg.at(at)
        ahead = leg.at(grown)
        handles.append(
            Handle(
                field=name,
                x=(x - left) / wide,
                y=(top - y) / high,
                along=(ahead[0] - x, y - ahead[1]),
                per_pixel=1.0 / scene.scale,
            )
        )
    for number, (before, after) in enumerate(pairwise(legs), start=1):
        name = shape_places.get(f"bend {number}")
        if name is None:
            continue
        x, y = apex(before, after)
        side = float(part.bends[number - 1].side)
        across = (
            after.at(0.0, side)[0] - after.at(0.0)[0],
            after.at(0.0, side)[1] - after.at(0.0)[1],
        )
        handles.append(
            Handle(
                field=name,
                x=(x - left) / wide,
                y=(top - y) / high,
                along=(across[0], -across[1]),
                per_pixel=0.5,
            )
        )
    return PartPicture(svg=to_svg(scene, None), width=FRAMES[size].width, handles=tuple(handles))


def blank_number(made: Plan) -> Number | None:
    """How long to cut."""
    cut = cut_words(made, on_page(made.job))
    if cut is None:
        return None
    return Number(name=cut.label, value=cut.length, beneath=cut.between, why=why_blank(made))


def provisional_blank(made: Plan) -> Number | None:
    """Say about how long the blank is from bar and legs alone, where no radius is known yet."""
    if made.blank is not None or made.job.tooling is not None:
        return None
    guessed = sketch(made.job)
    reader = on_page(made.job)
    cut = None if guessed is None else cut_words(guessed, reader)
    if cut is None:
        return None
    thick = reader.figures.on_bar(made.job.part.bar.thickness)
    return Number(
        name="First estimate of the blank",
        value=cut.length,
        beneath=f"Inside radius taken as the thickness of the bar, {thick}. Enter an assumed "
        "radius or the tooling before you cut.",
    )


def legs(made: Plan) -> tuple[str, tuple[tuple[str, str], ...]]:
    """Say what moves a length from leg to leg, and the band of each leg; empty without one."""
    reader = on_page(made.job)
    return legs_lead(made, reader), leg_words(made, reader)


def marks(made: Plan) -> tuple[tuple[str, str, str], ...]:
    """Name, middle of the nose and sight mark of each bend, from end 1."""
    if made.blank is None:
        return ()
    said = mark_words(made.blank, on_page(made.job))
    return tuple((f"Bend {mark.label}", mark.nose, mark.sight) for mark in said)


def stack_rows(made: Plan) -> tuple[tuple[str, str, str, str, str, str], ...]:
    """Bar, what to cut it to, bend, middle of the nose, sight mark and angle, by bar of a stack."""
    reader = on_page(made.job)
    return tuple(
        (
            f"{one.name[:1].upper()}{one.name[1:]}",
            reader.figures.on_bar(one.blank.length),
            mark.label,
            mark.nose,
            mark.sight if mark.on_bar else "",
            free,
        )
        for one in made.stack
        for mark, free in zip(mark_words(one.blank, reader), opens_to(one, reader), strict=True)
    )


def findings(made: Plan, bend: int | None = None) -> tuple[Said, ...]:
    """Return the plan's findings, or those about one bend by its 1-based number."""
    told = tell_all(
        # The page of a bend says of its hold what tips.
        (one for one in made.findings if bend is None or not hold_words.said_of(one, made)),
        on_page(made.job),
    )
    return tuple(said(one) for one in told if bend is None or BendAt(bend) in one.about)


def step_numbers(made: Plan, step: Step) -> tuple[Number, ...]:
    """Return the numbers of one bend: where to stop, what the gauge reads, what to look for."""
    reader = on_page(made.job)
    travel = travel_figure(step, reader)
    found = [
        Number(
            name=travel.label,
            value=travel.value,
            beneath=travel.between,
            why=why_travel(made, step),
        )
    ]
    found += [
        Number(name=stop.label, value=stop.value, beneath=stop.how)
        for stop in (distance_figure(step, reader), block_figure(step, reader))
        if stop.value
    ]
    if step.gauge is not None:
        gauge, ease_off = gauge_figure(step.gauge, reader), ease_off_figure(step.gauge, reader)
        found += [
            Number(
                name=gauge.label,
                value=gauge.value,
                beneath=gauge.between,
                why=why_gauge(made, step),
            ),
            Number(name=ease_off.label, value=ease_off.value, beneath=ease_off.how),
        ]
    else:
        force = force_figure(step, reader)
        found.append(
            Number(
                name=force.label,
                value=force.value,
                beneath=no_gauge_words(step.no_gauge, "page"),
            )
        )
    relief = relief_words(step.relief, reader.figures)
    if relief is not None:
        found.append(Number(name=relief.head, value=relief.pressure, beneath=relief.reason))
    return tuple(found)


def turn_number(made: Plan, step: Step) -> Number:
    """Angle at which the bend stands once it is let go."""
    free = free_figure(step, on_page(made.job))
    return Number(
        name=free.label,
        value=free.value,
        beneath=free.between,
        why=None if step.bottoms_first else why_turn(made, step),
    )


def coming_off(step: Step) -> Said | None:
    """Say how the part comes off the tooling after a bend; ``None`` where nothing is known."""
    off = step.coming_off
    if off is None:
        return None
    kinds = {"free": "note", "locked on": "refusal"}
    return Said(
        kind=kinds.get(off.verdict, "warning"),
        word=VERDICTS[off.verdict],
        text=way_off_words(step),
        place="",
        link="",
    )


def why_not_off(made: Plan) -> str:
    """Say why it is not known how the part comes off."""
    return not_looked_words(made)


def handling_words(made: Plan) -> str:
    """Say what the order costs in handling, nothing where that was not worked out."""
    if made.handling is None or made.handling.cost is None:
        return ""
    return handling_text(made.handling)


def end_stop(made: Plan, step: Step) -> Number | None:
    """Where the end stop stands; ``None`` where there is none."""
    stop = end_stop_figure(step, on_page(made.job))
    return None if stop is None else Number(name=stop.label, value=stop.value, beneath=stop.how)


def loaded_caution() -> str:
    """How an angle under load may be read."""
    return LOADED


def loaded_angle(made: Plan, step: Step) -> str:
    """Angle under the ram."""
    return loaded_figure(step, on_page(made.job)).value


def loads(made: Plan) -> tuple[tuple[str, str, str, str], ...]:
    """Name, angle under the ram, travel and gauge or force of each bend, in the order made."""
    reader = on_page(made.job)
    found = []
    for step in made.steps:
        if has_no_stop(made, step):
            continue
        gauge = step.gauge
        load = force_figure(step, reader) if gauge is None else gauge_figure(gauge, reader)
        travel, turn = travel_figure(step, reader), loaded_figure(step, reader)
        name = bend_name(made, step, reader).name
        found.append((name, turn.value, travel.value, load.value))
    return tuple(found)


def bench_picture(made: Plan) -> tuple[str, str] | None:
    """Draw the tooling at full stroke of its largest bend or where one clashes, wide and narrow."""
    if not made.steps:
        return None
    refused = [one for one in made.steps if has_no_stop(made, one)]
    if refused:
        step = next((one for one in refused if clash_of(made, one) is not None), refused[0])
        return (
            to_svg(clash_scene(made, step, _BENCH), None),
            to_svg(clash_scene(made, step, PHONE), None),
        )
    step = max(made.steps, key=lambda one: one.loaded_angle)
    return (
        to_svg(bend_scene(made, step, "stroke", _BENCH), None),
        to_svg(bend_scene(made, step, "stroke", PHONE), None),
    )


def bend_marks(made: Plan, step: Step) -> tuple[tuple[str, str], ...]:
    """Return which marks to set for a bend, and where each is from end 1."""
    return tuple((one.label, one.value) for one in mark_figures(made, step, on_page(made.job)))


def staged(made: Plan, step: Step) -> tuple[str, str, tuple[tuple[str, str], ...]] | None:
    """Return first push, angle expected, and how much more for what is read; or ``None``."""
    if step.staged is None:
        return None
    said = staged_words(step.staged, on_page(made.job))
    return said.first, said.free, said.rows


def step_line(made: Plan, step: Step) -> str:
    """One bend of the order as a sentence that begins with a verb."""
    return f"{bend_name(made, step, on_page(made.job)).title}: {hold_words.laid(made, step)}"


def hold_lines(plan: Plan, step: Step) -> dict[str, str | tuple[str, ...]]:
    """Return how the bar is held, the words of the marked face, and what carries the bar."""
    return {
        "hold": hold_words.laid(plan, step),
        "face": " ".join(hold_words.marked(plan, step)),
        "hold_more": hold_words.beyond(plan, step),
    }
