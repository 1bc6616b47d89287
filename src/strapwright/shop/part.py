"""The finished part: legs, bends and holes, as a person states them."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.bar import Bar, Lot

Measured = Literal["outside", "inside", "centre"]


@frozen(kw_only=True)
class Bend:
    """One bend of the part.

    Attributes
    ----------
    angle
        How far the bend turns the bar, positive [rad].
    side
        ``+1`` where the next leg turns up as drawn, ``-1`` where it turns down.
    """

    angle: float
    side: Literal[1, -1]


@frozen(kw_only=True)
class Hole:
    """One hole, placed on the finished part.

    Attributes
    ----------
    leg
        1-based leg number.
    from_bend
        Bend number (1-based, next to the leg) that ``distance`` starts from, or ``None`` where it
        starts from the free end of the bar on that leg.
    distance
        Along the leg to the hole's centre [mm]; from a bend it starts where the leg's own
        dimension starts (outside, inside or centre apex).
    diameter
        [mm]
    across
        Offset from the middle of the width, positive to the far side as drawn [mm].
    """

    leg: int
    from_bend: int | None
    distance: float
    diameter: float
    across: float = 0.0


@frozen(kw_only=True)
class Part:
    """A bent bar part.

    Attributes
    ----------
    legs
        Leg lengths in order from end 1, one more than the bends, measured as ``measured`` says
        [mm].
    inside_radius
        Stated inside radius, used for the blank where no tooling is given [mm].
    order
        Bend numbers in the order they are made, or ``None`` for the natural order.
    at_once
        How many bars lie side by side under the nose.
    """

    name: str
    quantity: int
    bar: Bar
    material: str
    lot: Lot
    measured: Measured
    legs: tuple[float, ...]
    bends: tuple[Bend, ...]
    holes: tuple[Hole, ...] = ()
    inside_radius: float | None = None
    order: tuple[int, ...] | None = None
    at_once: int = 1
