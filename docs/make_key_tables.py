"""Write the tables of keys on the page of the job file: ``python docs/make_key_tables.py``.

What stands between ``<!-- keys of TABLE -->`` or ``<!-- kinds of quantity -->`` and the next
``<!-- end -->`` is made from the keys as the code states them; the rest is written by hand.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from strapwright.shop.keys import Key, keys_of
from strapwright.shop_files.key_help import help_of, left_out
from strapwright.shop_files.known_keys import TABLES, below
from strapwright.shop_files.quantity_fields import KINDS
from strapwright.shop_files.rates.reading_rates import RATE_LISTS, RATE_TABLES

PAGES = tuple(Path(__file__).resolve().parent / f"{name}.md" for name in ("job-file", "money"))
_ALL = {**TABLES, **RATE_TABLES, **RATE_LISTS}
_HEAD = r"<!-- (?:keys of (?P<table>[a-z_.]+)|kinds of quantity) -->\n"
_PART = re.compile(f"(?P<head>{_HEAD}).*?(?P<end><!-- end -->)", re.DOTALL)
_QUOTED = re.compile(r'"([^"]+)"')
_WRITTEN = {
    "per minute": "plain number",
    "flag": "true or false",
    "choice": "one of these words",
    "steel": "a steel of the catalog",
    "list": "tables",
    "own": "",
}


def main() -> int:
    """Write the tables into their pages."""
    for page in PAGES:
        page.write_text(fresh(page.read_text(encoding="utf-8")), encoding="utf-8")
    return 0


def fresh(page: str) -> str:
    """Return a page with its tables of keys as the code states them now."""
    return _PART.sub(
        lambda found: (
            found["head"]
            + (key_table(found["table"]) if found["table"] else kind_table())
            + found["end"]
        ),
        page,
    )


def key_table(table: str) -> str:
    """Return the keys of a table of the job file, a row each."""
    made = _ALL[table]
    rows = [_row(key, made) for key in keys_of(made).values() if key.last == key.name]
    head = ["| key | written as | meaning | if left out |", "|---|---|---|---|"]
    return "\n".join([*head, *rows, ""])


def kind_table() -> str:
    """Return the kinds of quantity with the range that is taken, a row each."""
    rows = []
    for name, kind in KINDS.items():
        if name not in _WRITTEN:
            also = ", or its negative, or 0" if name.startswith("signed") else ""
            rows.append(f"| {name} | {kind.span}{also} |")
    return "\n".join(["| written as | taken |", "|---|---|", *rows, ""])


def _row(key: Key, made: type[Any]) -> str:
    told = help_of(key)
    if key.instead_of:
        told = f"in place of `{key.instead_of}`, {told}"
    elif key.only_with is not None and not key.only_with[1].startswith("["):
        told = f"with {key.only_with[0]} `{key.only_with[1]}`: {told}"
    parts = [
        f"`{one.last}` ({', '.join(filter(None, (help_of(one), _written(one))))})"
        for one in below(made, key.name)
    ]
    if parts:
        told = f"{told}: {', '.join(parts)}"
    needed = key.needed and not key.instead_of
    meant = "needed" if needed else key.lacking or left_out(key)
    return f"| `{key.name}` | {_written(key)} | {_coded(told)} | {_coded(meant)} |"


def _written(key: Key) -> str:
    if key.kind == "count":
        return f"whole number up to {key.most}"
    also = " or 0" if key.zero else ""
    return f"{_WRITTEN.get(key.kind, key.kind)}{also}"


def _coded(text: str) -> str:
    return _QUOTED.sub(r"`\1`", text)


if __name__ == "__main__":
    main()
