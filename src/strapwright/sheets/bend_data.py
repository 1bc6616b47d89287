"""One bend as the sheet says it: numbered sentences, settings, limits, boxes."""

from __future__ import annotations

from typing import Any

from strapwright.findings import BendAt, Severity
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.limits_and_weights.pumping import pump_work
from strapwright.planning.plan_values import Plan, SecondStroke, Step
from strapwright.scene.lettering import as_fractions
from strapwright.sheets.paper_figures import Figures
from strapwright.wording.at_bench.second_stroke_words import NOT_TESTED, change_text
from strapwright.wording.at_bench.twist_words import twist_first
from strapwright.wording.caution_words import HANDS, REACH_IN, READ_LOADED
from strapwright.wording.limits_and_weights.pump_words import pump_words
from strapwright.wording.reader import Reader, on_paper
from strapwright.wording.refused_words import WORD, headline, no_stop_words
from strapwright.wording.relief_words import relief_words
from strapwright.wording.severity_words import severity_label
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.gauge_words import (
    ease_off_figure,
    gauge_figure,
    no_gauge_words,
    peak_words,
)
from strapwright.wording.steps.lay_words import lay_figure, mark_figures, roll_figure
from strapwright.wording.steps.speed_words import speed_words
from strapwright.wording.steps.staged_words import staged_words
from strapwright.wording.steps.step_figure import StepFigure
from strapwright.wording.steps.step_words import (
    bend_name,
    bottoming_words,
    clear_words,
    end_stop_figure,
    force_figure,
    free_figure,
    included_angle,
    loaded_figure,
    radius_words,
    straight_left_words,
    tooling_words,
)
from strapwright.wording.steps.stop_words import block_figure, distance_figure, travel_figure
from strapwright.wording.steps.way_off_words import way_off_words
from strapwright.wording.telling import Told, tell_all

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
    reader = on_paper(plan.job)
    called = bend_name(plan, step, reader)
    about = [finding_data(one) for one in told(plan) if _concerns(one, step)]
    face = " ".join(hold_words.marked(plan, step))
    head = {
        "number": str(step.order),
        "order": ordinal(step.order),
        "title": called.name,
        "turn": called.turn,
        "included": f"{included_angle(step, reader)}{called.hits}",
        "place": f"before: hatched is the {face}; end {step.hold.end_left} on the left",
        "hold": list(hold_words.laid_lines(plan, step)),
        "findings": about,
    }
    if has_no_stop(plan, step):
        return {**head, "clash": no_stop_words(plan, step, reader)}
    return {
        **head,
        "clash": "",
        "tools": as_fractions(_first(plan, step, reader)),
        "lay": _lay(plan, index),
        "roll": _roll(step, reader),
        "marks": _marks(plan, step, reader),
        "stop": _end_stop(step, reader),
        "clear": clear_words(step, reader),
        "off": way_off_words(step),
        "settings": _settings(step, reader, show),
        "stop_by": step.stop,
        "hands": HANDS,
        "reach_in": REACH_IN,
        "radius": as_fractions(radius_words(step, reader)),
        "gauge": _gauge(step, reader),
        "relief": _relief(step, show),
        "angles": _angles(step, reader),
        "staged": _staged(step, reader, show),
        "small": _small(plan, step, reader),
    }


def _first(plan: Plan, step: Step, reader: Reader) -> str:
    """What comes before all else: a leg to twist, a tooling to put in."""
    twist = twist_first(plan.bench_work, step.bend, [one.bend for one in plan.steps])
    return " ".join(filter(None, (twist, tooling_words(plan, step, reader))))


def second_data(stroke: SecondStroke) -> Data:
    """Say a bend that is pushed on, as one bend more.

    Parameters
    ----------
    stroke
        Of a plan that is not refused.
    """
    made, step = stroke.made, stroke.step
    reader = on_paper(made.job)
    show = reader.figures
    return {
        **bend_data(made, len(made.steps) - 1),
        "title": f"Bend {stroke.bend} again",
        "turn": f"{show.angle(stroke.begins)} to {show.angle(stroke.ends)}",
        "included": f"{included_angle(step, reader)}, on {stroke.tooling}",
        "tools": as_fractions(change_text(stroke, reader)),
        "lay": {
            "text": "Place it bent, its inside under the nose:",
            "figure": hold_words.laid(made, step),
            "nose": hold_words.where_nose_is(step.hold),
            "carried": "",
        },
        "marks": [],
        "small": [
            f"The nose pushes with up to {show.force(stroke.force)}.",
            NOT_TESTED,
            *_small(made, step, reader),
        ],
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
    """Say the findings of a plan on paper, but for what its bends say of how they are held."""
    new = (one for one in plan.findings if not hold_words.said_of(one, plan))
    return tell_all(new, on_paper(plan.job))


def bends_of(finding: Told) -> frozenset[int]:
    """Return the bends that a finding names, e.g. those of ``bends 1, 2 and 4``."""
    return frozenset(one.number for one in finding.about if isinstance(one, BendAt))


def finding_data(finding: Told) -> Data:
    """Say a finding, with the word for how much it matters."""
    return {
        "severity": finding.severity.value,
        "word": severity_label(finding.severity),
        "where": finding.where,
        "text": finding.sentence,
    }


def _roll(step: Step, reader: Reader) -> Data | None:
    said = roll_figure(step, reader)
    return None if said is None else _figure(said)


def _figure(said: StepFigure) -> Data:
    """Say one figure in its sentence."""
    return {"text": said.label, "figure": said.value}


def _lay(plan: Plan, index: int) -> Data:
    step = plan.steps[index]
    return {
        **_figure(lay_figure(plan, index)),
        # A bar that sits on the nose has it below; there is little room on paper to say it twice.
        "nose": "" if step.hold.carried_by == "nose" else hold_words.where_nose_is(step.hold),
        "carried": hold_words.to_mind(plan, step),
    }


def _marks(plan: Plan, step: Step, reader: Reader) -> list[Data]:
    return [
        {**_figure(one), "figure": as_fractions(one.value)}
        for one in mark_figures(plan, step, reader)
    ]


def _end_stop(step: Step, reader: Reader) -> str:
    stop = end_stop_figure(step, reader)
    return "" if stop is None else as_fractions(stop.value)


def _settings(step: Step, reader: Reader, show: Figures) -> list[Data]:
    setting = step.setting
    if step.stop == "on a block":
        return [
            _setting(block_figure(step, reader), setting.block, show),
            _setting(travel_figure(step, reader), setting.travel, show),
        ]
    return [
        _setting(travel_figure(step, reader), setting.travel, show),
        _setting(distance_figure(step, reader), setting.faces, show),
    ]


def _setting(said: StepFigure, mm: float | None, show: Figures) -> Data:
    head = {"name": said.label, "how": said.how, "main": said.value, "rest": ""}
    if mm is None:
        return {**head, "small": "not given, see below", "between": ""}
    small = f"{show.beside_setting(mm)}; {said.between}"
    return {**head, "small": small, "between": said.between}


def _gauge(step: Step, reader: Reader) -> Data:
    gauge = step.gauge
    if gauge is None:
        return {"reason": no_gauge_words(step.no_gauge)}
    said = gauge_figure(gauge, reader)
    return {
        "value": said.value,
        "between": said.between,
        "peak": peak_words(gauge, reader.figures),
        "ease_off": ease_off_figure(gauge, reader).value,
    }


def _relief(step: Step, show: Figures) -> Data | None:
    words = relief_words(step.relief, show.plain)
    if words is None:
        return None
    return {"head": words.head, "figure": words.pressure, "reason": words.reason}


def _angles(step: Step, reader: Reader) -> Data:
    loaded, free = loaded_figure(step, reader), free_figure(step, reader)
    return {
        "loaded": loaded.value,
        "caution": "" if step.bottoms_first else READ_LOADED,
        "loaded_between": loaded.between,
        "free": free.value,
        "free_between": free.between,
    }


def _staged(step: Step, reader: Reader, show: Figures) -> Data | None:
    if step.staged is None:
        return None
    said = staged_words(step.staged, reader)
    return {
        "push": {"main": said.first, "rest": ""},
        "others": show.beside_setting(step.staged.first_travel),
        "loaded": said.loaded,
        "free": said.free,
        "rows": [{"reads": reads, "push": push} for reads, push in said.rows],
        "unit": said.unit,
    }


def _small(plan: Plan, step: Step, reader: Reader) -> list[str]:
    """Limits and figures to look up, one sentence each."""
    force = force_figure(step, reader)
    pumped = pump_words(pump_work(plan.job.press, step), reader.figures)
    said = [
        reader.figures.jam(step.jam_angle, float(step.curve.loaded_angle[-1])),
        bottoming_words(step, reader),
        as_fractions(straight_left_words(step, reader)),
        f"{force.label} {force.banded}.",
        *speed_words(step, reader),
        *([f"{pumped[:1].upper()}{pumped[1:]}."] if pumped else []),
    ]
    return [one for one in said if one]
