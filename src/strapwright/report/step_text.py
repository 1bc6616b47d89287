"""One bend of a plan for a person at a terminal, as rows with a name each."""

from __future__ import annotations

import textwrap

from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.limits_and_weights.pumping import pump_work
from strapwright.planning.plan_values import Plan, Step
from strapwright.report.limits_text import WIDTH
from strapwright.wording.at_bench.twist_words import twist_first
from strapwright.wording.caution_words import READ_LOADED
from strapwright.wording.figures import Figures
from strapwright.wording.limits_and_weights.pump_words import pump_words
from strapwright.wording.reader import Reader
from strapwright.wording.refused_words import WORD, no_stop_words
from strapwright.wording.relief_words import relief_words
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.gauge_words import ease_off_figure, gauge_figure, no_gauge_words
from strapwright.wording.steps.lay_words import turned_and_laid
from strapwright.wording.steps.staged_words import staged_words
from strapwright.wording.steps.step_figure import StepFigure
from strapwright.wording.steps.step_words import (
    bottoming_words,
    clear_words,
    end_stop_figure,
    force_figure,
    free_figure,
    loaded_figure,
    radius_words,
    tooling_words,
)
from strapwright.wording.steps.stop_words import block_figure, distance_figure, travel_figure


def own_lines(plan: Plan, step: Step, reader: Reader, *, details: bool) -> list[str]:
    """How the bar is placed for one bend."""
    hold = turned_and_laid(plan, step)
    if has_no_stop(plan, step):
        return [*row("Position", hold), *row(WORD, no_stop_words(plan, step, reader))]
    stop = end_stop_figure(step, reader)
    rows = [
        ("Twist", twist_first(plan.bench_work, step.bend, [one.bend for one in plan.steps])),
        ("Tooling", tooling_words(plan, step, reader)),
        ("Position", f"{hold}. {hold_words.where_nose_is(step.hold)}"),
        ("Carried", hold_words.to_mind(plan, step)),
        ("" if stop is None else stop.label, "" if stop is None else f"{stop.value} {stop.how}"),
        ("Clear", clear_words(step, reader) if details else ""),
    ]
    return [line for name, text in rows if text for line in row(name, text)]


def setting_lines(plan: Plan, step: Step, reader: Reader, *, details: bool) -> tuple[str, ...]:
    """What the press is set to for one bend, and what it comes to."""
    if has_no_stop(plan, step):
        return ()
    rows = [
        *_relief(step, reader.figures),
        *_stops(step, reader, details=details),
        ("Gauge", _gauge(step, reader)),
        *_pump(plan, step, reader.figures, details=details),
        _loaded(step, reader),
        _row_of(free_figure(step, reader)),
        *([_row_of(force_figure(step, reader))] if details else []),
        *_bottoming(step, reader),
        ("Radius", radius_words(step, reader)),
    ]
    lines = [line for name, text in rows for line in row(name, text)]
    return (*lines, *(_staged(step, reader) if details or step.stop == "in stages" else ()))


def _bottoming(step: Step, reader: Reader) -> list[tuple[str, str]]:
    """From where on nothing is predicted."""
    said = bottoming_words(step, reader)
    return [("Bottoms", said)] if said else []


def row(name: str, text: str) -> list[str]:
    """One row, wrapped, its name in a column of its own."""
    return textwrap.wrap(text, WIDTH, initial_indent=f"   {name:<11}", subsequent_indent=" " * 14)


def _row_of(figure: StepFigure) -> tuple[str, str]:
    return figure.label, figure.banded


def _loaded(step: Step, reader: Reader) -> tuple[str, str]:
    label, said = _row_of(loaded_figure(step, reader))
    return label, said if step.bottoms_first else f"{said}; {READ_LOADED}"


def _stops(step: Step, reader: Reader, *, details: bool) -> list[tuple[str, str]]:
    """Travel, and what the ram is stopped by where that is not the stages."""
    travel = travel_figure(step, reader)
    others = {
        "by eye": distance_figure(step, reader),
        "on a block": block_figure(step, reader),
    }
    return [
        (travel.label, f"{travel.value} {travel.how} ({travel.between})"),
        *(
            (one.label, f"{one.value} {one.how}")
            for stop, one in others.items()
            if one.value and (details or step.stop == stop)
        ),
    ]


def _gauge(step: Step, reader: Reader) -> str:
    gauge = step.gauge
    if gauge is None:
        return f"no reading: {no_gauge_words(step.no_gauge)}"
    stop = ease_off_figure(gauge, reader)
    return f"{gauge_figure(gauge, reader).banded}; {stop.label} {stop.value}"


def _pump(plan: Plan, step: Step, show: Figures, *, details: bool) -> list[tuple[str, str]]:
    """What a hand pump has to do, and in detail what a powered one; nothing if not stated."""
    work = pump_work(plan.job.press, step)
    if work is None or (work.whole is None and not details):
        return []
    return [("Pump", pump_words(work, show))]


def _relief(step: Step, show: Figures) -> list[tuple[str, str]]:
    words = relief_words(step.relief, show)
    return [] if words is None else [("Relief", words.sentence)]


def _staged(step: Step, reader: Reader) -> list[str]:
    """First push, then how much more by what the protractor shows, as two lines of a table."""
    if step.staged is None:
        return []
    said = staged_words(step.staged, reader)
    reads = "".join(f"{reading:>7}" for reading, _ in said.rows)
    more = "".join(f"{extra:>7}" for _, extra in said.rows)
    return [
        *row(
            "In stages",
            f"push {said.first}, back off and measure (expect {said.free}), then push:",
        ),
        f"{'':14}measured   {reads}",
        f"{'':14}further, {said.unit}{more}",
    ]
