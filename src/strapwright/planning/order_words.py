"""What the search found of a job's order, as sentences with what would help."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

from strapwright.ordering.order_values import StepCosts
from strapwright.ordering.refusal_values import Refusal
from strapwright.planning.reader_figures import Figures
from strapwright.planning.refusal_words import assumed_sizes, helps_against, refusal_clause
from strapwright.planning.surrounding_pieces import Assumption
from strapwright.quantities import show_both

Words = tuple[str, str]
WhyNot = Literal["row", "rolled", "stacked", "short leg", "not yet"]
"""Why no order was searched; ``not yet`` while it is being searched."""

SHAPES_NOT_SEARCHED: dict[WhyNot, str] = {
    "row": "a row of hits",
    "rolled": "a bar that is rolled out of one plane",
    "stacked": "stacked bars",
}


def no_order(refusals: Sequence[Refusal], show: Figures, *, closes: bool, proven: bool) -> Words:
    """Say why no order makes a part, and what would help.

    Parameters
    ----------
    refusals
        One for each bend that might come last.
    closes
        The finished part meets itself as drawn.
    proven
        Otherwise the time ran out.
    """
    unproven = "" if proven else " (not proven, the time ran out)"
    if closes:
        return (
            f"The finished part meets itself as drawn{unproven}.",
            "Check the legs and which way each bend turns.",
        )
    reasons = "; ".join(refusal_clause(one, show) for one in refusals)
    text = f"No order makes this part on this tooling: {reasons}{unproven}."
    helps = helps_against(refusals)
    start = f"Try {'; '.join(helps)}; or make" if helps else "Make"
    return (
        f"{text} {assumed_sizes(refusals)}".rstrip(),
        f"{start} the last bend part of the way and finish it off the tooling.",
    )


def cannot_be_made(
    refusal: Refusal | None, best: Sequence[int], show: Figures, *, stated: bool
) -> Words:
    """Say why a given order cannot be made, and which one can.

    Parameters
    ----------
    refusal
        Of the first bend that can be made neither way round.
    best
        1-based bends of the best order; empty where there is none.
    stated
        The order is the job's own; otherwise it is the natural one.
    """
    order = "stated" if stated else "natural"
    why = "one of its bends cannot be made" if refusal is None else refusal_clause(refusal, show)
    assumed = "" if refusal is None else assumed_sizes((refusal,))
    remedy = "Lengthen the leg, open the shoulders, or use a nose with a slimmer web."
    if best:
        remedy = f"Make the bends in the order {', '.join(map(str, best))}."
    return f"The {order} order cannot be made: {why}. {assumed}".rstrip(), remedy


def better_order(order: Sequence[int], cost: int, stated: int, weights: StepCosts) -> Words:
    """Say that another order takes less handling than the stated one.

    Parameters
    ----------
    order
        1-based bends of the other order.
    cost, stated
        Of the other order and of the stated one.
    """
    text = (
        f"The order {', '.join(map(str, order))} takes less handling: {cost} against {stated} "
        f"(a flip counts {weights.flip}, an end for end {weights.swap}, a stop moved "
        f"{weights.stop})."
    )
    return text, 'Write order = "best", or leave it out.'


def not_searched(why: WhyNot) -> Words:
    """Say that nothing of an order is proven, and why."""
    start = {
        "short leg": "A leg is too short for the search's even arcs",
        "not yet": "The order is being searched",
    }.get(why) or f"The search does not cover {SHAPES_NOT_SEARCHED[why]}"
    return (
        f"{start}: that nothing hits and that the part comes off the tooling is not proven.",
        "Go through each bend with a bare strip first.",
    )


def assumed(assumptions: Iterable[Assumption]) -> Words:
    """Say what of the surroundings was assumed."""
    said = "; ".join(_assumed(one) for one in assumptions)
    return (
        f"Not stated, so assumed: {said}.",
        "State tooling.plate, tooling.nose.span and press.daylight.",
    )


def _assumed(one: Assumption) -> str:
    size = show_both(one.size, 0)
    return {
        "web length": f"nose and web are {size} long",
        "clear span": f"the nose is clear over {size} between what carries it",
        "no plate": "no push plate is in the way, for the reach of the nose is not stated",
        "plate width": f"the push plate is {size} wide across the bar",
        "daylight": f"the nose stands {size} above the bar when it is laid in",
    }[one.what]
