"""Pieces completed for the bench: steels, scribe lines, keepers, bolts beside their holes."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve, frozen

from strapwright.making.assembly.fasteners import bolt_choices
from strapwright.making.assembly.keepers import BY_HAND, Bought, Kept
from strapwright.making.assembly.piece_steels import plate_with_steel, shaft_with_steel
from strapwright.making.assembly.weld_steps import welding
from strapwright.making.assembly.weld_values import Welding
from strapwright.making.bolt_torque import torque_words
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.shop_lengths import place, size
from strapwright.quantities import Units
from strapwright.shop.tooling import Tooling

_Lines = tuple[tuple[tuple[float, float], tuple[float, float]], ...]


@frozen(kw_only=True)
class Completed:
    """Everything to make for a tooling, and what is bought to keep its nose.

    Attributes
    ----------
    plates, shafts, bought
        In the order of making.
    welding
        How what is welded is welded, in order.
    notes
        What is to be seen to.
    """

    plates: tuple[PlateDrawing, ...]
    shafts: tuple[ShaftDrawing, ...]
    bought: tuple[Bought, ...] = ()
    welding: tuple[Welding, ...] = ()
    notes: tuple[str, ...] = ()


def completed(
    tooling: Tooling,
    layout: NoseLayout,
    kept: Kept,
    units: Units,
) -> Completed:
    """Complete the pieces of a tooling for the bench.

    Parameters
    ----------
    tooling
        With its members.
    layout
        Sizes about the nose.
    kept
        The pieces as laid out, with what keeps nose and rounds.
    units
        Of the job.
    """
    members = tooling.members
    return Completed(
        plates=tuple(
            plate_with_steel(
                evolve(one, notes=(*one.notes, *_bolt_notes(one, tooling, units))), members
            )
            for one in (_scribed(plate, tooling, layout, units) for plate in kept.plates)
        ),
        shafts=tuple(shaft_with_steel(one, members) for one in kept.shafts),
        bought=kept.bought,
        welding=welding(tooling, layout, units),
        notes=kept.notes,
    )


def _scribed(
    plate: PlateDrawing, tooling: Tooling, layout: NoseLayout, units: Units
) -> PlateDrawing:
    """Return the push plate with lines where carriers and web stand on it."""
    if plate.name != "push plate":
        return plate
    boxes: list[tuple[str, tuple[float, float, float, float]]] = []
    middle, across = plate.width / 2, plate.height / 2
    if layout.count:
        half, low = layout.span / 2, across - layout.width / 2
        left = (middle - half - layout.carrier, low, middle - half, low + layout.width)
        right = (middle + half, low, middle + half + layout.carrier, low + layout.width)
        boxes += [("carrier", box) for box in (left, right)[2 - layout.count :]]
    web = tooling.nose.web_thickness
    if web is not None:
        half = layout.span / 2
        boxes.append(("web", (middle - half, across - web / 2, middle + half, across + web / 2)))
    lines = tuple(line for _, box in boxes for line in _frame(box))
    words = "; ".join(
        f"{name} X {place(x0, units)} to {place(x1, units)}, "
        f"Y {place(y0, units)} to {place(y1, units)}"
        for name, (x0, y0, x1, y1) in boxes
    )
    notes = ["This is its lower face, seen from below: carriers and web stand on it."]
    if words:
        notes.append(f"Scribe where they stand: {words}, from the lower left corner.")
    return evolve(plate, marks=(*plate.marks, *lines), notes=(*plate.notes, *notes))


def _frame(box: tuple[float, float, float, float]) -> _Lines:
    x0, y0, x1, y1 = box
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return tuple(zip(corners, (*corners[1:], corners[0]), strict=True))


def _bolt_notes(plate: PlateDrawing, tooling: Tooling, units: Units) -> Iterator[str]:
    """Which bolts go through a plate, and how tight they are."""
    for bolts in bolt_choices(plate, tooling.members, units):
        dry, oiled = (torque_words(one, units) for one in bolts.torque)
        grade = f"grade {bolts.grade}" + ("" if bolts.stated else " or better")
        if bolts.use in BY_HAND:
            yield (
                f"Screws {bolts.thread.name} x {size(bolts.length, units)}: tighten them by hand "
                "and secure them with thread lock."
            )
            continue
        yield (
            f"Bolts of the {bolts.use}, {len(bolts.holes) * plate.quantity} of "
            f"{bolts.thread.name} x {size(bolts.length, units)}, {grade}: tighten to {dry} dry or "
            f"{oiled} with oiled threads, 75 % of proof."
        )
