"""A die body of cheeks on a floor, welded or bolted, each with a half-round seat for its round."""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError, in_file, key_of
from strapwright.making.drawn_members.bolted_cheeks import (
    CheekBolts,
    bolted_notes,
    cheek_bolts,
    cheek_edge,
    floor_holes,
)
from strapwright.making.drawn_members.laying_out import LaidOut
from strapwright.making.drawn_members.passing_carriers import check_passing
from strapwright.making.hole_table import fit_hole
from strapwright.making.kept.bed_there import base_bolts
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import (
    bed_holes,
    bed_words,
    riser_bolts,
    riser_words,
    stated_bolt,
)
from strapwright.making.shop_lengths import place, round_up, sixteenth, size
from strapwright.quantities import Units
from strapwright.shop.member_names import BOLTS
from strapwright.shop.members import DieBody, Weld
from strapwright.shop.tooling import Tooling

TOE = 3.0  # mm of floor beyond the toe of a weld, so that its edge does not melt; common practice
# Shoulder radii of cheek left behind a seat.  What presses above the round's middle bends that wall
# by H 2 R/(3 pi), of a pressure as the cosine; the cheek's root, which is checked, is then weaker:
# taken for that, without another source.
SEAT_WALL = 0.5
_BODY = "tooling.members.body"
_SAME = 0.1  # mm, numerical; sizes are stated to a thousandth of an inch, and add up

Drawn = tuple[list[PlateDrawing], list[ShaftDrawing]]


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


def cheek_pieces(
    tooling: Tooling,
    body: DieBody,
    nose: NoseLayout | None,
    *,
    bar_width: float,
    units: Units,
    out: LaidOut,
) -> Drawn:
    """Lay out shoulder rounds, cheeks and floor.

    Parameters
    ----------
    tooling
        With its shoulders.
    body
        Of it.
    nose
        Whose carriers pass the cheeks; ``None`` where they are not laid out.
    bar_width
        Of all bars side by side [mm].
    units
        Of the job.
    out
        Takes notes, and a finding where the members do not say enough or say it against each other;
        then cheeks and floor are not drawn.

    Returns
    -------
    plates, shafts
        What could be laid out.
    """
    members = tooling.members
    weld = next(
        (one for one in (() if members is None else members.weld) if one.holds == "cheeks"), None
    )
    bolt = stated_bolt(members, "cheeks")
    leg = 0.0 if weld is None or bolt is not None else weld.size
    length = body.length
    rounds = [] if length is None else [_round(tooling, length)]
    sizes = out.lay("die body", lambda: _sizes(tooling, body, leg, units))
    if sizes is None:
        return [], rounds
    passes = out.lay(
        "die body", lambda: check_passing(tooling, sizes.length, nose, bar_width, units)
    )
    if passes is None:
        return [], rounds
    bolts = None
    if bolt is not None:
        stated = bolt
        bolts = out.lay(
            BOLTS["cheeks"],
            lambda: cheek_bolts(
                stated, cheek=sizes.cheek, length=sizes.length, tall=sizes.tall,
                seat=tooling.shoulders.radius, floor=sizes.floor, units=units,
            ),
        )  # fmt: skip
    elif weld is None:
        out.lay("die body", _nothing_holds)
    if body.tall is None:
        out.notes.append(f"The cheeks are {size(sizes.tall, units)} tall, which is not entered.")
    face, pair = seated_cheeks(tooling, body, sizes.cheek, sizes.length, sizes.tall)
    edge = () if bolts is None else (cheek_edge(face, bolts),)
    base = _floor(tooling, body, sizes, leg=leg, bolts=bolts, units=units, out=out)
    if bolts is not None:
        opening = tooling.shoulders.opening
        out.reaches["cheeks"] = bolts.reach
        gap = opening - 2 * tooling.shoulders.radius
        out.notes += bolted_notes(bolts, opening, gap, units)
    elif weld is not None and bolt is None:
        out.notes += _welded(tooling, weld, sizes.length, units)
    out.notes += _told(tooling, sizes, units)
    return [face, *edge, pair, base], rounds


@frozen(kw_only=True)
class _Sizes:
    """Of cheeks and floor [mm]."""

    cheek: float
    length: float
    floor: float
    tall: float


def _sizes(tooling: Tooling, body: DieBody, leg: float, units: Units) -> _Sizes:
    """Return the sizes of cheeks and floor.

    Raises
    ------
    InputError
        Where one is not stated, or they do not go together.
    """
    for problem, remedy in _reasons(tooling, body, leg, units):
        raise InputError(_BODY, problem, remedy)
    tall = _tall(tooling, body) or 0.0
    return _Sizes(
        cheek=body.cheek or 0.0, length=body.length or 0.0, floor=body.floor or 0.0, tall=tall
    )


def _tall(tooling: Tooling, body: DieBody) -> float | None:
    """How tall the cheeks are [mm]: as stated, else as the shoulders are deep or as the push."""
    return body.tall or tooling.shoulders.depth or body.height


def _nothing_holds() -> None:
    raise InputError(
        _BODY,
        "what holds the cheeks to the floor is not entered",
        "enter a weld or bolts that hold the cheeks" + in_file(', holds = "cheeks"'),
    )


def seated_cheeks(
    tooling: Tooling, body: DieBody, cheek: float, length: float, tall: float
) -> tuple[PlateDrawing, PlateDrawing]:
    """Return a cheek from its side, and the pair that is bored on its joint.

    Parameters
    ----------
    tooling, body
        With the shoulders, and of what steel.
    cheek, length, tall
        Thickness, length along the nose and height [mm].
    """
    radius, metal = tooling.shoulders.radius, metal_of(body.material, MILD)
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
    return face, pair


def _reasons(
    tooling: Tooling, body: DieBody, leg: float, units: Units
) -> Iterator[tuple[str, str]]:
    """What the members do not say, or say against each other, and what to do."""
    shoulders, members = tooling.shoulders, tooling.members
    member = None if members is None else members.shoulders
    say_tall = f"enter {key_of(f'{_BODY}.tall')}"
    if member is None or member.kind == "shaft":
        yield (
            "the seat of the shoulder rounds is not entered",
            "enter shoulders of kind block for rounds in half-round seats",
        )
    for key in ("cheek", "length", "floor"):
        if getattr(body, key) is None:
            yield f"its {key} is not entered", f"enter {key_of(f'{_BODY}.{key}')}"
    cheek, floor, radius = body.cheek or 0.0, body.floor or 0.0, shoulders.radius
    tall = _tall(tooling, body)
    if tall is None:
        yield "how tall the cheeks are is not entered", say_tall
        return
    if body.height is not None and not tall - 2 * radius - _SAME <= body.height <= tall + _SAME:
        yield (
            (
                f"the push at {size(body.height, units)} does not meet the round on top of cheeks "
                f"{size(tall, units)} tall"
            ),
            say_tall,
        )
    if shoulders.height is not None and shoulders.height < tall + floor - _SAME:
        yield (
            (
                f"shoulders stand {size(shoulders.height, units)} high, and floor and cheeks are "
                f"{size(tall + floor, units)}"
            ),
            say_tall,
        )
    if not holds_seat(cheek, radius):
        wall = (1 + SEAT_WALL) * radius
        yield (
            (
                f"a seat of radius {size(radius, units)} leaves too little of a cheek of "
                f"{size(cheek, units)}"
            ),
            f"enter one of {size(round_up(wall, units), units)} or more",
        )
    least = least_tall(radius, leg) if leg else 2 * radius
    if tall < least - _SAME:
        what = (
            f"the weld of {size(leg, units)} inside runs into the shoulder round"
            if leg
            else "the seats run into the floor"
        )
        yield (
            f"{what}, for the cheeks are {size(tall, units)} tall",
            f"make them {size(round_up(least, units), units)} tall or more",
        )


def _floor(
    tooling: Tooling,
    body: DieBody,
    sizes: _Sizes,
    *,
    leg: float,
    bolts: CheekBolts | None,
    units: Units,
    out: LaidOut,
) -> PlateDrawing:
    opening, cheek, length = tooling.shoulders.opening, sizes.cheek, sizes.length
    across = sixteenth(floor_across(opening, cheek, leg), units)
    bed = out.lay(
        BOLTS["base"],
        lambda: base_bolts(tooling.members, opening / 2 + cheek + leg, length, units, out),
    )
    half = max(across / 2, 0.0 if bed is None else bed.half)
    if bed is not None:
        out.notes.append(
            f"Bolts of the bed: {bed.bolt.count} of {bed.thread.name}, two rows "
            f"{size(2 * bed.out, units)} apart; " + bed_words(bed, "floor")
        )
    # From either end the same, as it stands under the middle.
    lines = (
        half - opening / 2 - cheek, half - opening / 2, half + opening / 2,
        half + opening / 2 + cheek,
    )  # fmt: skip
    held = () if bolts is None else floor_holes(bolts, half, opening)
    return PlateDrawing(
        name="floor", metal=metal_of(body.material, MILD), width=2 * half, height=length,
        thickness=sizes.floor,
        holes=(*held, *(() if bed is None else bed_holes(bed, half, length))),
        marks=tuple(((x, 0.0), (x, length)) for x in lines),
        notes=(
            f"Scribe across it at X {', '.join(place(x, units) for x in lines)}.",
            "One cheek stands between the first two lines, the other between the last two.",
            "Clamps hold the floor to the bed." if bed is None
            else "Bolts hold the floor to the bed, one row to each side of the cheeks.",
            *(("The seats of the bolts are in its lower side.",)
              if bolts is not None and bolts.sunk else ()),
        ),
    )  # fmt: skip


def _welded(tooling: Tooling, weld: Weld, length: float, units: Units) -> list[str]:
    shoulders = tooling.shoulders
    gap = shoulders.opening - 2 * shoulders.radius
    leg = size(weld.size, units)
    both_sides = weld.spacing is not None and weld.length <= 2 * length + _SAME
    return [
        f"Weld each cheek to the floor along its inner and its outer side: leg {leg}, "
        f"{size(weld.length / 2, units)} a side."
        if both_sides
        else f"Weld each cheek to the floor: leg {leg}, {size(weld.length, units)} of run in all.",
        (
            f"Bore the seats, then weld with a block of {size(shoulders.opening, units)} clamped "
            f"between the cheeks, and measure {size(gap, units)} between the rounds."
        ),
    ]


def _told(tooling: Tooling, sizes: _Sizes, units: Units) -> list[str]:
    shoulders = tooling.shoulders
    notes: list[str] = []
    height = shoulders.height or 0.0
    riser = height - sizes.tall - sizes.floor if height else 0.0
    if riser > _SAME:
        notes.append(riser_words(riser, height, "floor", units))
        base = stated_bolt(tooling.members, "base")
        if base is not None:
            notes.append(riser_bolts(sizes.floor, riser, base, "floor", units))
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
