"""A plan for a person at a terminal: steps that begin with a verb, figures beside what they say."""

from __future__ import annotations

import textwrap

from strapwright.findings import Severity
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.limits_and_weights.pumping import pump_work
from strapwright.planning.plan_values import Plan, Step
from strapwright.report.limits_text import WIDTH, limits_block
from strapwright.shop.bar import Bar
from strapwright.wording.blank_words import (
    METHOD_WORDS,
    MarkWords,
    cut_words,
    hole_words,
    legs_line,
    mark_words,
    opens_to,
)
from strapwright.wording.caution_words import READ_LOADED, SAFETY
from strapwright.wording.figures import Figures, figures_for
from strapwright.wording.limits_and_weights.pump_words import pump_words
from strapwright.wording.limits_and_weights.weight_words import blank_weight, weight_words
from strapwright.wording.places import listed
from strapwright.wording.reader import Reader, at_command
from strapwright.wording.refused_words import WORD, headline, no_stop_words
from strapwright.wording.relief_words import relief_words
from strapwright.wording.remedy_words import HEAD, remedy_words, rest_words
from strapwright.wording.severity_words import WORST_FIRST, severity_label
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.bench_work_words import (
    bench_head,
    bench_work_words,
    saw_words,
    twist_words,
)
from strapwright.wording.steps.gauge_words import ease_off_figure, gauge_figure, no_gauge_words
from strapwright.wording.steps.handling_words import handling_words
from strapwright.wording.steps.lay_words import turned_and_laid
from strapwright.wording.steps.staged_words import staged_words
from strapwright.wording.steps.step_figure import StepFigure
from strapwright.wording.steps.step_words import (
    bend_name,
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
from strapwright.wording.steps.way_off_words import way_off_words
from strapwright.wording.telling import Told, tell_all


def plan_to_text(plan: Plan, *, details: bool = False) -> str:
    """Write a plan in words.

    Parameters
    ----------
    plan
        As made by :func:`strapwright.planning.plan`.
    details
        Also what nobody needs at the press: other ways to stop, force, clearance, other methods
        for the blank and the textbook formula for springback.

    Returns
    -------
    str
        Lines of at most 88 columns where words allow it, ending in a newline.
    """
    show, reader = figures_for(plan.job), at_command(plan.job)
    blocks = [_refused(plan), _head(plan, show, details=details)]
    blocks.append(_blank(plan, reader, details=details))
    blocks.append(_stack(plan, reader))
    blocks += _steps(plan, reader, details=details)
    blocks.append(_bench_work(plan, reader))
    if details:
        blocks.append(_springback(plan))
    blocks.append(limits_block(plan, details=details))
    if plan.handling is not None and plan.handling.cost is not None and len(plan.steps) > 1:
        blocks.append(textwrap.wrap(handling_words(plan.handling), WIDTH))
    new = (one for one in plan.findings if not hold_words.said_of(one, plan))
    blocks += _found(plan, tell_all(new, reader))
    if plan.cautions:
        blocks.append([SAFETY, *(line for one in plan.cautions for line in _point(one))])
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def findings_to_text(plan: Plan) -> str:
    """Write only the findings of a plan in words.

    Parameters
    ----------
    plan
        As made by :func:`strapwright.planning.plan`.

    Returns
    -------
    str
        What cannot be made first, then warnings, then notes; one line where there is none.
    """
    told = tell_all(plan.findings, at_command(plan.job))
    blocks = _found(plan, told)
    said = "\n\n".join("\n".join(block) for block in blocks if block)
    return f"{said or 'Nothing found.'}\n"


def _refused(plan: Plan) -> list[str]:
    """The banner of a refused part, above all else."""
    said = headline(plan, at_command(plan.job))
    return [] if said is None else textwrap.wrap(f"{WORD.upper()}: {said.sentence}", WIDTH)


def _head(plan: Plan, show: Figures, *, details: bool) -> list[str]:
    part = plan.job.part
    bends = "1 bend" if len(part.bends) == 1 else f"{len(part.bends)} bends"
    bar = [section_text(part.bar, show), part.material, bends, blank_weight(plan.weights, show)]
    weight = weight_words(plan.weights, show) if details else ""
    return [
        f"{part.name}, qty {part.quantity}",
        *textwrap.wrap(", ".join(filter(None, bar)), WIDTH),
        *textwrap.wrap(f"Weight: {weight}." if weight else "", WIDTH),
    ]


def section_text(bar: Bar, show: Figures) -> str:
    """Name a bar by its section and sizes."""
    thick = show.stated(bar.thickness)
    if bar.section != "flat":
        return f"{bar.section} {thick}"
    return f"flat {thick} x {show.stated(bar.width)}"


def _blank(plan: Plan, reader: Reader, *, details: bool) -> list[str]:
    blank, cut = plan.blank, cut_words(plan, reader)
    if blank is None or cut is None:
        return ["Blank: no length yet; see the notes below."]
    spread = f" ({cut.between})" if cut.between else ""
    lines = [f"{cut.label} to {cut.length}{spread}, {METHOD_WORDS[blank.method]}."]
    if details and blank.alternatives:
        others = ", ".join(
            f"{METHOD_WORDS[other.method]} {reader.figures.on_bar(other.length)}"
            for other in blank.alternatives
        )
        lines += textwrap.wrap(
            f"Other methods: {others}.", WIDTH, initial_indent="  ", subsequent_indent="  "
        )
    if blank.marks:
        lines.append("Marks, measured from end 1:")
    for mark in mark_words(blank, reader):
        zone = "" if mark.zone is None else f", bend from {' to '.join(mark.zone)}"
        lines.append(f"  {_marked(mark)}{zone}")
    lines += [f"  {hole_words(hole, reader)}" for hole in blank.drilled_flat]
    lines += [f"  {saw_words(saw.end, saw.position, reader)}" for saw in blank.saws]
    lines += [f"  {twist_words(one.leg, one.begin, one.end, reader)}" for one in blank.twists]
    return lines + textwrap.wrap(legs_line(plan, reader), WIDTH)


def _marked(mark: MarkWords) -> str:
    sight = f", sight line {mark.sight}" if mark.on_bar else ""
    return f"bend {mark.label}: nose {mark.nose}{sight}"


def _stack(plan: Plan, reader: Reader) -> list[str]:
    """Blank, marks and angles of every bar of a stack."""
    if not plan.stack:
        return []
    lines = ["Each bar of the stack by itself; bar 1 is at the nose at every bend:"]
    for one in plan.stack:
        both = zip(mark_words(one.blank, reader), opens_to(one, reader), strict=True)
        marks = "; ".join(f"{_marked(mark)}, {free} after release" for mark, free in both)
        lines += textwrap.wrap(
            f"{one.name}: cut {reader.figures.on_bar(one.blank.length)}; {marks}",
            WIDTH,
            initial_indent="  ",
            subsequent_indent="    ",
        )
    return lines


def _steps(plan: Plan, reader: Reader, *, details: bool) -> list[list[str]]:
    """Every bend in the order of making; what is the same for several is said once, before them."""
    blocks: list[list[str]] = []
    said: list[tuple[str, ...]] = []
    for step in plan.steps:
        settings = _settings(plan, step, reader, details=details)
        alike = [
            one
            for one in plan.steps
            if settings and _settings(plan, one, reader, details=details) == settings
        ]
        alone = len(alike) < 2
        if not alone and settings not in said:
            said.append(settings)
            bends = listed(sorted(one.bend for one in alike))
            blocks.append([f"The same for bends {bends}", *settings])
        lines = [_title(plan, step, reader), *_own(plan, step, reader, details=details)]
        off = way_off_words(step)
        blocks.append(
            [*lines, *(settings if alone else ()), *(_row("Comes off", off) if off else ())]
        )
    return blocks


def _own(plan: Plan, step: Step, reader: Reader, *, details: bool) -> list[str]:
    """How the bar is placed for one bend."""
    hold = turned_and_laid(plan, step)
    if has_no_stop(plan, step):
        return [*_row("Position", hold), *_row(WORD, no_stop_words(plan, step, reader))]
    stop = end_stop_figure(step, reader)
    rows = [
        ("Tooling", tooling_words(plan, step, reader)),
        ("Position", f"{hold}. {hold_words.where_nose_is(step.hold)}"),
        ("Carried", hold_words.to_mind(plan, step)),
        ("" if stop is None else stop.label, "" if stop is None else f"{stop.value} {stop.how}"),
        ("Clear", clear_words(step, reader) if details else ""),
    ]
    return [line for name, text in rows if text for line in _row(name, text)]


def _settings(plan: Plan, step: Step, reader: Reader, *, details: bool) -> tuple[str, ...]:
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
    lines = [line for name, text in rows for line in _row(name, text)]
    return (*lines, *(_staged(step, reader) if details or step.stop == "in stages" else ()))


def _bench_work(plan: Plan, reader: Reader) -> list[str]:
    """What is done after the press."""
    said = [f"{one.title}: {one.text}" for one in bench_work_words(plan, reader)]
    return [bench_head(plan), *(line for text in said for line in _point(text))] if said else []


def _title(plan: Plan, step: Step, reader: Reader) -> str:
    return f"{step.order}. {bend_name(plan, step, reader).title}"


def _bottoming(step: Step, reader: Reader) -> list[tuple[str, str]]:
    """From where on nothing is predicted."""
    said = bottoming_words(step, reader)
    return [("Bottoms", said)] if said else []


def _row(name: str, text: str) -> list[str]:
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
        *_row(
            "In stages",
            f"push {said.first}, back off and measure (expect {said.free}), then push:",
        ),
        f"{'':14}measured   {reads}",
        f"{'':14}further, {said.unit}{more}",
    ]


def _springback(plan: Plan) -> list[str]:
    """By how much and why the textbook formula misses, once for all bends that are alike."""
    bends: dict[str, list[int]] = {}
    for step in plan.steps:
        for check in step.cross_checks:
            if check.name == "classical springback":
                bends.setdefault(check.text, []).append(step.bend)
    if not bends:
        return []
    said = [(f"bend {listed(sorted(found))}", text) for text, found in bends.items()]
    return [
        "Springback compared with the textbook formula (4x³ - 3x + 1)",
        *(line for where, text in said for line in _point(f"{where}: {text}")),
    ]


def _findings(findings: tuple[Told, ...], severity: Severity) -> list[str]:
    found = [one for one in findings if one.severity == severity]
    if not found:
        return []
    several = "" if severity is Severity.REFUSAL or len(found) == 1 else "s"
    lines = [f"{severity_label(severity)}{several}"]
    for one in found:
        lines += _point(f"{one.where}: {one.sentence} [{one.code}]")
    return lines


def _found(plan: Plan, told: tuple[Told, ...]) -> list[list[str]]:
    """Findings, with what would make a refused part right below what refuses it."""
    refusals, *others = (_findings(told, severity) for severity in WORST_FIRST)
    return [refusals, _remedies(plan), *others]


def _remedies(plan: Plan) -> list[str]:
    """What would make a refused part, each with its figure."""
    if plan.remedies is None:
        return []
    show = figures_for(plan.job)
    said = [remedy_words(one, show) for one in plan.remedies.found]
    lines = [f"{one.order} {one.checked}" for one in said]
    lines += rest_words(plan.remedies, show)
    return [HEAD, *(line for text in lines for line in _point(text))]


def _point(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="  - ", subsequent_indent="    ")
