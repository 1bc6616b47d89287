"""Write to each bare figure of press and tooling the unit it was meant in."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from strapwright.errors import InputError
from strapwright.quantities import Units
from strapwright.shop.keys import Key, keys_of
from strapwright.shop.members import SEVERAL, SINGLE, Members
from strapwright.shop_files.exact_text import plain
from strapwright.shop_files.known_keys import SHOP_TABLES, TABLES
from strapwright.shop_files.plates.reading_kept_plates import holes_with_units
from strapwright.shop_files.quantity_fields import KINDS, LENGTH, Kind

# Units to write, by system; the one that says the same as the bare figure is taken.
_UNITS: Mapping[Units, tuple[str, ...]] = MappingProxyType(
    {
        "inch": ("in", "psi", "ksi", "lbf", "tons (US)", "gpm", "in3"),
        "metric": ("mm", "bar", "MPa", "N", "kN", "L/min", "cm3"),
    }
)
_LENGTHS: dict[Units, str] = {"inch": "in", "metric": "mm"}
_MADE: Mapping[str, type[Any]] = MappingProxyType(
    {
        **{path: made for path, made in TABLES.items() if path.split(".")[0] in SHOP_TABLES},
        "tooling.members": Members,
        **{f"tooling.members.{name}": made for name, made in {**SINGLE, **SEVERAL}.items()},
    }
)


def with_units(tables: Mapping[str, Any], units: Units | None) -> dict[str, Any]:
    """Return press and tooling so that every figure means the same in a job of either system.

    Parameters
    ----------
    tables
        ``press`` and ``tooling`` as a file states them, finished or not; the name of a shop file
        stays, for that file states its own units.
    units
        System of bare figures in that file; ``None`` where each carries its unit already.

    Returns
    -------
    dict
        The same tables; what was typed stands there, with its unit behind it where that lacked.
    """
    return {
        name: _table(held, name, units) if units and isinstance(held, dict) else held
        for name, held in tables.items()
    }


def _table(held: Mapping[str, Any], path: str, units: Units) -> dict[str, Any]:
    keys = keys_of(_MADE[path]) if path in _MADE else {}
    return {name: _entry(value, name, path, keys, units) for name, value in held.items()}


def _entry(value: Any, name: str, path: str, keys: Mapping[str, Key], units: Units) -> Any:
    if isinstance(value, dict):
        below = {one.last: one for one in keys.values() if one.head == name and one.last != name}
        if below:
            return {
                last: _entry(one, last, f"{path}.{name}", below, units)
                for last, one in value.items()
            }
        return _table(value, f"{path}.{name}", units)
    if isinstance(value, list):
        if any(isinstance(one, dict) for one in value):
            return [_entry(one, name, path, keys, units) for one in value]
        return [_with_unit(one, LENGTH, units) for one in value]  # a box, a stretch along the nose
    if name == "holes" and isinstance(value, str):
        return holes_with_units(value, units, _LENGTHS)
    stated = keys.get(name)
    kind = None if stated is None else KINDS.get(stated.kind)
    return value if kind is None else _with_unit(value, kind, units)


def _with_unit(value: Any, kind: Kind, units: Units) -> Any:
    """Write the unit behind a figure that needs one; what is no figure is left for its reader."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return value
    try:
        meant = kind.read(value, "", units)
    except InputError:
        return value
    if _reads(value, kind) == meant:
        return value
    for unit in _UNITS[units]:
        text = f"{value} {unit}"
        if _reads(text, kind) == meant:
            return text
    # Typed in a way that takes no unit behind it, as with an exponent: in the unit inside.
    return f"{plain(float(meant))} {kind.unit}"


def _reads(value: str | float, kind: Kind) -> object:
    """Return what a figure says in a file that states no units, ``None`` where it needs one."""
    try:
        return kind.read(value, "", None)
    except InputError:
        return None
