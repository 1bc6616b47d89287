"""A push plate that stays: which of its holes a new tooling takes, and which are drilled for it."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from functools import lru_cache

from attrs import evolve

from strapwright.errors import InputError
from strapwright.making.bolt_layout import (
    EDGE,
    SPACING,
    USUAL,
    Bolting,
    bolt_places,
    bolt_row,
    bolting,
)
from strapwright.making.hole_table import bolt_hole
from strapwright.making.kept.patterns import (
    PUSH_PLATE,
    Seat,
    columns,
    drawn_hole,
    evenly,
    in_room,
    passing,
    used,
)
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.members import Members

_CARRIERS = "tooling.members.carriers"
# Bolts tried on holes that are there, beside the usual ones; what a drawer holds, no source.
_LARGER: dict[Units, tuple[str, ...]] = {"inch": ("1/2-13",), "metric": ("M12",)}
_INSETS = 32  # places tried for a row of new holes, each a 64th of the width further in


def plate_there(kept: KeptPlate) -> PlateDrawing:
    """Return a push plate that stays with the holes that it has.

    Parameters
    ----------
    kept
        As stated.
    """
    holes = tuple(
        drawn_hole(
            one, one.along + kept.length / 2, one.across + kept.width / 2, PUSH_PLATE,
            exists=kept.exists, press_bolt="bolt of the ram",
        )
        for one in kept.holes
    )  # fmt: skip
    return PlateDrawing(
        name=PUSH_PLATE, metal=metal_of(kept.material, MILD), width=kept.length,
        height=kept.width, thickness=kept.thickness, holes=holes, exists=kept.exists,
    )  # fmt: skip


@lru_cache(maxsize=256)
def followed_span(kept: KeptPlate, carrier: float, least: float) -> float | None:
    """Return the gap between carriers whose middles are over holes of the plate [mm].

    Parameters
    ----------
    kept
        The plate that stays.
    carrier
        Thickness of a carrier [mm].
    least
        Gap that the bars need [mm].

    Returns
    -------
    float or None
        The narrowest that is wide enough; ``None`` where no holes stand so.
    """
    free = [hole for hole in plate_there(kept).holes if _free(hole)]
    apart = sorted(
        2 * x - kept.length
        for x, there in columns(free).items()
        if x > kept.length / 2 and len(there) > 1
    )
    return next((x - carrier for x in apart if x - carrier >= least - 1e-6), None)


def _free(hole: HoleSpec) -> bool:
    """Whether a hole takes a bolt of the tooling: one for it, or drilled for another die."""
    return hole.kind in {"plain", "clearance", "fit"} and hole.purpose in {"", "carrier bolt"}


def kept_bolting(
    plate: PlateDrawing,
    members: Members | None,
    seat: Seat,
    *,
    tapped: float,
    solid: float,
    units: Units,
) -> Bolting:
    """Return the bolts of the carriers, in holes that are there, or where new ones find room.

    Parameters
    ----------
    plate
        With the holes that are there.
    members
        As stated, or ``None``.
    seat
        Where the carriers stand.
    tapped, solid
        How deep a thread in a carrier can be, and how deep its drill can go [mm].
    units
        Of the job.

    Raises
    ------
    InputError
        Where the carriers do not stand on the plate, or no row of bolts finds room.
    """
    _stands(plate, seat, units)

    def tried(*names: str) -> Bolting:
        return bolting(
            members, "carriers", clamped=plate.thickness, tapped=tapped, solid=solid,
            along=seat.width, edge=seat.thickness, two_rows=False, units=units, names=names,
        )  # fmt: skip

    chosen: Bolting | None = None
    for name in (*_LARGER[units], *USUAL[units]):
        try:
            bolts = tried(name)
        except InputError:
            continue
        followed = _followed(plate, seat, bolts)
        if followed is not None:
            return followed
        # A thinner bolt than fits the carriers is no gain, though holes are there for it.
        if bolts.stated or name in USUAL[units]:
            chosen = bolts
            break
    # Where none finds room in the carriers, trying the usual ones says so.
    return tried() if chosen is None else _drilled(plate, seat, chosen, units)


def _stands(plate: PlateDrawing, seat: Seat, units: Units) -> None:
    reach = 2 * seat.off + seat.thickness if seat.count else 0.0
    for needs, has, way in (
        (reach, plate.width, "along the nose"), (seat.width, plate.height, "across the nose"),
    ):  # fmt: skip
        if needs > has + 1e-6:
            raise InputError(
                _CARRIERS,
                f"the carriers reach {size(needs, units)} {way}, and the push plate that stays is "
                f"{size(has, units)}",
                "use a narrower span or carriers, or a push plate of its own",
            )


def _followed(plate: PlateDrawing, seat: Seat, bolts: Bolting) -> Bolting | None:
    """Return bolts in rows of holes that are there, or ``None`` where none pass so.

    A thread may stand off the middle of its carrier's edge as long as a diameter of metal is left
    beside its middle, as much as the thickest bolt of an edge has.
    """
    if len(bolts.across) > 1:
        return None  # two rows in one carrier are their own pattern
    thread, middle = bolts.thread, plate.width / 2
    slack = seat.thickness / 2 - thread.major
    low = (plate.height - seat.width) / 2
    by_x = columns(one for one in plate.holes if _free(one))
    for x, there in sorted(by_x.items(), key=lambda one: abs(abs(one[0] - middle) - seat.off)):
        off = abs(x - middle) - seat.off
        if x < middle or abs(off) > max(slack, 0.0) + 1e-6:
            continue
        sides = [_at(by_x, middle + sign * (x - middle)) for sign in seat.signs]
        places: list[float] = []
        bush = 0.0
        for hole in there:
            pair = [next((one for one in side if abs(one.y - hole.y) < 0.3), None)
                    for side in sides]  # fmt: skip
            ways = [None if one is None else passing(one, thread, PUSH_PLATE) for one in pair]
            inside = low + EDGE * thread.major <= hole.y + 1e-6
            inside = inside and hole.y <= low + seat.width - EDGE * thread.major + 1e-6
            if inside and all(ways):
                places.append(hole.y - low)
                bush = max(bush, *(0.0 if one is None else one.bush for one in ways))
        row = evenly(places, bolts.count, SPACING * thread.major)
        # Off the middle both carriers are alike only if one turned round is the other.
        turned = row is not None and all(
            abs(a + b - seat.width) < 0.3 for a, b in zip(row, reversed(row), strict=True)
        )
        if row is not None and (abs(off) < 0.3 or turned):
            off = 0.0 if abs(off) < 1e-6 else off
            return evolve(bolts, places=row, off=off, bush=bush)
    return None


def _at(by_x: dict[float, list[HoleSpec]], x: float) -> list[HoleSpec]:
    return next((holes for known, holes in by_x.items() if abs(known - x) < 0.3), [])


def _drilled(plate: PlateDrawing, seat: Seat, bolts: Bolting, units: Units) -> Bolting:
    """Return bolts in a row of new holes: near the carriers' ends, or the first place with room.

    Raises
    ------
    InputError
        Where no row finds room; it tells of the first.
    """
    first: InputError | None = None
    ends = bolt_row(seat.width, bolts)
    step = seat.width / 64
    for k in range(_INSETS):
        inset = min(k * step, max((ends[-1] - ends[0]) / 2, 0.0))
        squeeze = 1 - 2 * inset / (ends[-1] - ends[0]) if len(ends) > 1 else 1.0
        places = tuple(seat.width / 2 + squeeze * (y - seat.width / 2) for y in ends)
        near = min((b - a for a, b in itertools.pairwise(places)), default=1e9)
        if near < SPACING * bolts.thread.major - 1e-6:
            break
        tried = evolve(bolts, places=places)
        try:
            in_room(plate, tuple(_bolt_holes(plate, seat, tried)), plate.holes, _CARRIERS, units)
        except InputError as error:
            first = first or error
        else:
            return tried
    raise first or InputError(_CARRIERS, "no bolts find room", "use fewer or thinner bolts")


def _bolt_holes(plate: PlateDrawing, seat: Seat, bolts: Bolting) -> Iterator[HoleSpec]:
    low = (plate.height - seat.width) / 2
    for sign in seat.signs:
        for y, across in bolt_places(seat.width, bolts):
            x = plate.width / 2 + sign * (seat.off + across - seat.thickness / 2)
            yield bolt_hole(
                x, low + y, bolts.thread.size, "normal", PUSH_PLATE, purpose="carrier bolt"
            )


def with_bolts(plate: PlateDrawing, seat: Seat, bolts: Bolting) -> PlateDrawing:
    """Return the plate with the holes of the carriers' bolts, taken or new.

    Parameters
    ----------
    plate
        As it is.
    seat
        Where the carriers stand.
    bolts
        From :func:`kept_bolting`.
    """
    holes = list(plate.holes)
    for new in _bolt_holes(plate, seat, bolts):
        place = next(
            (k for k, one in enumerate(holes)
             if _free(one) and abs(one.x - new.x) < 0.3 and abs(one.y - new.y) < 0.3), None
        )  # fmt: skip
        if place is None:
            holes.append(new)
        else:
            holes[place] = used(holes[place], bolts.thread, PUSH_PLATE, "carrier bolt")
    return evolve(plate, holes=tuple(holes))
