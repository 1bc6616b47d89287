"""Limits of the finished part: what each leg and each angle may be out by."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

from attrs import frozen

from strapwright.catalog.general_tolerances import (
    GeneralClass,
    angle_deviation,
    length_deviation,
)
from strapwright.shop.keys import Key, key, keys

if TYPE_CHECKING:
    from strapwright.shop.part import Part

# Whose limit it is: stated for this leg or bend alone, for all of the job, by a class of ISO 2768,
# or assumed.
LimitBy = Literal["own", "job", "class", "assumed"]

# Where the job states none: angles to either side (common practice, no source), legs by this class.
ANGLE_TOLERANCE = math.radians(1.0)
ASSUMED_CLASS: GeneralClass = "c"
_LONGEST = 4000.0  # mm; the table of ISO 2768-1 ends there


@frozen(kw_only=True)
class Tolerance:
    """What legs and angles without limits of their own may be out by.

    Attributes
    ----------
    general
        Class of ISO 2768-1, for what ``length`` and ``part.angle_tolerance`` leave open.
    length
        Of every leg, to either side [mm].
    takes
        1-based number of the leg that takes what the others leave; marks are measured towards it
        from both ends.  ``None`` is the last, or the one that closes a shape.
    """

    general: GeneralClass | None = key(
        "choice",
        name="class",
        help="ISO 2768-1 for legs and angles: {options}, from fine to very coarse",
        left_out="c for legs, 1° for angles",
        inch="m",
    )
    length: float | None = key(
        "length",
        help="how far off every leg may be, to either side",
        left_out="by the class",
        inch="1/32 in",
        metric="0.8 mm",
    )
    takes: int | None = keys(
        Key(
            kind="own",
            name="takes",
            help="leg that takes what the others leave; marks run towards it from both ends",
            left_out="the last leg, or the one that closes the shape",
            inch="3",
            label="Leg that takes the error",
        ),
        default=None,
    )


@frozen(kw_only=True)
class Limit:
    """What one leg or one bend angle may be out by.

    Attributes
    ----------
    leg, bend
        Number of the one it is for, from 1; the other is ``None``.
    length
        Of the leg, to either side [mm].
    angle
        Of the bend, to either side [rad].
    """

    leg: int | None = keys(
        Key(kind="own", name="leg", help="which leg, counted from the first", inch="2",
            needed=True),
        default=None,
    )  # fmt: skip
    length: float | None = keys(
        Key(
            kind="length",
            name="length",
            help="how far off that leg may be, to either side",
            inch="1/64 in",
            metric="0.4 mm",
            needed=True,
        ),
        default=None,
    )
    bend: int | None = keys(
        Key(
            kind="own",
            name="bend",
            help="which bend, counted from the first",
            inch="1",
            instead_of="leg",
        ),
        default=None,
    )
    angle: float | None = keys(
        Key(
            kind="angle",
            name="angle",
            help="how far off that bend angle may be, to either side",
            inch="0.5",
            instead_of="length",
        ),
        default=None,
    )


def leg_limit(part: Part, leg: int) -> tuple[float, LimitBy]:
    """Return what a leg may be out by to either side [mm], and whose limit that is.

    Parameters
    ----------
    part
        As stated; its class has a figure for every leg, which its reader sees to.
    leg
        1-based number.
    """
    for one in part.limits:
        if one.leg == leg and one.length is not None:
            return one.length, "own"
    stated = part.tolerance or Tolerance()
    if stated.length is not None:
        return stated.length, "job"
    size = part.legs[leg - 1]
    if stated.general is not None:
        found = length_deviation(stated.general, size)
        if found is not None:
            return found, "class"
    # Past the ends of the table the limits of its nearest step are the tighter ones.
    return length_deviation(ASSUMED_CLASS, min(max(size, 0.5), _LONGEST)) or 0.0, "assumed"


def bend_limit(part: Part, bend: int) -> tuple[float, LimitBy]:
    """Return what a bend angle may be out by to either side [rad], and whose limit that is.

    Parameters
    ----------
    part
        As stated.
    bend
        1-based number.
    """
    for one in part.limits:
        if one.bend == bend and one.angle is not None:
            return one.angle, "own"
    if part.every_angle is not None:
        return part.angle_tolerance, "job"
    general = None if part.tolerance is None else part.tolerance.general
    if general is not None:
        return angle_deviation(general, min(part.legs[bend - 1 : bend + 1])), "class"
    return part.angle_tolerance, "assumed"


def taking_leg(part: Part) -> int:
    """Return the 1-based number of the leg that takes what the others leave."""
    if part.tolerance is not None and part.tolerance.takes is not None:
        return part.tolerance.takes
    return len(part.legs) if part.close is None else part.close.absorb


def states_limits(part: Part) -> bool:
    """Whether the job states any limit of its own."""
    return bool(part.limits) or part.tolerance is not None or part.every_angle is not None
