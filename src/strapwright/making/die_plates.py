"""The shoulder side as pieces to make: shoulder blocks or rounds, and the base they stand on."""

from __future__ import annotations

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError
from strapwright.making.bolt_layout import TAPPED, Bolting, bolt_row, bolt_words, bolting
from strapwright.making.hole_table import bolt_hole, tapped_hole
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import HoleSpec, PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import bed_bolts, bed_holes
from strapwright.making.shop_lengths import round_down, round_up, size
from strapwright.quantities import Units
from strapwright.shop.tooling import Tooling

CLEAR = 3.0  # mm between the end of a shoulder and a carrier; common practice, no source
EDGE = 12.0  # mm of base beyond the shoulders, likewise


def die_pieces(
    tooling: Tooling, *, span: float, bar_width: float, plate: float, units: Units
) -> tuple[list[PlateDrawing], list[ShaftDrawing], list[str]]:
    """Lay out shoulders and base.

    Parameters
    ----------
    tooling
        With its shoulders.
    span
        Gap between the carriers, between which the shoulders stand [mm].
    bar_width
        Of all bars side by side [mm].
    plate
        Thickness of plates that are not stated [mm].
    units
        Of the job.

    Returns
    -------
    plates, shafts, notes
        What was not stated is in the notes.

    Raises
    ------
    InputError
        Where a bolt cannot reach, or the shoulders do not carry the whole bar.
    """
    shoulders, members = tooling.shoulders, tooling.members
    body = None if members is None else members.body
    stated = None if members is None else members.shoulders
    notes: list[str] = []
    floor = plate if body is None or body.floor is None else body.floor
    length = round_down(span - 2 * CLEAR, units)
    if length < bar_width - 1e-6:
        raise InputError(
            "tooling.nose.span",
            f"shoulders of {size(length, units)} between the carriers do not carry the bar of "
            f"{size(bar_width, units)}",
            f"give a span of {size(round_up(bar_width + 2 * CLEAR, units), units)} or more",
        )
    height = shoulders.height
    if height is None:
        height = round_up(max(shoulders.depth or 0.0, shoulders.opening), units)
        notes.append(f"Height of the shoulders: {size(height, units)}, not stated.")
    if stated is not None and stated.kind == "shaft":
        hardened = find_steel(stated.material, "tooling.members.shoulders.material").hardened
        notes.append(
            "The shoulder rounds lie on seats that are not drawn: state shoulders of kind block "
            "to have them laid out."
        )
        return (
            [],
            [
                ShaftDrawing(
                    name="shoulder round", metal=metal_of(stated.material, MILD),
                    diameter=2 * shoulders.radius, length=length, quantity=2, hardened=hardened,
                )
            ],
            notes,
        )  # fmt: skip
    block = max(plate, round_up(2 * shoulders.radius, units))
    bolts = bolting(
        members,
        "shoulders",
        clamped=floor,
        tapped=height / 2,
        along=length,
        edge=block,
        units=units,
    )
    if body is not None and body.cheek is not None:
        notes.append("Cheeks are stated and not laid out: fit them to the shoulders as they stand.")
    metal = metal_of(None if stated is None else stated.material, MILD)
    depth = max(TAPPED * bolts.thread.major, bolts.length - floor)
    row = bolt_row(length, bolts)
    face = PlateDrawing(
        name="shoulder block", metal=metal, width=length, height=height, thickness=block,
        holes=(), quantity=2, edges_rounded=shoulders.radius,
        notes=(
            "The rounded side is the inner one: it faces the other shoulder.",
            "Polish that edge, on which the bar slides, and check it with a radius gauge.",
        ),
    )  # fmt: skip
    edge = PlateDrawing(
        name="shoulder block, lower edge", piece="shoulder block", metal=metal, width=length,
        height=block, thickness=height, quantity=2,
        holes=tuple(
            tapped_hole(x, block / 2, bolts.thread.name, "shoulder block", depth=depth,
                        purpose="bolt of the base")
            for x in row
        ),
    )  # fmt: skip
    notes.append(
        f"Bolts of the shoulders, from below, their heads clear of the bed: "
        f"{bolt_words(bolts, 2, units)}"
    )
    base_metal = metal_of(None if body is None else body.material, MILD)
    base = _base(
        tooling, bolts, block, length=length, floor=floor, metal=base_metal, units=units, said=notes
    )
    return [face, edge, base], [], notes


def _base(
    tooling: Tooling,
    bolts: Bolting,
    block: float,
    length: float,
    floor: float,
    metal: str,
    units: Units,
    said: list[str],
) -> PlateDrawing:
    shoulders = tooling.shoulders
    # The round's middle stands half the opening out; the block's inner face one radius before it.
    middle = shoulders.opening / 2 - shoulders.radius + block / 2
    bed = bed_bolts(tooling.members, middle + block / 2, units)
    half = round_up(max(middle + block / 2 + EDGE, 0.0 if bed is None else bed.half), units)
    wide = round_up(length + 2 * EDGE, units)
    size_of_bolt = bolts.thread.size
    holes: list[HoleSpec] = [
        bolt_hole(half + sign * middle, (wide - length) / 2 + y, size_of_bolt, "normal", "base",
                  purpose="shoulder bolt")
        for sign in (-1, 1)
        for y in bolt_row(length, bolts)
    ]  # fmt: skip
    if bed is not None:
        holes += bed_holes(bed, half, wide)
        said.append(
            f"Bolts of the bed: {bed.bolt.count} of {bed.thread.name}, two rows "
            f"{size(2 * bed.out, units)} apart; lay the base on the bed before you drill."
        )
    notes = [
        f"The inner faces of the shoulders stand {size(2 * (middle - block / 2), units)} apart.",
        "Set them with a block of that length before the bolts are drawn up.",
        "Clamps hold the base to the bed."
        if bed is None
        else "Bolts hold the base to the bed, one row to each side of the shoulders.",
    ]
    if shoulders.floor == "open":
        notes.append(
            "The floor is stated open: saw the middle of the base out between the shoulders where "
            "the nose or the bar needs to pass it."
        )
    return PlateDrawing(
        name="die base", metal=metal, width=2 * half, height=wide, thickness=floor,
        holes=tuple(holes), notes=tuple(notes),
    )  # fmt: skip
