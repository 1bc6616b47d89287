"""The tooling put together from its pieces: parts list, places, and what is measured between."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from strapwright.making.assembly.assembly_values import Assembly, Item, Part
from strapwright.making.assembly.completing import Completed
from strapwright.making.assembly.fasteners import BoltSet, bolt_sets
from strapwright.making.assembly.keepers import Bought
from strapwright.making.assembly.piece_steels import metal_words
from strapwright.making.assembly.placed_pieces import (
    Heights,
    Placed,
    bought_places,
    heights_of,
    places_of,
    push_plate_solid,
    shaft_places,
)
from strapwright.making.assembly.solid_shapes import drawn_out, rectangle, ring
from strapwright.making.assembly.solid_values import Solid
from strapwright.making.drawn_members.laying_out import BedThere
from strapwright.making.kept.bed_there import bed_drawing
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.quantities import Units
from strapwright.shop.bar import Bar
from strapwright.shop.job import Job
from strapwright.shop.members import UNKNOWN_STEEL
from strapwright.shop.tooling import Tooling

BED_PLATE = "bed plate"
PAST = 1.5  # shoulder radii of bar drawn past the shoulders, numerical


def put_together(
    job: Job,
    tooling: Tooling,
    layout: NoseLayout,
    whole: Completed,
) -> Assembly | None:
    """Put the pieces of a tooling in place; ``None`` where no push plate is laid out.

    Parameters
    ----------
    job
        With bar, press and units.
    tooling
        Of the job.
    layout
        Sizes about the nose.
    whole
        Every piece as made; another face of a piece is no part of its own.
    """
    bar = job.part.bar
    plates, shafts = whole.plates, whole.shafts
    push_plate = next((one for one in plates if one.name == "push plate"), None)
    if push_plate is None:
        return None
    at = heights_of(tooling, layout, plates, shafts, bar.thickness)
    guides = _holes(push_plate, at, "guide rod")
    items: list[Item] = []
    parts: list[Part] = []
    unplaced: list[str] = []

    def add(item: Item, places: Sequence[Placed] | None) -> None:
        items.append(item)
        if places is None:
            unplaced.append(item.name)
        parts.extend(
            Part(item=item.number, solid=one.solid, apart=one.apart) for one in places or ()
        )

    for plate in (*plates, *_bed_plate(job, plates)):
        if not plate.piece and not plate.joint:
            add(_plate_item(len(items) + 1, plate, job.units), places_of(plate, at))
    for shaft in shafts:
        add(_shaft_item(len(items) + 1, shaft, job.units), shaft_places(shaft, at, guides))
    for bought in whole.bought:
        add(_bought_item(len(items) + 1, bought), bought_places(bought, at))
    for bolts in bolt_sets(plates, tooling.members, at, job.units):
        add(_bolt_item(len(items) + 1, bolts), bolts.places)
    ram = None if job.press is None else job.press.rod
    return Assembly(
        items=tuple(items), parts=tuple(parts), unplaced=tuple(unplaced),
        bar=_bar(bar, job.part.at_once, at), ram=ram,
        tops=at.tops, contact=at.nose - layout.shaft / 2,
        plate_low=at.plate, plate_high=at.plate + push_plate.thickness,
        riser=at.under, opening=at.opening, clear=at.opening - 2 * at.radius,
        gap=layout.span if layout.count else None,
        carrier=layout.carrier if layout.count else None, carriers=layout.count,
        ram_holes=_holes(push_plate, at, "bolt of the ram"), guide_holes=guides,
    )  # fmt: skip


def _bed_plate(job: Job, plates: Sequence[PlateDrawing]) -> tuple[PlateDrawing, ...]:
    """The bed plate that stays on the press, where no holes of this tooling have it drawn."""
    kept = None if job.press is None else job.press.bed_plate
    if kept is None or any(one.name == BED_PLATE for one in plates):
        return ()
    drawn = bed_drawing(BedThere(name=BED_PLATE, plate=kept))
    known = "" if kept.material == UNKNOWN_STEEL else kept.material
    return (evolve(drawn, steel=known),)


def _bar(bar: Bar, at_once: int, at: Heights) -> Solid:
    half = at.opening / 2 + PAST * at.radius
    if bar.section == "round":
        return drawn_out(
            ring(bar.thickness / 2), "x", (-half, 0.0, at.tops + bar.thickness / 2), 2 * half
        )
    wide = bar.width * at_once
    return drawn_out(
        rectangle(wide, bar.thickness), "x", (-half, -wide / 2, at.tops), 2 * half
    )  # fmt: skip


def _holes(plate: PlateDrawing, at: Heights, purpose: str) -> tuple[tuple[float, float], ...]:
    """Middles of the holes of the push plate that are for one purpose [mm]."""
    solid = push_plate_solid(plate, at)
    return tuple(solid.at((one.x, one.y), 0.0)[:2] for one in plate.holes if one.purpose == purpose)


def _plate_item(number: int, plate: PlateDrawing, units: Units) -> Item:
    return Item(
        number=number, name=plate.name, kind="plate", count=plate.quantity,
        metal=metal_words(plate, units) + (", existing" if plate.exists else ""),
        sizes=(plate.width, plate.height, plate.thickness),
    )  # fmt: skip


def _bought_item(number: int, bought: Bought) -> Item:
    return Item(
        number=number, name=bought.name, kind="bought", count=1, metal="bought",
        sizes=bought.sizes, thread=bought.thread,
    )  # fmt: skip


def _shaft_item(number: int, shaft: ShaftDrawing, units: Units) -> Item:
    return Item(
        number=number, name=shaft.name, kind="shaft", count=shaft.quantity,
        metal=metal_words(shaft, units) + (", hardened" if shaft.hardened else ""),
        sizes=(shaft.diameter, shaft.length),
    )  # fmt: skip


def _bolt_item(number: int, bolts: BoltSet) -> Item:
    choice = bolts.choice
    return Item(
        number=number, name="bolt", kind="bolt", count=len(bolts.places) // 2,
        metal=f"grade {choice.grade}" + ("" if choice.stated else " or better"),
        sizes=(choice.length,), thread=choice.thread.name, use=choice.use, torque=choice.torque,
    )  # fmt: skip
