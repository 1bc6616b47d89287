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
from strapwright.making.drawn_members.passing_carriers import CLEAR, SAME, check_passing
from strapwright.making.hole_table import LEAST_WALL_MM, bolt_hole, tapped_hole
from strapwright.making.kept.bed_there import base_bolts
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import HoleSpec, PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import (
    bed_holes,
    bed_words,
    riser_bolts,
    riser_words,
    stated_bolt,
)
from strapwright.making.shop_lengths import place, round_down, round_up, size
from strapwright.making.welded_plates import TOE
from strapwright.quantities import Units
from strapwright.shop.member_names import BOLTS
from strapwright.shop.members import Members
from strapwright.shop.tooling import Tooling

SIDE_PLAY = 6.0  # mm between the bar and a carrier on each side; common practice, no source
EDGE = 12.0  # mm of base beyond the shoulders, likewise


def die_pieces(
    tooling: Tooling,
    nose: NoseLayout | None,
    *,
    bar_width: float,
    plate: float,
    units: Units,
    out: LaidOut,
) -> tuple[list[PlateDrawing], list[ShaftDrawing]]:
    """Lay out shoulders and base.

    Parameters
    ----------
    tooling
        With its shoulders.
    nose
        Between whose carriers the shoulders stand; ``None`` where it is not laid out.
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
        Where the shoulders do not carry the whole bar, or sizes do not go together.
    """
    shoulders, members = tooling.shoulders, tooling.members
    body = None if members is None else members.body
    stated = None if members is None else members.shoulders
    notes = out.notes
    floor = plate if body is None or body.floor is None else body.floor
    span = bar_width + 2 * SIDE_PLAY if nose is None else nose.span
    length = _length(tooling, nose, span, bar_width, units)
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
    height = _tall(tooling, floor, units, out)
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
            "The rounded side is the inner one: it faces the other block. The foot stays square.",
            "Polish that edge along the way of the bar, which slides on it.",
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
    elif welds and members is not None:
        notes += _welded_words(members, length, units)
    base_metal = metal_of(None if body is None else body.material, MILD)
    base = _base(tooling, bolts, face, floor=floor, metal=base_metal, units=units, out=out)
    return [face, *edge, base], []


def _length(
    tooling: Tooling, nose: NoseLayout | None, span: float, bar_width: float, units: Units
) -> float:
    """Return how long the shoulders are along the nose [mm]: as stated, else between the carriers.

    Raises
    ------
    InputError
        Where they do not carry the whole bar, or the carriers do not pass them.
    """
    body = None if tooling.members is None else tooling.members.body
    stated = tooling.shoulders.length if body is None or body.length is None else body.length
    if stated is not None:
        check_passing(tooling, stated, nose, bar_width, units)
        return stated
    length = round_down(span - 2 * CLEAR, units)
    if length < bar_width - 1e-6:
        raise InputError(
            "tooling.nose.span",
            f"shoulders of {size(length, units)} between the carriers do not carry the bar of "
            f"{size(bar_width, units)}",
            f"give a span of {size(round_up(bar_width + 2 * CLEAR, units), units)} or more",
        )
    return length


def _tall(tooling: Tooling, floor: float, units: Units, out: LaidOut) -> float:
    """Return how tall a block is over its base [mm].

    As stated; else what the shoulders stand above the bed less the base beneath them.

    Raises
    ------
    InputError
        Where no block is left above the base, or it stands higher than is stated.
    """
    shoulders = tooling.shoulders
    body = None if tooling.members is None else tooling.members.body
    stated = None if body is None else body.tall
    height = shoulders.height
    if stated is None and height is None:
        tall = round_up(max(shoulders.depth or 0.0, shoulders.opening), units)
        out.notes.append(f"Height of the shoulder blocks: {size(tall, units)}, not entered.")
        return tall
    tall = (height or 0.0) - floor if stated is None else stated
    least = shoulders.radius + LEAST_WALL_MM
    if tall < least:
        raise InputError(
            "tooling.shoulders.height",
            f"blocks {size(max(tall, 0.0), units)} tall on a base of {size(floor, units)} have no "
            f"room for an edge of radius {size(shoulders.radius, units)}",
            f"enter {size(round_up(least + floor, units), units)} or more above the bed",
        )
    if height is None:
        return tall
    riser = height - floor - tall
    if riser < -SAME:
        raise InputError(
            "tooling.members.body.tall",
            f"shoulders stand {size(height, units)} high, and base and blocks are "
            f"{size(tall + floor, units)}",
            f"make the blocks {size(height - floor, units)} tall",
        )
    if riser > SAME:
        out.notes.append(riser_words(riser, height, "base", units))
        base = stated_bolt(tooling.members, "base")
        if base is not None:
            out.notes.append(riser_bolts(floor, riser, base, "base", units))
    return tall


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


def _welded_words(members: Members, length: float, units: Units) -> list[str]:
    """How blocks are welded to their base."""
    weld = next(one for one in members.weld if one.holds == "shoulders")
    leg = size(weld.size, units)
    if weld.spacing is not None and weld.length <= 2 * length + SAME:
        each = size(weld.length / 2, units)
        return [f"Weld each block to the base, inner and outer side: leg {leg}, {each} a side."]
    run = size(weld.length, units)
    return [f"Weld each block to the base: leg {leg}, {run} of run in all."]


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
    face: PlateDrawing,
    *,
    floor: float,
    metal: str,
    units: Units,
    out: LaidOut,
) -> PlateDrawing:
    shoulders, members = tooling.shoulders, tooling.members
    block, length, tall = face.thickness, face.width, face.height
    welds = () if members is None else members.weld
    leg = next((one.size for one in welds if one.holds == "shoulders"), 0.0) if not bolts else 0.0
    # The round's middle stands half the opening out; the block's inner face one radius before it.
    middle = shoulders.opening / 2 - shoulders.radius + block / 2
    # Welded along both sides of the blocks it ends with them, so that carriers pass its ends.
    along = bolts is None and all(
        one.length <= 2 * length + SAME for one in welds if one.holds == "shoulders"
    )
    wide = length if along else round_up(length + 2 * max(EDGE, leg + TOE), units)
    beside = middle + block / 2
    bed = out.lay(BOLTS["base"], lambda: base_bolts(members, beside + leg, wide, units, out))
    across = base_across(shoulders.opening, shoulders.radius, block, leg, units)
    half = max(across / 2, 0.0 if bed is None else round_up(bed.half, units))
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
    if shoulders.depth is not None and shoulders.depth > tall + SAME:
        raise InputError(
            "tooling.shoulders.depth",
            f"the bar goes {size(shoulders.depth, units)} below the tops of blocks that stand "
            f"{size(tall, units)} over their base",
            f"make the blocks {size(round_up(shoulders.depth, units), units)} tall or taller: the "
            "base ties them and must not be sawn out",
        )
    gap = 2 * (middle - block / 2)
    fixed = "tack them" if bolts is None else "tighten the bolts"
    low = (wide - length) / 2
    lines = tuple(half + sign * (middle + side * block / 2) for sign, side in
                  ((-1, 1), (-1, -1), (1, -1), (1, 1)))  # fmt: skip
    return PlateDrawing(
        name="die base", metal=metal, width=2 * half, height=wide, thickness=floor,
        holes=tuple(holes),
        marks=tuple(((x, low), (x, wide - low)) for x in lines),
        notes=(
            (
                f"Scribe where the blocks stand: X {', '.join(place(x, units) for x in lines)}; "
                f"Y {place(low, units)} to {place(wide - low, units)}."
            ),
            f"The rounded edges face each other: the inner faces are {size(gap, units)} apart.",
            f"Clamp a piece of {size(gap, units)} between the blocks before you {fixed}.",
            "Clamps hold the base to the bed."
            if bed is None
            else "Bolts hold the base to the bed, one row to each side of the shoulders.",
        ),
    )  # fmt: skip


def base_across(opening: float, radius: float, block: float, leg: float, units: Units) -> float:
    """Return how long a base is along the bar [mm], with room beside the blocks [mm].

    Parameters
    ----------
    opening, radius, block
        Of the shoulders, and the thickness of a block [mm].
    leg
        Of the weld beside them [mm]; 0 without.
    units
        Of the job.
    """
    outer = opening / 2 - radius + block
    return 2 * round_up(outer + max(EDGE, leg + TOE), units)
