"""Which side of the flat bar the nose presses on, and whether there is an edge to sight along."""

from __future__ import annotations

import math

from strapwright.planning.values import Plan

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
    turned = sum(part.roll_before(index) for index in range(bend))
    below = part.bends[bend - 1].side < 0
    degrees = round(math.degrees(turned) + (180.0 if below else 0.0), 1) % 360.0
    return _NAMES.get(degrees) or f"{degrees:g}° from the top, over the far side"


def sighted(plan: Plan) -> bool:
    """Whether there is an edge of the tooling to sight along."""
    return plan.job.tooling is not None and plan.job.tooling.shoulders.outer_edge is not None
