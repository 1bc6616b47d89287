"""What the order costs in handling, in words."""

from __future__ import annotations

from strapwright.planning.limits_and_weights.handling_values import Handling


def handling_words(handling: Handling, head: str = "Handling: ") -> str:
    """Say what the order of a part costs, and which way of working a batch costs less.

    Parameters
    ----------
    handling
        Of a plan.
    head
        What it begins with; empty where it stands beside its name.
    """
    by_part, by_bend = handling.part_by_part, handling.bend_by_bend
    if handling.cost is None or by_part is None or by_bend is None:
        return "The minutes of handling were not worked out."
    least = "the least possible" if handling.proven else "the least found, may not be the best"
    weights = handling.weights
    one, tool = weights.minutes, handling.tool_change
    moves = [
        f"turning the bar over takes {minutes(weights.flip * one)}",
        f"swapping ends {minutes(weights.swap * one)}",
        *(
            []
            if weights.half_turn is None
            else [f"both at once {minutes(weights.half_turn * one)}"]
        ),
        f"moving the end stop {minutes(weights.stop * one)}",
        *([f"changing the tooling {minutes(tool * one)}"] if tool else []),
    ]
    text = f"{head}{minutes(handling.cost * one)} min per part, {least} ({', '.join(moves)})."
    if handling.parts > 1 and handling.bends > 1:
        better, worse = (minutes(count * one) for count in sorted((by_part, by_bend)))
        way = (
            "finish one part before the next"
            if by_part <= by_bend
            else "make one bend on all of them before the next bend"
        )
        text += f" For {handling.parts} parts, {way}: {better} min instead of {worse}."
    return text


def minutes(value: float) -> str:
    """Print minutes, to a tenth, shorter ones to a hundredth."""
    if value >= 10.0:
        return f"{value:.0f}"
    return f"{value:.2f}".rstrip("0").rstrip(".") if round(value, 2) else "0"
