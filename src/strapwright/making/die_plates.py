"""The shoulder side as pieces to make: shoulder blocks or rounds, and the base they stand on."""

from __future__ import annotations

from strapwright.catalog.steels import find_steel
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.making.bolt_layout import (
    TAPPED,
    Bolting,
    bolt_places,
    bolt_words,
    bolting,
    welded,
)
from strapwright.making.drawn_members.laying_out import LaidOut, Reach
from strapwright.making.hole_table import LEAST_WALL_MM, bolt_hole, tapped_hole
from strapwright.making.kept.bed_there import base_bolts
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import HoleSpec, PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import bed_holes, bed_words, stated_bolt
from strapwright.making.shop_lengths import round_down, round_up, size
from strapwright.quantities import Units
from strapwright.shop.member_names import BOLTS
from strapwright.shop.tooling import Tooling

CLEAR = 3.0  # mm between the end of a shoulder and a carrier; common practice, no source
EDGE = 12.0  # mm of base beyond the shoulders, likewise


def die_pieces(
    tooling: Tooling, *, span: float, bar_width: float, plate: float, units: Units, out: LaidOut
) -> tuple[list[PlateDrawing], list[ShaftDrawing]]:
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
    out
        Takes what was not stated, and what is found.

    Returns
    -------
    plates, shafts
        What could be laid out.

    Raises
    ------
    InputError
        Where the shoulders do not carry the whole bar.
    """
    shoulders, members = tooling.shoulders, tooling.members
    body = None if members is None else members.body
    stated = None if members is None else members.shoulders
    notes = out.notes
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
        notes.append(f"Height of the shoulders: {size(height, units)}, not entered.")
    if stated is not None and stated.kind == "shaft":
        hardened = find_steel(stated.material, "tooling.members.shoulders.material").hardened
        notes.append(
            "The shoulder rounds are on seats that are not drawn: enter shoulders of kind block to "
            "have them laid out."
        )
        return (
            [],
            [
                ShaftDrawing(
                    name="shoulder round", metal=metal_of(stated.material, MILD),
                    diameter=2 * shoulders.radius, length=length, quantity=2, hardened=hardened,
                )
            ],
        )  # fmt: skip
    block = _thickness(tooling, plate, units)
    welds = welded(members, "shoulders")
    tapped = height / 2
    bolts = None
    if not welds:
        bolts = out.lay(
            BOLTS["shoulders"],
            lambda: bolting(
                members, "shoulders", clamped=floor, tapped=tapped,
                solid=height - shoulders.radius - LEAST_WALL_MM, along=length, edge=block,
                two_rows=True, units=units,
            ),
        )  # fmt: skip
    if body is not None and body.cheek is not None:
        out.lay("die body", _cheeks_besides)
    metal = metal_of(None if stated is None else stated.material, MILD)
    face = PlateDrawing(
        name="shoulder block", metal=metal, width=length, height=height, thickness=block,
        holes=(), quantity=2, edges_rounded=shoulders.radius,
        notes=(
            "The rounded side is the inner one: it faces the other shoulder.",
            "Polish that edge, on which the bar slides, and check it with a radius gauge.",
        ),
    )  # fmt: skip
    edge: tuple[PlateDrawing, ...] = ()
    if bolts is not None:
        edge = (_lower_edge(face, bolts, floor),)
        out.reaches["shoulders"] = Reach(length=bolts.length, grip=floor)
        notes.append(
            f"Bolts of the shoulders, from below, their heads clear of the bed: "
            f"{bolt_words(bolts, 2, units)}"
        )
    elif welds:
        notes.append("The shoulders are entered as welded: no bolt holes are laid out for them.")
    base_metal = metal_of(None if body is None else body.material, MILD)
    base = _base(
        tooling, bolts, block, length=length, floor=floor, metal=base_metal, units=units, out=out
    )
    return [face, *edge, base], []


def _thickness(tooling: Tooling, plate: float, units: Units) -> float:
    """Return the thickness of a block [mm].

    Out to the outer edge as stated; else twice the round, and what two rows of bolts need, a
    diameter from each side.
    """
    shoulders = tooling.shoulders
    if shoulders.outer_edge is not None:
        return shoulders.outer_edge - shoulders.opening / 2 + shoulders.radius
    bolt = stated_bolt(tooling.members, "shoulders")
    rows = 0.0
    if bolt is not None and bolt.spacing is not None:
        rows = bolt.spacing + 2 * find_thread(bolt.size, "tooling.members.bolt").major
    return max(plate, round_up(max(2 * shoulders.radius, rows), units))


def _cheeks_besides() -> None:
    raise InputError(
        "tooling.members.body.cheek",
        "cheeks beside shoulders that are held themselves are not laid out",
        "fit them to the shoulders as they stand, or let the cheeks hold the shoulders",
    )


def _lower_edge(face: PlateDrawing, bolts: Bolting, floor: float) -> PlateDrawing:
    """Return the lower edge of a block with the threads of its bolts."""
    depth = max(TAPPED * bolts.thread.major, bolts.length - floor)
    return PlateDrawing(
        name="shoulder block, lower edge", piece="shoulder block", metal=face.metal,
        width=face.width, height=face.thickness, thickness=face.height, quantity=2,
        holes=tuple(
            tapped_hole(x, y, bolts.thread.name, "shoulder block", depth=depth,
                        purpose="bolt of the base")
            for x, y in bolt_places(face.width, bolts)
        ),
    )  # fmt: skip


def _base(
    tooling: Tooling,
    bolts: Bolting | None,
    block: float,
    length: float,
    floor: float,
    metal: str,
    units: Units,
    out: LaidOut,
) -> PlateDrawing:
    shoulders = tooling.shoulders
    # The round's middle stands half the opening out; the block's inner face one radius before it.
    middle = shoulders.opening / 2 - shoulders.radius + block / 2
    wide = round_up(length + 2 * EDGE, units)
    bed = out.lay(
        BOLTS["base"], lambda: base_bolts(tooling.members, middle + block / 2, wide, units, out)
    )
    half = round_up(max(middle + block / 2 + EDGE, 0.0 if bed is None else bed.half), units)
    holes: list[HoleSpec] = []
    if bolts is not None:
        holes = [
            bolt_hole(half + sign * middle + across - block / 2, (wide - length) / 2 + along,
                      bolts.thread.size, "normal", "base", purpose="shoulder bolt")
            for sign in (-1, 1)
            for along, across in bolt_places(length, bolts)
        ]  # fmt: skip
    if bed is not None:
        holes += bed_holes(bed, half, wide)
        out.notes.append(
            f"Bolts of the bed: {bed.bolt.count} of {bed.thread.name}, two rows "
            f"{size(2 * bed.out, units)} apart; " + bed_words(bed, "base")
        )
    notes = [
        f"The inner faces of the shoulders are {size(2 * (middle - block / 2), units)} apart.",
        "Set the gap with a block of that length before you tighten the bolts.",
        "Clamps hold the base to the bed."
        if bed is None
        else "Bolts hold the base to the bed, one row to each side of the shoulders.",
    ]
    if shoulders.floor == "open":
        notes.append(
            "The floor is entered as open: saw the middle of the base out between the shoulders "
            "where the nose or the bar needs to pass it."
        )
    return PlateDrawing(
        name="die base", metal=metal, width=2 * half, height=wide, thickness=floor,
        holes=tuple(holes), notes=tuple(notes),
    )  # fmt: skip
