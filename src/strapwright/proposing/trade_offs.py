"""What each of a few proposals gives up against the others."""

from __future__ import annotations

from collections.abc import Callable

from attrs import evolve

from strapwright.proposing.proposal_values import Proposed
from strapwright.quantities import Units
from strapwright.strength.hand_figures import shown

# How much worse than the best of them is worth saying (common practice, no source).
WORTH_SAYING = 1.02


def with_trade_offs(best: tuple[Proposed, ...], units: Units) -> tuple[Proposed, ...]:
    """Say of each proposal where another does better, with both figures.

    Parameters
    ----------
    best
        Proposals to compare.
    units
        Unit system to print in.
    """

    def length(value: float) -> str:
        return shown(value, "mm", units)

    measures: tuple[tuple[Callable[[Proposed], float], Callable[[float], str], str], ...] = (
        (lambda one: one.material, "{:.2f}".format, "new material {}, where another takes {}"),
        (lambda one: one.hours, "{:.2f} h".format, "{} of making, where another takes {}"),
        (
            worst_ratio,
            "{:.0%}".format,
            "its weakest member is at {} of what is allowed, another's at {}",
        ),
        (
            most_force,
            lambda value: shown(value, "N", units),
            "pushes with up to {}, where another needs {}",
        ),
        (
            lambda one: one.tooling.shoulders.opening,
            length,
            "opens to {}, so that legs must be longer, where another opens to {}",
        ),
        (
            lambda one: one.tooling.nose.radius,
            length,
            "bends to {} inside, where another gives {}",
        ),
    )
    return tuple(
        evolve(
            one,
            gives_up=tuple(
                text.format(show(value(one)), show(least))
                for value, show, text in measures
                if value(one) > WORTH_SAYING * (least := min(value(other) for other in best)) + 1e-9
            ),
        )
        for one in best
    )


def worst_ratio(one: Proposed) -> float:
    """Largest ratio of any check that more load makes larger [-]."""
    grown = (check.ratio for check in one.assessment.checks if check.grows > 0.0)
    return max(grown, default=0.0)


def most_force(one: Proposed) -> float:
    """Highest force on the nose over all parts [N]."""
    return max((step.peak_force for made in one.plans for step in made.steps), default=0.0)
