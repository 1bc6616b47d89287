"""What a page says of a plan, as words ready to be set."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from attrs import evolve, frozen

from strapwright.bending.bend_values import Band
from strapwright.drawing import PHONE, WIDE, Frame, bend_scene, part_scene, to_svg
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.drawing.drawn_figures import stated_angle
from strapwright.drawing.leg_lines import apex, find_legs
from strapwright.errors import StrapwrightError
from strapwright.findings import BendAt, Choice
from strapwright.motion.refused_bends import clash_of, has_no_stop
from strapwright.pages.figure_reasons import Why, why_blank, why_gauge, why_travel, why_turn
from strapwright.pages.page_statements import Said, on_page, said
from strapwright.planning import plan
from strapwright.planning.job_order import why_not_searched
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.job import Job
from strapwright.wording import hold_words
from strapwright.wording.caution_words import READ_LOADED
from strapwright.wording.figures import figures_for
from strapwright.wording.gauge_words import no_gauge_words
from strapwright.wording.handling_words import handling_words as handling_text
from strapwright.wording.order_words import SHAPES_NOT_SEARCHED
from strapwright.wording.relief_words import relief_words
from strapwright.wording.telling import tell_all
from strapwright.wording.way_off_words import way_off_words

Size = Literal["wide", "phone"]
_PART = Frame(width=760.0, height=600.0, body=16.0)
_BENCH = Frame(width=560.0, height=460.0, body=16.0)
_FRAMES = {"wide": _PART, "phone": PHONE, "full": WIDE}


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
    radius = job.part.inside_radius
    if job.tooling is not None:
        radius = job.tooling.nose.radius
    if radius is None:
        radius = job.part.bar.thickness
    part = evolve(job.part, inside_radius=radius)
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
    scene = part_scene(made, _FRAMES[size], hurried=hurried)
    left, bottom, right, top = scene.bounds
    wide, high = right - left, top - bottom
    part = made.job.part
    legs = find_legs(part, made.finished, made.dimension_points)
    handles = []
    for number, leg in enumerate(legs, start=1):
        name = shape_places.get(f"leg {number}")
        if name is None:
            continue
        first, last = number == 1, number == len(legs)
        # A free end is where one would pull; between two bends the middle is clear of both.
        at = leg.span[0] if first else leg.span[1] if last else sum(leg.span) / 2
        x, y = leg.at(at)
        ahead = leg.at(at - 1.0 if first else at + 1.0)
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
    return PartPicture(svg=to_svg(scene, None), width=_FRAMES[size].width, handles=tuple(handles))


def blank_number(made: Plan) -> Number | None:
    """How long to cut."""
    blank = made.blank
    if blank is None:
        return None
    show = figures_for(made.job)
    band = made.length_band
    return Number(
        name="Cut the blank of bar 1" if made.stack else "Cut the blank",
        value=show.on_bar(blank.length),
        beneath="" if band is None else show.between(band, "mm"),
        why=why_blank(made),
    )


def marks(made: Plan) -> tuple[tuple[str, str, str], ...]:
    """Name, middle of the nose and sight mark of each bend, from end 1."""
    if made.blank is None:
        return ()
    show = figures_for(made.job)
    return tuple(
        (f"Bend {mark.label}", show.on_bar(mark.nose), show.on_bar(mark.sight))
        for mark in made.blank.marks
    )


def stack_rows(made: Plan) -> tuple[tuple[str, str, str, str, str, str], ...]:
    """Bar, what to cut it to, bend, middle of the nose, sight mark and angle, by bar of a stack."""
    show = figures_for(made.job)
    return tuple(
        (
            f"{one.name[:1].upper()}{one.name[1:]}",
            show.on_bar(one.blank.length),
            mark.label,
            show.on_bar(mark.nose),
            show.on_bar(mark.sight) if one.blank.carries_sight(mark) else "",
            show.angle(one.free[mark.bend - 1]),
        )
        for one in made.stack
        for mark in one.blank.marks
    )


def findings(made: Plan, bend: int | None = None) -> tuple[Said, ...]:
    """Return the plan's findings, or those about one bend by its 1-based number."""
    told = tell_all(made.findings, on_page(made.job))
    return tuple(said(one) for one in told if bend is None or BendAt(bend) in one.about)


def step_numbers(made: Plan, step: Step) -> tuple[Number, ...]:
    """Return the numbers of one bend: where to stop, what the gauge reads, what to look for."""
    show = figures_for(made.job)
    setting = step.setting
    travel = step.bands.travel
    found = [
        Number(
            name="Push from touch",
            value=show.setting(setting.travel),
            beneath=show.between(travel, "mm"),
            why=why_travel(made, step),
        )
    ]
    for value, name, between in (
        (setting.faces, "or stop where", "{} to {} measure"),
        (setting.block, "or on a block", "on the {}, met by the {}"),
    ):
        if value is None:
            continue
        faces = setting.faces_between if value is setting.faces else setting.block_between
        found.append(Number(name=name, value=show.setting(value), beneath=between.format(*faces)))
    if step.gauge is not None:
        band = Band(low=step.gauge.low, high=step.gauge.high)
        found += [
            Number(
                name="Gauge at full stroke",
                value=show.pressure(step.gauge.value, band),
                beneath=show.between(band, "MPa"),
                why=why_gauge(made, step),
            ),
            Number(
                name="Let off and look above",
                value=show.pressure_down(step.gauge.ease_off),
                beneath="the gauge warns, it does not stop the ram",
            ),
        ]
    else:
        force = step.bands.force
        found.append(
            Number(
                name="Force at full stroke",
                value=show.force(step.force, force),
                beneath=no_gauge_words(step.no_gauge, "page"),
            )
        )
    relief = relief_words(step.relief, show)
    if relief is not None:
        found.append(Number(name=relief.head, value=relief.pressure, beneath=relief.reason))
    return tuple(found)


def turn_number(made: Plan, step: Step) -> Number:
    """Angle at which the bend stands once it is let go."""
    show = figures_for(made.job)
    free = step.bands.free_angle
    if step.bottoms_first:
        return Number(
            name="Let go",
            value="no angle promised",
            beneath=f"it bottoms from {show.setting_below(step.bottoming_travel or 0.0)} on",
        )
    return Number(
        name="Let go, it stands at",
        value=show.angle(step.free_angle, free),
        beneath=show.between(free, "rad"),
        why=why_turn(made, step),
    )


def coming_off(step: Step) -> Said | None:
    """Say how the part comes off the tooling after a bend; ``None`` where nothing is known."""
    off = step.coming_off
    if off is None:
        return None
    kinds = {"free": "note", "too close to call": "warning", "locked on": "refusal"}
    return Said(
        kind=kinds[off.verdict], word=off.verdict, text=way_off_words(step), place="", link=""
    )


def why_not_off(made: Plan) -> str:
    """Say why it is not known how the part comes off."""
    if (why := why_not_searched(made.job)) is not None:
        return f"How it comes off was not worked out for {SHAPES_NOT_SEARCHED[why]}."
    if any(one.code in ("no-order", "order-cannot-be-made") for one in made.findings):
        return "How it comes off was not worked out, since the order cannot be made as it stands."
    left_out = [one for one in made.findings if one.code == "order-not-searched"]
    if any(one.one(Choice, "why").value == "no time" for one in left_out):
        return "How it comes off was not worked out in the time there was."
    return "How it comes off was not worked out for legs as short as these."


def handling_words(made: Plan) -> str:
    """Say what the order costs in handling, nothing where that was not worked out."""
    if made.handling is None or made.handling.cost is None:
        return ""
    return handling_text(made.handling)


def end_stop(made: Plan, step: Step) -> Number | None:
    """Where the end stop stands; ``None`` where there is none."""
    if step.end_stop is None:
        return None
    return Number(
        name="End stop",
        value=figures_for(made.job).on_bar(step.end_stop),
        beneath="from the middle of the nose to the end of the bar",
    )


def loaded_caution() -> str:
    """How an angle under load may be read."""
    return f"Under load: {READ_LOADED}."


def loaded_angle(made: Plan, step: Step) -> str:
    """Angle under the ram."""
    return figures_for(made.job).angle(step.loaded_angle, step.bands.loaded_angle)


def loads(made: Plan) -> tuple[tuple[str, str, str, str], ...]:
    """Name, angle under the ram, travel and gauge or force of each bend, in the order made."""
    show = figures_for(made.job)
    found = []
    for step in made.steps:
        if has_no_stop(made, step):
            continue
        force = show.force(step.force, step.bands.force)
        if step.gauge is not None:
            band = Band(low=step.gauge.low, high=step.gauge.high)
            force = show.pressure(step.gauge.value, band)
        travel = show.setting(step.setting.travel)
        found.append((f"Bend {step.bend}", loaded_angle(made, step), travel, force))
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


def staged(made: Plan, step: Step) -> tuple[str, str, tuple[tuple[str, str], ...]] | None:
    """Return first push, angle expected, and how much more for what is read; or ``None``."""
    push = step.staged
    if push is None:
        return None
    show = figures_for(made.job)
    rows = tuple(
        (show.angle(reading), show.setting(extra))
        for reading, extra in zip(push.readings, push.extra, strict=True)
    )
    return show.setting(push.first_travel), show.angle(push.first_free), rows


def step_line(made: Plan, step: Step) -> str:
    """One bend of the order as a sentence that begins with a verb."""
    way = "up" if made.job.part.bends[step.bend - 1].side > 0 else "down"
    turn = stated_angle(step.wanted if step.total is None else step.total)
    hits = f" in {step.hits} hits" if step.hits > 1 else ""
    return f"Bend {step.bend}, {way} {turn}{hits}: {hold_words.laid(made, step)}"


def hold_lines(plan: Plan, step: Step) -> dict[str, str | tuple[str, ...]]:
    """Return how the bar is held, the words of the marked face, and what carries the bar."""
    return {
        "hold": hold_words.laid(plan, step),
        "face": " ".join(hold_words.marked(plan, step)),
        "hold_more": hold_words.beyond(plan, step),
    }
