"""Read the file of a rack."""

from __future__ import annotations

from typing import cast, get_args

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError, in_file
from strapwright.shop.members import UNKNOWN_STEEL
from strapwright.shop.rack import HOUR_RATE, Origin, Rack, Stock, StockKind
from strapwright.shop_files.opening import open_shop_file
from strapwright.shop_files.quantity_fields import LENGTH, Kind, exact, needed, quantity, raw
from strapwright.shop_files.quantity_fields import PER_MINUTE as _PLAIN
from strapwright.shop_files.reading_values import MOST
from strapwright.shop_files.toml_table import Table

KEYS = ("name", "kind", "size", "length", "count", "material", "price", "origin")
_BEGIN = in_file("begin each piece with a line [[stock]] and write kind, size and length")
_MONEY = Kind(read=_PLAIN.read, low=_PLAIN.low / 10, high=_PLAIN.high * 1000, unit="")
MOST_PIECES = 200  # of entries; more cannot be searched at the bench


def read_rack(text: str, file: str = "rack file") -> Rack:
    """Read a rack.

    Parameters
    ----------
    text
        The file.
    file
        Its name, for messages.

    Raises
    ------
    InputError
        At the first thing that cannot be used, or where no list of pieces is begun; a rack that
        was used up says ``stock = []``.
    """
    head = open_shop_file(text, file, ("stock", "hour_rate"))
    pieces = head.children("stock")
    if "stock" not in head.data:
        raise head.refuse("stock", "nothing lies on the rack", _BEGIN)
    if len(pieces) > MOST_PIECES:
        raise head.refuse("stock", f"there are more than {MOST_PIECES} entries", "give fewer")
    rate = quantity(head, "hour_rate", _MONEY, zero=True)
    return Rack(
        stock=tuple(_stock(one) for one in pieces),
        hour_rate=HOUR_RATE if rate is None else rate,
    )


def _stock(table: Table) -> Stock:
    table.refuse_unknown(KEYS)
    table.need("kind", in_file('write kind = "shaft", "flat" or "plate"'))
    kind = cast("StockKind", table.choice("kind", get_args(StockKind), "shaft"))
    thickness, width = _size(table, kind)
    material = table.line_text("material", in_file('write for example material = "A36"'))
    price = quantity(table, "price", _MONEY, zero=True) or 0.0
    origin: Origin = table.choice("origin", get_args(Origin), "supplier" if price else "rack")
    if origin == "supplier" and "price" not in table.data:
        raise table.refuse(
            "price", "a supplier's piece has no price", in_file("write for example price = 25")
        )
    return Stock(
        name=table.line_text("name", "write its name in quotes") or f"{kind} {table.data['size']}",
        kind=kind,
        thickness=thickness,
        width=width,
        length=needed(table, "length", LENGTH, "24 in"),
        count=table.whole("count", 1, MOST) or 1,
        material=UNKNOWN_STEEL if material is None else _steel(table, material),
        price=price,
        origin=origin,
    )


def _steel(table: Table, name: str) -> str:
    try:
        return find_steel(name, table.where(table.at("material"))).name
    except InputError as error:
        raise table.placed(error, "material") from None


def _size(table: Table, kind: StockKind) -> tuple[float, float]:
    """Thickness and width of what was written as ``1`` or ``3/4 x 6`` [mm]."""
    example = 'size = "1 in"' if kind == "shaft" else 'size = "3/4 in x 6 in"'
    said = table.need("size", f"write for example {example}")
    sides = str(said).split("x") if isinstance(said, str) else [said]
    if len(sides) != (1 if kind == "shaft" else 2):
        raise table.refuse(
            "size",
            f"a {kind} has {'one diameter' if kind == 'shaft' else 'a thickness and a width'}",
            f"write for example {example}",
            value=said,
        )
    if kind == "shaft":
        diameter = float(exact(table, "size", sides[0], LENGTH, name="diameter"))
        return diameter, diameter
    # A unit at the end counts for both, as for a flat bar.
    first, last = str(sides[0]).strip(), str(sides[1]).strip()
    unit = "".join(c for c in last.lstrip("0123456789 -/.") if c.isalpha() or c in "\"'")
    if table.units is None and unit and not any(c.isalpha() or c in "\"'" for c in first):
        first = f"{first} {unit}"
    thickness = exact(table, "size", first, LENGTH, name="thickness")
    width = exact(table, "size", last, LENGTH, name="width")
    if raw(table, "size", last, LENGTH) < thickness:
        thickness, width = width, thickness
    return float(thickness), float(width)
