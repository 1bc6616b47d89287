"""A plate under the die that stays: the die's base is made to its holes, or it gets new ones."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve

from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError
from strapwright.making.bolt_layout import EDGE, SPACING, USUAL
from strapwright.making.drawn_members.guide_places import GuidePlaces
from strapwright.making.drawn_members.laying_out import BedThere, LaidOut
from strapwright.making.hole_table import tapped_hole
from strapwright.making.kept.patterns import SAME, drawn_hole, evenly, in_room, passing
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.press_bolts import BedBolts, bed_bolts, rows_along, stated_bolt
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.shop.kept_plates import KeptHole
from strapwright.shop.members import Bolt, Members

_WHERE = "tooling.members.bolt (base)"
_HEAD = 1.0  # diameters from a bolt to what its head must clear; common practice, no source
_NEAR = 1.0  # mm between a spacing that is stated and the holes it means; numerical
_LARGER: dict[Units, tuple[str, ...]] = {"inch": ("1/2-13",), "metric": ("M12",)}
_FEW = 2  # bolts of a row that are taken where none are stated


def base_bolts(
    members: Members | None, beside: float, length: float, units: Units, out: LaidOut
) -> BedBolts | None:
    """Return the bolts of the base: by the holes of a bed that is there, else as stated.

    Parameters
    ----------
    members
        As stated, or ``None``.
    beside
        From the middle across the nose out to what stands on the base [mm].
    length
        Of the base along the nose [mm].
    units
        Of the job.
    out
        With the bed that is there; takes its new holes and the bolts chosen.

    Raises
    ------
    InputError
        Where bolts that are stated find no place in base or bed.
    """
    if out.bed is None:
        return bed_bolts(members, beside, units)
    stated = stated_bolt(members, "base")
    found = _followed(out.bed, stated, beside, length, units)
    if found is not None:
        if stated is None:
            out.bolts.append(found.bolt)
        return found
    if stated is None:
        return None
    wanted = bed_bolts(members, beside, units)
    if wanted is not None:
        try:
            out.extra_plates.append(_drilled(out.bed, wanted, length, units))
        except InputError as error:
            there = _followed(out.bed, evolve(stated, spacing=None), beside, length, units)
            if there is None:
                raise
            rows = f"enter a spacing of {size(2 * there.out, units)}, where holes are"
            raise InputError(_WHERE, error.marked[0], rows) from None
    return None if wanted is None else evolve(wanted, tapped_in=True)


def _followed(
    bed: BedThere, stated: Bolt | None, beside: float, length: float, units: Units
) -> BedBolts | None:
    """Return bolts in two rows of holes that are there, or ``None`` where no rows do."""
    free = [one for one in bed.plate.holes if one.use == "tooling"]
    outs: list[float] = []
    for hole in sorted(free, key=lambda one: one.across):
        if hole.across > SAME and not any(abs(hole.across - one) <= SAME for one in outs):
            outs.append(hole.across)
    for out in outs:
        for thread in _threads(bed, stated, free, out, units):
            near = out >= beside + _HEAD * thread.major - 1e-6
            meant = stated is None or stated.spacing is None
            if not near or not (meant or abs(out - stated.spacing / 2) <= _NEAR):  # type: ignore[union-attr,operator]
                continue
            half = length / 2 - EDGE * thread.major
            alongs = sorted(
                one.along
                for one in free
                if abs(one.across - out) <= SAME
                and abs(one.along) <= half + 1e-6
                and _takes(one, thread, bed.name)
                and any(
                    abs(other.across + out) <= SAME
                    and abs(other.along - one.along) <= SAME
                    and _takes(other, thread, bed.name)
                    for other in free
                )
            )
            count = min(len(alongs), _FEW) if stated is None else stated.count // 2
            row = evenly(alongs, count, SPACING * thread.major) if count else None
            if row is not None:
                tapped = any(one.thread for one in free if abs(one.across - out) <= SAME)
                bolt = stated or Bolt(holds="base", size=thread.name, count=2 * count)
                return BedBolts(bolt=bolt, thread=thread, out=out, alongs=row, tapped_in=tapped)
    return None


def _threads(
    bed: BedThere, stated: Bolt | None, free: list[KeptHole], out: float, units: Units
) -> Iterator[Thread]:
    """Threads of the bolts that holes may be for: as stated, as tapped, or the largest to pass."""
    if stated is not None:
        yield find_thread(stated.size, _WHERE)
        return
    tapped = next((one.thread for one in free if abs(one.across - out) <= SAME and one.thread), "")
    if tapped:
        yield find_thread(tapped, bed.name)
        return
    for name in (*_LARGER[units], *USUAL[units]):
        yield find_thread(name, bed.name)


def _takes(hole: KeptHole, thread: Thread, where: str) -> bool:
    if hole.thread:
        return hole.thread == thread.name
    passed = passing(drawn_hole(hole, 0.0, 0.0, where, exists=True, press_bolt=""), thread, where)
    return passed is not None and not passed.bush


def _drilled(bed: BedThere, bolts: BedBolts, length: float, units: Units) -> PlateDrawing:
    """Return the bed with new threads for the bolts of the base."""
    plate = bed_drawing(bed)
    new = tuple(
        tapped_hole(
            plate.width / 2 + sign * bolts.out, plate.height / 2 - length / 2 + y,
            bolts.thread.name, bed.name, purpose="bolt of the die",
        )
        for sign in (-1, 1)
        for y in rows_along(bolts, length)
    )  # fmt: skip
    in_room(plate, new, plate.holes, _WHERE, units)
    return evolve(
        plate,
        holes=(*plate.holes, *new),
        notes=(
            *((f"The {bed.name} exists: thin broken circles are holes that are there.",)
              if plate.exists else ()),
            "Its upper face, seen from above; the ram's axis is in its middle.",
        ),
    )  # fmt: skip


def bed_drawing(bed: BedThere) -> PlateDrawing:
    """Return the bed with the holes it has; x runs along the bar, as that of the base on it.

    Parameters
    ----------
    bed
        As stated.
    """
    kept = bed.plate
    holes: list[HoleSpec] = [
        drawn_hole(
            one, one.across + kept.width / 2, one.along + kept.length / 2, bed.name,
            exists=kept.exists, press_bolt="bolt of the press",
        )
        for one in kept.holes
    ]  # fmt: skip
    return PlateDrawing(
        name=bed.name, metal=metal_of(kept.material, MILD), width=kept.width,
        height=kept.length, thickness=kept.thickness, holes=tuple(holes), exists=kept.exists,
    )  # fmt: skip


def check_bed_bores(bed: BedThere | None, rods: GuidePlaces, units: Units) -> bool:
    """See that guide rods meet the bores that a bed has for them.

    Parameters
    ----------
    bed
        That is there, or ``None``.
    rods
        Of the tooling.
    units
        In which sizes are told.

    Raises
    ------
    InputError
        Where its bores are elsewhere, or smaller than the rods.
    """
    bores = [] if bed is None else [one for one in bed.plate.holes if one.use == "guide rods"]
    if bed is None or not bores:
        return True
    near = [one for one in bores
            if abs(abs(one.along) - rods.out) <= _NEAR and abs(one.across) <= _NEAR]  # fmt: skip
    if len(near) < 2:
        apart = 2 * min(abs(one.along) for one in bores)
        raise InputError(
            "tooling.members.guides.spacing",
            f"guide rods {size(2 * rods.out, units)} apart do not meet the bores of the {bed.name} "
            f"that stays, which are {size(apart, units)} apart",
            f"set them {size(apart, units)} apart",
        )
    bore = min(one.diameter for one in near)
    if bore < rods.diameter - 1e-3:
        raise InputError(
            "tooling.members.guides.diameter",
            f"rods of {size(rods.diameter, units)} do not go into the bores of "
            f"{size(bore, units)} in the {bed.name} that stays",
            f"bore them out, or use rods of {size(bore, units)}",
        )
    return True
