"""``index.json``: what each exported file is, which the file itself does not say."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import cast

from attrs import frozen

from strapwright.errors import InputError
from strapwright.store.item_names import read_name
from strapwright.store.store_values import Item, Kind
from strapwright.store.table_rows import read_kind

INDEX = "index.json"
_FORMAT = 1


@frozen(kw_only=True)
class Entry:
    """What the index says of one file; the words are those of an item."""

    kind: Kind
    name: str
    archived: bool


def write_index(items: Iterable[Item]) -> bytes:
    """Write the index.

    Parameters
    ----------
    items
        In the order in which they are to stand.
    """
    listed = [
        {"file": item.file, "kind": item.kind, "name": item.name, "archived": item.archived}
        for item in items
    ]
    content = {"format": _FORMAT, "items": listed}
    return (json.dumps(content, ensure_ascii=False, indent=1) + "\n").encode()


def read_index(raw: bytes) -> dict[str, Entry]:
    """Read an index.

    Parameters
    ----------
    raw
        Content of the file.

    Returns
    -------
    dict
        File name -> what it is.

    Raises
    ------
    InputError
        If it is no index of ours; the import works without one.
    """
    try:
        content = json.loads(raw)
    except (ValueError, RecursionError) as error:
        raise _refuse("it is not JSON") from error
    if not isinstance(content, dict) or content.get("format") != _FORMAT:
        raise _refuse(f"it does not say format {_FORMAT}")
    items = content.get("items")
    if not isinstance(items, list):
        raise _refuse("it lists no items")
    return dict(_read_entry(one) for one in cast("list[object]", items))


def _read_entry(one: object) -> tuple[str, Entry]:
    if not isinstance(one, dict):
        raise _refuse("an item in it is no table")
    file, kind, name = (one.get(key) for key in ("file", "kind", "name"))
    archived = one.get("archived", False)
    if not (
        isinstance(file, str)
        and isinstance(kind, str)
        and isinstance(name, str)
        and isinstance(archived, bool)
    ):
        raise _refuse("an item in it lacks file, kind or name")
    return file, Entry(kind=read_kind(kind), name=read_name(name, INDEX), archived=archived)


def _refuse(problem: str) -> InputError:
    return InputError(INDEX, problem, "leave it out, and each file is taken by what it holds")
