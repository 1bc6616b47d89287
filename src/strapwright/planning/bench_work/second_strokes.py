"""Bends that are pushed on to their angle on other tooling, after the last bend of the rest.

The press makes each part of the way first.  Then the tooling is changed, the bend is laid in with
its inside under the nose, and pushed on.  The order of these strokes is the one with the fewest
changes of tooling that can be made.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from itertools import pairwise, permutations
from typing import Protocol

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bend_values import Band
from strapwright.findings import Angle, BendAt, Finding, Length, Name, Severity
from strapwright.midline.pose_values import StepPoses
from strapwright.planning.bench_work.again import (
    Again,
    apex_gap,
    drawn_higher,
    harder,
    stops_higher,
    touches_lower,
)
from strapwright.planning.bench_work.from_touch import from_touch
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.plan_values import Plan, SecondStroke, Step
from strapwright.shop.job import Job
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.part_finish import Finish

_MOST_ORDERS = 24  # of second strokes that are tried; four of them have no more
# Of the part by then these are about the bars as laid flat, or are said of the whole part.
_NOT_OF_IT = frozenset({"order-not-searched", "tips-before-touch", "closing-leg", "better-order"})
# About no bend, but about what pushes it.
_OF_TOOLING = frozenset(
    {"die-below-plan", "die-below-relief", "pieces-overlap", "halves-collide"}
)  # fmt: skip


class AtPress(Protocol):
    """Plans a part that the press finishes, with ``again`` one bend of it pushed on last."""

    def __call__(self, job: Job, *, again: Again | None = None) -> Plan:
        """Plan it."""


Placed = Callable[[Mapping[int, float], Sequence[OtherTooling]], Job]
"""The job with bends at angles on toolings, its marks lying where the whole bends need them."""


@frozen(kw_only=True)
class _Stroke:
    """One second stroke in an order of them."""

    finish: Finish
    tool: int
    stage: Job
    plan: Plan
    findings: tuple[Finding, ...]

    @property
    def refused(self) -> bool:
        return any(one.severity is Severity.REFUSAL for one in self.findings)


def on_its_tooling(job: Job, finishes: Sequence[Finish]) -> tuple[OtherTooling, ...]:
    """Return the other tooling of a job with bends moved to the tooling that finishes them.

    Parameters
    ----------
    job
        As stated.
    finishes
        Those that are pushed on.
    """
    tools = {one.bend: job.part.tool_named(one.tooling or "") for one in finishes}
    return tuple(
        evolve(
            one,
            bends=tuple(
                sorted(
                    {bend for bend in one.bends if bend not in tools}
                    | {bend for bend, tool in tools.items() if tool == place}
                )
            ),
        )
        for place, one in enumerate(job.part.others, start=1)
    )


def second_strokes(
    pressed: Plan, job: Job, placed: Placed, at_press: AtPress, unordered: AtPress
) -> tuple[tuple[SecondStroke, ...], list[Finding]]:
    """Return the second strokes of a part in their order, and what is found of them.

    Parameters
    ----------
    pressed
        Plan of what the first strokes make.
    job
        As stated.
    placed
        See :data:`Placed`.
    at_press, unordered
        Plan a part; the second without looking at clearances.
    """
    finishes = [one for one in job.part.finishes if one.by == "tooling"]
    first = {step.bend: step for step in pressed.steps}
    if any(one.bend not in first for one in finishes):
        return (), []  # a bend that cannot be begun is refused for that
    best: list[_Stroke] = []
    for order in _orders(pressed, job, finishes):
        found: list[_Stroke] = []
        for place in range(len(order)):
            one = _planned(order, place, job, first, placed, at_press)
            found.append(one)
            if one.refused:
                break
        if not best:
            best = found
        if not any(one.refused for one in found):
            best = found
            break
    findings: list[Finding] = []
    strokes = []
    before = job.part.tool_of(pressed.steps[-1].bend)
    steps = len(pressed.steps)
    for one in best:
        new = [each for each in one.findings if each not in pressed.findings]
        findings += [each for each in new if each not in findings]
        findings += _too_round(one, job, first[one.finish.bend])
        if one.plan.steps and one.plan.steps[-1].bend == one.finish.bend:
            steps += 1
            rest = _laid_in(one, placed, unordered, [other.finish for other in best])
            stroke = _stroke(
                one,
                first[one.finish.bend],
                rest,
                order=steps,
                changed=one.tool != before,
                nose=job.toolings()[job.part.tool_of(one.finish.bend)].nose.radius,
            )
            strokes.append(stroke)
            findings += _too_little(stroke)
            before = one.tool
    return tuple(strokes), findings


def _orders(pressed: Plan, job: Job, finishes: Sequence[Finish]) -> list[tuple[Finish, ...]]:
    """Orders to try, those with the fewest changes of tooling first."""
    start = job.part.tool_of(pressed.steps[-1].bend)

    def changes(order: tuple[Finish, ...]) -> int:
        tools = [start, *(_tool(job, one) for one in order)]
        return sum(a != b for a, b in pairwise(tools))

    every = permutations(finishes)
    tried = [order for order, _ in zip(every, range(_MOST_ORDERS), strict=False)]
    return sorted(tried, key=changes)


def _tool(job: Job, finish: Finish) -> int:
    tool = job.part.tool_named(finish.tooling or "")
    if tool is None:
        raise TypeError("the reader holds a finish to the tooling that its job names")
    return tool


def _planned(
    order: Sequence[Finish],
    place: int,
    job: Job,
    first: Mapping[int, Step],
    placed: Placed,
    at_press: AtPress,
) -> _Stroke:
    finish = order[place]
    done = order[: place + 1]
    stage = _in_turn(
        placed({one.bend: job.part.bends[one.bend - 1].angle for one in done},
               on_its_tooling(job, done)),
        finish.bend,
    )  # fmt: skip
    step = first[finish.bend]
    again = Again(
        bend=finish.bend - 1,
        begins=finish.at,
        tightest=step.radii.tightest,
    )
    made = at_press(stage, again=again)
    findings = tuple(one for one in made.findings if _concerns(one, finish.bend))
    return _Stroke(
        finish=finish, tool=_tool(job, finish), stage=stage, plan=made, findings=findings
    )


def _in_turn(job: Job, last: int) -> Job:
    """Return a job whose order ends with a 1-based bend."""
    bends = range(1, len(job.part.bends) + 1)
    order = (*(bend for bend in bends if bend != last), last)
    return evolve(job, part=evolve(job.part, order=order, natural=False))


def _concerns(finding: Finding, bend: int) -> bool:
    if finding.code in _NOT_OF_IT:
        return False
    return finding.code in _OF_TOOLING or BendAt(bend) in finding.about


def _too_round(one: _Stroke, job: Job, first: Step) -> list[Finding]:
    """Refuse a nose that does not reach the inside of the bend: it would open it around itself."""
    tooling = one.stage.toolings()[one.tool]
    # A bend is a little tighter inside than its nose, which it goes on under all the same.
    had = max(first.radii.gauge, job.toolings()[job.part.tool_of(first.bend)].nose.radius)
    if tooling.nose.radius <= had:
        return []
    return [
        Finding(
            code="finish-nose-too-round",
            severity=Severity.REFUSAL,
            about=(BendAt(one.finish.bend),),
            facts={
                "name": Name(one.finish.tooling or ""),
                "nose": Length(tooling.nose.radius),
                "inside": Length(had),
            },
        )
    ]


def _too_little(stroke: SecondStroke) -> list[Finding]:
    """Refuse a stroke that would stop before the bar yields again.

    The bend is so much tighter than this tooling bends, and has so much of its angle, that in one
    push the nose would stand higher at its end than where it touches or as good as that.
    """
    step = stroke.step
    if step.setting.travel > float(step.curve.travel[1]):
        return []
    return [
        Finding(
            code="finish-too-little",
            severity=Severity.REFUSAL,
            about=(BendAt(stroke.bend),),
            facts={"name": Name(stroke.tooling), "begins": Angle(stroke.begins)},
        )
    ]


def _laid_in(one: _Stroke, placed: Placed, unordered: AtPress, finishes: Sequence[Finish]) -> Step:
    """The bend as it lies on its tooling before the stroke, let go at the angle it has."""
    done = finishes[: finishes.index(one.finish) + 1]
    angles = {other.bend: one.stage.part.bends[other.bend - 1].angle for other in done} | {
        one.finish.bend: one.finish.at
    }
    return unordered(_in_turn(placed(angles, one.stage.part.others), one.finish.bend)).steps[-1]


def _stroke(
    one: _Stroke, first: Step, rest: Step, *, order: int, changed: bool, nose: float
) -> SecondStroke:
    """The stroke as it is told; ``nose`` is the radius that began the bend [mm]."""
    job, bend, step = one.stage, one.finish.bend, one.plan.steps[-1]
    known = known_bar(job)
    tooling = job.toolings()[one.tool]
    setup = bend_setup(job, known, tooling)
    begins, thick = one.finish.at, setup.thickness
    had = apex_gap(first.poses.released, nose, thick)
    own = apex_gap(rest.poses.released, setup.nose_radius, thick)
    rise = 1.0 / math.cos(0.5 * begins) - 1.0
    arc, own_arc = (gap / rise - 0.5 * thick for gap in (had, own))  # inside, of an even arc
    lower, own_lower = (
        touches_lower(begins, setup.opening, setup.shoulder_radius, thick, one)
        for one in (arc, own_arc)
    )
    past = (step.loaded_angle - step.free_angle) * harder(
        setup.flow,
        setup.thickness,
        min(first.radii.tightest, step.radii.tightest),
        1.0 / (step.radii.wrap + 0.5 * setup.thickness),
    )
    higher = partial(
        drawn_higher,
        half_opening=0.5 * setup.opening,
        nose_radius=setup.nose_radius,
        thickness=thick,
    )

    def keeps(angle: float) -> float:
        return float(stops_higher(max(had - own, 0.0), begins, angle))

    begun = first.bands.staged_angle if first.stop == "in stages" else first.bands.free_angle
    low, high = (
        touches_lower(angle, setup.opening, setup.shoulder_radius, thick, arc) - lower
        for angle in (min(begun.low, begins), max(begun.high, begins))
    )
    turned = from_touch(
        step,
        begins,
        lower=lower,
        own_lower=own_lower,
        past=past,
        rounder=had - own,
        touches=Band(low=low, high=high),
    )
    turned = evolve(
        turned,
        order=order,
        hold=evolve(step.hold, weight=None),
        poses=StepPoses(
            rest=higher(rest.poses.released, had - own),
            stroke=higher(step.poses.stroke, keeps(step.loaded_angle)),
            released=higher(step.poses.released, keeps(step.free_angle)),
        ),
        end_stop=None,
        cross_checks=(),
    )
    part = evolve(job.part, order=None)
    return SecondStroke(
        bend=bend,
        tool=one.tool,
        tooling=one.finish.tooling or "",
        changed=changed,
        begins=one.finish.at,
        ends=step.wanted,
        force=float(np.max(step.curve_high[step.curve.travel <= step.setting.travel])),
        in_one_push=step.setting.travel,
        made=evolve(
            one.plan,
            job=evolve(job, part=part),
            steps=(*one.plan.steps[:-1], turned),
            findings=one.findings,
        ),
    )
