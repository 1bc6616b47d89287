"""Words for what is done to a part at the bench after the press."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.blank.flat_holes import NEAR
from strapwright.motion.refused_bends import is_refused
from strapwright.planning.bench_work.work_values import (
    BenchWork,
    Closing,
    Drilling,
    Sawing,
    Twisting,
)
from strapwright.planning.plan_values import Plan, SecondStroke
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.part_holes import cut_kind
from strapwright.wording.at_bench.finish_words import NOT_TO_CLOSE
from strapwright.wording.at_bench.second_stroke_words import (
    NOT_TO_PUSH,
    stroke_text,
    stroke_title,
)
from strapwright.wording.at_bench.twist_words import NOT_TO_TWIST, twist_text, twist_title
from strapwright.wording.bar_words import TIMES, rule_source
from strapwright.wording.blank_words import cut_size, how_measured
from strapwright.wording.reader import Reader


def bench_head(plan: Plan) -> str:
    """Heading of the work at the bench, of which a twist may come between two bends."""
    between = any(isinstance(one, Twisting) and one.before for one in plan.bench_work)
    again = "On the press again, a" if plan.second_strokes else "A"
    return "At the bench" if between else f"{again}t the bench, after the last bend"


@frozen(kw_only=True)
class WorkWords:
    """One piece of work at the bench in words.

    Attributes
    ----------
    title
        What is done, to which end or bend.
    text
        How, with its figures.
    """

    title: str
    text: str


def bench_work_words(plan: Plan, reader: Reader) -> tuple[WorkWords, ...]:
    """Say what is done at the bench, in order.

    Parameters
    ----------
    plan
        As planned.
    reader
        Who reads it.
    """
    return tuple(work_words(plan, one, reader) for one in plan.bench_work)


def work_words(plan: Plan, work: BenchWork | SecondStroke, reader: Reader) -> WorkWords:
    """Say one piece of work at the bench."""
    if isinstance(work, SecondStroke):
        text = NOT_TO_PUSH if is_refused(plan) else stroke_text(work, reader)
        return WorkWords(title=stroke_title(work, reader), text=text)
    if isinstance(work, Sawing):
        return _sawing(plan, work, reader)
    if isinstance(work, Drilling):
        return _drilling(work, reader)
    if isinstance(work, Twisting):
        lever = lever_words(work.arm, reader)
        text = NOT_TO_TWIST if is_refused(plan) else twist_text(work, lever, reader)
        return WorkWords(title=twist_title(work), text=text)
    if is_refused(plan):
        how = "in the vise" if work.by == "vise" else "by squeezing"
        return WorkWords(title=_finish_title(work, reader, how), text=NOT_TO_CLOSE)
    return _in_vise(plan, work, reader) if work.by == "vise" else _squeezed(work, reader)


def saw_words(end: int, position: float, reader: Reader) -> str:
    """Say where an end is sawn off, as a mark of the flat blank."""
    return f"saw line at end {end}: {reader.figures.on_bar(position)}, after bending"


def twist_words(leg: int, begin: float, end: float, reader: Reader) -> str:
    """Say where a leg is twisted, as a mark of the flat blank."""
    show = reader.figures
    return f"twist of leg {leg}: {show.on_bar(begin)} to {show.on_bar(end)}"


def _sawing(plan: Plan, work: Sawing, reader: Reader) -> WorkWords:
    show = reader.figures
    return WorkWords(
        title=f"Saw end {work.end} to length",
        text=f"Saw off {show.on_bar(work.length)}, along the saw line "
        f"{show.on_bar(work.position)} from end 1 of the flat blank. Leg {work.leg} then measures "
        f"{show.on_bar(work.finished)} {how_measured(plan.job.part)}.",
    )


def _in_vise(plan: Plan, work: Closing, reader: Reader) -> WorkWords:
    show = reader.figures
    pipe = ""
    if work.arm > work.leg:
        end = work.pulled in (1, len(plan.job.part.legs))
        what = "Slide a pipe over" if end else "Clamp a bar to"
        pipe = f" {what} leg {work.pulled}, for the leg alone is only {show.size(work.leg)}."
    return WorkWords(
        title=_finish_title(work, reader, "in the vise"),
        text=f"Clamp leg {work.clamped} with the jaws right beside the bend. Pull leg "
        f"{work.pulled} round, a little at a time. It takes up to {show.pull(work.force)} at "
        f"{lever_words(work.arm, reader)} from the bend.{pipe} {_past(work, reader)}",
    )


def lever_words(arm: float, reader: Reader) -> str:
    """Length of a lever, rounded up to half an inch or 10 mm."""
    step = 0.5 * INCH_MM if reader.figures.units == "inch" else 10.0
    return reader.figures.size(math.ceil(arm / step) * step)


def _squeezed(work: Closing, reader: Reader) -> WorkWords:
    show = reader.figures
    gauge = ""
    if work.gauge is not None:
        gauge = f" In the press the gauge then reads up to {show.pressure_up(work.gauge)}."
    return WorkWords(
        title=_finish_title(work, reader, "by squeezing"),
        text="Press the two legs towards each other between two flat faces, in a vise or in the "
        f"press. It takes up to {show.force(work.force)} at the tip of the shorter leg.{gauge} "
        "Keep hands and face out of the line in which the part could fly out. "
        f"{_past(work, reader)}",
    )


def _finish_title(work: Closing, reader: Reader, how: str) -> str:
    show = reader.figures
    return f"Close bend {work.bend} from {show.angle(work.begins)} to {show.angle(work.ends)} {how}"


def _past(work: Closing, reader: Reader) -> str:
    """How far to go past the angle, and how to tell."""
    past = max(round(math.degrees(work.past)), 1)
    return (
        f"It opens again by about {past}°, which is not tested: release it and check with the "
        f"angle gauge for {reader.figures.angle(work.ends)} each time."
    )


def _drilling(work: Drilling, reader: Reader) -> WorkWords:
    show, place = reader.figures, work.place
    kind = cut_kind(place)
    start = (
        f"bend {place.from_bend}, measured as the leg is"
        if place.from_bend is not None
        else f"end {1 if place.leg == 1 else 2}"
    )
    across = f", {show.on_bar(abs(place.across))} off centre" if place.across else ""
    text = (
        f"On leg {place.leg}, {show.on_bar(place.distance)} from {start}{across}, "
        f"{cut_size(place, show)}."
    )
    if place.drilled == "by rule":
        text += (
            f" Its edge is {show.size(work.away)} from bend {work.near}, nearer than "
            f"{TIMES[round(NEAR[kind])]} the thickness ({rule_source(kind)}): made flat it would "
            "go oval."
        )
    verb = "Drill" if kind == "hole" else "Cut"
    return WorkWords(title=f"{verb} {kind} {work.hole} now, not in the flat", text=text)
