"""The steps of a saving, within the transaction of the action that asks for it."""

from __future__ import annotations

import hashlib
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from strapwright.errors import InputError
from strapwright.store.item_names import file_key, file_name, fold, read_name
from strapwright.store.store_errors import Conflict
from strapwright.store.store_values import Kind, Version, new_id
from strapwright.store.table_rows import read_kind, version_of, version_row
from strapwright.store.tables import ItemRow, VersionRow
from strapwright.store.text_check import check_text, judge, shop_files

LONGEST_NOTE = 500  # characters


def add_item(
    session: Session,
    kind: Kind,
    name: str,
    text: str,
    at: datetime,
    note: str,
    *,
    item_id: str | None = None,
    file: str | None = None,
) -> ItemRow:
    """Add an item and its version 1.

    Parameters
    ----------
    session
        Of a writing transaction.
    kind, name, text, at, note
        As given.
    item_id
        A new one where not given.
    file
        What its file is to be called; after its name where not given.

    Raises
    ------
    InputError
        If one of them cannot be kept.
    """
    named = read_name(name)
    plain = file_name(file or named, set(session.scalars(select(ItemRow.file_key))))
    row = ItemRow(
        id=_read_id(item_id),
        kind=read_kind(kind),
        name=named,
        file=plain,
        file_key=file_key(plain),
        created=at,
        archived=False,
    )
    _put_version(session, row, text, 1, at, note)
    return row


def add_version(
    session: Session,
    row: ItemRow,
    text: str,
    base: int,
    at: datetime,
    note: str,
    restores: int | None = None,
) -> Version:
    """Add the next version of an item, or none where the text is the current one.

    Parameters
    ----------
    session
        Of a writing transaction.
    row
        The item.
    text, at, note
        As given.
    base
        Version that the edit began from.
    restores
        Version whose text it is, where an old one comes back.

    Raises
    ------
    Conflict
        If another one is current.
    InputError
        If text or note cannot be kept.
    """
    current = version_row(session, row.id, row.current)
    if current.text == text:
        return version_of(current)
    if base != row.current:
        raise Conflict(row.name, base, version_of(current))
    return version_of(
        _put_version(
            session, row, text, number=row.current + 1, at=at, note=note, restores=restores
        )
    )


def texts_beside(session: Session, text: str) -> dict[str, str]:
    """Return the shop files a job names and the store has -> their current texts."""
    found = {}
    for file in shop_files(text):
        beside = session.scalar(
            select(VersionRow.text)
            .join(ItemRow, ItemRow.id == VersionRow.item)
            .where(
                ItemRow.file_key == file_key(file),
                ItemRow.kind != "job",
                VersionRow.number == ItemRow.current,
            )
        )
        if beside is not None:
            found[file] = beside
    return found


def set_sought(row: ItemRow) -> None:
    """Set what a search looks through; after name, material or bar have changed."""
    row.sought = fold("\n".join((row.name, row.file, row.material or "", row.bar or "")))


def _put_version(
    session: Session,
    row: ItemRow,
    text: str,
    number: int,
    at: datetime,
    note: str,
    restores: int | None = None,
) -> VersionRow:
    raw = check_text(text)
    if len(note) > LONGEST_NOTE:
        raise InputError("note", f"it has more than {LONGEST_NOTE} characters", "shorten it")
    check_text(note, "note")
    kind = read_kind(row.kind)
    judged = judge(kind, text, texts_beside(session, text) if kind == "job" else {})
    row.current = number
    row.updated = at
    row.sound = judged.trouble is None
    row.trouble = judged.trouble
    row.material = judged.material
    row.bar = judged.bar
    row.quantity = judged.quantity
    set_sought(row)
    session.add(row)
    session.flush()  # the item before its version, which refers to it
    version = VersionRow(
        item=row.id,
        number=number,
        text=text,
        saved_at=at,
        note=note,
        restores=restores,
        sha256=hashlib.sha256(raw).hexdigest(),
        sound=judged.trouble is None,
        trouble=judged.trouble,
    )
    session.add(version)
    return version


def _read_id(item_id: str | None) -> str:
    if item_id is None:
        return new_id()
    if len(item_id) != 32 or not set(item_id) <= set("0123456789abcdef"):
        raise InputError("id", "this is not an id of an item", "begin a new one", value=item_id)
    return item_id
