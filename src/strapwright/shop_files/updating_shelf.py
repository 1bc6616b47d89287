"""Change values in the file of a rack or a tool crib and keep its comments and layout."""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableMapping
from typing import Any

import tomlkit

from strapwright.errors import InputError
from strapwright.shop_files.opening import parse
from strapwright.shop_files.reading_rack import MOST_PIECES

_HEAD = 'format = 1\nunits = "inch"\n'
SHELF_HEADS = {"rack": _HEAD, "crib": f"{_HEAD}\n[crib]\n", "rates": _HEAD}
# Where nothing is left in such an entry it would lack what it needs.
_BARE = re.compile(r"boring_bar|(saw|price|outside)\[\d+\]")
_STEP = re.compile(r"(\w+)(?:\[(\d+)\])?")


def update_shelf(text: str, name: str, changes: Mapping[str, object]) -> str:
    """Change values in the file of a rack or a crib; everything else stays as it was typed.

    Parameters
    ----------
    text
        The file.
    name
        By which a message calls it.
    changes
        Key path -> new value; ``None`` takes the key out.  Numbers count from 1, and one after
        the last appends an entry.

    Raises
    ------
    InputError
        Where the file is not TOML.
    """
    document = parse(text, name)
    for path, value in changes.items():
        _set(document, path, value)
    return tomlkit.dumps(document)


def with_piece(text: str) -> str:
    """Return a rack's file with one more piece, like the last one.

    Raises
    ------
    InputError
        Where it is full.
    """
    document = parse(text if text.strip() else SHELF_HEADS["rack"], "rack")
    pieces = document.get("stock")
    count = len(pieces) if isinstance(pieces, list) else 0
    if count >= MOST_PIECES:
        raise InputError("stock", f"there are {count} entries already", "take one out first")
    if not count:
        document["stock"] = tomlkit.aot()
    made = tomlkit.table()
    last = document["stock"][-1] if count else {}
    metric = document.get("units") == "metric"
    made["kind"] = str(last.get("kind", "shaft"))
    made["size"] = str(last.get("size", "25" if metric else "1"))
    made["length"] = str(last.get("length", "500" if metric else "20"))
    made["material"] = str(last.get("material", "unknown steel"))
    document["stock"].append(made)
    return tomlkit.dumps(document)


def without_piece(text: str, number: int) -> str:
    """Return a rack's file without one piece; as it was where there is no such one."""
    document = parse(text, "rack")
    pieces = document.get("stock")
    if isinstance(pieces, list) and 1 <= number <= len(pieces):
        del pieces[number - 1]
        if not pieces:  # used up, and still a rack
            del document["stock"]
            document["stock"] = tomlkit.array()
    return tomlkit.dumps(document)


def _set(document: MutableMapping[str, Any], path: str, value: object) -> None:
    *way, last = path.split(".")
    holder: Any = document
    for step in way:
        found = _STEP.fullmatch(step)
        if found is None:
            return
        key, number = found[1], found[2]
        if key not in holder or (number and not holder[key]):
            if value is None:
                return
            holder.pop(key, None)  # an empty list takes no tables
            holder[key] = tomlkit.aot() if number else tomlkit.table()
        holder = holder[key]
        if number:
            at = int(number) - 1
            while at >= len(holder):
                holder.append(tomlkit.table())
            holder = holder[at]
    if value is not None:
        holder[last] = value
    elif last in holder:
        del holder[last]
        parent = way[-1] if way else ""
        if not holder and _BARE.fullmatch(parent):
            _drop(document, way)


def _drop(document: MutableMapping[str, Any], way: list[str]) -> None:
    holder: Any = document
    for step in way[:-1]:
        holder = holder[step]
    key, _, number = way[-1].partition("[")
    if number and len(holder[key]) > 1:
        del holder[key][int(number.removesuffix("]")) - 1]
    else:
        del holder[key]
