"""Change values in a job file and keep its comments and layout."""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableMapping, MutableSequence
from typing import Any, cast

import tomlkit
from tomlkit.items import AoT, Array

from strapwright.errors import InputError, in_file
from strapwright.shop.members import MEMBER_KEYS
from strapwright.shop_files.known_keys import INLINE, KNOWN, LISTS, TABLES, nearest
from strapwright.shop_files.opening import parse

_STEP = re.compile(r"(?P<key>[a-z_][a-z_0-9]*)(?:\[(?P<number>[1-9][0-9]{0,3})\])?")


def update_job(text: str, changes: Mapping[str, object]) -> str:
    """Change values in a job file; everything else stays as it was typed.

    Parameters
    ----------
    text
        The file.
    changes
        Key path -> new value; ``None`` takes the key out.  Numbers count from 1, as in messages:
        ``part.quantity``, ``part.shape[2]``, ``part.hole[1].diameter``.  The number after the last
        appends a hole or an entry.  The values are not judged here: ``read_job`` does that.

    Returns
    -------
    str
        The changed file.

    Raises
    ------
    InputError
        Where the file is not TOML, a path is not one of a job file, or the thing changed lies in a
        shop file.
    """
    document = parse(text)
    for path, value in changes.items():
        steps = _steps(path)
        holder = _walk(document, steps[:-1], path)
        _put(holder, *steps[-1], value, path)
    emptied = {path.rpartition(".")[0] for path, value in changes.items() if value is None}
    for table in sorted(emptied, key=lambda one: one.count("."), reverse=True):
        _drop_emptied(document, table.split("."))
    return tomlkit.dumps(document)


def tables_text(tables: Mapping[str, object]) -> str:
    """Return tables as the text of a file, in their order."""
    return tomlkit.dumps(tables)


def _steps(path: str) -> list[tuple[str, int | None]]:
    """Split a key path and hold it to the known keys."""
    steps: list[tuple[str, int | None]] = []
    table = ""
    for one in path.split("."):
        step = _STEP.fullmatch(one)
        alike = _alike(table)
        known = KNOWN.get(alike) or MEMBER_KEYS.get(alike, ())
        if step is None or step["key"] not in known:
            near = nearest(one, known)
            remedy = f'did you mean "{near}"?' if near else f"known here: {', '.join(known)}"
            raise InputError(path[:80], "this is not a key of a job file", remedy)
        steps.append((step["key"], int(step["number"]) if step["number"] else None))
        table = f"{table}.{step['key']}" if table else step["key"]
    return steps


def _drop_emptied(document: MutableMapping[str, Any], steps: list[str]) -> None:
    """Take out a table that belongs to a value, as ``press.give``, and has no key any more."""
    name = re.sub(r"\[\d+\]", "", ".".join(steps))
    above: Any = document
    for step in steps[:-1]:
        key, _, number = step.partition("[")
        above = above.get(key) if isinstance(above, MutableMapping) else None
        if number:
            at = int(number.removesuffix("]")) - 1
            above = above[at] if isinstance(above, MutableSequence) and at < len(above) else None
    own = name in KNOWN and name not in TABLES
    whole = own or name.startswith("part.other_tooling.")
    if whole and isinstance(above, MutableMapping) and above.get(steps[-1]) == {}:
        del above[steps[-1]]


def _alike(table: str) -> str:
    """Name the table whose keys this one has: other tooling has nose and shoulders as any."""
    return re.sub(r"^part\.other_tooling\.(?=nose|shoulders)", "tooling.", table)


def _walk(
    document: MutableMapping[str, Any], steps: list[tuple[str, int | None]], path: str
) -> MutableMapping[str, Any]:
    """Go to the table that holds the last key, making what is missing on the way."""
    holder = document
    name = ""
    for key, number in steps:
        name = f"{name}.{key}" if name else key
        if key not in holder:
            holder[key] = _new(name)
        below = holder[key]
        if number is not None:
            below = _entry(below, number, path)
        if isinstance(below, str):
            raise InputError(
                path,
                f"the job takes its {key} from a shop file",
                in_file(f"change it in {below}, or write [{key}] into the job"),
                value=below,
            )
        if not isinstance(below, MutableMapping):
            raise InputError(path, f"{name} is not a table", "correct the job file first")
        holder = below
    return holder


def _new(name: str) -> object:
    if name in LISTS:
        return tomlkit.aot()
    return tomlkit.inline_table() if _alike(name) in INLINE else tomlkit.table()


def _entry(among: object, number: int, path: str) -> object:
    """Return the numbered table of an array, or a new one behind the last."""
    if not isinstance(among, MutableSequence):
        raise InputError(path, "this is not a list of tables", "leave the number out")
    if number > len(among) + 1:
        raise InputError(path, f"there are only {len(among)}", "count from 1")
    if number == len(among) + 1:
        among.append(tomlkit.table() if isinstance(among, AoT) else tomlkit.inline_table())
    return among[number - 1]


def _put(
    holder: MutableMapping[str, Any], key: str, number: int | None, value: object, path: str
) -> None:
    if number is not None:
        _put_in_list(holder, key, number, value, path)
    elif value is None:
        if key in holder:
            del holder[key]
    elif isinstance(value, list | tuple) and _same_length(holder.get(key), value):
        # Entry by entry, so that comments and line breaks between them stay.
        for at, one in enumerate(value):
            _replace(cast("Array", holder[key]), at, one)
    else:
        holder[key] = list(value) if isinstance(value, tuple) else value


def _put_in_list(
    holder: MutableMapping[str, Any], key: str, number: int, value: object, path: str
) -> None:
    among = holder.get(key)
    if not isinstance(among, MutableSequence) or number > len(among) + (value is not None):
        raise InputError(path, "there is no such entry to change", "count from 1")
    if value is None:
        del among[number - 1]
    elif number > len(among):
        among.append(value)
    else:
        _replace(among, number - 1, value)


def _replace(among: MutableSequence[Any], at: int, value: object) -> None:
    if among[at] != value:
        among[at] = value


def _same_length(old: object, new: list[object] | tuple[object, ...]) -> bool:
    return isinstance(old, Array) and len(old) == len(new)
