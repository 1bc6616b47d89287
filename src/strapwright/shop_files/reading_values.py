"""Read a table into a value whose keys stand beside its attributes, and write it back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Any, TypeVar

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError, in_file
from strapwright.quantities import Units
from strapwright.shop.keys import Key, keys_of, stated_by
from strapwright.shop_files.exact_text import (
    degrees_text,
    flow_text,
    force_text,
    length_text,
    pressure_text,
    strength_text,
)
from strapwright.shop_files.known_keys import one_of
from strapwright.shop_files.quantity_fields import KINDS, exact, signed
from strapwright.shop_files.toml_table import Table

Made = TypeVar("Made")
Plain = dict[str, Any]

_TEXTS: Mapping[str, Callable[[float, Units], str]] = MappingProxyType(
    {
        "length": length_text,
        "signed length": length_text,
        "force": force_text,
        "pressure": pressure_text,
        "strength": strength_text,
        "flow": flow_text,
        "angle": lambda value, _units: degrees_text(value),
    }
)
MOST = 100  # of bolts, guide rods, pieces; common practice, no source
_BARE = ("per minute", "minutes", "hours", "area rate", "money", "count")  # written without quotes


def read_value(table: Table, made: type[Made], **own: Any) -> Made:
    """Read a table into a value.

    Parameters
    ----------
    table
        The table; a key that is no key of the value is refused.
    made
        Class of the value.
    **own
        Attributes that a reader of their own has made.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    return made(**read_plain(table, made), **own)


def read_plain(table: Table, made: type[Any]) -> Plain:
    """Read those attributes of a value that no reader of their own makes.

    Parameters
    ----------
    table, made
        As for :func:`read_value`.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    refuse_unknown(table, made)
    return {one.attribute: _read(table, one.written) for one in stated_by(made) if not one.own}


def refuse_unknown(table: Table, made: type[Any]) -> None:
    """Refuse what is no key of a value, in its table and in those below that belong to it.

    Parameters
    ----------
    table, made
        As for :func:`read_value`.

    Raises
    ------
    InputError
        With the nearest known key.
    """
    keys = keys_of(made).values()
    table.refuse_unknown(dict.fromkeys(key.head for key in keys))
    for head in dict.fromkeys(key.head for key in keys if key.last != key.name):
        below = table.child(head)
        if below is not None:
            below.refuse_unknown(
                [key.last for key in keys if key.head == head and key.last != key.name]
            )


def exact_value(table: Table, key: Key, *, name: str = "") -> Fraction | None:
    """Return the quantity under a key exactly, or ``None`` where it may be missing and is.

    Parameters
    ----------
    table
        The table of the value that the key belongs to.
    key
        Of a quantity.
    name
        What it is called in a message; the key where not given.

    Raises
    ------
    InputError
        Where it is missing though needed, is no such quantity, or out of range.
    """
    holder = _holder(table, key)
    if holder is None or (not key.needed and key.last not in holder.data):
        return None
    value = holder.need(key.last, asked(key))
    return exact(holder, key.last, value, KINDS[key.kind], zero=key.zero, name=name)


def asked(key: Key) -> str:
    """Return what to write under a key that is missing, marked as words of the file."""
    if key.kind == "choice":
        return in_file(f"write {key.last} = {one_of(key.options)}")
    example = key.inch or "A36"
    written = example if key.kind in _BARE else f'"{example}"'
    return in_file(f"write for example {key.last} = {written}")


def _holder(table: Table, key: Key) -> Table | None:
    return table if key.last == key.name else table.child(key.head)


def _read(table: Table, key: Key) -> object:
    holder = _holder(table, key)
    found = None if holder is None else _found(table, holder, key)
    return key.default if found is None else found


def _found(table: Table, holder: Table, key: Key) -> object:
    if key.kind == "signed length":
        value = holder.data.get(key.last)
        return None if value is None else signed(holder, key.last, value)
    if key.kind in KINDS:
        found = exact_value(table, key)
        return None if found is None else float(found)
    if key.needed:
        holder.need(key.last, asked(key))
    if key.kind == "choice":
        return holder.choice(key.last, key.options, None)
    if key.kind == "flag":
        return holder.flag(key.last)
    if key.kind == "count":
        return holder.whole(key.last, 1, key.most)
    example = key.inch or ("A36" if key.kind == "steel" else "1/2-13")
    text = holder.line_text(key.last, in_file(f'{key.ask}, for example {key.last} = "{example}"'))
    return _steel(holder, key.last, text) if key.kind == "steel" and text is not None else text


def _steel(table: Table, key: str, text: str) -> str:
    """Hold the name of a steel to the catalog."""
    try:
        return find_steel(text, table.where(table.at(key))).name
    except InputError as error:
        raise table.placed(error, key) from None


def value_to_plain(value: object, units: Units, **own: Any) -> Plain:
    """Return a value as a file writes it; what is not stated is left out.

    Parameters
    ----------
    value
        Whose keys stand beside its attributes.
    units
        Unit system to write in.
    **own
        Key -> how it is written, where a writer of its own says so; ``None`` leaves it out.
    """
    written: Plain = {}
    for one in stated_by(type(value)):
        for head in dict.fromkeys(key.head for key in one.keys):
            if head in own:
                if own[head] is not None:
                    written[head] = own[head]
            elif head == one.written.head and one.written.kind not in ("table", "list", "own"):
                _put(written, one.written, getattr(value, one.attribute), units)
    for key in keys_of(type(value)).values():
        # A table below that lacks what it needs could not be read again.
        if key.needed and key.head in written and key.head not in own:
            held = written[key.head]
            if isinstance(held, dict) and key.last not in held:
                del written[key.head]
    return written


def _put(written: Plain, key: Key, held: Any, units: Units) -> None:
    if held is None:
        return
    holder = written if key.last == key.name else written.setdefault(key.head, {})
    text = _TEXTS.get(key.kind)
    holder[key.last] = held if text is None else text(held, units)
