"""The flat blank: its length, its marks and where its holes come."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.job import BlankMethod
from strapwright.shop.part_holes import Opens


@frozen(kw_only=True)
class Mark:
    """Marks of one bend, all from end 1 [mm].

    Attributes
    ----------
    bend
        1-based number of the bend.
    nose
        Where the middle of the nose comes.
    sight
        Line to set against an edge of the tooling that can be seen.
    tangents
        Where the bend zone begins and ends, in the flat; for a hit, the zone of its whole row.
    hit
        1-based number of the hit in its row, 0 where the bend is made by one.
    """

    bend: int
    nose: float
    sight: float
    tangents: tuple[float, float]
    hit: int = 0

    @property
    def label(self) -> str:
        """Number as written on the bar, e.g. ``2``, or ``2.1`` for a hit."""
        return f"{self.bend}.{self.hit}" if self.hit else str(self.bend)


@frozen(kw_only=True)
class Alternative:
    """Blank length by another method; ``length`` [mm]."""

    method: BlankMethod
    length: float


@frozen(kw_only=True)
class FlatHole:
    """A hole in the flat blank.

    Attributes
    ----------
    hole
        1-based number as stated in the part.
    position, across, diameter
        From end 1, from the middle of the width, and its size [mm].
    length, opens
        As of :class:`Hole`.
    bend
        Nearest bend.
    edge_to_zone
        From the hole's edge to the nearest bend zone; negative where it reaches in [mm].
    after
        It is drilled after bending, so that it does not stand on the flat blank.
    """

    hole: int
    position: float
    across: float
    diameter: float
    bend: int
    edge_to_zone: float
    after: bool = False
    length: float | None = None
    opens: Opens = "no"


@frozen(kw_only=True)
class FlatWeld:
    """A weld across the flat blank.

    Attributes
    ----------
    weld
        1-based number as stated in the part.
    position
        From end 1 [mm].
    bend
        Nearest bend.
    to_zone
        From the weld's middle to that bend's zone; negative where it lies in it [mm].
    """

    weld: int
    position: float
    bend: int
    to_zone: float


@frozen(kw_only=True)
class SawLine:
    """Where an end leg that was left longer is sawn off after bending.

    Attributes
    ----------
    end
        End of the bar, 1 or 2.
    position
        Of the cut, from end 1 of the flat blank [mm].
    length
        That is sawn off [mm].
    """

    end: Literal[1, 2]
    position: float
    length: float


@frozen(kw_only=True)
class TwistedRun:
    """The stretch of the flat blank that is given a quarter twist.

    Attributes
    ----------
    leg
        1-based leg that it lies in.
    begin, end
        From end 1 of the flat blank [mm].
    """

    leg: int
    begin: float
    end: float


@frozen(kw_only=True)
class Blank:
    """The flat piece to cut.

    Attributes
    ----------
    length
        [mm]
    method
        What it was worked out by.
    allowances
        Flat length used up by each bend's arc, shape (bends,) [mm].
    deductions
        What each bend takes off the sum of the legs as measured, shape (bends,) [mm].
    marks
        In the order of the bends, one a bend or one a hit.
    saws
        Where end legs are sawn off after bending.
    twists
        Stretches that are given a quarter twist.
    """

    length: float
    method: BlankMethod
    allowances: tuple[float, ...]
    deductions: tuple[float, ...]
    alternatives: tuple[Alternative, ...]
    marks: tuple[Mark, ...]
    holes: tuple[FlatHole, ...]
    welds: tuple[FlatWeld, ...] = ()
    saws: tuple[SawLine, ...] = ()
    twists: tuple[TwistedRun, ...] = ()

    @property
    def twist_lines(self) -> tuple[float, ...]:
        """Where twisted stretches begin and end, from end 1 [mm]."""
        return tuple(at for one in self.twists for at in (one.begin, one.end))

    @property
    def drilled_flat(self) -> tuple[FlatHole, ...]:
        """Holes that are drilled before bending."""
        return tuple(hole for hole in self.holes if not hole.after)

    def marks_of(self, bend: int) -> tuple[Mark, ...]:
        """Marks of a bend by its 1-based number: one, or one a hit."""
        return tuple(mark for mark in self.marks if mark.bend == bend)

    def carries_sight(self, mark: Mark) -> bool:
        """Whether a mark's sight line lies on the blank."""
        return 0.0 <= mark.sight <= self.length

    def zone(self, bend: int) -> tuple[float, float]:
        """Where a bend begins and ends in the flat, by its 1-based number [mm]."""
        return self.marks_of(bend)[0].tangents
