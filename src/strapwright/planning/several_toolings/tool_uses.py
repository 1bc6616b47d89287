"""What other tooling of a job means for its plan: what stands there, sight lines, what is open."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from strapwright.blank.blank_values import Blank
from strapwright.findings import BendAt, Finding, Force, Name, Severity
from strapwright.planning.bar_limits import bar_findings, refuse_mismatch
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered
from strapwright.planning.overlap_and_tipping import overlaps_of
from strapwright.planning.plan_values import Step
from strapwright.planning.several_toolings.tool_use import ToolUse
from strapwright.shop.job import Job
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.tooling import Tooling


def _used(job: Job) -> list[OtherTooling]:
    """Other tooling that bends are made on, without what is only at hand."""
    return [one for one in job.part.others if one.bends]


def refuse_other_mismatch(job: Job) -> None:
    """Refuse other tooling that the bar cannot lie in, as the job's own is.

    Raises
    ------
    InputError
        As for the job's own tooling.
    """
    for one in _used(job):
        refuse_mismatch(job.on_tooling_of(one.bends[0]))


def other_tooling_findings(job: Job, thickness: float) -> list[Finding]:
    """What is implied by the other tooling, and that what carries it is not checked."""
    found = []
    told = bar_findings(job, thickness)
    for one in _used(job):
        about = tuple(BendAt(bend) for bend in one.bends)
        found += [
            finding
            for finding in bar_findings(job.on_tooling_of(one.bends[0]), thickness)
            if finding not in told
        ]
        if one.rating is None:
            limit = None if job.tooling is None else job.tooling.rating
            found.append(
                Finding(
                    code="other-tooling-unchecked",
                    severity=Severity.WARNING,
                    about=about,
                    facts={"name": Name(one.name)}
                    if limit is None
                    else {"name": Name(one.name), "limit": Force(limit)},
                )
            )
    return found


def uses_of(job: Job, ordered: Ordered) -> tuple[ToolUse, ...]:
    """Return the other tooling of a job with what the bar was held against on it."""
    around = {step.bend + 1: ordered.around_step(k) for k, step in enumerate(ordered.steps)}
    uses = []
    for one, tooling in zip(job.part.others, job.toolings()[1:], strict=True):
        if not one.bends:
            continue
        stands = next((found for bend in one.bends if (found := around.get(bend))), None)
        uses.append(
            ToolUse(
                name=one.name,
                bends=one.bends,
                tooling=tooling,
                pieces=() if stands is None or not ordered.arounds else stands.section.pieces,
            )
        )
    return tuple(uses)


def overlaps(ordered: Ordered, steps: Sequence[Step]) -> list[Finding]:
    """Pieces of a tooling that cannot stand together between touch and full stroke of its bends."""
    found: list[Finding] = []
    sections = []
    for place in range(len(steps)):
        around = ordered.around_step(place)
        if around is None or around.section in sections:
            continue
        sections.append(around.section)
        here = [
            step
            for k, step in enumerate(steps)
            if (other := ordered.around_step(k)) is not None and other.section == around.section
        ]
        found += [one for one in overlaps_of(around.section, here) if one not in found]
    return found


def sight_offset(tooling: Tooling) -> float:
    """From the middle of the nose to the edge that a sight line is set to [mm]."""
    shoulders = tooling.shoulders
    return shoulders.outer_edge or 0.5 * shoulders.opening + shoulders.radius


def sighted_by_own(blank: Blank, job: Job) -> Blank:
    """Return a blank with each sight line set to the edge of its bend's own tooling."""
    toolings = job.toolings()
    marks = tuple(
        evolve(mark, sight=mark.nose + sight_offset(toolings[job.part.tool_of(mark.bend)]))
        for mark in blank.marks
    )
    return evolve(blank, marks=marks)
