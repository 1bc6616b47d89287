"""Put the bends in order: the search's answer, or a stated order held against it.

The search proves the order with the least handling; where it does not apply (rolled bars) the
natural order is used and said to be not proven.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from attrs import evolve

from strapwright.blank.leg_straights import straights
from strapwright.errors import InputError
from strapwright.findings import (
    Choice,
    Count,
    Finding,
    KeyAt,
    Seconds,
    Severity,
)
from strapwright.midline.pose_values import End
from strapwright.ordering.off_middle_steps import OffMiddleSteps
from strapwright.ordering.order_arrays import symmetric
from strapwright.ordering.order_results import FreeingResult, OrderResult
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import (
    PartGeometry,
    SearchSettings,
    StepCosts,
    ToolSection,
)
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_reasons import first_refusal
from strapwright.ordering.refusal_values import Reason, StaysOn
from strapwright.ordering.time_given import OutOfTimeError
from strapwright.planning.bar_hold import nose_of
from strapwright.planning.bench_work.again import Again
from strapwright.planning.hits_and_stacks.ordered_bends import FoundOrder, Ordered, Placed
from strapwright.planning.hits_and_stacks.row_order import RowPart, rows_in_order
from strapwright.planning.hits_and_stacks.row_steps import Rows
from strapwright.planning.hits_and_stacks.stacked_steps import StackedSteps, thick_bar
from strapwright.planning.order_findings import (
    assumed_findings,
    cannot_be_made,
    into_findings,
    no_order,
    off_findings,
)
from strapwright.planning.several_toolings.again_order import put_again
from strapwright.planning.several_toolings.tool_order import OnTools, tools_in_order
from strapwright.planning.surroundings.surrounding_pieces import surroundings
from strapwright.planning.surroundings.way_off import Asked, Opening
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling

WhyNot = Literal["rolled", "twisted", "short leg", "not yet", "no time", "jams"]
"""Why no order was searched: ``twisted`` where a twist comes between bends, ``not yet`` while it is
being searched, ``jams`` where a bend does."""

KeepGoing = Callable[[], bool]


def why_not_searched(job: Job) -> WhyNot | None:
    """Why the search does not apply to a job, or None where it does."""
    return "rolled" if any(job.part.rolls) else None


def put_in_order(
    job: Job,
    tooling: Tooling,
    rows: Rows,
    natural: Sequence[int],
    keep_going: KeepGoing,
    weights: StepCosts,
    *,
    again: Again | None = None,
    found_before: FoundOrder | None = None,
    explain: bool = True,
) -> Ordered:
    """Order the bends of a job.

    Parameters
    ----------
    rows
        Each bend as solved, and as it lies in the blank.
    natural
        0-based order to use where the search does not apply or finds none.
    keep_going
        Asked now and then; once it says no, the best found so far is used and said to be so.
    weights
        What handling costs in this shop.
    again
        A bend that is pushed on, all others made before it; then only that is looked at.
    found_before
        Held against the tooling anew, bend by bend, and used where it can be made; else, and where
        the job states an order, it is searched as without it.
    explain
        Whether what is in the way is looked for where no order is found.
    """
    part = job.part
    if again is not None:
        return _pushed_on(job, rows, again, keep_going, weights)
    why_not = why_not_searched(job)
    if why_not is not None:
        return unsearched(part.order, natural, why_not)
    asked = _asked(job, tooling, rows, keep_going, weights)
    if asked is None:
        return unsearched(part.order, natural, "short leg")
    order = None
    if part.order is not None or part.natural:
        order = tuple(b - 1 for b in part.order) if part.order is not None else tuple(natural)
    if part.several_toolings:
        each = [
            _asked(job, tooling, rows, keep_going, weights, tool=tool)
            for tool, tooling in enumerate(job.toolings())
        ]
        on_tools = OnTools(
            asked=[one for one in each if one is not None],
            tools=[part.tool_of(bend) for bend in range(1, len(part.bends) + 1)],
        )
        return tools_in_order(on_tools, order, natural, named=part.order is not None)
    if any(row is not None for row in rows.rows):
        return _with_rows(asked, rows, order, natural, named=part.order is not None)
    named = part.order is not None
    return _on_one(asked, order, natural, found_before, named=named, explain=explain)


def _on_one(
    asked: Asked,
    order: tuple[int, ...] | None,
    natural: Sequence[int],
    found_before: FoundOrder | None,
    *,
    named: bool,
    explain: bool,
) -> Ordered:
    if order is not None:
        return _stated(asked, order, named=named)
    once_more = None if found_before is None else _once_more(asked, found_before)
    return _searched(asked, natural, explain=explain) if once_more is None else once_more


def _searched(asked: Asked, natural: Sequence[int], *, explain: bool) -> Ordered:
    found = find_order(
        asked.section,
        asked.geometry,
        asked.settings,
        refuse=asked.forbids,
        keep_going=asked.keep_going,
        explain=explain,
    )
    if found.feasible:
        return _from(asked, found, ())
    return _none_found(asked, found, natural, explain=explain)


def _pushed_on(
    job: Job, rows: Rows, again: Again, keep_going: KeepGoing, weights: StepCosts
) -> Ordered:
    """Hold a bend that is pushed on last against its tooling."""
    before = [bend for bend in range(len(rows.made)) if bend != again.bend]
    tool = job.part.tool_of(again.bend + 1)
    asked = _asked(job, job.toolings()[tool], rows, keep_going, weights, tool=tool)
    if asked is None:
        order = (*before, again.bend)
        return unsearched([bend + 1 for bend in order], order, "short leg")
    return put_again(asked, again, before)


def _with_rows(
    asked: Asked,
    rows: Rows,
    order: tuple[int, ...] | None,
    natural: Sequence[int],
    *,
    named: bool,
) -> Ordered:
    part = RowPart(
        around=asked.around,
        geometry=asked.geometry,
        settings=asked.settings,
        rows=rows,
        opening=asked.opening,
    )
    try:
        return rows_in_order(part, order, natural, named=named)
    except OutOfTimeError:
        stated = None if order is None else [bend + 1 for bend in order]
        return unsearched(stated, natural, "no time")


def _asked(
    job: Job,
    tooling: Tooling,
    rows: Rows,
    keep_going: KeepGoing,
    weights: StepCosts,
    *,
    tool: int = 0,
) -> Asked | None:
    """What is asked of one tooling; the part is the same on each, ``tool`` counts it."""
    part, made = job.part, rows.made
    toolings = job.toolings()
    thickness = made[0].setup.thickness
    # Even arcs of the wrap radius stand for the bends; the corners of the part stay where they are.
    radii = [
        max(one.radii.wrap, toolings[part.tool_of(bend)].nose.radius) if row is None else row.radius
        for bend, (one, row) in enumerate(zip(made, rows.rows, strict=True), start=1)
    ]
    try:
        lengths = straights(part, None, inside_radii=radii)
    except InputError:
        return None
    # Below the tops the outside of a bend reaches as far as the nose has travelled.
    here = [one for bend, one in enumerate(made, start=1) if part.tool_of(bend) == tool]
    deepest = max((one.state.travel for one in here), default=0.0)
    around = surroundings(job, tooling, part.at_once * part.bar.width, deepest)
    geometry = PartGeometry(
        straights=lengths,
        angles=tuple(bend.side * bend.angle for bend in part.bends),
        radii=tuple(radii),
        thickness=thickness,
        z=around.along,
    )
    settings = SearchSettings(
        costs=weights,
        springback=tuple(one.state.loaded_angle - one.state.free_angle for one in made),
    )
    return Asked(
        around=around,
        geometry=thick_bar(geometry, part.stacked),
        settings=settings,
        stack=None
        if part.stacked == 1
        else StackedSteps(around.section, geometry, settings, part.stacked),
        opening=Opening(
            section=around.section,
            drawable=tooling.nose.drawable,
            stays=nose_of(job) != "below",
            keep_going=keep_going,
        ),
        even=symmetric(around.section),
        beside=_beside(tooling, around.section, geometry, settings)
        if part.stacked == 1 and not any(row is not None for row in rows.rows)
        else (),
    )


def _beside(
    tooling: Tooling, section: ToolSection, geometry: PartGeometry, settings: SearchSettings
) -> tuple[OffMiddleSteps, ...]:
    """Steps with the nose off the middle to either side, as far as it may stand."""
    off = tooling.nose.offset
    if off <= 0.0:
        return ()
    return tuple(OffMiddleSteps(section, geometry, settings, to) for to in (off, -off))


def _from(asked: Asked, found: OrderResult, findings: Sequence[Finding]) -> Ordered:
    remarks = list(findings)
    if not found.proven:
        remarks.append(
            Finding(code="order-not-proven", severity=Severity.NOTE, about=(KeyAt("part.order"),))
        )
    steps = tuple(
        Placed(
            bend=step.bend - 1,
            end_left=step.end_left,
            clearance=clearance,
            nearest=nearest,
            reach=step.reach,
            off_middle=bool(asked.beside),
        )
        for step in found.steps
        for clearance, nearest in [asked.nearest(step)]
    )
    offs = tuple(
        asked.off(step.bend, step.end_left, step.made, what_holds=True) for step in found.steps
    )
    for step, off in zip(found.steps, offs, strict=True):
        into = asked.laid_in(step.bend, step.end_left, step.made)
        remarks += off_findings(step.bend, off) + into_findings(step.bend, into)
    remarks += assumed_findings(asked.around)
    return Ordered(
        steps=steps,
        findings=tuple(remarks),
        cost=found.cost,
        proven=found.proven,
        offs=offs,
        around=asked.around,
    )


def _once_more(asked: Asked, found: FoundOrder) -> Ordered | None:
    """Use an order that was found before, ``None`` where it cannot be made after all."""
    bends = [bend - 1 for bend in found.bends]
    if sorted(bends) != list(range(asked.geometry.bends)):
        return None  # of another part
    held = _held(asked, bends)
    return _from(asked, evolve(held, proven=found.proven), ()) if held.feasible else None


def _held(asked: Asked, order: Sequence[int]) -> OrderResult:
    """Hold a 0-based order, and no other, against the tooling."""
    place = {(bend + 1, tuple(sorted(b + 1 for b in order[:k]))) for k, bend in enumerate(order)}

    def strays(bend: int, end: End, made: tuple[int, ...]) -> Reason | None:
        # Another order is refused whatever it leads to.
        out_of_turn = (bend, tuple(sorted(made))) not in place
        return StaysOn() if out_of_turn else asked.forbids(bend, end, made)

    shared = (asked.section, asked.geometry, asked.settings)
    return find_order(*shared, refuse=strays, keep_going=asked.keep_going)


def _stated(asked: Asked, order: Sequence[int], *, named: bool) -> Ordered:
    """Check a stated order and compare it with the best one."""
    settings = asked.settings
    shared = (asked.section, asked.geometry, settings)
    held = _held(asked, order)
    best = find_order(*shared, refuse=asked.forbids, keep_going=asked.keep_going)
    if held.feasible:
        remarks = []
        if best.cost is not None and held.cost is not None and best.cost < held.cost and named:
            remarks.append(
                Finding(
                    code="better-order",
                    severity=Severity.NOTE,
                    about=(KeyAt("part.order"),),
                    facts={
                        "order": tuple(Count(step.bend) for step in best.steps),
                        **{
                            name: Seconds(60.0 * settings.costs.minutes * cost)
                            for name, cost in (("cost", best.cost), ("stated_cost", held.cost))
                        },
                    },
                )
            )
        return _from(asked, held, remarks)
    finding = cannot_be_made(
        first_refusal(Steps(*shared), asked.outside, order),
        [step.bend for step in best.steps],
        stated=named,
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in order),
        findings=(finding, *assumed_findings(asked.around)),
        cost=None,
        proven=False,
        offs=_locked_offs(asked, order),
        around=asked.around,
    )


def _locked_offs(asked: Asked, order: Sequence[int]) -> tuple[FreeingResult | None, ...]:
    """What holds the part after those steps of a refused order that were found to lock it on."""
    offs: list[FreeingResult | None] = []
    for k, bend in enumerate(order):
        made = tuple(sorted(b + 1 for b in order[:k]))
        known = asked.known.get((bend + 1, 1, made))
        held = known is not None and known.verdict in ("TRAPPED", "NO START")
        offs.append(asked.off(bend + 1, 1, made, what_holds=True) if held else None)
    return tuple(offs)


def _none_found(
    asked: Asked, found: OrderResult, natural: Sequence[int], *, explain: bool
) -> Ordered:
    finding = no_order(found.refusals, closes=found.closes_on_itself, proven=found.proven)
    return Ordered(
        steps=tuple(Placed(bend=b) for b in natural),
        findings=(finding, *assumed_findings(asked.around)),
        cost=None,
        proven=found.proven,
        offs=_locked_offs(asked, natural) if explain else (None,) * len(natural),
        around=asked.around,
    )


def unsearched(stated: Sequence[int] | None, natural: Sequence[int], why: WhyNot) -> Ordered:
    """Return the stated or natural order with the remark that nothing of it is proven."""
    order = tuple(b - 1 for b in stated) if stated is not None else tuple(natural)
    finding = Finding(
        code="order-not-searched",
        severity=Severity.WARNING,
        about=(KeyAt("part.order"),),
        facts={"why": Choice(why)},
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in order),
        findings=(finding,),
        cost=None,
        proven=False,
        offs=(None,) * len(order),
    )
