"""What the finished part is held to, for a person at a terminal and as plain data."""

from __future__ import annotations

import math
import textwrap
from typing import Any

from strapwright.planning.limits_and_weights.limit_chances import limits_of
from strapwright.planning.limits_and_weights.limit_values import Chance, Limits
from strapwright.planning.plan_values import Plan
from strapwright.wording.figures import figures_for
from strapwright.wording.limits_and_weights.limit_words import NORMAL, limit_words, takes_words

WIDTH = 88  # columns
Data = dict[str, Any]


def limits_block(plan: Plan, *, details: bool) -> list[str]:
    """Write the limits of legs and angles as a table; empty where none is stated or asked for.

    Parameters
    ----------
    plan
        As made.
    details
        Also those that are assumed.
    """
    limits = limits_of(plan)
    if not (limits.stated or details):
        return []
    show = figures_for(plan.job)
    rows = [("Limits", "between", "odds as planned", "after a first part", "")]
    rows += [
        (one.name, f"{one.low} to {one.high}", one.first, one.later, one.by)
        for one in limit_words(limits, plan.job.part, show)
    ]
    widths = [max(len(row[column]) for row in rows) + 2 for column in range(4)]
    lines = [
        "".join(f"{cell:<{width}}" for cell, width in zip(row, [*widths, 0], strict=True)).rstrip()
        for row in rows
    ]
    for said in (*takes_words(limits, show), NORMAL):
        lines += textwrap.wrap(said, WIDTH, initial_indent="  ", subsequent_indent="  ")
    return lines


def limits_data(plan: Plan) -> Data:
    """Return the limits of a part as plain data.

    Parameters
    ----------
    plan
        As made.
    """
    limits: Limits = limits_of(plan)
    return {
        "stated": limits.stated,
        "takes_leg": limits.takes,
        "legs": [
            {
                "leg": one.leg,
                "size_mm": one.size,
                "within_mm": one.within,
                "by": one.by,
                "half_mm": None if one.chance is None else one.chance.half,
                **_chances(one.chance),
            }
            for one in limits.legs
        ],
        "bends": [
            {
                "bend": one.bend,
                "angle_deg": math.degrees(one.angle),
                "within_deg": math.degrees(one.within),
                "by": one.by,
                "half_deg": None if one.chance is None else math.degrees(one.chance.half),
                **_chances(one.chance),
            }
            for one in limits.bends
        ],
        "marks_from_end_2": [
            {"mark": label, "nose_mm": place} for label, place in limits.from_end_2
        ],
    }


def _chances(chance: Chance | None) -> Data:
    """Chances as they are, ``None`` where nothing is proven."""
    if chance is None:
        return {"chance_first": None, "chance_later": None}
    return {"chance_first": chance.first, "chance_later": chance.later}
