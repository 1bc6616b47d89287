"""The fields of the rates: one for each key, and one more entry of each list than there are."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from strapwright.pages.fields.form_fields import Field, Kind
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.keys import Key, keys_of
from strapwright.shop_files.rates.reading_rates import RATE_LISTS, RATE_TABLES

_KINDS: Mapping[str, Kind] = {
    "length": "length", "text": "text", "own": "text", "share": "share", "area rate": "area rate",
}  # fmt: skip
_SAWN = {"inch": "in²/min", "metric": "mm²/min"}
_LISTED = {"price": "Price of metal", "outside": "Outside service"}
_LABELS = {
    "price.price": "Price",
    "price.by": "of one",
    "price.material": "Metal",
    "price.bar": "Bar",
    "outside.name": "Name",
    "outside.part": "Price of one part",
    "outside.lot": "Price of a lot",
}


def rate_fields(raw: Mapping[str, Any]) -> tuple[Field, ...]:
    """Return the fields of a file of rates.

    Parameters
    ----------
    raw
        The file, parsed.
    """
    found = [
        _field(f"{table}.{key.name}", key, key.label, key.group)
        for table, made in RATE_TABLES.items()
        for key in keys_of(made).values()
    ]
    for name, made in RATE_LISTS.items():
        entries = raw.get(name)
        count = len(entries) if isinstance(entries, list) else 0
        for number in range(1, count + 2):
            group = _LISTED[name] if number == 1 else f"{_LISTED[name]} {number}"
            found += [
                _field(f"{name}[{number}].{key.name}", key, _LABELS[f"{name}.{key.name}"], group)
                for key in keys_of(made).values()
            ]
    return tuple(found)


def sawn_text(rate: float, units: Units) -> str:
    """Say an area sawn in a minute [mm2] with its unit: ``0.93 in²/min``, ``600 mm²/min``."""
    inches = rate / INCH_MM**2
    number = f"{inches:.2g}" if inches < 1 else f"{inches:.3g}"
    return f"{number if units == 'inch' else f'{rate:g}'} {_SAWN[units]}"


def sawn_with_unit(text: str, units: Units) -> str:
    """Give an area sawn in a minute that was typed as a bare number the unit of its file."""
    bare = text.strip()
    return f"{bare} {_SAWN[units]}" if bare.replace(".", "", 1).isdecimal() else bare


def _field(name: str, key: Key, label: str, group: str) -> Field:
    blank = (("", "not entered"),) if key.options and key.needed else ()
    inch, metric = key.inch, key.metric
    if key.kind == "area rate":
        usual = float(key.default or 0.0)
        inch, metric = sawn_text(usual, "inch"), sawn_text(usual, "metric")
    return Field(
        name=name,
        label=label,
        kind=_KINDS.get(key.kind, "count"),
        inch=inch,
        metric=metric,
        choices=(*blank, *((one, one) for one in key.options)),
        hint=key.hint if key.hint is not None else "",
        group=group,
    )
