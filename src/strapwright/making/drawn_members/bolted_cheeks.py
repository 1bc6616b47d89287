"""Cheeks that bolts hold from under the floor: rows of threads in their lower edges."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError
from strapwright.making.bolt_layout import (
    EDGE,
    ENGAGEMENT,
    SPACING,
    TAPPED,
    drill_goes,
    reach_of,
    rows_across,
)
from strapwright.making.drawn_members.laying_out import Reach
from strapwright.making.hole_table import LEAST_WALL_MM, bolt_hole, tapped_hole
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.shop_lengths import round_up, size
from strapwright.quantities import Units
from strapwright.shop.members import Bolt

WHERE = "tooling.members.bolt (cheeks)"
# Of a bolt's diameter: its head in a seat with play for a socket, and how high it is; common
# practice, no source.
SEAT, HEAD = 1.75, 1.0
_SAME = 0.1  # mm, numerical; sizes are stated to a thousandth of an inch


@frozen(kw_only=True)
class CheekBolts:
    """Bolts of one cheek, as drawn.

    Attributes
    ----------
    thread
        Of the cheek.
    across, along
        Places from the cheek's inner face, and along the nose [mm].
    reach
        Length and grip.
    sunk
        How deep the heads lie in seats under the floor [mm]; 0 below it.
    """

    thread: Thread
    across: tuple[float, ...]
    along: tuple[float, ...]
    reach: Reach
    sunk: float

    @property
    def places(self) -> tuple[tuple[float, float], ...]:
        """From the inner face, and along the nose [mm]."""
        return tuple((x, y) for x in self.across for y in self.along)


def cheek_bolts(
    bolt: Bolt,
    *,
    cheek: float,
    length: float,
    tall: float,
    seat: float,
    floor: float,
    units: Units,
) -> CheekBolts:
    """Lay out the bolts of a cheek.

    Parameters
    ----------
    bolt
        As stated; ``count`` is of one cheek.
    cheek, length, tall
        Thickness, length and height of the cheek [mm].
    seat
        Radius of the round whose seat is level with its upper edge, in its inner face [mm].
    floor
        Thickness of the floor [mm].
    units
        Of the job.

    Raises
    ------
    InputError
        Where rows or bolts find no room, a bolt cannot reach or bottoms, or the hole of one runs
        into the seat.
    """
    thread = find_thread(bolt.size, WHERE)
    across = rows_across(bolt, thread, cheek, WHERE, units)
    along = _along(bolt.count // len(across), thread, length, units)
    grip = floor if bolt.grip is None else min(bolt.grip, floor)
    sunk = floor - grip if floor - grip > _SAME else 0.0
    # The row nearest to the inner face lies deepest under the seat.
    begins = solid_over(across[0], thread.major, tall, seat)
    long = reach_of(thread, bolt.length, floor - sunk, begins, WHERE, units)
    walled = solid_over(across[0], thread.major, tall, seat, LEAST_WALL_MM)
    deep = drilled_depth(thread, long - (floor - sunk))
    if deep > walled + 1e-6:
        raise _into_seat(deep, begins, tall + deep - walled, units)
    return CheekBolts(
        thread=thread, across=across, along=along, sunk=sunk,
        reach=Reach(length=long, grip=floor - sunk),
    )  # fmt: skip


def solid_over(across: float, hole: float, tall: float, seat: float, wall: float = 0.0) -> float:
    """Return how deep a hole in the lower edge of a cheek can be under the seat [mm].

    The seat's middle is over the inner face, its radius below the top.  The side of the hole that
    is nearest to the inner face meets it first: tall - R - sqrt((R + w)^2 - x^2) (geometry of a
    circle).

    Parameters
    ----------
    across
        From the inner face to the middle of the hole [mm].
    hole
        Its diameter [mm].
    tall, seat
        Height of the cheek, and radius R of its seat [mm].
    wall
        What is to be left between both [mm].
    """
    near = max(across - hole / 2, 0.0)
    if near >= seat + wall:
        return tall - wall
    return tall - seat - math.sqrt((seat + wall) ** 2 - near**2)


def thread_depth(thread: Thread, into: float) -> float:
    """Return how deep a cheek is tapped [mm] for a bolt that goes so deep into it [mm]."""
    return max(TAPPED * thread.major, into + (TAPPED - ENGAGEMENT) * thread.major)


def drilled_depth(thread: Thread, into: float) -> float:
    """Return how deep the drill of that thread goes, the lead of the tap and its point too [mm]."""
    return drill_goes(thread, thread_depth(thread, into))


def _into_seat(deep: float, begins: float, tall: float, units: Units) -> InputError:
    """Where the drill comes out in the seat, the round lies on the rim of a hole."""
    return InputError(
        WHERE,
        f"the tapped holes run into the seat: with its point the drill goes {size(deep, units)} "
        f"deep, and the seat begins at {size(begins, units)}",
        f"make the cheeks {size(round_up(tall, units), units)} tall or more, or use thinner bolts",
    )


def _along(count: int, thread: Thread, length: float, units: Units) -> tuple[float, ...]:
    edge = EDGE * thread.major
    needed = 2 * edge + (count - 1) * SPACING * thread.major
    if length < needed - 1e-6:
        raise InputError(
            WHERE,
            f"{count} bolts {thread.name} in a row find no room along a cheek of "
            f"{size(length, units)}",
            f"take fewer or thinner bolts, or cheeks of {size(round_up(needed, units), units)}",
        )
    if count == 1:
        return (length / 2,)
    return tuple(edge + (length - 2 * edge) * k / (count - 1) for k in range(count))


def cheek_edge(face: PlateDrawing, bolts: CheekBolts) -> PlateDrawing:
    """Return the lower edge of a cheek with its threads, its inner face below.

    Parameters
    ----------
    face
        The cheek as drawn from its side.
    bolts
        As laid out.
    """
    depth = thread_depth(bolts.thread, bolts.reach.length - bolts.reach.grip)
    return PlateDrawing(
        name="cheek, lower edge", piece="cheek", metal=face.metal, width=face.width,
        height=face.thickness, thickness=face.height, quantity=face.quantity,
        holes=tuple(
            tapped_hole(y, x, bolts.thread.name, "cheek", depth=depth, purpose="bolt of the floor")
            for x, y in bolts.places
        ),
        notes=("The inner side of the cheek, with the seat, is the lower edge of this drawing.",),
    )  # fmt: skip


def floor_holes(bolts: CheekBolts, middle: float, opening: float) -> tuple[HoleSpec, ...]:
    """Return the holes of both cheeks' bolts in the floor.

    Parameters
    ----------
    bolts
        Of one cheek.
    middle, opening
        Middle of the floor, and how far apart the inner faces of the cheeks stand [mm].
    """
    seat = (SEAT * bolts.thread.major, bolts.sunk) if bolts.sunk else None
    return tuple(
        HoleSpec(
            x=hole.x, y=hole.y, kind=hole.kind, diameter=hole.diameter, least=hole.least,
            most=hole.most, fit=hole.fit, thread=hole.thread, purpose=hole.purpose,
            counterbore=seat,
        )
        for sign in (-1, 1)
        for x, y in bolts.places
        for hole in (
            bolt_hole(middle + sign * (opening / 2 + x), y, bolts.thread.size, "normal", "floor",
                      purpose="bolt of a cheek"),
        )
    )  # fmt: skip


def bolted_notes(bolts: CheekBolts, opening: float, gap: float, units: Units) -> list[str]:
    """Say how bolted cheeks are put together."""
    count = 2 * len(bolts.places)
    rows = ""
    if len(bolts.across) == 2:
        apart = bolts.across[1] - bolts.across[0]
        rows = f", in two rows {size(apart, units)} apart under each cheek"
    heads = (
        f"The heads lie in seats {size(bolts.sunk, units)} deep in the lower side of the floor."
        if bolts.sunk
        else f"Their heads stand {size(HEAD * bolts.thread.major, units)} below the floor: set it "
        "on strips that are higher, clear of the heads."
    )
    return [
        (
            f"Bolts of the cheeks, from below: {count} of {bolts.thread.name} x "
            f"{size(bolts.reach.length, units)}{rows}. {heads}"
        ),
        (
            f"Bore the seats, then bolt the cheeks down with a block of {size(opening, units)} "
            f"between them, and measure {size(gap, units)} between the rounds."
        ),
    ]
