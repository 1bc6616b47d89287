"""What a page says of a plan, as words ready to be set."""

from __future__ import annotations

from attrs import frozen

from strapwright.drawing import PHONE, Frame, bend_scene, to_svg
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.findings import BendAt
from strapwright.motion.refused_bends import clash_of, has_no_stop
from strapwright.pages.fields.part_picture import sketch
from strapwright.pages.figure_reasons import Why, why_blank, why_gauge, why_travel, why_turn
from strapwright.pages.page_statements import Said, on_page, said
from strapwright.planning.plan_values import Plan, Step
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

_BENCH = Frame(width=560.0, height=460.0, body=16.0)


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
