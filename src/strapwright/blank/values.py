"""The flat blank: its length, its marks and where its holes come."""

from __future__ import annotations

from attrs import frozen

from strapwright.shop.job import BlankMethod


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
        Where the bend zone begins and ends, in the flat.
    """

    bend: int
    nose: float
    sight: float
    tangents: tuple[float, float]


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
    bend
        Nearest bend.
    edge_to_zone
        From the hole's edge to the nearest bend zone; negative where it reaches in [mm].
    """

    hole: int
    position: float
    across: float
    diameter: float
    bend: int
    edge_to_zone: float


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
    """

    length: float
    method: BlankMethod
    allowances: tuple[float, ...]
    deductions: tuple[float, ...]
    alternatives: tuple[Alternative, ...]
    marks: tuple[Mark, ...]
    holes: tuple[FlatHole, ...]
