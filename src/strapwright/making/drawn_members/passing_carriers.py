"""Carriers come down past the ends of the shoulders, or between them."""

from __future__ import annotations

from strapwright.errors import InputError
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.shop_lengths import round_up, size
from strapwright.quantities import Units
from strapwright.shop.tooling import Tooling

CLEAR = 3.0  # mm between a carrier and what it passes; common practice, no source
SAME = 0.1  # mm, numerical; sizes are stated to a thousandth of an inch, and add up


def check_passing(
    tooling: Tooling, length: float, nose: NoseLayout | None, bar_width: float, units: Units
) -> bool:
    """See that shoulders carry the bar and that the carriers pass them.

    Parameters
    ----------
    tooling
        With its shoulders.
    length
        Of them along the nose [mm].
    nose
        Whose carriers pass; ``None`` where they are not laid out.
    bar_width
        Of all bars side by side [mm].
    units
        Of the job.

    Raises
    ------
    InputError
        Where they do not.
    """
    where = "tooling.members.body.length"
    if length < bar_width - SAME:
        raise InputError(
            where,
            f"shoulders of {size(length, units)} do not carry the bar of {size(bar_width, units)}",
            f"give {size(round_up(bar_width, units), units)} or more",
        )
    if nose is None:
        return True
    shoulders = tooling.shoulders
    gap = shoulders.opening - 2 * shoulders.radius
    beside = length <= nose.span - 2 * CLEAR + SAME
    between = nose.width <= gap - 2 * CLEAR + SAME
    if nose.count and not beside and not between:
        raise InputError(
            where,
            f"the carriers of {size(nose.width, units)} pass neither between the shoulders, "
            f"{size(gap, units)} apart, nor beside their length of {size(length, units)}",
            f"leave {size(CLEAR, units)} on each side: a longer span, shorter cheeks or narrower "
            "carriers",
        )
    return True
