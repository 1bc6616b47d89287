"""The tooling put together: parts in place, the parts list, and what is measured between parts."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.making.assembly.solid_values import Point3, Solid

ItemKind = Literal["plate", "shaft", "bolt", "keeper", "bought"]


@frozen(kw_only=True)
class Item:
    """One line of the parts list.

    Attributes
    ----------
    number
        Of the balloon [-].
    name
        Of the part.
    kind
        ``plate`` and ``shaft`` are made from stock, a ``keeper`` likewise; the others are bought.
    count
        How many alike [-].
    metal
        Of what; of a bolt its grade.
    sizes
        Width, height, thickness of a plate; diameter, length of a shaft; length of a bolt [mm].
    thread
        Name of a bolt's thread, else empty.
    use
        What a bolt fastens, else empty.
    torque
        What a bolt is tightened with, dry and with oiled threads [N mm].
    """

    number: int
    name: str
    kind: ItemKind
    count: int
    metal: str
    sizes: tuple[float, ...]
    thread: str = ""
    use: str = ""
    torque: tuple[float, float] | None = None


@frozen(kw_only=True)
class Part:
    """One piece in place.

    Attributes
    ----------
    item
        Number of its line in the parts list [-].
    solid
        In place: x along the bar from the middle of the opening, y along the nose from the middle
        of the bar, z up from the bed.
    apart
        How far it is moved where the picture takes the tooling apart [mm].
    """

    item: int
    solid: Solid
    apart: Point3


@frozen(kw_only=True)
class Assembly:
    """The tooling put together on the press, the nose at first contact.

    Attributes
    ----------
    items, parts
        The parts list, and each piece in place.
    unplaced
        Names of pieces of the list that no rule puts in place.
    bar
        The bar on the shoulders.
    ram
        Diameter of the ram above the push plate [mm]; ``None`` where not stated.
    tops, contact, plate_low, plate_high
        Heights of shoulder tops, of the nose's lowest point, and of the push plate's faces [mm].
    riser
        Height of what the floor stands on and that is not made here [mm].
    opening, clear
        Between the middles of the shoulder rounds and between their inner sides [mm].
    gap, carrier, carriers
        Between the carriers, thickness of each [mm] and how many [-]; ``None`` without any.
    ram_holes, guide_holes
        Middles of these holes in the push plate, as x and y of the assembly [mm].
    """

    items: tuple[Item, ...]
    parts: tuple[Part, ...]
    unplaced: tuple[str, ...]
    bar: Solid
    ram: float | None
    tops: float
    contact: float
    plate_low: float
    plate_high: float
    riser: float
    opening: float
    clear: float
    gap: float | None
    carrier: float | None
    carriers: int
    ram_holes: tuple[tuple[float, float], ...]
    guide_holes: tuple[tuple[float, float], ...]
