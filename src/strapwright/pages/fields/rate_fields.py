"""The fields of the rates: one for each key, and one more entry of each list than there are."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from strapwright.pages.fields.form_fields import Field, Kind
from strapwright.shop.keys import Key, keys_of
from strapwright.shop_files.rates.reading_rates import RATE_LISTS, RATE_TABLES

_KINDS: Mapping[str, Kind] = {"length": "length", "text": "text", "own": "text", "share": "share"}
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


def _field(name: str, key: Key, label: str, group: str) -> Field:
    blank = (("", "not entered"),) if key.options and key.needed else ()
    return Field(
        name=name,
        label=label,
        kind=_KINDS.get(key.kind, "count"),
        inch=key.inch,
        metric=key.metric,
        choices=(*blank, *((one, one) for one in key.options)),
        hint=key.hint if key.hint is not None else "",
        group=group,
    )
