"""A tooling that a search proposes: what it is made from, its plans, and what it gives up."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.cutting.cut_list import Cut
from strapwright.making.plate_values import Way
from strapwright.planning.plan_values import Plan
from strapwright.shop.rack import Stock
from strapwright.shop.tooling import Held, Tooling
from strapwright.strength.check_values import Assessment


@frozen(kw_only=True)
class Choice:
    """What a candidate is made from, and how wide it is opened.

    Attributes
    ----------
    nose, shoulders, carriers, push_plate, body
        Stock of each; ``carriers`` gives the web where the nose is held by it, ``body`` cheeks and
        floor, or cheeks and side plates, or the base of blocks.
    opening
        Centre to centre [mm].
    held
        How the nose is held.
    tied
        Whether two side plates, bolted across the ends of the cheeks, tie them in place of a floor
        that they are welded to.
    kept
        Whether the push plate stays on the press, and is not made.
    edge
        Radius of the rounded edge where the shoulders are blocks that stand on a base; 0 where
        they are rounds [mm].
    """

    nose: Stock
    shoulders: Stock
    carriers: Stock
    push_plate: Stock
    body: Stock
    opening: float
    held: Held = "both ends"
    tied: bool = False
    kept: bool = False
    edge: float = 0.0

    @property
    def radius(self) -> float:
        """Of the shoulders [mm]."""
        return self.edge or self.shoulders.thickness / 2

    @property
    def bends_over(self) -> Stock | float:
        """What the shoulders are to a bend: a shaft, or the radius of an edge [mm]."""
        return self.edge or self.shoulders

    @property
    def pair(self) -> tuple[float, float, bool]:
        """Nose and shoulders as they bend: blocks of one edge are alike, however thick."""
        return self.nose.thickness, self.radius, self.edge > 0.0


@frozen(kw_only=True)
class Shoulder:
    """Shoulders as they bend, whatever they are cut from.

    Attributes
    ----------
    name
        Of the shaft; empty for blocks, which are told by their radius.
    radius
        [mm]
    """

    name: str
    radius: float


Measure = Literal[
    "new material", "hours", "weakest member", "most force", "opening", "inside radius"
]


@frozen(kw_only=True)
class GivenUp:
    """Where another proposal does better.

    Attributes
    ----------
    measure
        Of what.
    here, best
        Of this one and of the best of them: money, h, a ratio, N or mm, as the measure is.
    """

    measure: Measure
    here: float
    best: float


@frozen(kw_only=True)
class BoltsReady:
    """Bolts of the side plates to lay ready."""

    count: int
    size: str
    grade: str | None


HoleUse = Literal["nose", "guide rod", "shoulder seats", "clearance", "thread"]


@frozen(kw_only=True)
class NotInCrib:
    """A hole that the crib has no cutter for.

    Attributes
    ----------
    use
        Which hole.
    size
        Name of the bolt or of the thread, empty for a hole that its diameter tells.
    diameter
        Where no name tells it [mm].
    way
        The way round that the hours count.
    """

    use: HoleUse
    size: str
    diameter: float | None
    way: Way


@frozen(kw_only=True)
class Proposed:
    """One tooling that does every part.

    Attributes
    ----------
    tooling
        With its members.
    cuts
        Its cut list.
    material, hours, cost
        Money for new material, hours of making, and both in the rack's money.
    plans
        Of each part on it, in the order given.
    assessment
        Of its members under the worst of them.
    gives_up
        What it gives up against the other two.
    bolts
        To lay ready; from the drawer, not priced.
    ways
        What the crib has no cutter for, with the way round that the hours count.
    """

    choice: Choice
    tooling: Tooling
    cuts: tuple[Cut, ...]
    material: float
    hours: float
    cost: float
    plans: tuple[Plan, ...]
    assessment: Assessment
    gives_up: tuple[GivenUp, ...] = ()
    bolts: tuple[BoltsReady, ...] = ()
    ways: tuple[NotInCrib, ...] = ()
