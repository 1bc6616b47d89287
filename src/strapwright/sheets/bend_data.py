"""One bend as the sheet says it: numbered sentences, settings, limits, boxes."""

from __future__ import annotations

import math
from typing import Any

from strapwright.bending.bend_values import Band
from strapwright.findings import BendAt, Severity
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.plan_values import Plan, Setting, Step
from strapwright.quantities import show_speed
from strapwright.quantities.inside_units import INCH_MM
from strapwright.sheets.paper_figures import Figures
from strapwright.wording import hold_words
from strapwright.wording.caution_words import READ_LOADED
from strapwright.wording.gauge_words import no_gauge_words
from strapwright.wording.reader import on_paper
from strapwright.wording.refused_words import NO_STOP, WORD, clash_words, headline
from strapwright.wording.relief_words import relief_words
from strapwright.wording.telling import Told, tell_all
from strapwright.wording.way_off_words import way_off_words

Data = dict[str, Any]


def bend_data(plan: Plan, index: int) -> Data:
    """Say one bend.

    Parameters
    ----------
    plan
        The whole plan.
    index
        0-based place in the order of making.

    Returns
    -------
    dict
        Strings, lists and mappings of strings, as ``bend.typ`` takes them.
    """
    step = plan.steps[index]
    show = Figures(job=plan.job)
    bend = plan.job.part.bends[step.bend - 1]
    way = "up" if bend.side > 0 else "down"
    whole = step.wanted if step.total is None else step.total
    about = [finding_data(one) for one in told(plan) if _concerns(one, step)]
    head = {
        "number": str(step.order),
        "order": ordinal(step.order),
        "title": f"Bend {step.bend}",
        "turn": f"{way} {show.angle(whole)}",
        "included": _included(step, whole, show),
        "face": " ".join(hold_words.marked(plan, step)),
        "hold": list(hold_words.laid_lines(plan, step)),
        "findings": about,
    }
    if has_no_stop(plan, step):
        why = clash_words(plan, step, on_paper(plan.job))
        return {**head, "clash": f"{why[:1].upper()}{why[1:]}. {NO_STOP}" if why else NO_STOP}
    return {
        **head,
        "clash": "",
        "lay": _lay(plan, index),
        "roll": _roll(step, show),
        "marks": _marks(plan, step, show),
        "stop": "" if step.end_stop is None else show.short(step.end_stop),
        "clear": _clear(step, show),
        "off": way_off_words(step),
        "settings": _settings(step, show),
        "gauge": _gauge(step, show),
        "relief": _relief(step, show),
        "angles": _angles(step, show),
        "staged": _staged(step, show),
        "small": _small(step, show),
    }


def refused_line(plan: Plan) -> str:
    """Return the banner of a refused part, empty where it is not refused."""
    said = headline(plan, on_paper(plan.job))
    return "" if said is None else f"{WORD.upper()}: {said.sentence}"


def ordinal(number: int) -> str:
    """Write a place in an order, e.g. ``2nd``."""
    teens = number % 100 in {11, 12, 13}
    return f"{number}{'th' if teens else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"


def _concerns(finding: Told, step: Step) -> bool:
    """Whether a finding stands on the page of a bend.

    What forbids the whole job stands on every page: a page hangs at the press without its cover.
    """
    named = bends_of(finding)
    return step.bend in named or (finding.severity is Severity.REFUSAL and not named)


def told(plan: Plan) -> tuple[Told, ...]:
    """Say the findings of a plan on paper."""
    return tell_all(plan.findings, on_paper(plan.job))


def bends_of(finding: Told) -> frozenset[int]:
    """Return the bends that a finding names, e.g. those of ``bends 1, 2 and 4``."""
    return frozenset(one.number for one in finding.about if isinstance(one, BendAt))


def finding_data(finding: Told) -> Data:
    """Say a finding, with the word for how much it matters."""
    word = {"note": "Note", "warning": "Warning", "refusal": "Cannot be made as stated"}
    return {
        "severity": finding.severity.value,
        "word": word[finding.severity.value],
        "where": finding.where,
        "text": finding.sentence,
    }


def _included(step: Step, whole: float, show: Figures) -> str:
    said = f"included angle {show.angle(math.pi - whole)}"
    return f"{said}; by {step.hits} hits of {show.angle(step.wanted)}" if step.hits > 1 else said


def _roll(step: Step, show: Figures) -> Data | None:
    """How the bar is turned about itself before its face is spoken of."""
    roll = step.hold.roll
    if roll == 0.0:
        return None
    way = "towards" if roll > 0.0 else "away from"
    return {
        "text": f"Roll it first from how it is drawn, end 1 on the left, its top {way} you:",
        "figure": show.angle(abs(roll)),
    }


def _lay(plan: Plan, index: int) -> Data:
    hold = plan.steps[index].hold
    part = plan.job.part
    beside = f"{part.at_once} bars side by side" if part.at_once > 1 else ""
    stacked = f"{part.stacked} on each other" if part.stacked > 1 else ""
    what = ", ".join(filter(None, (beside, stacked))) or "the bar"
    if index == 0:
        verb = f"Lay {what} in"
    else:
        before = plan.steps[index - 1].hold
        if hold.roll != before.roll:
            # The face is said of the bar as rolled, so it cannot be compared with the last.
            return _laid("Lay it in anew", plan, index)
        flip, swap = hold.face != before.face, hold.end_left != before.end_left
        verb = {
            (False, False): "Keep it as it lies",
            (True, False): "Flip it, ends as they are",
            (False, True): "Swap it end for end",
            (True, True): "Flip it and swap it end for end",
        }[flip, swap]
    return _laid(verb, plan, index)


def _laid(verb: str, plan: Plan, index: int) -> Data:
    step = plan.steps[index]
    return {
        "text": f"{verb}:",
        "figure": hold_words.laid(plan, step),
        # A bar that sits on the nose has it below; there is little room on paper to say it twice.
        "nose": "" if step.hold.carried_by == "nose" else hold_words.where_nose_is(step.hold),
        "carried": hold_words.to_mind(plan, step),
    }


def _marks(plan: Plan, step: Step, show: Figures) -> list[Data]:
    if plan.blank is None:
        return []
    marks = plan.blank.marks_of(step.bend)
    first, last = marks[0], marks[-1]
    # The line lies off the mark towards one end; that end's side of the tooling is meant.
    end = 2 if first.sight > first.nose else 1
    side = "left" if step.hold.end_left == end else "right"
    edge = f"the {side} outer edge of the shoulders, from end 1:"
    seen = [mark for mark in marks if plan.blank.carries_sight(mark)]
    if len(marks) == 1:
        said = [
            {
                "text": f"Set mark {first.label} under the middle of the nose, from end 1:",
                "figure": show.short(first.nose),
            }
        ]
    else:
        said = [
            {
                "text": f"Set marks {first.label} to {last.label} under the middle of the nose, "
                "one hit at each, from end 1:",
                "figure": f"{show.short(first.nose)} to {show.short(last.nose)}",
            }
        ]
    if len(seen) == 1:
        said.append(
            {
                "text": f"Line up sight line {seen[0].label} with {edge}",
                "figure": show.short(seen[0].sight),
            }
        )
    elif seen:
        said.append(
            {
                "text": f"Line up sight lines {seen[0].label} to {seen[-1].label} in turn with "
                f"{edge}",
                "figure": f"{show.short(seen[0].sight)} to {show.short(seen[-1].sight)}",
            }
        )
    return said


def _clear(step: Step, show: Figures) -> str:
    """How near the bar comes to anything on the way."""
    if step.clearance is None or step.nearest is None:
        return ""
    return (
        f"On the way the bar comes no nearer than {show.plain.clearance(step.clearance)} to the "
        f"{step.nearest.name}."
    )


def _settings(step: Step, show: Figures) -> list[Data]:
    setting = step.setting
    first, second = setting.faces_between
    stands, meets = setting.block_between
    return [
        _setting("Travel", "from touch", setting.travel, setting, step, show),
        _setting(
            "Distance", f"from the {first} to the {second}", setting.faces, setting, step, show
        ),
        _setting(
            "Stop block", f"on the {stands}, met by the {meets}", setting.block, setting, step, show
        ),
    ]


def _setting(
    name: str, how: str, value: float | None, setting: Setting, step: Step, show: Figures
) -> Data:
    if value is None:
        return {"name": name, "how": how, "main": "", "rest": "", "small": "not given, see below"}
    small = show.beside_setting(value)
    band = step.bands.travel
    # Faces and block close as the travel grows, so their band is the travel's mirrored.
    if name != "Travel":
        middle = value + setting.travel
        band = Band(low=middle - band.high, high=middle - band.low)
    small = f"{small}; {show.length_between(band)}"
    return {"name": name, "how": how, "small": small, **show.setting(value)}


def _gauge(step: Step, show: Figures) -> Data:
    gauge = step.gauge
    if gauge is None:
        return {"reason": no_gauge_words(step.no_gauge)}
    band = Band(low=gauge.low, high=gauge.high)
    peak = ""
    if gauge.peak > gauge.value:
        peak = f"On the way it is expected to rise to {show.pressure_reached(gauge.peak)}."
    return {
        "value": show.pressure(gauge.value, band),
        "between": show.pressure_between(band),
        "peak": peak,
        "ease_off": show.pressure_limit(gauge.ease_off),
    }


def _relief(step: Step, show: Figures) -> Data | None:
    words = relief_words(step.relief, show.plain)
    if words is None:
        return None
    return {"head": words.head, "figure": words.pressure, "reason": words.reason}


def _angles(step: Step, show: Figures) -> Data:
    if step.bottoms_first:
        none = ("no angle", "not promised, for it bottoms first")
        return {"caution": ""} | dict(
            zip(("loaded", "loaded_between", "free", "free_between"), none * 2, strict=True)
        )
    loaded, free = step.bands.loaded_angle, step.bands.free_angle
    return {
        "loaded": show.angle(step.loaded_angle, loaded),
        "caution": READ_LOADED,
        "loaded_between": show.angle_between(loaded),
        "free": show.angle(step.free_angle, free),
        "free_between": show.angle_between(free),
    }


def _staged(step: Step, show: Figures) -> Data | None:
    staged = step.staged
    if staged is None:
        return None
    rows = [
        {
            "reads": show.angle(reading),
            "push": show.by_difference(extra) if extra > 0 else "none",
        }
        for reading, extra in zip(staged.readings, staged.extra, strict=True)
    ]
    return {
        "push": show.setting(staged.first_travel),
        "others": show.beside_setting(staged.first_travel),
        "loaded": show.angle(staged.first_loaded),
        "free": show.angle(staged.first_free),
        "rows": rows,
        "unit": "mm" if show.units == "metric" else "in",
    }


def _small(step: Step, show: Figures) -> list[str]:
    """Limits and figures to look up, one sentence each."""
    said = [show.plain.jam(step.jam_angle, float(step.curve.loaded_angle[-1]))]
    if step.bottoming_travel is not None:
        said.append(
            f"Bottoming starts at a travel of {show.plain.setting_below(step.bottoming_travel)}; "
            "past it no angle is promised."
        )
    said.append(
        f"Straight left between nose and shoulder: {show.short(step.straight_left)}. "
        f"A radius gauge reads {show.short(step.radii.gauge)} inside; the tightest spot has "
        f"{show.short(step.radii.tightest)}."
    )
    force = show.plain.banded(step.force, step.bands.force, "N")
    said.append(f"Force on the nose at the end {force.shown}, {force.between}.")
    speed = step.speed
    small, name = (0.1, "0.1 mm") if show.units == "metric" else (0.01 * INCH_MM, "0.010 in")
    turn = math.degrees(speed.sensitivity) * small
    said.append(f"At the end, {name} more travel turns the bend {turn:.1f}°.")
    if speed.ram is not None and speed.angle is not None:
        said.append(
            f"The ram closes at {show_speed(speed.ram, show.units)}; the bend turns up to "
            f"{math.degrees(speed.angle):.0f}° in a second."
        )
    return said
