"""``plan(job) -> Plan``: the place where part, bar, press and tooling meet."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import numpy as np
from attrs import evolve

from strapwright.bending.bend_values import Band, ReleasedBend
from strapwright.bending.shop_spreads import USUAL_SPREADS, ShopSpreads
from strapwright.blank.blank_values import Blank
from strapwright.blank.flat_layout import lay_out
from strapwright.blank.hit_spacing import Row
from strapwright.blank.length_band import length_band
from strapwright.errors import told_in_units_of
from strapwright.findings import by_severity
from strapwright.midline.bar_poses import (
    arc_zone,
    finished_in_space,
    finished_line,
    released_zone,
    zone_points,
)
from strapwright.midline.dimension_points import dimension_points
from strapwright.midline.pose_values import End, Zone
from strapwright.ordering.freeing.opened import open_height
from strapwright.ordering.order_values import StepCosts
from strapwright.planning.bar_limits import bar_findings, refuse_mismatch, weld_findings
from strapwright.planning.bar_rolls import roll_findings, turned
from strapwright.planning.bench_work.after_press import with_bench_work
from strapwright.planning.bench_work.again import Again, pushed_again
from strapwright.planning.bend_setups import Known, known_bar
from strapwright.planning.closed_shapes import closed_job, last_bend_finding
from strapwright.planning.die_rating import rated_each
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.handling import coming_off, costs_of, handling
from strapwright.planning.hits_and_stacks.end_stops import stopped_as_marked
from strapwright.planning.hits_and_stacks.hit_rows import row_zone, rows_of
from strapwright.planning.hits_and_stacks.ordered_bends import FoundOrder, Ordered
from strapwright.planning.hits_and_stacks.row_steps import Rows
from strapwright.planning.hits_and_stacks.solved_bends import make_all
from strapwright.planning.hits_and_stacks.stacked_bars import stack_blanks
from strapwright.planning.jammed_bends import (
    Jams,
    by_the_book,
    jam_findings,
    without_jammed,
)
from strapwright.planning.job_findings import (
    CAUTIONS,
    bend_findings,
    hole_findings,
    metal_findings,
    press_findings,
    tooling_findings,
)
from strapwright.planning.job_order import KeepGoing, put_in_order, unsearched
from strapwright.planning.limits_and_weights.pumping import handle_findings
from strapwright.planning.limits_and_weights.weights import lifting_findings, weights_of
from strapwright.planning.made_bend import MadeBend
from strapwright.planning.natural_order import Need, natural_order, need_of, order_findings
from strapwright.planning.overlap_and_tipping import tipping_findings
from strapwright.planning.plan_values import Plan, Step
from strapwright.planning.press_step import Bench, step_of
from strapwright.planning.several_toolings.tool_uses import (
    other_tooling_findings,
    overlaps,
    refuse_other_mismatch,
    sight_offset,
    sighted_by_own,
    uses_of,
)
from strapwright.planning.sight_lines import sight_findings
from strapwright.planning.uneven_legs.leg_bands import LegBand, leg_bands
from strapwright.planning.uneven_legs.nose_off_middle import clearance_findings, lands_off
from strapwright.planning.without_tooling import plan_without_tooling
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling
from strapwright.shop.unit_slips import slip_findings


def _always() -> bool:
    return True


@told_in_units_of
def plan(
    job: Job,
    *,
    spreads: ShopSpreads = USUAL_SPREADS,
    weights: StepCosts | None = None,
    search: bool = True,
    keep_going: KeepGoing = _always,
    rate: bool = True,
    learned: LearnedJob | None = None,
    found_before: FoundOrder | None = None,
    explain: bool = True,
) -> Plan:
    """Plan a job: blank, marks and every bend, as far as what is stated allows.

    What is missing limits what is said, and a finding names it.

    Parameters
    ----------
    spreads
        How well bar, press and tooling are known, where the job does not say.
    weights
        What handling costs in this shop; by the job's own minutes where not given.
    search
        Whether to search the order and to look at coming off; without it the natural order is
        used and said to be not proven.
    keep_going
        Asked before each bend and now and then by the search; once it says no, the best order found
        so far is used.  What it raises ends the plan.
    rate
        Whether the members of the tooling, where any are stated, limit what it may be loaded to;
        a search for a tooling holds every member to relief beside the plan and leaves it out.
    learned
        What the shop's log taught of the lot, the press and the tooling; ``None`` without a log.
    found_before
        Order that an earlier search of this job found; ``None`` to search.
    explain
        Whether to look for what is in the way of each bend where no order is found.  Without it
        the plan is refused all the same and names nothing: for a search that only asks whether a
        part can be made.

    Raises
    ------
    InputError
        Where the job cannot be meant: unknown metal, a leg shorter than its bends, a nose that
        does not pass between the shoulders, ends that do not meet.
    """
    asked = partial(
        _at_press,
        spreads=spreads,
        weights=costs_of(job.handling) if weights is None else weights,
        keep_going=keep_going,
        rate=rate,
        learned=learned,
        found_before=found_before,
        explain=explain,
    )
    return with_bench_work(job, partial(asked, search=search), partial(asked, search=False))


def _at_press(
    job: Job,
    *,
    spreads: ShopSpreads,
    weights: StepCosts,
    search: bool,
    keep_going: KeepGoing,
    rate: bool,
    learned: LearnedJob | None,
    again: Again | None = None,
    found_before: FoundOrder | None = None,
    explain: bool = True,
) -> Plan:
    """Plan what the press does of a job, with nothing left to do after.

    With ``again`` that bend is pushed on last, in the order that the part states.
    """
    refuse_mismatch(job)
    refuse_other_mismatch(job)
    known = known_bar(job, spreads.bar)
    rows = rows_of(job, known)
    findings = slip_findings(job) + metal_findings(known) + tooling_findings(job)
    findings += bar_findings(job, known.thickness) + roll_findings(job.part)
    if job.tooling is None:
        return plan_without_tooling(job, known, rows, findings, spreads.tooling.radius)
    tooling = job.tooling
    solved, jams = make_all(
        job, known, rows, spreads=spreads, keep_going=keep_going, learned=learned
    )
    findings += [] if learned is None else learned.findings()
    made = pushed_again([one for one, _ in solved], again)
    findings += jam_findings(jams, made, known, grain=job.part.grain)
    whole = [one for bend, one in enumerate(made) if bend not in jams]
    toolings, remarks = rated_each(job, tooling, made, jams, rate=rate)
    findings += remarks + other_tooling_findings(job, known.thickness)
    bends, radii = _shapes(made, rows, jams)
    job, remarks = closed_job(by_the_book(job) if jams else job, bends, radii)
    findings += remarks + ([] if learned is None else learned.blank_findings(job))
    part = job.part
    blank = sighted_by_own(_blank(job, tooling, bends, radii, rows), job)
    needs = [_need(job, one) for one in made]
    zones = _zones(job, blank, made, rows, jams)
    natural = natural_order(blank, needs) or tuple(range(len(made)))
    if search and not jams:
        ordered = put_in_order(
            job,
            tooling,
            Rows(
                blank=blank,
                rows=rows,
                made=made,
                zones=zones,
                sides=[bend.side for bend in part.bends],
                needs=needs,
            ),
            natural,
            keep_going,
            weights,
            again=again,
            found_before=found_before,
            explain=explain,
        )
    else:
        ordered = unsearched(part.order, natural, "jams" if jams else "not yet")
        ordered = without_jammed(ordered, jams)
    order = ordered.order
    findings += ordered.findings
    bench = Bench(
        job=job,
        toolings=toolings,
        blank=blank,
        made=made,
        rows=rows,
        outers=[outers for _, outers in solved],
        zones=zones,
        turned=turned(part),
        ends=_ends(ordered, len(made)),
    )
    depth = tooling.shoulders.depth if tooling.shoulders.floor != "vee" else None
    if ordered.around is None:
        findings += order_findings(blank, order, needs, part.order is not None, depth)
    if order and ordered.offs[-1] is None:
        findings += last_bend_finding(job, order[-1] + 1)
    steps = []
    for place, bend in enumerate(order):
        step, remarks = step_of(bench, order, place)
        steps.append(
            _with_order(
                stopped_as_marked(step, ordered, place, part=part, thickness=known.thickness),
                ordered,
                place,
                part.stacked * known.thickness,
            )
        )
        findings += (
            remarks
            + handle_findings(job.press, step)
            + clearance_findings(made[bend], ordered.steps[place], part.legs)
        )
        row = rows[bend] is not None
        findings += bend_findings(made[bend], known, bend + 1, grain=part.grain, row=row)
    findings += overlaps(ordered, steps)
    findings += tipping_findings(steps) + lifting_findings(weights_of(part, blank.length))
    findings += hole_findings(blank, known.thickness) + weld_findings(blank)
    findings += sight_findings(blank) + press_findings(
        job.press, [one.state.travel for one in whole]
    )
    finished = finished_line(blank.length, bench.zones)
    points = zone_points(bench.zones)
    length = _length_band(
        job, known, blank, made, bends, radii=radii, radius_share=spreads.tooling.radius
    )
    return Plan(
        job=job,
        blank=blank,
        length_band=length,
        finished=finished,
        steps=tuple(steps),
        findings=by_severity(findings),
        cautions=CAUTIONS,
        dimension_points=dimension_points(part, known.thickness, finished, points),
        finished_3d=finished_in_space(blank.length, bench.zones),
        handling=None if jams else handling(job, ordered, weights),
        pieces=() if ordered.around is None else ordered.around.section.pieces,
        others=uses_of(job, ordered),
        weights=weights_of(part, blank.length),
        zones=tuple(bench.zones),
        legs=() if jams or part.stacked > 1 else _legs(job, tooling, blank, made, length),
        stack=() if jams else stack_blanks(part, job.blank, blank, solved, sight_offset(tooling)),
    )


def _legs(
    job: Job, tooling: Tooling, blank: Blank, made: Sequence[MadeBend], length: Band
) -> tuple[LegBand, ...]:
    return leg_bands(
        job.part.legs,
        blank.deductions,
        blank_off=0.5 * (length.high - length.low),
        marks=tooling.mark_error,
        lands=[lands_off(one) for one in made],
    )


def _ends(ordered: Ordered, bends: int) -> list[End]:
    """Which end points left for each bend; end 1 for one that has no place in the order."""
    placed = {step.bend: step.end_left for step in ordered.steps}
    return [placed.get(bend, 1) for bend in range(bends)]


def _with_order(step: Step, ordered: Ordered, place: int, thickness: float) -> Step:
    """Add what the search found of a step; the thickness is that of all bars of a stack [mm]."""
    placed, off = ordered.steps[place], ordered.offs[place]
    around = ordered.around_step(place)
    section = None if around is None else around.section
    opened = 0.0 if section is None else open_height(section, thickness)
    return evolve(
        step,
        clearance=placed.clearance,
        nearest=placed.nearest,
        coming_off=None if off is None else coming_off(off, step.hold, step.poses.released, opened),
    )


def _shapes(
    made: Sequence[MadeBend], rows: Sequence[Row | None], jams: Jams
) -> tuple[list[ReleasedBend] | None, list[float]]:
    """Shape of every bend and its inside radius [mm]; no shapes where one jams and has none."""
    released = [
        one.released if row is None else row.released(one.released)
        for one, row in zip(made, rows, strict=True)
    ]
    return None if jams else released, [one.wrap_radius for one in released]


def _blank(
    job: Job,
    tooling: Tooling,
    bends: Sequence[ReleasedBend] | None,
    radii: Sequence[float],
    rows: Sequence[Row | None],
) -> Blank:
    return lay_out(
        job.part,
        bends,
        job.blank,
        inside_radii=radii,
        sight_offset=sight_offset(tooling),
        hits=[0 if row is None else row.hits for row in rows],
    )


def _zones(
    job: Job, blank: Blank, made: Sequence[MadeBend], rows: Sequence[Row | None], jams: Jams
) -> list[Zone]:
    """Every bend as it lies once it is made; one hit lies about its mark, a row as its arc."""
    zones = []
    for i, (bend, one, row) in enumerate(zip(job.part.bends, made, rows, strict=True)):
        turn = turned(job.part)[i]
        if row is not None:
            zones.append(row_zone(*blank.zone(i + 1), row, row.hits, bend.side, turn))
            continue
        if i in jams:
            middle_line = one.released.wrap_radius + 0.5 * one.setup.thickness
            zones.append(arc_zone(*blank.zone(i + 1), bend.angle, middle_line, bend.side, turn))
            continue
        half = 0.5 * one.released.flat_length
        middle = blank.marks_of(i + 1)[0].nose
        zones.append(released_zone(middle - half, middle + half, one.settled, bend.side, turn))
    return zones


def _need(job: Job, made: MadeBend) -> Need:
    """Straight bar and depth of a bend; the outermost bar of a stack needs the most."""
    need = need_of(made.setup, made.state.loaded_angle, made.state.travel, made.radii.wrap)
    outside = (job.part.stacked - 1) * made.setup.thickness
    return evolve(need, straight=need.straight + 0.5 * outside * made.state.loaded_angle)


def _length_band(
    job: Job,
    known: Known,
    blank: Blank,
    made: Sequence[MadeBend],
    bends: Sequence[ReleasedBend] | None,
    *,
    radii: Sequence[float],
    radius_share: float,
) -> Band:
    """Band of the blank from the sample's thickness and a share of the radius not known."""
    spread = float(np.quantile([m.sample.thickness for m in made], 0.95)) - 1.0
    low, high = length_band(
        job.part,
        bends,
        job.blank,
        inside_radii=radii,
        thickness_tolerance=spread * known.thickness,
        radius_tolerance=radius_share * max(m.setup.nose_radius for m in made),
    )
    return Band(low=min(low, blank.length), high=max(high, blank.length))
