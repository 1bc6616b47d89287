"""What the order costs in handling, in words."""

from __future__ import annotations

from strapwright.planning.limits_and_weights.handling_values import Handling


def handling_words(handling: Handling) -> str:
    """Say what the order of a part costs, and which way of working a batch costs less.

    Parameters
    ----------
    handling
        Of a plan.
    """
    by_part, by_bend = handling.part_by_part, handling.bend_by_bend
    if handling.cost is None or by_part is None or by_bend is None:
        return "The handling score was not worked out."
    least = "the lowest possible" if handling.proven else "the lowest found, may not be the best"
    weights = handling.weights
    tools = f", changing the tooling {handling.tool_change}" if handling.tool_change else ""
    text = (
        f"Handling score: {handling.cost} per part, {least} (turning the bar over counts "
        f"{weights.flip}, swapping ends {weights.swap}, moving the end stop {weights.stop}{tools})."
    )
    if handling.parts > 1 and handling.bends > 1:
        better, worse = sorted((by_part, by_bend))
        way = (
            "finish one part before the next"
            if by_part <= by_bend
            else "make one bend on all of them before the next bend"
        )
        text += f" For {handling.parts} parts, {way}: score {better} instead of {worse}."
    return text
