"""A field of a page for a key of the job file, made of what the key says of itself."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from strapwright.catalog.steels import steels
from strapwright.pages.fields.form_fields import Field, Kind
from strapwright.shop.keys import Key, KindName, keys_of
from strapwright.shop.members import UNKNOWN_STEEL
from strapwright.shop_files.key_help import help_of

NOT_STATED = "not entered"
_YES, _NO = ("yes", "yes"), ("no", "no")
_KINDS: Mapping[KindName, Kind] = {
    "length": "length",
    "signed length": "length",
    "angle": "angle",
    "pressure": "pressure",
    "strength": "strength",
    "force": "force",
    "flow": "flow",
    "volume": "volume",
    "share": "share",
    "friction": "share",
    "exponent": "share",
    "per minute": "count",
    "count": "count",
}
Raw = Mapping[str, Any]


def key_field(key: Key, path: str, group: str, *, needed: bool = False) -> Field:
    """Return the field of a key.

    Parameters
    ----------
    key
        Of a value of the shop.
    path
        Key path of its table.
    group
        Heading it stands under.
    needed
        Whether the page asks for it though a file may leave it out.
    """
    label = key.label or key.last.replace("_", " ").capitalize()
    choices = _choices(key)
    hint = key.hint if key.hint is not None else "" if choices else help_of(key)
    return Field(
        name=f"{path}.{key.name}",
        label=label,
        kind=_KINDS.get(key.kind, "text"),
        inch=key.inch,
        metric=key.metric,
        choices=choices,
        hint=hint,
        needed=(key.needed and "." not in key.name) or needed,
        later=key.later,
        group=group,
    )


def fields_under(
    headings: Mapping[str, str], tables: Mapping[str, type[Any]], raw: Raw
) -> tuple[Field, ...]:
    """Return the fields that stand under some headings.

    Parameters
    ----------
    headings
        Group of a key -> heading, in the order of the page.
    tables
        Key path of a table -> the value it makes.
    raw
        The job file's plain values: of two keys that say the same the one stated there is shown.
    """
    found = []
    for path, made in tables.items():
        stated = _table(raw, path)
        instead = {key.instead_of for key in keys_of(made).values() if key.name in stated}
        for key in keys_of(made).values():
            shown = key.name in stated if key.instead_of else key.name not in instead
            if key.group in headings and shown:
                found.append((list(headings).index(key.group), key.place, path, key))
    found.sort(key=lambda one: one[:2])
    return tuple(key_field(key, path, headings[key.group]) for _, _, path, key in found)


def labels_of(tables: Mapping[str, type[Any]]) -> dict[str, str]:
    """Return the label of every key that a page asks for, by its key path."""
    return {
        f"{path}.{key.name}": key_field(key, path, "").label
        for path, made in tables.items()
        for key in keys_of(made).values()
        if key.group
    }


def _table(raw: Raw, path: str) -> Raw:
    found: Any = raw
    for step in path.split("."):
        key, _, number = step.partition("[")
        found = found.get(key) if isinstance(found, Mapping) else None
        if number:
            at = int(number.removesuffix("]")) - 1
            found = found[at] if isinstance(found, list) and at < len(found) else None
    return found if isinstance(found, Mapping) else {}


@cache
def steel_choices() -> tuple[tuple[str, str], ...]:
    """Names of the steels, the one nothing is known of first."""
    names = (UNKNOWN_STEEL, *(one.name for one in steels() if one.name != UNKNOWN_STEEL))
    return tuple((name, name) for name in names)


def _choices(key: Key) -> tuple[tuple[str, str], ...]:
    none = (("", key.blank),) if key.blank else ()
    if key.kind == "steel":
        return (*none, *steel_choices())
    if key.kind == "choice":
        return (*none, *((one, key.words.get(one, one)) for one in key.options))
    if key.kind != "flag":
        return ()
    if key.default is None:
        return (("", key.blank or NOT_STATED), _YES, _NO)
    return (_YES, _NO) if key.default else (_NO, _YES)
