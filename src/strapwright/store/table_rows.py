"""Between the rows of the tables and the values handed out."""

from __future__ import annotations

from typing import cast

from sqlalchemy.orm import Session

from strapwright.errors import InputError
from strapwright.store.store_errors import Missing
from strapwright.store.store_values import KINDS, Item, Kind, Version
from strapwright.store.tables import ItemRow, VersionRow


def read_kind(kind: str) -> Kind:
    """Hold a kind to those there are.

    Raises
    ------
    InputError
        If it is none of them.
    """
    if kind not in KINDS:
        raise InputError("kind", "this kind is not kept", f"give {', '.join(KINDS)}", value=kind)
    return kind


def item_row(session: Session, item_id: str) -> ItemRow:
    """Return the row of an item.

    Raises
    ------
    Missing
        If there is none.
    """
    row = session.get(ItemRow, item_id)
    if row is None:
        raise Missing(
            "store", "there is no item of this address", "go back to the list and choose one"
        )
    return row


def version_row(session: Session, item_id: str, number: int) -> VersionRow:
    """Return the row of a version.

    Raises
    ------
    Missing
        If there is none.
    """
    # SQLite takes no greater number, and no item has as many versions.
    row = session.get(VersionRow, (item_id, number)) if 0 < number < 2**63 else None
    if row is None:
        raise Missing(
            "store", f"there is no version {number}", "choose one from the item's history"
        )
    return row


def item_of(row: ItemRow) -> Item:
    """Return an item as it is handed out."""
    return Item(
        id=row.id,
        kind=cast("Kind", row.kind),
        name=row.name,
        file=row.file,
        created=row.created,
        updated=row.updated,
        current=row.current,
        archived=row.archived,
        sound=row.sound,
        trouble=row.trouble,
        material=row.material,
        bar=row.bar,
        quantity=row.quantity,
    )


def version_of(row: VersionRow) -> Version:
    """Return a version as it is handed out."""
    return Version(
        item=row.item,
        number=row.number,
        saved_at=row.saved_at,
        note=row.note,
        restores=row.restores,
        sha256=row.sha256,
        sound=row.sound,
        trouble=row.trouble,
    )
