"""The plan of a part of which bends are finished off the tooling.

The press bends to the stated angle, on a bar marked for the whole bend.  The order and the way off
are those of the part as it leaves the press: every finish is done after the last push.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from attrs import evolve

from strapwright.bending.bend_radii import TIGHT_SHARE_LOW, wrapped_strain
from strapwright.bending.hydraulics import most_force, pressure_for
from strapwright.blank.blank_values import Blank
from strapwright.findings import (
    BendAt,
    Choice,
    Finding,
    Force,
    Length,
    Severity,
    by_severity,
)
from strapwright.planning.bench_work.closing_force import (
    HAND,
    goes_past,
    outer_stress,
    plastic_moment,
    squeezing_force,
    stiffness,
)
from strapwright.planning.bench_work.second_handling import with_second_strokes
from strapwright.planning.bench_work.work_values import Closing
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.job_findings import radius_findings
from strapwright.planning.plan_values import Plan, SecondStroke
from strapwright.shop.job import Job
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.part_finish import Finish

LONGEST_LEVER = 1200.0  # mm from the bend to the hand (4 ft); common practice, no source
GRIP = 2.0  # thicknesses of straight bar that vise jaws need; common practice, no source
ONE_IN_TWENTY = 1.645  # standard deviations; normal distribution, from memory
# Of the whole bends: what lies in or beside a zone that is not yet so long on the press.
_OF_THE_WHOLE = frozenset({"hole-in-bend", "hole-near-bend", "weld-in-bend", "weld-near-bend"})
# Of a finished bend: how far the outside is stretched at the angle it ends at.
_OF_THE_METAL = frozenset(
    {"radius-too-small", "outside-cracks", "outer-strain-high", "softer-state-bends"}
)


def part_way_job(
    whole: Plan,
    job: Job,
    at_press: Callable[[Job], Plan],
    angles: Mapping[int, float] | None = None,
    others: Sequence[OtherTooling] | None = None,
) -> Job:
    """Return the job as the press makes it, its marks lying where the whole bends need them.

    Parameters
    ----------
    whole
        Plan of the part as if the press made all of it.
    job
        As stated.
    at_press
        Plans a part that the press finishes, without looking for its order.
    angles
        Of 1-based bends that are another by then than the press makes first [rad].
    others
        Other tooling with the bends made on it, where that is not as stated.
    """
    part, known = job.part, angles or {}
    turned = evolve(
        part,
        bends=tuple(
            evolve(bend, angle=known.get(number, part.pressed_angle(number)))
            for number, bend in enumerate(part.bends, start=1)
        ),
        others=part.others if others is None else tuple(others),
        holes=(),
        welds=(),
        finishes=(),
    )
    less = evolve(job, part=turned)
    now = at_press(less).blank
    if whole.blank is None or now is None:
        return less
    # A leg goes into the distance of its marks one to one, so once is enough.
    legs = tuple(
        leg + want - have
        for leg, want, have in zip(
            turned.legs, _between_marks(whole.blank), _between_marks(now), strict=True
        )
    )
    return evolve(less, part=evolve(turned, legs=legs))


def closed_after(
    whole: Plan,
    pressed: Plan,
    job: Job,
    strokes: Sequence[SecondStroke] = (),
    remarks: Sequence[Finding] = (),
) -> Plan:
    """Return the plan of the press with the finished part and what finishes it.

    Parameters
    ----------
    whole
        Plan of the part as if the press made all of it, in no order.
    pressed
        Plan of what the press makes.
    job
        As stated.
    strokes, remarks
        Bends that are pushed on, on other tooling, and what was found of them.
    """
    if whole.blank is None or not pressed.steps:
        return evolve(pressed, job=job)
    works = tuple(
        _closing(whole.blank, job, one) for one in job.part.finishes if one.by != "tooling"
    )
    closed = [BendAt(one.bend) for one in job.part.finishes]
    findings = [
        one
        for one in pressed.findings
        if one.code not in _OF_THE_METAL or not any(bend in closed for bend in one.about)
    ]
    findings += [one for one in whole.findings if one.code in _OF_THE_WHOLE]
    for one in job.part.finishes:
        findings += _of_the_metal(whole, job, one.bend)
    for work in works:
        findings += _findings(work, job)
    findings += [_not_proven(stroke.bend) for stroke in strokes] + list(remarks)
    return evolve(
        pressed,
        job=job,
        blank=whole.blank,
        length_band=whole.length_band,
        finished=whole.finished,
        finished_3d=whole.finished_3d,
        dimension_points=whole.dimension_points,
        finished_zones=whole.zones,
        # Not those of the part-way part, whose legs were moved to keep its marks.
        legs=whole.legs,
        weights=whole.weights,
        findings=by_severity(findings),
        bench_work=(*strokes, *works),
        handling=with_second_strokes(pressed, strokes),
    )


def _of_the_metal(whole: Plan, job: Job, bend: int) -> list[Finding]:
    """What the metal's limits say of a 1-based bend at the angle it is finished to."""
    about = BendAt(bend)
    of_bend = [one for one in whole.findings if about in one.about]
    if all(one.code != "bend-jams" for one in of_bend):
        return [one for one in of_bend if one.code in _OF_THE_METAL]
    # Nobody solved it at that angle.  By then the bar is bent as sharply as the nose, at least.
    on, known = job.on_tooling_of(bend).tooling, known_bar(job)
    if on is None:
        return []
    setup = bend_setup(job, known, on)
    strain = wrapped_strain(setup)
    return radius_findings(strain, known, setup.nose_radius, job.part.grain, (about,))


def _between_marks(blank: Blank) -> list[float]:
    """Distances from end 1 over the marks to end 2 [mm]."""
    bends = sorted({mark.bend for mark in blank.marks})
    places = [0.0, *(blank.marks_of(bend)[0].nose for bend in bends), blank.length]
    return [b - a for a, b in pairwise(places)]


def _closing(blank: Blank, job: Job, finish: Finish) -> Closing:
    part = job.part
    known = known_bar(job)
    thickness = known.thickness
    width = part.bar.width if part.bar.section == "flat" else thickness
    flow = known.metal.flow
    # The upper end of what the bar may be: who pulls at it must not find it stronger.
    tooling = job.on_tooling_of(finish.bend).tooling
    radius = 0.0 if tooling is None else TIGHT_SHARE_LOW * tooling.nose.radius
    stress = outer_stress(flow, thickness, radius)
    stress *= math.exp(ONE_IN_TWENTY * known.metal.strength_spread)
    moment = plastic_moment(part.bar.section, thickness, width, stress)
    zone = blank.zone(finish.bend)
    begins = [0.0, *(blank.zone(k)[1] for k in range(1, len(part.bends) + 1))]
    ends = [*(blank.zone(k)[0] for k in range(1, len(part.bends) + 1)), blank.length]
    straights = [end - begin for begin, end in zip(begins, ends, strict=True)]
    before, after = finish.bend - 1, finish.bend  # 0-based legs beside it
    pulled, clamped = (before, after) if straights[before] >= straights[after] else (after, before)
    past = goes_past(
        moment,
        zone[1] - zone[0],
        stiffness(part.bar.section, thickness, width, flow.modulus),
    )
    if finish.by == "vise":
        return Closing(
            bend=finish.bend,
            by="vise",
            begins=finish.at,
            ends=part.bends[finish.bend - 1].angle,
            past=past,
            pulled=pulled + 1,
            clamped=clamped + 1,
            leg=straights[pulled],
            grip=straights[clamped],
            arm=max(straights[pulled], moment / HAND),
            force=moment / max(straights[pulled], moment / HAND),
        )
    leg = min(straights[before], straights[after])
    force = squeezing_force(moment, leg, finish.at)
    press = job.press
    bore = None if press is None else press.bore
    return Closing(
        bend=finish.bend,
        by="squeeze",
        begins=finish.at,
        ends=part.bends[finish.bend - 1].angle,
        past=past,
        pulled=pulled + 1,
        clamped=clamped + 1,
        leg=leg,
        grip=leg,
        arm=leg,
        force=force,
        gauge=None
        if press is None or bore is None
        else pressure_for(force, bore, press.efficiency, press.no_load),
        most=None
        if press is None or bore is None or press.relief is None
        else most_force(press.relief, bore, press.efficiency, press.no_load),
    )


def _findings(work: Closing, job: Job) -> list[Finding]:
    about = (BendAt(work.bend),)
    thickness = known_bar(job).thickness
    if work.grip < GRIP * thickness:
        return [
            Finding(
                code="finish-no-grip",
                severity=Severity.REFUSAL,
                about=about,
                facts={
                    "by": Choice(work.by),
                    "had": Length(work.grip),
                    "needed": Length(GRIP * thickness),
                },
            )
        ]
    heavy = work.arm > LONGEST_LEVER if work.by == "vise" else work.too_heavy
    if heavy:
        return [
            Finding(
                code="finish-too-heavy",
                severity=Severity.REFUSAL,
                about=about,
                facts={
                    "by": Choice(work.by),
                    "arm": Length(work.arm),
                    "most_arm": Length(LONGEST_LEVER),
                    "force": Force(work.force),
                    "most": Force(work.most or 0.0),
                },
            )
        ]
    return [_not_proven(work.bend)]


def _not_proven(bend: int) -> Finding:
    return Finding(code="finish-not-proven", severity=Severity.WARNING, about=(BendAt(bend),))
