"""What is said of a mark on the flat bar: how far it turns, which side the nose presses on."""

from __future__ import annotations

import math

from strapwright.blank.blank_values import Mark
from strapwright.drawing.drawn_figures import stated_angle
from strapwright.planning.bar_rolls import turned
from strapwright.planning.plan_values import Plan

_NAMES = {
    0.0: "on top",
    90.0: "on the far side",
    180.0: "on the bottom",
    270.0: "on the near side",
}


def nose_side(plan: Plan, bend: int) -> str:
    """Name the side of the flat bar that the nose presses on.

    Parameters
    ----------
    plan
        With its job.
    bend
        1-based number of the bend.

    Returns
    -------
    str
        As the bar lies with end 1 at the left, seen from the near side: ``on top``, ``on the
        bottom``, ``on the far side``, ``on the near side``, or the angle between.
    """
    part = plan.job.part
    # A roll towards the viewer brings the far side up, so the nose meets that side.
    roll = turned(part)[bend - 1]
    below = part.bends[bend - 1].side < 0
    degrees = round(math.degrees(roll) + (180.0 if below else 0.0), 1) % 360.0
    return _NAMES.get(degrees) or f"{degrees:g}° round from the top, over the far side"


def turn_words(plan: Plan, mark: Mark) -> str:
    """Say which way and how far a mark turns the bar, e.g. ``up 90°``; a hit turns its share.

    A bend that the bench finishes turns as far as the press makes it.
    """
    bend = plan.job.part.bends[mark.bend - 1]
    hits = 1 if plan.blank is None else len(plan.blank.marks_of(mark.bend))
    angle = plan.job.part.pressed_angle(mark.bend)
    return f"{'up' if bend.side > 0 else 'down'} {stated_angle(angle / hits)}"


def sighted(plan: Plan) -> bool:
    """Whether there is an edge of the tooling to sight along."""
    return plan.job.tooling is not None and plan.job.tooling.shoulders.outer_edge is not None
