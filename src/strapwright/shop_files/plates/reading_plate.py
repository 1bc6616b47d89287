"""Read a plate file: one plate and its holes, from its lower left corner."""

from __future__ import annotations

from attrs import evolve

from strapwright.errors import in_file, told_in
from strapwright.making.hole_table import (
    bolt_hole,
    checked,
    clearance_fit,
    fit_hole,
    plain_hole,
    tapped_hole,
)
from strapwright.making.plate_metals import MILD, is_hard, metal_of
from strapwright.making.plate_values import CORNERS, HoleSpec, PlateDrawing
from strapwright.quantities import Units
from strapwright.shop_files.opening import open_shop_file
from strapwright.shop_files.quantity_fields import LENGTH, exact, needed, quantity
from strapwright.shop_files.toml_table import Table

KEYS = ("name", "material", "width", "height", "thickness", "quantity", "corner", "hole")
HOLE_KEYS = ("x", "y", "diameter", "thread", "bolt", "fit", "depth", "purpose", "seat")
_MOST = 1000  # plates of one kind


def read_plate(text: str, file: str = "plate file") -> tuple[PlateDrawing, Units]:
    """Read a plate file.

    Parameters
    ----------
    text
        The file: ``format``, ``units``, ``[plate]`` and ``[[plate.hole]]``.
    file
        Its name, for messages.

    Returns
    -------
    plate, units
        Checked: every hole lies in the plate and not too near an edge.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    head = open_shop_file(text, file, ("plate",))
    table = head.child("plate")
    if table is None:
        raise head.refuse(
            "",
            "the table [plate] is missing",
            in_file("write [plate] with width, height and thickness"),
        )
    table.refuse_unknown(KEYS)
    material = table.line_text("material", in_file('write for example material = "A36"'))
    corner = table.choice("corner", CORNERS, "lower left")
    plate = PlateDrawing(
        name=table.line_text("name", in_file('write for example name = "push plate"')) or "plate",
        metal=metal_of(material, MILD),
        width=needed(table, "width", LENGTH, "8 in"),
        height=needed(table, "height", LENGTH, "4 in"),
        thickness=needed(table, "thickness", LENGTH, "3/4 in"),
        quantity=table.whole("quantity", 1, _MOST) or 1,
        corner=next(one for one in CORNERS if one == corner),
        hardened=material is not None and is_hard(material),
        holes=tuple(_seated(one) for one in table.children("hole")),
    )
    units = head.units or "inch"
    with told_in(units):
        return checked(plate, f"{file}: plate"), units


def _seated(table: Table) -> HoleSpec:
    """Read a hole with the seat of a bolt head, where there is one."""
    hole, seat = _hole(table), table.child("seat")
    if seat is None:
        return hole
    seat.refuse_unknown(("diameter", "depth"))
    wide = needed(seat, "diameter", LENGTH, "5/8 in")
    if wide <= hole.diameter:
        raise seat.refuse(
            "diameter",
            "the seat is not wider than its hole",
            "give the diameter of the bolt's head and some room",
            value=seat.data["diameter"],
        )
    return evolve(hole, counterbore=(wide, needed(seat, "depth", LENGTH, "3/8 in")))


def _hole(table: Table) -> HoleSpec:
    table.refuse_unknown(HOLE_KEYS)
    where = table.where(table.path)
    x = needed(table, "x", LENGTH, "1 in")
    y = needed(table, "y", LENGTH, "1 in")
    depth = quantity(table, "depth", LENGTH)
    purpose = table.line_text("purpose", in_file('write for example purpose = "guide rod"')) or ""
    given = [key for key in ("diameter", "thread", "bolt") if key in table.data]
    if len(given) != 1:
        raise table.refuse(
            "",
            "a hole has one of diameter, thread and bolt"
            + (f", here are {' and '.join(given)}" if given else ""),
            in_file('write for example diameter = "3/8", thread = "3/8-16" or bolt = "3/8"'),
        )
    fit = table.line_text("fit", in_file('write for example fit = "H7"'))
    kind = given[0]
    if kind == "diameter":
        diameter = float(exact(table, kind, table.data[kind], LENGTH))
        if fit is None:
            return plain_hole(x, y, diameter, where, depth=depth, purpose=purpose)
        return fit_hole(x, y, diameter, fit, where, depth=depth, purpose=purpose)
    name = table.line_text(kind, in_file(f'write for example {kind} = "3/8"')) or ""
    if kind == "thread":
        if fit is not None:
            raise table.refuse("fit", "a tapped hole has no fit here", "leave it out", value=fit)
        return tapped_hole(x, y, name, where, depth=depth, purpose=purpose)
    return bolt_hole(
        x, y, name, clearance_fit(fit or "normal", where), where, depth=depth, purpose=purpose
    )
