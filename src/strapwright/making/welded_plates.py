"""A die body of cheeks welded to a floor, each with a half-round seat for its shoulder round."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError
from strapwright.making.bolt_layout import welded
from strapwright.making.hole_table import fit_hole
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import bed_bolts, bed_holes
from strapwright.making.shop_lengths import place, round_up, size
from strapwright.quantities import Units
from strapwright.shop.members import DieBody, Members, Weld
from strapwright.shop.tooling import Tooling

CLEAR = 3.0  # mm between a carrier and what it passes; common practice, no source
TOE = 3.0  # mm of floor beyond the toe of a weld, so that its edge does not melt; likewise
# Shoulder radii of cheek left behind a seat.  What presses above the round's middle bends that wall
# by H 2 R/(3 pi), of a pressure as the cosine; the cheek's root, which is checked, is then weaker:
# taken for that, without another source.
SEAT_WALL = 0.5
_SAME = 0.1  # mm, numerical; sizes are stated to a thousandth of an inch, and add up

Drawn = tuple[list[PlateDrawing], list[ShaftDrawing], list[str]]


def stands_on_welds(members: Members | None) -> bool:
    """Whether cheeks are stated as welded and nothing holds shoulders of their own."""
    return (
        members is not None
        and members.body is not None
        and welded(members, "cheeks")
        and "shoulders" not in members.held
    )


def floor_across(opening: float, cheek: float, leg: float) -> float:
    """Least floor over both cheeks and the welds outside them; every length in mm.

    A round lies half in its seat, so the cheeks' inner faces stand the opening apart.
    """
    return opening + 2 * (cheek + leg + TOE)


def least_tall(radius: float, leg: float) -> float:
    """Least height of a cheek whose round clears the weld inside it; every length in mm.

    The weld's face is the line x + y = w; the round's middle is over x = 0, R below the top, and
    must be R away from it: (tall - R - w)/sqrt(2) >= R.
    """
    return leg + (1 + math.sqrt(2)) * radius


def holds_seat(cheek: float, radius: float) -> bool:
    """Whether a cheek is thick enough for the seat of a round; both in mm."""
    return cheek >= (1 + SEAT_WALL) * radius - _SAME


def welded_pieces(
    tooling: Tooling, body: DieBody, nose: NoseLayout, *, bar_width: float, units: Units
) -> Drawn:
    """Lay out shoulder rounds, cheeks and floor.

    Parameters
    ----------
    tooling
        With its shoulders.
    body
        Of it.
    nose
        Whose carriers pass the cheeks.
    bar_width
        Of all bars side by side [mm].
    units
        Of the job.

    Returns
    -------
    plates, shafts, notes
        Without plates where the members do not say enough; then a note says what to state.

    Raises
    ------
    InputError
        Where the cheeks do not carry the whole bar, or the carriers do not pass them.
    """
    members = tooling.members
    weld = next(one for one in (() if members is None else members.weld) if one.holds == "cheeks")
    unsaid = next(_reasons(tooling, body, weld, units), "")
    cheek, length, floor = body.cheek, body.length, body.floor
    tall = body.tall or tooling.shoulders.depth
    if unsaid or cheek is None or length is None or floor is None or tall is None:
        rounds = [] if length is None else [_round(tooling, length)]
        return [], rounds, [f"Cheeks and floor are not drawn: {unsaid}."]
    _check_passing(tooling, length, nose, bar_width, units)
    radius = tooling.shoulders.radius
    metal = metal_of(body.material, MILD)
    face = PlateDrawing(
        name="cheek", metal=metal, width=length, height=tall, thickness=cheek, holes=(),
        quantity=2, seat=radius, marks=(((0.0, tall - 2 * radius), (length, tall - 2 * radius)),),
        notes=("The half-round seat is cut into its inner side, level with the upper edge.",),
    )  # fmt: skip
    seat = fit_hole(cheek, tall - radius, 2 * radius, "H11", "cheek", purpose="both seats")
    pair = PlateDrawing(
        name="cheeks face to face, each end", piece="pair of cheeks", metal=metal,
        width=2 * cheek, height=tall, thickness=length, holes=(seat,), joint=True,
        notes=(
            "Clamp both cheeks inner side to inner side, upper edges level, a strip along them.",
            "Bore both seats as one hole on the joint.",
            "The bore comes out level with the upper edges: file the thin lip off each.",
        ),
    )  # fmt: skip
    base, notes = _floor(
        tooling, cheek, length, floor=floor, leg=weld.size, metal=metal, units=units
    )
    notes += _told(tooling, weld, tall, floor, length, units)
    return [face, pair, base], [_round(tooling, length)], notes


def _reasons(tooling: Tooling, body: DieBody, weld: Weld, units: Units) -> Iterator[str]:
    """What the members do not say, or say against each other, with what to state; the first."""
    shoulders, members = tooling.shoulders, tooling.members
    member = None if members is None else members.shoulders
    if member is None or member.kind == "shaft":
        yield (
            "what seat holds the shoulder rounds is not stated; state shoulders of kind block for "
            "rounds in half-round seats"
        )
    for key in ("cheek", "length", "floor"):
        if getattr(body, key) is None:
            yield f"state {key} in tooling.members.body"
    cheek, floor, radius = body.cheek or 0.0, body.floor or 0.0, shoulders.radius
    tall = body.tall or shoulders.depth
    if tall is None:
        yield "how tall the cheeks are is not stated; state tall in tooling.members.body"
        return
    if body.height is not None and not tall - 2 * radius - _SAME <= body.height <= tall + _SAME:
        yield (
            f"the push at {size(body.height, units)} does not meet the round at the top of cheeks "
            f"{size(tall, units)} tall; state tall in tooling.members.body"
        )
    if shoulders.height is not None and shoulders.height < tall + floor - _SAME:
        yield (
            f"the shoulders stand {size(shoulders.height, units)} high, and floor and cheeks are "
            f"{size(tall + floor, units)}; state tall in tooling.members.body"
        )
    if not holds_seat(cheek, radius):
        wall = (1 + SEAT_WALL) * radius
        yield (
            f"a seat of radius {size(radius, units)} leaves too little of a cheek of "
            f"{size(cheek, units)}; state one of {size(round_up(wall, units), units)} or more"
        )
    least = least_tall(radius, weld.size)
    if tall < least - _SAME:
        yield (
            f"the weld of {size(weld.size, units)} inside runs into the shoulder round; the cheeks "
            f"must be {size(round_up(least, units), units)} tall or more, not {size(tall, units)}"
        )


def _check_passing(
    tooling: Tooling, length: float, nose: NoseLayout, bar_width: float, units: Units
) -> None:
    where = "tooling.members.body.length"
    if length < bar_width - _SAME:
        raise InputError(
            where,
            f"shoulders of {size(length, units)} do not carry the bar of {size(bar_width, units)}",
            f"give {size(round_up(bar_width, units), units)} or more",
        )
    shoulders = tooling.shoulders
    gap = shoulders.opening - 2 * shoulders.radius
    beside = length <= nose.span - 2 * CLEAR + _SAME
    between = nose.width <= gap - 2 * CLEAR + _SAME
    if nose.count and not beside and not between:
        raise InputError(
            where,
            f"the carriers of {size(nose.width, units)} pass neither between the shoulders, "
            f"{size(gap, units)} apart, nor beside their length of {size(length, units)}",
            f"leave {size(CLEAR, units)} on each side: a longer span, shorter cheeks or narrower "
            "carriers",
        )


def _floor(
    tooling: Tooling,
    cheek: float,
    length: float,
    floor: float,
    leg: float,
    metal: str,
    units: Units,
) -> tuple[PlateDrawing, list[str]]:
    opening = tooling.shoulders.opening
    across = floor_across(opening, cheek, leg)
    bed = bed_bolts(tooling.members, across / 2 - TOE, units)
    half = max(across / 2, 0.0 if bed is None else bed.half)
    said: list[str] = []
    if bed is not None:
        said.append(
            f"Bolts of the bed: {bed.bolt.count} of {bed.thread.name}, two rows "
            f"{size(2 * bed.out, units)} apart; lay the floor on the bed before you drill."
        )
    # From either end the same, as it stands under the middle.
    lines = (
        half - opening / 2 - cheek, half - opening / 2, half + opening / 2,
        half + opening / 2 + cheek,
    )  # fmt: skip
    plate = PlateDrawing(
        name="floor", metal=metal, width=2 * half, height=length, thickness=floor,
        holes=() if bed is None else bed_holes(bed, half, length),
        marks=tuple(((x, 0.0), (x, length)) for x in lines),
        notes=(
            f"Scribe across it at X {', '.join(place(x, units) for x in lines)}.",
            "One cheek stands between the first two lines, the other between the last two.",
            "Clamps hold the floor to the bed." if bed is None
            else "Bolts hold the floor to the bed, one row to each side of the cheeks.",
        ),
    )  # fmt: skip
    return plate, said


def _told(
    tooling: Tooling, weld: Weld, tall: float, floor: float, length: float, units: Units
) -> list[str]:
    shoulders = tooling.shoulders
    gap = shoulders.opening - 2 * shoulders.radius
    leg = size(weld.size, units)
    both_sides = weld.spacing is not None and weld.length <= 2 * length + _SAME
    notes = [
        f"Weld each cheek to the floor along its inner and its outer side: leg {leg}, "
        f"{size(weld.length / 2, units)} a side."
        if both_sides
        else f"Weld each cheek to the floor: leg {leg}, {size(weld.length, units)} of run in all.",
        (
            f"Bore the seats, then weld with a block of {size(shoulders.opening, units)} clamped "
            f"between the cheeks, and measure {size(gap, units)} between the rounds."
        ),
        "What keeps the rounds in their seats while no bar presses is not stated: see to it.",
    ]
    riser = 0.0 if shoulders.height is None else shoulders.height - tall - floor
    if riser > _SAME:
        notes.append(
            f"The floor stands on a riser of {size(riser, units)}, which is not drawn: the tops of "
            f"the shoulders are {size(shoulders.height or 0.0, units)} above the bed."
        )
    return notes


def _round(tooling: Tooling, length: float) -> ShaftDrawing:
    members = tooling.members
    stated = None if members is None else members.shoulders
    material = None if stated is None else stated.material
    return ShaftDrawing(
        name="shoulder round", metal=metal_of(material, MILD),
        diameter=2 * tooling.shoulders.radius, length=length, quantity=2,
        hardened=material is not None and find_steel(material, "shoulders").hardened,
        notes=("Measure it before the seats are bored: they are made to it.",),
    )  # fmt: skip
