"""Where the end stop stands for a bend: as far from the nose as the bar reaches to the left.

The search for the order lays the part out with even arcs of the wrap radius, and asks how far its
straights reach.  Marks and stop are to say the same, and past a right angle it is the round of a
bend that lies farthest out, so the stop is measured on the bar as it lies before the bend.
"""

from __future__ import annotations

import numpy as np
from attrs import evolve

from strapwright.midline.pose_values import DrawnPose
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered
from strapwright.planning.plan_values import Step
from strapwright.shop.part import Part


def stopped_as_marked(
    step: Step, ordered: Ordered, place: int, *, part: Part, thickness: float
) -> Step:
    """Return a step with its end stop.

    Bars on each other have marks of their own: there it stays as the search found it.  A series of
    hits has a stop for each of them, and none is told.

    Parameters
    ----------
    step
        Without its end stop.
    ordered, place
        The order, and which of its steps this is, counted from 0.
    part
        The part.
    thickness
        Of the bar [mm].
    """
    placed = ordered.steps[place]
    if placed.reach is None or part.stacked > 1:
        return evolve(step, end_stop=placed.reach)
    return evolve(step, end_stop=reaches_left(step.poses.rest, thickness))


def reaches_left(pose: DrawnPose, thickness: float) -> float:
    """Return how far a bar reaches left of the middle of the nose [mm].

    Parameters
    ----------
    pose
        In one plane.
    thickness
        Of the bar [mm].
    """
    heading = np.arctan2(np.diff(pose.y), np.diff(pose.x))
    left = np.minimum(pose.x[:-1], pose.x[1:]) - 0.5 * thickness * np.abs(np.sin(heading))
    return -float(np.min(left))
