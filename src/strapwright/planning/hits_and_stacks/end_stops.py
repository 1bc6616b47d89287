"""Where the end stop stands for a bend: as far from the nose as its mark is from the end.

The search for the order lays the part out with even arcs of the wrap radius.  How far its left wing
reaches differs from the blank by what such an arc takes up more or less than the bend does; marks
and stop are to say the same, so what lies flat yet is measured on the blank.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from attrs import evolve

from strapwright.blank.blank_values import Blank
from strapwright.blank.leg_straights import straights
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered
from strapwright.planning.made_bend import MadeBend
from strapwright.planning.plan_values import Step
from strapwright.shop.part import Part


def stopped_as_marked(
    step: Step,
    ordered: Ordered,
    place: int,
    *,
    part: Part,
    blank: Blank,
    made: Sequence[MadeBend],
) -> Step:
    """Return a step with its end stop, by the blank.

    Bars on each other have marks of their own, and a series of hits has several: there it stays as
    the search found it.

    Parameters
    ----------
    step
        Without its end stop.
    ordered, place
        The order, and which of its steps this is, counted from 0.
    part, blank, made
        The part, its blank, and its bends as they are made.
    """
    placed = ordered.steps[place]
    apart = part.stacked > 1 or any(one.radius is not None for one in part.bends)
    if placed.reach is None or apart:
        return evolve(step, end_stop=placed.reach)
    stop = stop_on_the_blank(
        part,
        blank,
        [wrapped_radius(one) for one in made],
        made[0].setup.thickness,
        placed.reach,
        bend=placed.bend,
        end_left=placed.end_left,
        made={one.bend for one in ordered.steps[:place]},
    )
    return evolve(step, end_stop=stop)


def wrapped_radius(made: MadeBend) -> float:
    """Inside radius of the even arc that stands for a bend in the search for the order [mm]."""
    return max(made.radii.wrap, made.setup.nose_radius)


def stop_on_the_blank(
    part: Part,
    blank: Blank,
    radii: Sequence[float],
    thickness: float,
    reach: float,
    *,
    bend: int,
    end_left: int,
    made: Collection[int],
) -> float:
    """Return how far the end stop stands from the middle of the nose [mm].

    Parameters
    ----------
    part
        Of one bar, in one push a bend.
    blank
        Its blank with the marks.
    radii
        Inside radius of each bend in the search for the order, shape (bends,) [mm].
    thickness
        Of the bar [mm].
    reach
        What that search found [mm].
    bend
        0-based bend that is made.
    end_left
        1 or 2.
    made
        0-based bends that are made before it.
    """
    left = range(bend - 1, -1, -1) if end_left == 1 else range(bend + 1, len(part.bends))
    flat = []
    for other in left:
        if other in made:
            break
        flat.append(other)
    else:
        mark = blank.marks_of(bend + 1)[0].nose
        return mark if end_left == 1 else blank.length - mark
    # The legs are the same in both: what differs is what the bends in the flat run take off.
    more = [
        even - own
        for even, own in zip(
            _even_deductions(part, radii, thickness), blank.deductions, strict=True
        )
    ]
    return reach + 0.5 * more[bend] + sum(more[other] for other in flat)


def _even_deductions(part: Part, radii: Sequence[float], thickness: float) -> list[float]:
    """What an even arc takes off the legs as measured, bend by bend [mm]."""
    lengths = straights(part, None, inside_radii=radii)
    taken: list[float] = []
    before = 0.0
    for leg, straight, bend, radius in zip(
        part.legs, lengths, part.bends, radii, strict=False
    ):  # the last leg has no bend behind it
        before = leg - straight - before
        taken.append(2.0 * before - (radius + 0.5 * thickness) * math.fabs(bend.angle))
    return taken
