"""The table of metals, read once from the package."""

from __future__ import annotations

import functools
import tomllib
from collections.abc import Mapping
from importlib import resources
from types import MappingProxyType
from typing import Any

from strapwright.catalog.materials import Known, Material, Note, nearest_names, plain
from strapwright.catalog.smallest_radii import textbook_multiple
from strapwright.catalog.sources import in_words
from strapwright.errors import InputError

_SINGLE = ("modulus", "poisson", "density", "elongation")
_OPTIONAL = ("yield_minimum", "tensile_minimum", "anneal")
_WITH_SPREAD = (
    ("yield_typical", "yield_spread"),
    ("tensile_typical", "tensile_spread"),
    ("exponent", "exponent_spread"),
    ("unloading_ratio", "unloading_spread"),
)
_PLATEAU = ("plateau", "plateau_spread")


@functools.cache
def materials() -> tuple[Material, ...]:
    """Return every metal of the catalog, in the order of the table."""
    text = resources.files("strapwright.catalog").joinpath("data/materials.toml").read_text("utf-8")
    table = tomllib.loads(text)
    known = {
        key: Known(source=in_words(said), grade=grade)
        for key, (said, grade) in table["sources"].items()
    }
    return tuple(
        _material({**table["family"][row["family"]], **row}, known) for row in table["material"]
    )


def find_material(name: str, where: str) -> Material:
    """Return the metal of that name or alias; case and spacing do not matter.

    Parameters
    ----------
    name
        As written.
    where
        Key path, for the message.

    Raises
    ------
    InputError
        Where no metal has that name; the remedy gives the nearest names.
    """
    index = _index()
    if not isinstance(name, str):
        raise InputError(
            where,
            "the material is not a name",
            'write it in quotes, for example "A36 hot rolled"',
            value=str(name)[:60] if isinstance(name, float | bool) else type(name).__name__,
        )
    found = index.get(plain(name))
    if found is not None:
        return found
    near = nearest_names(name, index)
    if near:
        remedy = f"write {' or '.join(repr(one) for one in near)}, or 'unknown scrap'"
    else:
        remedy = "write for example 'A36 hot rolled', 'unknown mild steel' or 'unknown scrap'"
    raise InputError(where, "the catalog has no such material", remedy, value=name)


@functools.cache
def _index() -> Mapping[str, Material]:
    return {plain(key): one for one in materials() for key in (one.name, *one.aliases)}


def _material(row: Mapping[str, Any], known: Mapping[str, Known]) -> Material:
    numbers: dict[str, Any] = dict.fromkeys(_OPTIONAL)
    sources: dict[str, Known] = {}
    for key in (*_SINGLE, *(one for one in _OPTIONAL if one in row)):
        value, source = row[key]
        numbers[key], sources[key] = float(value), known[source]
    numbers.update(dict.fromkeys(_PLATEAU, 0.0))
    for key, spread_key in (*_WITH_SPREAD, *((_PLATEAU,) if "plateau" in row else ())):
        value, spread, source = row[key]
        numbers[key], numbers[spread_key] = float(value), float(spread)
        sources[key] = sources[spread_key] = known[source]
    rule, entry, source = row["radius"]
    sources["min_radius_rule"] = known[source]
    multiple = None
    if rule == "stated":
        multiple = float(entry)
    elif rule == "textbook":
        multiple = textbook_multiple(entry)
    return Material(
        name=row["name"],
        aliases=tuple(row["aliases"]),
        designation=row["designation"],
        family=row["family"],
        min_radius_rule=rule,
        min_radius_row="" if rule == "stated" else entry,
        min_radius_in_t=multiple,
        brittle=row.get("brittle", False),
        cracks=row.get("cracks", False),
        softer=row.get("softer", ""),
        drawn=row.get("drawn", False),
        unknown=row.get("unknown", False),
        notes=tuple(Note(kind=kind, text=text) for kind, text in row["notes"]),
        sources=MappingProxyType(sources),
        **numbers,
    )
