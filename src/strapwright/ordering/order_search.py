"""The order in which to make the bends."""

from __future__ import annotations

from collections.abc import Callable

from strapwright.ordering.cheapest_order import Found, State, end_of, numbers, search
from strapwright.ordering.half_bent_profile import closes_on_itself
from strapwright.ordering.kernel_subsets import NEVER
from strapwright.ordering.nearest_piece import nearest_piece
from strapwright.ordering.order_arrays import check_inputs
from strapwright.ordering.order_results import Alternative, OrderResult, OrderStep
from strapwright.ordering.order_values import PartGeometry, SearchSettings, ToolSection
from strapwright.ordering.possible_bends import Steps, TabledSteps
from strapwright.ordering.refusal_reasons import Reasons
from strapwright.ordering.refusal_values import End, Reason, Refusal
from strapwright.ordering.time_given import KeepGoing, always

TABLE_BENDS = 18  # twice the time and memory for each bend more: 2 s and 40 MB at 18
Refuse = Callable[[int, End, tuple[int, ...]], Reason | None]


def find_order(
    section: ToolSection,
    part: PartGeometry,
    settings: SearchSettings,
    *,
    refuse: Refuse | None = None,
    keep_going: KeepGoing = always,
    alternatives: bool = False,
    explain: bool = True,
    table_bends: int = TABLE_BENDS,
) -> OrderResult:
    """Find the cheapest order, and say whether it is proven to be.

    Parameters
    ----------
    section, part, settings
        Tooling, finished part and what a step must keep to [mm, rad].
    refuse
        Called with (bend, end left, bends made before), all 1-based, for each step that would be
        used; returns what outside this search forbids it, coming off for one.
    keep_going
        Asked now and then; once it says no, the best order found without proof is returned.
    alternatives
        Also find the best order for each possible last bend.
    explain
        Where no order is found, look for what is in the way of each bend; that takes longer than to
        find that there is none.
    table_bends
        Parts with more bends are searched without tables [-].

    Returns
    -------
    OrderResult
        ``proven`` is False where the time ran out.

    Raises
    ------
    InputError
        The opening, the radii or the number of overbends do not go together.
    """
    check_inputs(section, part, settings)
    n = part.bends
    steps: Steps = (
        TabledSteps(section, part, settings, keep_going)
        if n <= table_bends
        else Steps(section, part, settings)
    )
    closed = closes_on_itself(part, settings.self_clearance)
    outside = _remembered(refuse)

    def refuses(made: int, bend: int, end: int) -> bool:
        return steps.meets_itself(made, bend) or outside(made, bend, end) is not None

    last = [] if closed else range(n)
    found = search(steps, refuses, last, keep_going)
    reasons = Reasons(steps, outside, keep_going)
    others = _alternatives(steps, refuses, reasons, found, keep_going) if alternatives else ()
    refusals: tuple[Refusal, ...] = ()
    if explain and found.cost >= NEVER:
        refusals = reasons.refused_at_any(range(n))
    return OrderResult(
        feasible=found.cost < NEVER,
        proven=found.proven,
        cost=found.cost if found.cost < NEVER else None,
        steps=_described(steps, found.order),
        alternatives=others,
        refusals=refusals,
        closes_on_itself=closed,
        visited=found.visited,
    )


def _remembered(refuse: Refuse | None) -> Callable[[int, int, int], Reason | None]:
    """Ask the caller once for each step."""
    known: dict[State, Reason | None] = {}

    def asked(made: int, bend: int, end: int) -> Reason | None:
        if refuse is None:
            return None
        key = (made, bend, end)
        if key not in known:
            known[key] = refuse(bend + 1, end_of(end), numbers(made))
        return known[key]

    return asked


def _described(steps: Steps, order: tuple[State, ...]) -> tuple[OrderStep, ...]:
    described = []
    for k, (made, bend, end) in enumerate(order):
        cost = steps.settings.costs.stop if k == 0 else steps.change(order[k - 1], order[k])
        clearance, nearest = nearest_piece(steps, made, bend, end)
        described.append(
            OrderStep(
                bend=bend + 1,
                sign=1 if steps.part.angles[bend] > 0.0 else -1,
                end_left=end_of(end),
                made=numbers(made),
                cost=cost,
                reach=steps.reach(made, bend, end),
                clearance=clearance,
                nearest=nearest,
            )
        )
    return tuple(described)


def _alternatives(
    steps: Steps,
    refuses: Callable[[int, int, int], bool],
    reasons: Reasons,
    found: Found,
    keep_going: KeepGoing,
) -> tuple[Alternative, ...]:
    listed = []
    for bend in range(steps.part.bends):
        best = found
        if not (found.order and found.order[-1][1] == bend):
            if not keep_going():
                unknown = Alternative(
                    last_bend=bend + 1, cost=None, order=(), proven=False, refusal=None
                )
                listed.append(unknown)
                continue
            best = search(steps, refuses, [bend], keep_going)
        possible = best.cost < NEVER
        listed.append(
            Alternative(
                last_bend=bend + 1,
                cost=best.cost if possible else None,
                order=tuple(state[1] + 1 for state in best.order),
                proven=best.proven,
                refusal=None if possible else reasons.refused_at_last(bend),
            )
        )
    return tuple(listed)
