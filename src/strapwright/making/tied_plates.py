"""A die body of cheeks tied by two side plates, as pieces to make."""

from __future__ import annotations

from strapwright.catalog.steels import find_steel
from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError, in_file
from strapwright.making.drawn_members.laying_out import LaidOut, Reach
from strapwright.making.hole_table import bolt_hole, tapped_hole
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import stated_bolt
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.shop.member_names import BOLTS
from strapwright.shop.members import Bolt, DieBody
from strapwright.shop.tooling import Tooling

_BODY = "tooling.members.body"


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
    face = PlateDrawing(
        name="cheek", metal=metal, width=length, height=tall, thickness=cheek, holes=(),
        quantity=2,
        notes=(
            "Bore both seats as one hole on the joint of the two cheeks, clamped face to face.",
        ),
    )  # fmt: skip
    shaft = ShaftDrawing(
        name="shoulder round", metal=metal_of(material, MILD), diameter=2 * shoulders.radius,
        length=length, quantity=2,
        hardened=material is not None and find_steel(material, "shoulders").hardened,
    )  # fmt: skip
    found = out.lay(BOLTS["side plates"], lambda: _bolted(tooling, cheek, side, units))
    if found is None:
        return [face], [shaft]
    bolt, reach, name = found
    rows = _rows(bolt, tall, body.height)
    plates = [
        face,
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
            f"{size(side + reach, units)}, grade {bolt.grade or 'not stated'}."
        ),
        "The cheeks stand on the bed or a riser; keep them from walking with a stop at each side.",
    ]
    return plates, [shaft]


def _bolted(
    tooling: Tooling, cheek: float, side: float, units: Units
) -> tuple[Bolt, float, Thread]:
    """Bolts of the side plates, how deep each goes into its cheek [mm], and its thread."""
    bolt = stated_bolt(tooling.members, "side plates")
    if bolt is None:
        raise InputError(
            "tooling.members.bolt",
            "nothing holds the side plates to the cheeks",
            in_file('state a bolt with holds = "side plates", its size and its length'),
        )
    return bolt, _reach(bolt, cheek, side, units), find_thread(bolt.size, "side plates")


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
