"""What measured finished legs say of how much bar a bend takes up."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import frozen

# One measured leg, by rule or caliper over a bend [mm] (common practice, no source).
LEG = 0.3
# What a bend takes up is known to about this share of the thickness for each radian: the three
# lines of the handbooks, 0.55 to 0.71 thicknesses for a right angle, differ by 0.10 of it.
PRIOR = 0.05


@frozen(kw_only=True)
class MeasuredPart:
    """One finished part.

    Attributes
    ----------
    extra
        Sum of its legs less the sum wanted, less what its blank was cut longer than worked out
        [mm].
    legs
        How many were measured: all of them.
    turned
        Sum of its bend angles [rad].
    """

    extra: float
    legs: int
    turned: float


@frozen(kw_only=True)
class LearnedBlank:
    """How much less bar a bend takes up than was worked out.

    Attributes
    ----------
    per_rad, spread
        Length to add for each radian of a bend, and its deviation [mm/rad].
    parts
        How many measured parts it rests on.
    """

    per_rad: float
    spread: float
    parts: int


def learn_blank(parts: Sequence[MeasuredPart], thickness: float) -> LearnedBlank | None:
    """Return what measured parts say, ``None`` of none.

    A part whose legs come out long had too long a blank: its bends take up less.  Each part speaks
    by how well its legs were measured, and all against what was known before (textbook: weighted
    mean of normal values).

    Parameters
    ----------
    parts
        Of one lot and one tooling.
    thickness
        Of the bar [mm].
    """
    if not parts:
        return None
    prior = PRIOR * thickness
    weight, drawn = 1.0 / prior**2, 0.0
    for one in parts:
        precision = one.turned**2 / (LEG**2 * one.legs)
        weight += precision
        drawn -= precision * one.extra / one.turned
    return LearnedBlank(per_rad=drawn / weight, spread=math.sqrt(1.0 / weight), parts=len(parts))
