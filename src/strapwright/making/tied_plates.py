"""A die body of cheeks tied by two side plates, as pieces to make."""

from __future__ import annotations

import math

from strapwright.catalog.steels import find_steel
from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError, in_file
from strapwright.making.bolt_layout import EDGE
from strapwright.making.drawn_members.laying_out import LaidOut, Reach
from strapwright.making.hole_table import bolt_hole, least_wall, tapped_hole
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import stated_bolt
from strapwright.making.shop_lengths import size
from strapwright.making.welded_plates import seated_cheeks
from strapwright.quantities import Units
from strapwright.shop.member_names import BOLTS
from strapwright.shop.members import Bolt, DieBody
from strapwright.shop.tooling import Tooling

_BODY = "tooling.members.body"
_SAME = 0.1  # mm, numerical


def tied_pieces(
    tooling: Tooling, body: DieBody, side: float, units: Units, out: LaidOut
) -> tuple[list[PlateDrawing], list[ShaftDrawing]]:
    """Lay out shoulder rounds, cheeks and side plates.

    Parameters
    ----------
    tooling
        With its shoulders.
    body
        Of it.
    side
        Thickness of a side plate [mm].
    units
        Of the job.
    out
        Takes the bolts to lay ready, and what is found.

    Returns
    -------
    plates, shafts
        Cheeks alone where their bolts cannot be laid out.

    Raises
    ------
    InputError
        Where a size is not stated.
    """
    cheek, length, tall = (_stated(body, key) for key in ("cheek", "length", "tall"))
    shoulders, members = tooling.shoulders, tooling.members
    metal = metal_of(body.material, MILD)
    # The rounds lie half in the cheeks, whose inner sides stand the opening apart.
    across = shoulders.opening + 2 * cheek
    stated = None if members is None else members.shoulders
    material = None if stated is None else stated.material
    face, pair = seated_cheeks(tooling, body, cheek, length, tall)
    shaft = ShaftDrawing(
        name="shoulder round", metal=metal_of(material, MILD), diameter=2 * shoulders.radius,
        length=length, quantity=2,
        hardened=material is not None and find_steel(material, "shoulders").hardened,
    )  # fmt: skip
    found = out.lay(BOLTS["side plates"], lambda: _bolted(tooling, body, cheek, tall, units))
    if found is None:
        return [face, pair], [shaft]
    bolt, reach, name, rows = found
    plates = [
        face,
        pair,
        PlateDrawing(
            name="cheek, each end", piece="cheek", metal=metal, width=cheek, height=tall,
            thickness=length, quantity=4,
            holes=tuple(
                tapped_hole(cheek / 2, y, name.name, "cheek", depth=reach + 2 * name.pitch,
                            purpose="bolt of a side plate")
                for y in rows
            ),
        ),
        PlateDrawing(
            name="side plate", metal=metal, width=across, height=tall, thickness=side, quantity=2,
            holes=tuple(
                bolt_hole(x, y, name.size, "normal", "side plate", purpose="bolt of a cheek")
                for x in (cheek / 2, across - cheek / 2)
                for y in rows
            ),
            notes=("Drill both side plates clamped together: the cheeks stand parallel then.",),
        ),
    ]  # fmt: skip
    out.reaches["side plates"] = Reach(length=side + reach, grip=side)
    out.notes += [
        (
            f"Bolts of the side plates: {4 * bolt.count} of {name.name} x "
            f"{size(side + reach, units)}, grade {bolt.grade or 'not entered'}."
        ),
        "The cheeks stand on the bed or a riser; keep them from walking with a stop at each side.",
    ]
    return plates, [shaft]


def _bolted(
    tooling: Tooling, body: DieBody, cheek: float, tall: float, units: Units
) -> tuple[Bolt, float, Thread, tuple[float, ...]]:
    """Bolts of the side plates, how deep each goes into its cheek, its thread, its rows [mm]."""
    bolt = stated_bolt(tooling.members, "side plates")
    if bolt is None:
        raise InputError(
            "tooling.members.bolt",
            "nothing holds the side plates to the cheeks",
            "enter bolts that hold the side plates, with size and length"
            + in_file(', holds = "side plates"'),
        )
    thread = find_thread(bolt.size, "side plates")
    reach = _reach(bolt, cheek, body.side_plate or 0.0, units)
    if 2 * reach > (body.length or 0.0) + _SAME:
        raise InputError(
            "tooling.members.bolt (side plates)",
            f"bolts from both ends meet: each goes {size(reach, units)} into a cheek of "
            f"{size(body.length or 0.0, units)}",
            "use shorter bolts or longer cheeks",
        )
    rows = _rows(bolt, tall, body.height)
    radius = tooling.shoulders.radius
    least = below_seat(radius, cheek, thread.major)
    if tall - rows[-1] < least - _SAME:
        raise InputError(
            "tooling.members.bolt (side plates)",
            f"the upper row, {size(tall - rows[-1], units)} below the top of the cheeks, runs into "
            "the seat of the round",
            f"leave {size(least, units)}: rows closer together or lower, or thinner bolts",
        )
    return bolt, reach, thread, rows


def below_seat(radius: float, cheek: float, major: float) -> float:
    """Return how far below the top of a cheek a thread in the middle of its end must stand [mm].

    The seat is a half round of the shoulder's radius about a point in the cheek's inner face, one
    radius below the top; half a diameter of metal stays between it and the thread, and one and a
    half diameters to the top.

    Parameters
    ----------
    radius, cheek
        Of the shoulder, and thickness of the cheek [mm].
    major
        Diameter of the thread [mm].
    """
    apart = radius + major / 2 + least_wall(major)
    down = math.sqrt(max(apart**2 - (cheek / 2) ** 2, 0.0))
    return max(EDGE * major, radius + down if down else 0.0)


def _stated(body: DieBody, key: str) -> float:
    value: float | None = getattr(body, key)
    if value is None:
        raise InputError(
            f"{_BODY}.{key}", "this is missing", in_file(f'write for example {key} = "3 in"')
        )
    return value


def _reach(bolt: Bolt, cheek: float, side: float, units: Units) -> float:
    """How deep the bolt goes into the end of a cheek [mm]."""
    major = find_thread(bolt.size, "tooling.members.bolt").major
    if 2 * major > cheek + 1e-6:
        raise InputError(
            "tooling.members.bolt (side plates)",
            f"a bolt {bolt.size} is too thick for the end of a cheek of {size(cheek, units)}",
            "take one of half its thickness or less",
        )
    if bolt.length is None:
        return 1.5 * major
    if bolt.length - side < major - 1e-6:
        raise InputError(
            "tooling.members.bolt (side plates)",
            f"a bolt {bolt.size} of {size(bolt.length, units)} cannot reach: it passes "
            f"{size(side, units)} and needs {size(major, units)} of thread",
            f"take one of {size(side + major, units)} or longer",
        )
    return bolt.length - side


def _rows(bolt: Bolt, tall: float, push: float | None) -> tuple[float, ...]:
    """Heights of the rows above the bed [mm]."""
    middle = tall / 2 if push is None or bolt.height is None else push - bolt.height
    if bolt.count == 1:
        return (middle,)
    apart = bolt.spacing or tall / 2
    step = apart / (bolt.count - 1)
    return tuple(middle - apart / 2 + step * k for k in range(bolt.count))
