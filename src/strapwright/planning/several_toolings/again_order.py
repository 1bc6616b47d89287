"""Hold one bend that is pushed on against its tooling, with all others as they are by then."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from strapwright.findings import BendAt, Finding, Severity
from strapwright.ordering.cheapest_order import end_of, numbers
from strapwright.ordering.nearest_piece import nearest_piece
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_reasons import refusal_of
from strapwright.ordering.refusal_values import NotLaidIn, Reason, Refusal, StaysOn
from strapwright.planning.bench_work.again import Again
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered, Placed
from strapwright.planning.order_findings import assumed_findings, into_findings, off_findings
from strapwright.planning.surroundings.way_off import Asked

_HELD = ("TRAPPED", "NO START")


def put_again(asked: Asked, again: Again, before: Sequence[int]) -> Ordered:
    """Look whether a bend can be pushed on, and how the part comes off after it.

    The stroke begins at the angle that the bend has.  The part is laid in as it would come off at
    that angle, backwards.

    Parameters
    ----------
    asked
        Of the tooling that it is pushed on in, with the part as it is afterwards.
    again
        The bend.
    before
        0-based bends made before, all others.

    Returns
    -------
    Ordered
        The bend as its last step; of the others nothing is looked at.
    """
    geometry, bend = asked.geometry, again.bend
    begins = tuple(again.begins if k == bend else 0.0 for k in range(geometry.bends))
    steps = Steps(asked.section, geometry, evolve(asked.settings, begins=begins))
    bent = evolve(
        geometry,
        angles=tuple(
            (1.0 if angle > 0.0 else -1.0) * again.begins if k == bend else angle
            for k, angle in enumerate(geometry.angles)
        ),
    )
    made = ((1 << geometry.bends) - 1) ^ (1 << bend)
    others = numbers(made)

    def off(end: int, *, what_holds: bool = False) -> FreeingResult:
        return asked.opening.off(
            geometry, bend + 1, (*others, bend + 1), end_of(end), what_holds=what_holds
        )

    def into(end: int) -> FreeingResult:
        return asked.opening.off(bent, bend + 1, (*others, bend + 1), end_of(end), what_holds=False)

    def outside(_: int, __: int, end: int) -> Reason | None:
        gone = off(end)
        if gone.verdict in _HELD and not gone.drawn_frees:
            return StaysOn()
        laid = into(end)
        return NotLaidIn() if laid.verdict in _HELD and not laid.drawn_frees else None

    refusals = [refusal_of(steps, outside, made, bend, end) for end in (0, 1)]
    end = next((end for end, why in enumerate(refusals) if why is None), None)
    kept = tuple(Placed(bend=one) for one in before)
    if end is None:
        return Ordered(
            steps=(*kept, Placed(bend=bend)),
            findings=(_blocked(bend, refusals), *assumed_findings(asked.around)),
            cost=None,
            proven=False,
            offs=(None,) * geometry.bends,
            around=asked.around,
            arounds=(*(None for _ in before), asked.around),
        )
    clearance, nearest = nearest_piece(steps, made, bend, end)
    gone = off(end, what_holds=True)
    return Ordered(
        steps=(
            *kept,
            Placed(bend=bend, end_left=end_of(end), clearance=clearance, nearest=nearest),
        ),
        findings=(
            *off_findings(bend + 1, gone),
            *into_findings(bend + 1, into(end)),
            *assumed_findings(asked.around),
        ),
        cost=None,
        proven=False,
        offs=(*(None for _ in before), gone),
        around=asked.around,
        arounds=(*(None for _ in before), asked.around),
    )


def _blocked(bend: int, refusals: Sequence[Refusal | None]) -> Finding:
    return Finding(
        code="finish-blocked",
        severity=Severity.REFUSAL,
        about=(BendAt(bend + 1),),
        facts={"refusals": tuple(one for one in refusals[:1] if one is not None)},
    )
