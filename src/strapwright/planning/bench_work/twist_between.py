"""Twisting between the bends of two sides, for a part that no order bends while it is flat.

The first side is bent on the straight bar, then the leg is twisted, then the other side is bent.
Each side is looked at by itself, as a run in one plane.  The side that stands out of that plane by
then is not: what it may meet is not checked.
"""

from __future__ import annotations

from collections.abc import Callable

from attrs import evolve, frozen

from strapwright.blank.blank_values import Blank, TwistedRun
from strapwright.errors import InputError
from strapwright.findings import Choice, Finding, Severity, by_severity
from strapwright.planning.bench_work.twisted_runs import Side, bends_of_side, one_side, rolls_of
from strapwright.planning.plan_values import Plan, Step
from strapwright.planning.several_toolings.tool_uses import sight_offset
from strapwright.shop.job import Job

_OUT_OF_PLANE = "out-of-plane"


@frozen(kw_only=True)
class Between:
    """A plan with the twist between its bends.

    Attributes
    ----------
    made
        The plan of what the press makes.
    later
        1-based bends that are made after the twist.
    """

    made: Plan
    later: tuple[int, ...]


def twist_between(
    flat: Job, stated: Job, blank: Blank, place: TwistedRun, planned: Callable[[Job], Plan]
) -> Between | None:
    """Plan the bends of one side, the twist, and the bends of the other.

    Parameters
    ----------
    flat
        The job with its part as it is bent, not twisted.
    stated
        The job as stated, with one twist.
    blank, place
        Blank of the flat part, and where the twisted run lies in it.
    planned
        Plans a part that is not twisted.

    Returns
    -------
    Between or None
        ``None`` where no side can come last.
    """
    (twist,) = stated.part.twists
    sides: tuple[Side, Side] = (1, 2)
    if any(not bends_of_side(flat.part, twist, side) for side in sides):
        return None
    for first, last in (sides, sides[::-1]):
        before = _order(flat, stated, blank, first, None, planned)
        after = _order(flat, stated, blank, last, place, planned)
        if before is None or after is None:
            continue
        part = evolve(flat.part, rolls=rolls_of(stated.part), order=(*before, *after))
        made = planned(evolve(flat, part=part))
        if any(one.severity is Severity.REFUSAL for one in made.findings):
            continue
        return Between(made=_told(made, before), later=after)
    return None


def _order(
    flat: Job,
    stated: Job,
    blank: Blank,
    side: Side,
    run: TwistedRun | None,
    planned: Callable[[Job], Plan],
) -> tuple[int, ...] | None:
    """Order of the bends of one side by itself, 1-based in the whole part; ``None`` for none.

    Parameters
    ----------
    run
        Where the bar is twisted by then; ``None`` where it is still flat.
    """
    (twist,) = stated.part.twists
    own = bends_of_side(flat.part, twist, side)
    straight = None
    if run is not None:
        near = blank.zone(own[-1] if side == 1 else own[0])
        straight = run.begin - near[1] if side == 1 else near[0] - run.end
        middle = 0.5 * (near[1] - near[0])
        # Past there the bar stands on edge, deeper than the tops of the shoulders.
        if flat.tooling is None or straight + middle < sight_offset(flat.tooling):
            return None
    part = one_side(flat.part, blank, twist, side, straight=straight)
    if part is None:
        return None
    try:
        made = planned(evolve(flat, part=part))
    except InputError:
        return None
    if any(one.severity is Severity.REFUSAL for one in made.findings):
        return None
    return tuple(step.bend + own[0] - 1 for step in made.steps)


def _told(made: Plan, before: tuple[int, ...]) -> Plan:
    """Return the plan with its steps and findings as of a twisted bar, not of a rolled one."""

    def step(one: Step) -> Step:
        return evolve(one, hold=evolve(one.hold, roll=0.0)) if one.bend in before else one

    def finding(one: Finding) -> Finding:
        if one.code != "order-not-searched":
            return one
        return evolve(one, facts={**one.facts, "why": Choice("twisted")})

    return evolve(
        made,
        steps=tuple(step(one) for one in made.steps),
        findings=by_severity([finding(one) for one in made.findings if one.code != _OUT_OF_PLANE]),
    )
