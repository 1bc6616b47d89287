"""Holes: made from what a person says, held to their plate, listed from one datum corner."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.catalog.clearance import CLEARANCE_FITS, GRADES, ClearanceFit, clearance_hole
from strapwright.catalog.iso286_limits import grade_width, limits
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.making.plate_values import HoleRow, HoleSpec, PlateDrawing
from strapwright.making.shop_lengths import either_size

# Wall between a hole and an edge or another hole, in parts of its diameter, under which a warning
# stands, for what it carries is checked elsewhere; and the least at all [mm].  Common practice, no
# source.
LEAST_WALL = 0.5
LEAST_WALL_MM = 1.5
TIP = 5.08  # mm, the usual 0.200 in tip of an edge finder
# A drilled hole is held to this ISO 286 grade above its size, as ISO 273 holds medium holes.
DRILLED = 13


@frozen(kw_only=True)
class ThinWall:
    """A hole with a thin wall beside it.

    Attributes
    ----------
    hole
        Which.
    wall, least
        What is left, and what no one is warned of [mm].
    """

    hole: HoleSpec
    wall: float
    least: float


def plain_hole(
    x: float,
    y: float,
    diameter: float,
    where: str,
    *,
    depth: float | None = None,
    purpose: str = "",
) -> HoleSpec:
    """Return a drilled hole; ``x``, ``y``, ``diameter`` and ``depth`` in mm.

    Raises
    ------
    InputError
        Where the diameter is outside the table of limits.
    """
    width = grade_width(diameter, DRILLED, where)
    return HoleSpec(
        x=x, y=y, kind="plain", diameter=diameter, least=diameter, most=diameter + width,
        depth=depth, purpose=purpose,
    )  # fmt: skip


def fit_hole(
    x: float,
    y: float,
    diameter: float,
    fit: str,
    where: str,
    *,
    depth: float | None = None,
    purpose: str = "",
) -> HoleSpec:
    """Return a hole of an ISO 286 class; lengths in mm.

    Raises
    ------
    InputError
        Where the class is no hole of the tables.
    """
    found = limits(diameter, fit, where)
    if not found.name[0].isupper():
        raise InputError(
            where,
            "this is the class of a shaft",
            "give a hole its class in capitals, for example H7",
            value=fit,
        )
    return HoleSpec(
        x=x, y=y, kind="fit", diameter=diameter, least=found.least, most=found.most,
        fit=found.name, depth=depth, purpose=purpose,
    )  # fmt: skip


def bolt_hole(
    x: float,
    y: float,
    size: str,
    fit: ClearanceFit,
    where: str,
    *,
    depth: float | None = None,
    purpose: str = "",
) -> HoleSpec:
    """Return the clearance hole of a bolt; lengths in mm.

    Raises
    ------
    InputError
        Where the tables have no such bolt.
    """
    hole = clearance_hole(size, fit, where)
    width = grade_width(hole.diameter, GRADES[fit], where)
    return HoleSpec(
        x=x, y=y, kind="clearance", diameter=hole.diameter, least=hole.diameter,
        most=hole.diameter + width, fit=fit, thread=hole.size, depth=depth, purpose=purpose,
    )  # fmt: skip


def tapped_hole(
    x: float, y: float, thread: str, where: str, *, depth: float | None = None, purpose: str = ""
) -> HoleSpec:
    """Return a tapped hole; ``depth`` of full thread, lengths in mm.

    Raises
    ------
    InputError
        Where the tables have no such thread.
    """
    found = find_thread(thread, where)
    return HoleSpec(
        x=x, y=y, kind="tapped", diameter=found.major, least=found.major, most=found.major,
        thread=found.name, depth=depth, purpose=purpose,
    )  # fmt: skip


def checked(plate: PlateDrawing, where: str) -> PlateDrawing:
    """Return the plate, or refuse it where a hole cannot be where it is.

    Parameters
    ----------
    plate
        With its holes.
    where
        Key path of the plate, for the message.

    Raises
    ------
    InputError
        Where a hole is larger than the plate, leaves no wall of 1.5 mm to an edge or another hole,
        or is deeper than the plate is thick.
    """
    for number, hole in enumerate(plate.holes, start=1):
        if hole.exists:
            continue
        place = f"{where}.hole[{number}]"
        if hole.diameter >= min(plate.width, plate.height):
            raise InputError(
                place,
                f"the hole of {either_size(hole.diameter)} is larger than its plate of "
                f"{either_size(plate.width)} x {either_size(plate.height)}",
                "make the plate larger or the hole smaller",
            )
        wall = to_edge(hole, plate)
        # Half of a bore on a joint is a seat, which may run level with an edge.
        if wall < (0.0 if plate.joint else LEAST_WALL_MM) - 1e-6:
            side = "outside the plate" if wall < 0 else f"{either_size(wall)} from it"
            raise InputError(
                place,
                f"the hole comes too near an edge: its rim is {side}",
                f"leave at least {either_size(least_wall(hole.diameter))}, half a diameter",
            )
        if hole.depth is not None and hole.depth >= plate.thickness:
            raise InputError(
                place,
                f"the hole is {either_size(hole.depth)} deep in a plate of "
                f"{either_size(plate.thickness)}",
                "leave its depth out to go through, or make it shallower",
            )
        if hole.counterbore is not None:
            _check_seat(hole, hole.counterbore, plate, place)
    for (first, one), (second, other) in itertools.combinations(enumerate(plate.holes, start=1), 2):
        both_there = one.exists and other.exists
        if not both_there and _between(one, other) < LEAST_WALL_MM - 1e-6:
            least = min(map(least_wall, (one.diameter, other.diameter)))
            raise InputError(
                f"{where}.hole[{second}]",
                f"the hole comes too near hole[{first}]",
                f"leave at least {either_size(least)} between them, half a diameter",
            )
    return plate


def _check_seat(hole: HoleSpec, seat: tuple[float, float], plate: PlateDrawing, place: str) -> None:
    wide, deep = seat
    wall = min(hole.x, plate.width - hole.x, hole.y, plate.height - hole.y) - wide / 2
    if wall < LEAST_WALL_MM - 1e-6:
        raise InputError(
            f"{place}.seat",
            "the seat comes too near an edge",
            f"leave at least {either_size(LEAST_WALL_MM)} beside it, or make it smaller",
        )
    if deep >= plate.thickness:
        raise InputError(
            f"{place}.seat",
            f"the seat is {either_size(deep)} deep in a plate of {either_size(plate.thickness)}",
            "make it shallower",
        )


def least_wall(diameter: float) -> float:
    """Return the least wall beside a hole [mm] that no one is warned of; ``diameter`` [mm]."""
    return max(LEAST_WALL * diameter, LEAST_WALL_MM)


def thin_walls(plate: PlateDrawing) -> tuple[ThinWall, ...]:
    """Return the holes with less metal beside them than half their diameter, the thinnest of each.

    Parameters
    ----------
    plate
        With holes that can be where they are, see :func:`checked`.

    Returns
    -------
    tuple of ThinWall
        Of holes alike the one with the thinnest wall.
    """
    if plate.joint:
        return ()
    found: dict[tuple[object, ...], ThinWall] = {}
    for hole in plate.holes:
        if hole.exists:
            continue
        beside = [_between(hole, other) for other in plate.holes if other is not hole]
        wall = min([to_edge(hole, plate), *beside])
        known = found.get(alike(hole))
        if wall < least_wall(hole.diameter) - 1e-6 and (known is None or wall < known.wall):
            found[alike(hole)] = ThinWall(hole=hole, wall=wall, least=least_wall(hole.diameter))
    return tuple(found.values())


def to_edge(hole: HoleSpec, plate: PlateDrawing) -> float:
    """Return what lies between the rim of a hole and the nearest edge [mm], negative past it."""
    return min(hole.x, plate.width - hole.x, hole.y, plate.height - hole.y) - hole.diameter / 2


def _between(one: HoleSpec, other: HoleSpec) -> float:
    """From rim to rim [mm]."""
    return math.hypot(one.x - other.x, one.y - other.y) - (one.diameter + other.diameter) / 2


def hole_table(plate: PlateDrawing, *, tip: float = TIP) -> tuple[HoleRow, ...]:
    """List the holes of a plate from its datum corner.

    Parameters
    ----------
    plate
        With its holes and datum corner.
    tip
        Diameter of the edge finder's tip [mm].

    Returns
    -------
    tuple of HoleRow
        A letter for each kind of hole, numbered along x, then y; alike holes stand together so that
        a cutter is put in once.  Holes that are there already are not in it.

    Notes
    -----
    An edge finder touches with the spindle half its tip outside the edge: from a dial set to zero
    there, a hole at x lies at x plus half the tip.
    """
    from_right = plate.corner.endswith("right")
    from_top = plate.corner.startswith("upper")
    groups: dict[tuple[object, ...], list[HoleSpec]] = {}
    for hole in plate.holes:
        if hole.exists:
            continue
        groups.setdefault(alike(hole), []).append(hole)
    rows = []
    for letter, holes in zip(_letters(), groups.values(), strict=False):
        placed = sorted(
            (
                plate.width - one.x if from_right else one.x,
                plate.height - one.y if from_top else one.y,
                index,
            )
            for index, one in enumerate(holes)
        )
        rows += [
            HoleRow(
                label=f"{letter}{number}",
                x=x,
                y=y,
                touch_x=x + tip / 2,
                touch_y=y + tip / 2,
                hole=holes[index],
            )
            for number, (x, y, index) in enumerate(placed, start=1)
        ]
    return tuple(rows)


def alike(hole: HoleSpec) -> tuple[object, ...]:
    """Return what holes share that are made with the same cutters."""
    return (
        hole.kind, hole.diameter, hole.fit, hole.thread, hole.depth, hole.counterbore,
    )  # fmt: skip


def clearance_fit(word: str, where: str) -> ClearanceFit:
    """Return a class of clearance by its word.

    Raises
    ------
    InputError
        Where it is none.
    """
    for fit in CLEARANCE_FITS:
        if fit == word:
            return fit
    raise InputError(where, "this is no clearance fit", "write close, normal or loose", value=word)


def _letters() -> Iterator[str]:
    letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # neither I nor O, which read as digits
    for count in itertools.count():
        for letter in letters:
            yield letter + (str(count) + "-" if count else "")
