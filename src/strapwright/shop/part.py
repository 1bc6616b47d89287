"""The finished part: legs, bends and holes, as a person states them."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.bar import Bar, Lot

Measured = Literal["outside", "inside", "centre"]
Grain = Literal["across", "along", "unknown"]
Edges = Literal["mill", "sheared", "flame cut"]
Closure = Literal["gap", "overlap", "weld gap"]


@frozen(kw_only=True)
class Bend:
    """One bend of the part.

    Attributes
    ----------
    angle
        How far the bend turns the bar, positive [rad].
    side
        ``+1`` where the next leg turns up as drawn, ``-1`` where it turns down.
    radius
        Inside radius where the bend is made by a row of hits, ``None`` where by one [mm].
    """

    angle: float
    side: Literal[1, -1]
    radius: float | None = None


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
class Weld:
    """A weld across the bar, placed on the finished part as a :class:`Hole` is.

    Attributes
    ----------
    leg, from_bend, distance
        As for a hole.
    """

    leg: int
    from_bend: int | None
    distance: float


@frozen(kw_only=True)
class Closing:
    """How the ends of a closed shape meet.

    Attributes
    ----------
    kind
        ``gap``, ``weld gap`` (the gap a weld fills) or ``overlap``.
    size
        Of the gap between the ends, or how far they lie over each other [mm].
    absorb
        1-based number of the leg that takes up what is missing.
    """

    kind: Closure
    size: float
    absorb: int


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
        Bend numbers in the order they are made, or ``None`` for the best one.
    natural
        Without a stated order: the natural order from end 1 instead of the best one.
    at_once
        How many bars lie side by side under the nose.
    stacked
        How many bars lie on each other under the nose.
    rolls
        Turn of the bar about itself before each bend, one a bend; empty where none is rolled [rad].
        Positive turns the top of the bar, as drawn with end 1 on the left, towards the viewer.
    close
        How the ends meet, or ``None`` where the shape is open.
    grain
        How the bend lines run to the rolling direction of the metal.
    edges
        How the edges of the bar were made.
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
    natural: bool = False
    at_once: int = 1
    stacked: int = 1
    rolls: tuple[float, ...] = ()
    close: Closing | None = None
    grain: Grain = "across"
    edges: Edges = "mill"
    welds: tuple[Weld, ...] = ()

    def roll_before(self, bend: int) -> float:
        """Turn of the bar about itself right before a bend, counted from 0 [rad]."""
        return self.rolls[bend] if self.rolls else 0.0
