"""What each of a few proposals gives up against the others."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from attrs import evolve

from strapwright.proposing.proposal_values import GivenUp, Measure, Proposed

# How much worse than the best of them is worth saying (common practice, no source).
WORTH_SAYING = 1.02


def with_trade_offs(best: tuple[Proposed, ...]) -> tuple[Proposed, ...]:
    """Say of each proposal where another does better, with both figures.

    Parameters
    ----------
    best
        Proposals to compare.
    """
    return tuple(
        evolve(
            one,
            gives_up=tuple(
                GivenUp(measure=measure, here=value(one), best=least)
                for measure, value in _MEASURES.items()
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


# What is better where it is less, in the order in which it is told.
_MEASURES: Mapping[Measure, Callable[[Proposed], float]] = {
    "new material": lambda one: one.material,
    "hours": lambda one: one.hours,
    "weakest member": worst_ratio,
    "most force": most_force,
    "opening": lambda one: one.tooling.shoulders.opening,
    "inside radius": lambda one: one.tooling.nose.radius,
}
