"""Read a table into a value whose fields say how they are read, and write it back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, TypeVar, cast

from attrs import NOTHING, Attribute, fields

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError, in_file
from strapwright.quantities import Units
from strapwright.shop_files.exact_text import force_text, length_text, pressure_text, strength_text
from strapwright.shop_files.quantity_fields import (
    FORCE,
    FRICTION,
    LENGTH,
    PRESSURE,
    STRENGTH,
    Kind,
    needed,
    quantity,
)
from strapwright.shop_files.toml_table import Table

Made = TypeVar("Made")

_KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "length": LENGTH,
        "force": FORCE,
        "pressure": PRESSURE,
        "strength": STRENGTH,
        "friction": FRICTION,
    }
)
_TEXTS: Mapping[str, Callable[[float, Units], str]] = MappingProxyType(
    {
        "length": length_text,
        "force": force_text,
        "pressure": pressure_text,
        "strength": strength_text,
    }
)
MOST = 100  # of bolts, guide rods, pieces; common practice, no source
_EXAMPLES: Mapping[str, str] = MappingProxyType({"length": "1/2 in", "text": "1/2-13"})


def read_value(table: Table, made: type[Made]) -> Made:
    """Read a table into a value.

    Parameters
    ----------
    table
        The table; a key that is no field is refused.
    made
        Class of the value; its fields carry ``kind`` in their metadata.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    known = fields(cast("Any", made))
    table.refuse_unknown(tuple(one.name for one in known))
    return made(**{one.name: _read(table, one) for one in known})


def _read(table: Table, one: Attribute[Any]) -> object:
    kind: str = one.metadata["kind"]
    key = one.name
    must = kind.startswith("needed ")
    kind = kind.removeprefix("needed ")
    default = None if one.default is NOTHING else one.default
    if kind == "choice":
        options: tuple[str, ...] = one.metadata["options"]
        if must:
            table.need(key, f"write one of {', '.join(options)}")
        return table.choice(key, options, default)
    found: object
    if kind in _KINDS:
        if must:
            return needed(table, key, _KINDS[kind], _EXAMPLES[kind])
        found = quantity(table, key, _KINDS[kind])
    elif kind == "flag":
        found = table.flag(key)
    elif kind == "count":
        found = table.whole(key, 1, MOST)
    else:
        example = _EXAMPLES["text"] if kind == "text" else "A36"
        if must:
            table.need(key, in_file(f'write for example {key} = "{example}"'))
        text = table.line_text(key, in_file(f'write it in quotes, for example {key} = "{example}"'))
        found = _steel(table, key, text) if kind == "steel" and text is not None else text
    return default if found is None else found


def _steel(table: Table, key: str, text: str) -> str:
    """Hold the name of a steel to the catalog."""
    try:
        return find_steel(text, table.where(table.at(key))).name
    except InputError as error:
        raise table.placed(error, key) from None


def value_to_plain(value: object, units: Units) -> dict[str, str | int | float | bool]:
    """Return the fields of such a value as a file writes them; what is not stated is left out.

    Parameters
    ----------
    value
        As made by :func:`read_value`.
    units
        Unit system to write in.
    """
    written: dict[str, str | int | float | bool] = {}
    for one in fields(cast("Any", type(value))):
        held = getattr(value, one.name)
        if held is None:
            continue
        text = _TEXTS.get(one.metadata["kind"].removeprefix("needed "))
        written[one.name] = held if text is None else text(held, units)
    return written
