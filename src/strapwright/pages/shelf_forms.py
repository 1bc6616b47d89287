"""The forms of rack and tool crib: what stands in their fields, and the file that makes of them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, get_args

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.edited_job import Note
from strapwright.pages.fields.form_fields import Field, other_unit, stored, typed
from strapwright.pages.fields.key_fields import steel_choices
from strapwright.pages.fields.rate_fields import rate_fields, sawn_text, sawn_with_unit
from strapwright.pages.form import sentence_for
from strapwright.pages.shelves import Shelf, read_shelf
from strapwright.quantities import Units
from strapwright.shop.rack import Origin, StockKind
from strapwright.shop_files.opening import parse
from strapwright.shop_files.updating_shelf import (
    SHELF_HEADS,
    update_shelf,
    with_piece,
    without_piece,
)

_ORIGINS = {"rack": "on the rack", "off-cut": "an off-cut", "supplier": "to buy"}
_LISTS = (
    "crib.drills", "crib.reamers", "crib.taps", "crib.end_mills", "crib.hole_saws",
    "crib.radius_cutters",
)  # fmt: skip
_UNITS = Field(
    name="units",
    label="Plain numbers are in",
    choices=(("inch", "inches"), ("metric", "millimetres")),
    group="The file",
)


@frozen(kw_only=True)
class ShelfForm:
    """What a page about the rack or the crib shows.

    Attributes
    ----------
    text
        The file with what was typed.
    units
        Of its bare numbers, ``None`` where it does not say.
    fields, values, notes
        In their order; name -> text; name -> what stands beneath.
    trouble
        One sentence where something is wrong that no field carries.
    """

    text: str
    units: Units | None
    fields: tuple[Field, ...]
    values: Mapping[str, str]
    notes: Mapping[str, Note]
    trouble: str

    def group(self, name: str) -> tuple[Field, ...]:
        """Fields under one heading."""
        return tuple(field for field in self.fields if field.group == name)

    @property
    def groups(self) -> tuple[str, ...]:
        """Headings in their order."""
        return tuple(dict.fromkeys(field.group for field in self.fields))

    def wrong(self, name: str) -> bool:
        """Whether something under a heading is wrong."""
        return any(self.notes[field.name].wrong for field in self.group(name))

    def line(self, name: str) -> str:
        """One piece in a line."""
        said = {
            field.name.rpartition(".")[2]: self.values[field.name] for field in self.group(name)
        }
        if "kind" not in said:
            return ""
        long = f" x {said['length']}" if said["length"] else ""
        count = f", {said['count']} there" if said["count"] not in ("", "1") else ""
        price = f", {said['price']} each" if said["price"] not in ("", "0") else ""
        return f"{said['kind']} {said['size']}{long}, {said['material']}{count}{price}"


def shelf_form(
    shelf: Shelf, text: str, put: Mapping[str, str] | None = None, own: Units | None = None
) -> ShelfForm:
    """Open the form of the rack or the crib.

    Parameters
    ----------
    shelf
        Which.
    text
        Its file, empty where there is none.
    put
        What was typed over it.
    own
        Units of the device, in which a file that is not there yet begins.

    Raises
    ------
    InputError
        Where the file is not TOML.
    """
    if not text.strip():
        text = SHELF_HEADS[shelf].replace('"inch"', f'"{own or "inch"}"')
    if put:
        text = _laid_over(shelf, text, put)
    raw = parse(text, shelf).unwrap()
    fields = _fields(shelf, raw)
    units = _units(raw)
    values = {field.name: _as_shown(raw, field, units) for field in fields}
    notes = {field.name: _note(field, values[field.name], units) for field in fields}
    trouble = ""
    try:
        read_shelf(shelf, text)
    except InputError as error:
        field = _field_at(fields, error.where.removeprefix(f"{shelf}: "))
        if field is None:
            trouble = f"{error.problem[:1].upper()}{error.problem[1:]}."
        else:
            said = error.problem
            if error.value is not None and not values[field.name]:
                said = "this is empty"
            notes[field.name] = Note(
                other=notes[field.name].other,
                wrong=sentence_for(
                    field,
                    InputError(error.where, said, error.marked[1], value=error.value),
                    units or "",
                ),
            )
    return ShelfForm(
        text=text, units=units, fields=fields, values=values, notes=notes, trouble=trouble
    )


def _fields(shelf: Shelf, raw: Mapping[str, Any]) -> tuple[Field, ...]:
    if shelf == "crib":
        return (_UNITS, *_crib_fields())
    if shelf == "rates":
        return (*rate_fields(raw), _UNITS)
    rate = Field(
        name="hour_rate",
        label="Your hourly rate",
        kind="count",
        inch="30",
        hint="in the same money as the prices",
        group="The file",
    )
    pieces = raw.get("stock")
    count = len(pieces) if isinstance(pieces, list) else 0
    return (
        *(field for at in range(1, count + 1) for field in _stock_fields(at)),
        _UNITS,
        rate,
    )


def _stock_fields(number: int) -> tuple[Field, ...]:
    at, group = f"stock[{number}]", f"Piece {number}"
    kinds = tuple((kind, kind) for kind in get_args(StockKind))
    origins = (("", "not entered"), *((one, _ORIGINS[one]) for one in get_args(Origin)))
    return (
        Field(name=f"{at}.kind", label="Kind", choices=kinds, group=group),
        Field(
            name=f"{at}.size",
            label="Size",
            inch="1 in, 3/4 x 6 in",
            metric="25 mm, 20 x 150 mm",
            hint="diameter; thickness x width",
            group=group,
        ),
        Field(
            name=f"{at}.length",
            label="Length",
            kind="length",
            inch="20 in",
            metric="500 mm",
            group=group,
        ),
        Field(name=f"{at}.material", label="Metal", choices=steel_choices(), group=group),
        Field(name=f"{at}.count", label="How many", kind="count", inch="1", group=group),
        Field(name=f"{at}.origin", label="Where it is", choices=origins, group=group),
        Field(
            name=f"{at}.price",
            label="Price each",
            kind="count",
            inch="38",
            hint="0 for stock you already have",
            group=group,
        ),
        Field(name=f"{at}.name", label="Name", inch="shaft 1 off-cut", group=group),
    )


def _crib_fields() -> tuple[Field, ...]:
    holes, threads = "Holes", "Threads and bores"
    runs = "fractional 1/16 to 1/2 by 1/64, letter A to Z"
    rows = (
        ("crib.drills", "Drills", "text", runs, "metric 1 to 13 by 0.5", "", holes),
        ("crib.reamers", "Reamers", "text", "1/2, 3/4, 1", "12, 20, 25", "", holes),
        ("crib.end_mills", "End mills", "text", "1/4, 1/2", "6, 12", "", holes),
        ("crib.hole_saws", "Hole saws", "text", "1-1/2, 2", "38, 51", "", holes),
        (
            "crib.radius_cutters", "Corner-rounding cutters, by radius", "text", "1/4, 3/8",
            "6, 10", "", holes,
        ),
        ("crib.taps", "Taps", "text", "1/4-20, 3/8-16", "M8, M10", "", threads),
        (
            "crib.boring_bar.smallest_bore", "Smallest hole the boring bar fits", "length",
            "1/2 in", "12 mm", "", threads,
        ),
        ("crib.boring_bar.reach", "Boring bar reach", "length", "2 in", "50 mm", "", threads),
        ("crib.saw[1].name", "Saw", "text", "band saw", "", "", "Saw"),
        ("crib.saw[1].kerf", "Kerf", "length", "0.035 in", "0.9 mm", "", "Saw"),
    )  # fmt: skip
    return tuple(
        Field(
            name=name,
            label=label,
            kind="length" if kind == "length" else "text",
            inch=inch,
            metric=metric,
            hint=hint,
            group=group,
        )
        for name, label, kind, inch, metric, hint, group in rows
    )


def _laid_over(shelf: Shelf, text: str, put: Mapping[str, str]) -> str:
    raw = parse(text, shelf).unwrap()
    changes: dict[str, object] = {}
    # The last entry of a list first: where one goes, those before it keep their numbers.
    fields = _fields(shelf, raw)
    for field in fields[::-1] if shelf == "rates" else fields:
        there = _as_shown(raw, field, _units(raw)).strip()
        if field.name in put and put[field.name].strip() != there:
            said = put[field.name]
            if field.kind == "area rate":
                said = sawn_with_unit(said, _units(put) or _units(raw) or "inch")
            value = stored(field, said)
            if field.name in _LISTS:
                value = [one.strip() for one in said.split(",") if one.strip()] or None
            changes[field.name] = value
    return update_shelf(text, shelf, changes)


def _units(raw: Mapping[str, Any]) -> Units | None:
    return raw["units"] if raw.get("units") in get_args(Units) else None


def _as_shown(raw: Mapping[str, Any], field: Field, units: Units | None) -> str:
    """Return what stands in a field: as it is in the file, with a unit where it needs one."""
    said = _shown(raw, field.name)
    if field.kind == "area rate" and said.replace(".", "", 1).isdecimal():
        return sawn_text(float(said), units or "inch")
    return said


def _shown(raw: Mapping[str, Any], path: str) -> str:
    found: Any = raw
    for step in path.split("."):
        key, _, number = step.partition("[")
        found = found.get(key) if isinstance(found, Mapping) else None
        if number:
            at = int(number.removesuffix("]")) - 1
            found = found[at] if isinstance(found, list) and at < len(found) else None
    if isinstance(found, list):
        return ", ".join(typed(one) for one in found)
    return "" if isinstance(found, dict) else typed(found)


def _note(field: Field, text: str, units: Units | None) -> Note:
    try:
        if field.name.endswith(".size"):
            alone = Field(name=field.name, label="", kind="length")
            sides = [other_unit(alone, side, units) for side in text.split("x") if side.strip()]
            return Note(other=" x ".join(sides), wrong="")
        return Note(other=other_unit(field, text, units), wrong="")
    except InputError as error:
        # A thickness may leave its unit to the width behind it; reading the file tells.
        wrong = "" if field.name.endswith(".size") else sentence_for(field, error, units or "")
        return Note(other="", wrong=wrong)


def _field_at(fields: tuple[Field, ...], where: str) -> Field | None:
    names = {field.name: field for field in fields}
    while where:
        for name in (
            where,
            re.sub(r"\[\d+\]$", "", where),
            f"{where}.size",
            f"{where}.smallest_bore",
        ):
            if name in names:
                return names[name]
        where = where.rpartition(".")[0]
    return None


__all__ = ["ShelfForm", "shelf_form", "with_piece", "without_piece"]
