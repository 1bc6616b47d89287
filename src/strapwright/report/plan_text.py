"""A plan for a person at a terminal: steps that begin with a verb, figures beside what they say."""

from __future__ import annotations

import textwrap

from strapwright.findings import Severity
from strapwright.motion.refused_bends import is_refused
from strapwright.planning.plan_values import Plan, SecondStroke, Step
from strapwright.report.limits_text import WIDTH, limits_block
from strapwright.report.step_text import own_lines, row, setting_lines
from strapwright.shop.bar import Bar
from strapwright.wording.at_bench.second_stroke_words import (
    NOT_TESTED,
    change_text,
    lay_text,
    stroke_title,
)
from strapwright.wording.blank_words import (
    METHOD_WORDS,
    MarkWords,
    cut_words,
    hole_words,
    legs_line,
    mark_words,
    opens_to,
)
from strapwright.wording.caution_words import SAFETY
from strapwright.wording.figures import Figures, figures_for
from strapwright.wording.limits_and_weights.weight_words import blank_weight, weight_words
from strapwright.wording.places import listed
from strapwright.wording.reader import Reader, at_command
from strapwright.wording.refused_words import WORD, headline
from strapwright.wording.remedy_words import HEAD, remedy_words, rest_words
from strapwright.wording.severity_words import WORST_FIRST, severity_label
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.bench_work_words import (
    bench_head,
    bench_work_words,
    saw_words,
    twist_words,
)
from strapwright.wording.steps.handling_words import handling_words
from strapwright.wording.steps.step_words import (
    bend_name,
    clear_words,
)
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
    blocks += _second_strokes(plan, reader, details=details)
    blocks.append(_bench_work(plan, reader))
    if details:
        blocks.append(_springback(plan))
    blocks.append(limits_block(plan, details=details))
    if plan.handling is not None and plan.handling.cost is not None and plan.handling.bends > 1:
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
        settings = setting_lines(plan, step, reader, details=details)
        alike = [
            one
            for one in plan.steps
            if settings and setting_lines(plan, one, reader, details=details) == settings
        ]
        alone = len(alike) < 2
        if not alone and settings not in said:
            said.append(settings)
            bends = listed(sorted(one.bend for one in alike))
            blocks.append([f"The same for bends {bends}", *settings])
        lines = [_title(plan, step, reader), *own_lines(plan, step, reader, details=details)]
        off = way_off_words(step)
        blocks.append(
            [*lines, *(settings if alone else ()), *(row("Comes off", off) if off else ())]
        )
    return blocks


def _second_strokes(plan: Plan, reader: Reader, *, details: bool) -> list[list[str]]:
    """Bends that are pushed on, on other tooling; a refused part gets nothing to push by."""
    blocks = []
    for stroke in () if is_refused(plan) else plan.second_strokes:
        made, step = stroke.made, stroke.step
        rows = [
            ("Tooling", change_text(stroke, reader)),
            ("Position", f"{lay_text(stroke)}. {hold_words.where_nose_is(step.hold)}"),
            ("Clear", clear_words(step, reader) if details else ""),
            ("Force", f"up to {reader.figures.force(stroke.force)}. {NOT_TESTED}"),
        ]
        off = way_off_words(step)
        blocks.append(
            [
                *textwrap.wrap(f"{step.order}. {stroke_title(stroke, reader)}", WIDTH),
                *(line for name, text in rows if text for line in row(name, text)),
                *setting_lines(made, step, reader, details=details),
                *(row("Comes off", off) if off else ()),
            ]
        )
    return blocks


def _bench_work(plan: Plan, reader: Reader) -> list[str]:
    """What is done after the press."""
    # What is pushed on at the press has a block of its own, as the bends before it.
    refused = is_refused(plan)
    words = zip(plan.bench_work, bench_work_words(plan, reader), strict=True)
    said = [
        f"{one.title}: {one.text}"
        for work, one in words
        if refused or not isinstance(work, SecondStroke)
    ]
    return [bench_head(plan), *(line for text in said for line in _point(text))] if said else []


def _title(plan: Plan, step: Step, reader: Reader) -> str:
    return f"{step.order}. {bend_name(plan, step, reader).title}"


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
