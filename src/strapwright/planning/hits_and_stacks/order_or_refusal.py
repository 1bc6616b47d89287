"""Search an order, or hold a stated one against the tooling, and say why there is none."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.findings import Finding
from strapwright.ordering.cheapest_order import Found, search
from strapwright.ordering.half_bent_profile import closes_on_itself
from strapwright.ordering.kernel_subsets import NEVER
from strapwright.ordering.order_values import SearchSettings
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_reasons import Outside, Reasons, first_refusal
from strapwright.ordering.time_given import KeepGoing
from strapwright.planning.order_findings import cannot_be_made, no_order


def made_before(order: Sequence[int], place: int) -> tuple[int, int]:
    """Return the bit set of the bends made before a place of an order, and the bend made there."""
    return sum(1 << bend for bend in order[:place]), order[place]


def order_or_refusal(
    steps: Steps,
    locked: Outside,
    stated: Sequence[int] | None,
    *,
    settings: SearchSettings,
    keep_going: KeepGoing,
    named: bool,
) -> tuple[Found, Finding | None]:
    """Find the order with the least handling.

    Parameters
    ----------
    steps
        Of the part, with what each costs.
    locked
        What speaks against a step beside the tooling in the way.
    stated
        0-based order to keep to, or ``None``.
    settings, keep_going
        Of the search.
    named
        Whether the stated order was written by the shop.

    Returns
    -------
    Found, Finding or None
        What was found; where it holds no order, why.
    """
    places = None if stated is None else {made_before(stated, k) for k in range(len(stated))}

    def refuses(made: int, bend: int, end: int) -> bool:
        if places is not None and (made, bend) not in places:
            return True
        return steps.meets_itself(made, bend) or locked(made, bend, end) is not None

    closed = closes_on_itself(steps.part, settings.self_clearance)
    last = [] if closed else range(steps.part.bends)
    found = search(steps, refuses, last, keep_going)
    if found.cost < NEVER:
        return found, None
    if stated is None:
        reasons = Reasons(steps, locked, keep_going)
        return found, no_order(reasons.refused_at_any(last), closes=closed, proven=found.proven)
    return found, cannot_be_made(first_refusal(steps, locked, stated), (), stated=named)
