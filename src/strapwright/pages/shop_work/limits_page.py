"""What the finished part is held to and what the pump does, as the pages show it."""

from __future__ import annotations

from attrs import frozen

from strapwright.planning.limits_and_weights.limit_chances import limits_of
from strapwright.planning.limits_and_weights.pumping import pump_work
from strapwright.planning.plan_values import Plan, Step
from strapwright.wording.figures import figures_for
from strapwright.wording.limits_and_weights.limit_words import (
    NORMAL,
    LimitWords,
    limit_words,
    takes_words,
)
from strapwright.wording.limits_and_weights.pump_words import pump_words
from strapwright.wording.limits_and_weights.weight_words import weight_words


@frozen(kw_only=True)
class LimitsPage:
    """Limits of a part in words.

    Attributes
    ----------
    rows
        Each leg and each angle.
    said
        What goes with them.
    weight
        What there is to lift.
    """

    rows: tuple[LimitWords, ...]
    said: tuple[str, ...]
    weight: str


def limits_page(plan: Plan) -> LimitsPage:
    """Put the limits of a planned part into words.

    Parameters
    ----------
    plan
        As made.
    """
    limits, show = limits_of(plan), figures_for(plan.job)
    weight = weight_words(plan.weights, show)
    return LimitsPage(
        rows=limit_words(limits, plan.job.part, show),
        said=(*takes_words(limits, show), NORMAL),
        weight=f"{weight[:1].upper()}{weight[1:]}",
    )


def pump_line(plan: Plan, step: Step) -> str:
    """Say what the pump does for a bend; empty where bore or pump are not stated.

    Parameters
    ----------
    plan, step
        The plan and one of its steps.
    """
    said = pump_words(pump_work(plan.job.press, step), figures_for(plan.job))
    return f"Pump: {said}." if said else ""
