"""What an order costs in handling."""

from __future__ import annotations

from attrs import frozen

from strapwright.ordering.order_values import StepCosts


@frozen(kw_only=True)
class Handling:
    """What the order costs in handling.

    Attributes
    ----------
    cost
        Of one part, in the shop's weights; ``None`` where no order was searched.
    proven
        Whether no order costs less.
    part_by_part, bend_by_bend
        Of the whole quantity: every part finished before the next, or all parts given one bend
        before the next bend.
    parts, bends
        How many parts are made, and of how many bends the order is.
    weights
        What a flip, an end for end and a stop count.
    tool_change
        What a change of tooling counts; 0 where every bend is made on one.
    """

    cost: int | None
    proven: bool
    part_by_part: int | None
    bend_by_bend: int | None
    parts: int
    bends: int
    weights: StepCosts
    tool_change: int = 0
