"""What the order costs in handling, in words."""

from __future__ import annotations

from strapwright.planning.plan_values import Handling


def handling_words(handling: Handling) -> str:
    """Say what the order of a part costs, and which way of working a batch costs less.

    Parameters
    ----------
    handling
        Of a plan.
    """
    by_part, by_bend = handling.part_by_part, handling.bend_by_bend
    if handling.cost is None or by_part is None or by_bend is None:
        return "The handling was not worked out."
    least = "the least there is" if handling.proven else "the least found, not proven"
    weights = handling.weights
    text = (
        f"Handling counts {handling.cost} a part, {least} (a flip counts {weights.flip}, an end "
        f"for end {weights.swap}, a stop set {weights.stop})."
    )
    if handling.parts > 1 and handling.bends > 1:
        better, worse = sorted((by_part, by_bend))
        way = (
            "part by part, each one finished before the next"
            if by_part <= by_bend
            else "bend by bend, all parts one bend and then the next"
        )
        text += f" For {handling.parts} parts work {way}: {better} against {worse}."
    return text
