"""The plan of a part with quarter twists: bent flat, in one plane, then twisted.

Where no order bends the flat part, the twist comes between the bends of its two sides.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from attrs import evolve

from strapwright.blank.blank_values import Blank, TwistedRun
from strapwright.findings import (
    BendAt,
    Count,
    Finding,
    KeyAt,
    Length,
    Place,
    Severity,
    Share,
    by_severity,
)
from strapwright.planning.bench_work.closing import LONGEST_LEVER, ONE_IN_TWENTY
from strapwright.planning.bench_work.closing_force import HAND
from strapwright.planning.bench_work.twist_between import twist_between
from strapwright.planning.bench_work.twisted_runs import flat_part, turned_part
from strapwright.planning.bench_work.twisting_force import (
    GRIP,
    LEAST_WIDTHS,
    least_run,
    length_lost,
    twist_springs_back,
    twist_strain,
    twist_torque,
)
from strapwright.planning.bench_work.work_values import Twisting
from strapwright.planning.bend_setups import Known, known_bar
from strapwright.planning.plan_values import Plan
from strapwright.shop.by_hand.part_twist import Twist
from strapwright.shop.job import Job
from strapwright.shop.part import Part

Planner = Callable[[Job], Plan]
_SHAPE: tuple[Place, ...] = (KeyAt("part.shape"),)
_NO_ORDER = frozenset({"no-order", "order-cannot-be-made"})
_ROUNDING = 1e-6  # mm, numerical


def twisted(job: Job, planned: Planner, unordered: Planner) -> Plan:
    """Return the plan of a part with quarter twists.

    Parameters
    ----------
    job
        As stated.
    planned
        Plans a part that is not twisted, with what the bench does to it.
    unordered
        Plans what the press makes, without looking for its order.

    Raises
    ------
    InputError
        Where a hole or a weld lies in a twisted run; else as the plans do.
    """
    part, known = job.part, known_bar(job)
    works = [_twisting(one, known, part.bar.width) for one in part.twists]
    runs = [one.end - one.begin for one in works]
    lost = [0.5 * sum(one.lost) for one in works]
    flat = evolve(job, part=flat_part(part, runs, lost))
    made = planned(flat)
    if made.blank is None:
        return evolve(made, job=job)
    # In the flat a run is longer by what it loses.
    works = [
        evolve(work, begin=at, end=at + run + less)
        for work, run, less in zip(works, runs, lost, strict=True)
        for at in [_begins(made.blank, part.twists[works.index(work)], run)]
    ]
    places = tuple(TwistedRun(leg=one.leg, begin=one.begin, end=one.end) for one in works)
    findings: list[Finding] = []
    if any(one.code in _NO_ORDER for one in made.findings):
        found = None
        if len(works) == 1 and part.order is None and not part.natural:
            found = twist_between(flat, job, made.blank, places[0], planned)
        if found is None:
            findings.append(
                Finding(code="twist-frees-nothing", severity=Severity.NOTE, about=_SHAPE)
            )
        else:
            made = found.made
            works = [evolve(one, before=found.later) for one in works]
    for work, run in zip(works, runs, strict=True):
        findings += _findings(made.blank, part, known, work, run)
    whole = unordered(evolve(job, part=turned_part(part)))
    widths = {one.leg: 0.5 * (one.lost[1] - one.lost[0]) for one in works}
    return evolve(
        made,
        job=job,
        blank=None if made.blank is None else evolve(made.blank, twists=places),
        finished=whole.finished,
        finished_3d=whole.finished_3d,
        dimension_points=whole.dimension_points,
        finished_zones=whole.finished_zones or whole.zones,
        legs=tuple(
            evolve(one, length=part.legs[one.leg - 1], off=one.off + widths.get(one.leg, 0.0))
            for one in made.legs
        ),
        findings=by_severity([*made.findings, *findings]),
        bench_work=(*made.bench_work, *works),
    )


def _twisting(twist: Twist, known: Known, width: float) -> Twisting:
    """What a twist takes, with its run as if it began at end 1."""
    angle, flow = abs(twist.angle), known.metal.flow
    run = twist.over
    if run is None:
        run = max(LEAST_WIDTHS * width, _least(angle, known, width))
    middle = twist_torque(flow, angle, run, known.thickness, width)
    either_way = math.exp(ONE_IN_TWENTY * known.metal.strength_spread)
    # The upper end of what the bar may be: who pulls at it must not find it stronger.
    torque = middle * either_way
    people = 1 if torque <= HAND * LONGEST_LEVER else 2
    return Twisting(
        leg=twist.leg,
        begin=0.0,
        end=run,
        angle=twist.angle,
        past=twist_springs_back(
            (middle / either_way, torque), flow, angle, run, known.thickness, width
        ),
        lost=length_lost(angle, run, width),
        torque=torque,
        people=people,
        arm=torque / (people * HAND),
    )


def _least(angle: float, known: Known, width: float) -> float:
    """Shortest run that strains the hardest worked spot by no more than the elongation [mm].

    A tensile test stretches the metal that far on the mean of its gauge length (common practice,
    no source).
    """
    return least_run(abs(angle), known.thickness, width, known.material.elongation / 100.0)


def _begins(blank: Blank, twist: Twist, run: float) -> float:
    """Where a run begins in the flat, from end 1 [mm]."""
    begin = twist.middle - 0.5 * run
    if twist.leg == 1:
        return begin
    bend = twist.leg - 1
    setback = 0.5 * (blank.deductions[bend - 1] + blank.allowances[bend - 1])
    return begin + blank.zone(bend)[1] - setback


def _room(blank: Blank, work: Twisting) -> float:
    """Flat bar beside a twisted run, on its shorter side [mm]."""
    bends = len(blank.deductions)
    first = 0.0 if work.leg == 1 else blank.zone(work.leg - 1)[1]
    last = blank.length if work.leg == bends + 1 else blank.zone(work.leg)[0]
    return min(work.begin - first, last - work.end)


def _findings(
    blank: Blank | None, part: Part, known: Known, work: Twisting, run: float
) -> Sequence[Finding]:
    leg, width = Count(work.leg), part.bar.width
    least = _least(work.angle, known, width)
    if run < least - _ROUNDING:
        return [
            Finding(
                code="twist-too-short",
                severity=Severity.REFUSAL,
                about=_SHAPE,
                facts={
                    "leg": leg,
                    "run": Length(run),
                    "least": Length(least),
                    "strain": Share(twist_strain(abs(work.angle), run, known.thickness, width)),
                    "elongation": Share(known.material.elongation / 100.0),
                },
            )
        ]
    needed = GRIP * width
    room = needed if blank is None else _room(blank, work)
    if room < needed - _ROUNDING:
        return [
            Finding(
                code="twist-no-room",
                severity=Severity.REFUSAL,
                about=_SHAPE,
                facts={
                    "leg": leg,
                    "run": Length(run),
                    "had": Length(max(room, 0.0)),
                    "needed": Length(needed),
                },
            )
        ]
    if work.arm > LONGEST_LEVER:
        return [
            Finding(
                code="twist-too-heavy",
                severity=Severity.REFUSAL,
                about=_SHAPE,
                facts={"leg": leg, "arm": Length(work.arm), "most_arm": Length(LONGEST_LEVER)},
            )
        ]
    low, high = work.lost
    found = [
        Finding(
            code="twist-not-proven",
            severity=Severity.WARNING,
            about=_SHAPE,
            facts={"leg": leg, "low": Length(low), "high": Length(high)},
        )
    ]
    if work.before:
        found.append(
            Finding(
                code="twist-between",
                severity=Severity.WARNING,
                about=tuple(BendAt(bend) for bend in work.before),
                facts={"leg": leg},
            )
        )
    return found
