"""The bolts of a tooling as its plates have holes for them: where, which, how long, how tight."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from attrs import frozen

from strapwright.catalog.bolts import find_grade, lowest_grade, tightening
from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.making.assembly.keepers import PLATE, PLATE_SCREW, ROUND_SCREW
from strapwright.making.assembly.placed_pieces import (
    BASES,
    Heights,
    Placed,
    base_solid,
    cheek_faces,
    keeper_plates,
    push_plate_solid,
    side_plate_solid,
)
from strapwright.making.assembly.solid_shapes import ring
from strapwright.making.assembly.solid_values import Point3, Solid
from strapwright.making.bolt_layout import ENGAGEMENT
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.press_bolts import stated_bolt
from strapwright.making.shop_lengths import round_up
from strapwright.quantities import Units
from strapwright.shop.members import Members

# Purpose of a clearance hole -> what its bolt holds, as the members name it; in a side plate the
# bolt of a cheek holds the side plate.
HOLDS: Mapping[str, str] = MappingProxyType(
    {
        "carrier bolt": "carriers",
        "web bolt": "web",
        "shoulder bolt": "shoulders",
        "bolt of a cheek": "cheeks",
        "bolt of the ram": "push plate",
        "bolt of the bed": "base",
        PLATE_SCREW: PLATE,
        ROUND_SCREW: "shoulder round",
    }
)
_SIDE = "side plate"
# Heads in diameters, across the corners and high: hexagon heads about ISO 4014, for the picture.
_ACROSS, _HIGH = 1.7, 0.65  # numerical
_FROM_BELOW = ("push plate", "shoulders", "cheeks")  # their heads are low


@frozen(kw_only=True)
class BoltChoice:
    """Bolts alike through one plate.

    Attributes
    ----------
    use
        What they fasten.
    thread
        Of each.
    length
        Under the head [mm].
    grade
        As stamped on the head.
    stated
        Whether the job states the grade; else it is the lowest.
    torque
        For 75 % of proof, dry and with oiled threads [N mm].
    holes
        Of the plate, that they go through.
    """

    use: str
    thread: Thread
    length: float
    grade: str
    stated: bool
    torque: tuple[float, float]
    holes: tuple[HoleSpec, ...]


@frozen(kw_only=True)
class BoltSet:
    """Bolts alike in place: which they are, and head and shank of each as solids."""

    choice: BoltChoice
    places: tuple[Placed, ...]


def bolt_sets(
    plates: Sequence[PlateDrawing], members: Members | None, at: Heights, units: Units
) -> tuple[BoltSet, ...]:
    """Return the bolts that the clearance holes of some plates are for, in place.

    Parameters
    ----------
    plates
        As made.
    members
        That state some of the bolts, or ``None``.
    at
        Where the plates are.
    units
        Of the job, for lengths that are chosen.
    """
    return tuple(
        BoltSet(choice=one, places=tuple(_places(plate, one, at)))
        for plate in plates
        for one in bolt_choices(plate, members, units)
    )


def bolt_choices(
    plate: PlateDrawing, members: Members | None, units: Units
) -> tuple[BoltChoice, ...]:
    """Return which bolts the clearance holes of a plate are for.

    Parameters
    ----------
    plate
        As made.
    members
        That state some of the bolts, or ``None``.
    units
        Of the job, for lengths that are chosen.
    """
    found = []
    for use, holes in _by_use(plate).items():
        bolt = stated_bolt(members, use)
        thread = (
            _coarse(holes[0].thread, plate.name)
            if bolt is None
            else find_thread(bolt.size, plate.name)
        )
        length = None if bolt is None else bolt.length
        if length is None:
            length = round_up(_passes(plate, holes[0]) + ENGAGEMENT * thread.major, units)
        name = (None if bolt is None else bolt.grade) or lowest_grade(thread)
        grade = find_grade(name, thread, "tooling.members.bolt.grade")
        found.append(
            BoltChoice(
                use=use, thread=thread, length=length, grade=name,
                stated=bolt is not None and bolt.grade is not None,
                torque=(tightening(thread, grade, "dry"), tightening(thread, grade, "oiled")),
                holes=tuple(holes),
            )
        )  # fmt: skip
    return tuple(found)


def _passes(plate: PlateDrawing, hole: HoleSpec) -> float:
    """How much of a plate a bolt passes: less behind a seat, and behind that of a round [mm]."""
    if hole.purpose == ROUND_SCREW:
        return plate.thickness - (plate.height - hole.y)
    return plate.thickness - (hole.counterbore or (0.0, 0.0))[1]


def _coarse(size: str, where: str) -> Thread:
    """Return the coarse thread of a bolt's size, which a clearance hole is named by."""
    return find_thread(size if size.startswith("M") else f"{size} UNC", where)


def _by_use(plate: PlateDrawing) -> dict[str, list[HoleSpec]]:
    groups: dict[str, list[HoleSpec]] = {}
    for hole in plate.holes:
        if hole.kind == "clearance" and hole.purpose in HOLDS:
            use = "side plates" if plate.name == _SIDE else HOLDS[hole.purpose]
            groups.setdefault(use, []).append(hole)
    return groups


def _places(plate: PlateDrawing, bolts: BoltChoice, at: Heights) -> Iterator[Placed]:
    """Each bolt as its head and its shank, in one solid each."""
    for solid, turned, apart in _plates_of(plate, bolts.use, at):
        for hole in bolts.holes:
            yield from _bolt(solid, hole, bolts, upward=turned, apart=apart)


def _plates_of(plate: PlateDrawing, use: str, at: Heights) -> Iterator[tuple[Solid, bool, Point3]]:
    """Each alike plate in place, whether heads are on its far face, and where bolts move."""
    step, low = at.step, use in _FROM_BELOW
    if plate.name == "push plate":
        # Its first face, from which its depth runs, is the upper one.
        yield push_plate_solid(plate, at), low, (0.0, 0.0, (1.6 if low else 2.7) * step)
    elif plate.name == _SIDE:
        for side in (-1, 1):
            # Its depth runs towards smaller y.
            yield side_plate_solid(plate, at, side), side < 0, (0.0, side * 1.3 * step, 0.0)
    elif plate.name == PLATE:
        for solid, side in keeper_plates(plate, at):
            yield solid, side < 0, (0.0, side * 0.9 * step, step)
    elif plate.name == "cheek":
        for solid, side in cheek_faces(plate, at):
            yield solid, side > 0, (side * 0.7 * step, 0.0, 0.0)
    elif plate.name in BASES:
        yield base_solid(plate, at), not low, (0.0, 0.0, (-0.9 if low else 0.6) * step)


def _bolt(
    plate: Solid, hole: HoleSpec, bolts: BoltChoice, *, upward: bool, apart: Point3
) -> Iterator[Placed]:
    """Head and shank of a bolt whose head is on the plate's first face, or on its far one."""
    major, length = bolts.thread.major, bolts.length
    sunk = 0.0 if hole.counterbore is None else hole.counterbore[1]
    if upward:  # head on the far face of the plate's depth
        head, shank = (plate.depth - sunk, _HIGH * major), (plate.depth - sunk - length, length)
    else:
        head, shank = (sunk - _HIGH * major, _HIGH * major), (sunk, length)
    for outline, (deep, long_) in (
        (ring(_ACROSS * major / 2, sides=6), head),
        (ring(major / 2, sides=18), shank),
    ):
        solid = Solid(
            outline=outline, origin=plate.at((hole.x, hole.y), deep), u=plate.u, v=plate.v,
            depth=long_,
        )  # fmt: skip
        yield Placed(solid=solid, apart=apart)
