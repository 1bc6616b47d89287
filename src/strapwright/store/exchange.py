"""Out and in again as the same TOML files: byte for byte, comments and line ends as they were.

Exported files lie side by side in one folder, so that a job finds its press and tooling there as it
does in the store.  ``index.json`` beside them says what each file is; without it that is read from
the files.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Literal

from attrs import frozen
from sqlalchemy import select
from sqlalchemy.orm import Session

from strapwright.errors import InputError
from strapwright.shop_files.opening import parse
from strapwright.shop_files.toml_table import LONGEST_NAME
from strapwright.store.archives import pack, read_plain_folder, unpack, write_new_folder
from strapwright.store.export_index import INDEX, Entry, read_index, write_index
from strapwright.store.item_names import ENDING, file_key, file_name
from strapwright.store.saving import add_item, add_version
from strapwright.store.store import Store
from strapwright.store.store_values import Item, Kind
from strapwright.store.table_rows import item_of, item_row, version_row
from strapwright.store.tables import ItemRow, VersionRow
from strapwright.store.text_check import check_text, kind_of

Outcome = Literal["new", "same", "new version"]
Clash = Literal["refuse", "version"]


@frozen(kw_only=True)
class Imported:
    """What became of one file.

    Attributes
    ----------
    file
        As it came.
    item
        As it is now.
    outcome
        ``new``; ``same`` where the store had this very text; ``new version``.
    """

    file: str
    item: Item
    outcome: Outcome


def export_files(store: Store) -> dict[str, bytes]:
    """Return every item's current text by file name, those put away too, and the index.

    Parameters
    ----------
    store
        Opened.
    """
    wanted = (
        select(ItemRow, VersionRow.text)
        .join(VersionRow, VersionRow.item == ItemRow.id)
        .where(VersionRow.number == ItemRow.current)
        .order_by(ItemRow.file_key)
    )
    with store.database.reading() as session:
        found = [(item_of(row), text) for row, text in session.execute(wanted)]
    files = {item.file: text.encode() for item, text in found}
    files[INDEX] = write_index([item for item, _ in found])
    return files


def export_zip(store: Store) -> bytes:
    """Return the export as one zip archive, the same bytes for the same content."""
    return pack(export_files(store))


def export_folder(store: Store, folder: Path) -> tuple[Path, ...]:
    """Write the export into a folder that is new or empty.

    Parameters
    ----------
    store
        Opened.
    folder
        Made where it is missing.

    Returns
    -------
    tuple of Path
        What was written.

    Raises
    ------
    InputError
        If there is something in the folder, or it cannot be written.
    """
    return write_new_folder(folder, export_files(store))


def export_one(store: Store, item_id: str, number: int | None = None) -> tuple[str, bytes]:
    """Return the file name and the bytes of one version, the current one where none is given.

    Raises
    ------
    Missing
        If there is no such item or version.
    """
    with store.database.reading() as session:
        row = item_row(session, item_id)
        version = version_row(session, item_id, row.current if number is None else number)
        return row.file, version.text.encode()


def import_one(
    store: Store, file: str, raw: bytes, at: datetime, *, kind: Kind | None = None
) -> Item:
    """Keep one file as a new item; nothing there is touched.

    Parameters
    ----------
    store
        Opened.
    file
        As it came; a folder before it is left out.
    raw
        What it holds.
    at
        Now, with its time zone.
    kind
        What it is; told by its tables where not given.

    Raises
    ------
    InputError
        If it is no text, no TOML or too large.
    """
    plain = file.replace("\\", "/").rpartition("/")[2]
    text = _decode(plain, raw)
    check_text(text, plain)
    parse(text, plain)
    with store.database.writing() as session:
        row = add_item(
            session,
            kind or kind_of(text),
            _name_from(plain),
            text,
            at,
            "imported",
            file=file_name(plain),
        )
        return item_of(row)


def import_zip(
    store: Store, raw: bytes, at: datetime, *, clash: Clash = "refuse"
) -> tuple[Imported, ...]:
    """Import an archive as :func:`export_zip` makes it; see :func:`import_files`."""
    return import_files(store, unpack(raw), at, clash=clash)


def import_folder(
    store: Store, folder: Path, at: datetime, *, clash: Clash = "refuse"
) -> tuple[Imported, ...]:
    """Import the TOML files of a folder; see :func:`import_files`."""
    return import_files(store, read_plain_folder(folder), at, clash=clash)


def import_files(
    store: Store, files: Mapping[str, bytes], at: datetime, *, clash: Clash = "refuse"
) -> tuple[Imported, ...]:
    """Import files as :func:`export_files` gives them: all of them or, after an error, none.

    Parameters
    ----------
    store
        Opened.
    files
        Plain file name -> content; ``index.json`` may be among them.
    at
        Now, with its time zone.
    clash
        Where the store has another text under a file name: ``refuse`` the whole import, or keep
        the imported text as the next ``version`` of that item.  A shop file is never renamed, for
        the jobs beside it would then take the press of another shop.

    Returns
    -------
    tuple of Imported
        One a file, in the order of their names.

    Raises
    ------
    InputError
        If a name or a content cannot be kept, two names are the same on some disk, or a name
        clashes.
    """
    entries = read_index(files[INDEX]) if INDEX in files else {}
    texts = {file: _decode(file, raw) for file, raw in files.items() if file != INDEX}
    _check_names(texts, entries)
    # Shop files first, so that jobs are judged with the press and tooling that they name.
    kinds = {
        file: entries[file].kind if file in entries else kind_of(text)
        for file, text in texts.items()
    }
    order = sorted(texts, key=lambda file: (kinds[file] == "job", file_key(file)))
    with store.database.writing() as session:
        done = {
            file: _import(
                session,
                file,
                texts[file],
                kind=kinds[file],
                entry=entries.get(file),
                at=at,
                clash=clash,
            )
            for file in order
        }
        return tuple(done[file] for file in sorted(done))


def _import(
    session: Session,
    file: str,
    text: str,
    kind: Kind,
    entry: Entry | None,
    at: datetime,
    clash: Clash,
) -> Imported:
    there = session.scalar(select(ItemRow).where(ItemRow.file_key == file_key(file)))
    if there is None:
        name = entry.name if entry is not None else _name_from(file)
        row = add_item(session, kind, name, text, at, "imported", file=file)
        row.archived = entry is not None and entry.archived
        return Imported(file=file, item=item_of(row), outcome="new")
    same = version_row(session, there.id, there.current).text == text
    if not same and (clash == "refuse" or there.kind != kind):
        raise InputError(
            file,
            f'the store has another text under this file name, its {there.kind} "{there.name}"',
            "rename the file, or import it as the next version of that"
            if there.kind == kind
            else "rename the file",
        )
    add_version(session, there, text, there.current, at, "imported")
    return Imported(file=file, item=item_of(there), outcome="same" if same else "new version")


def _check_names(texts: Mapping[str, str], entries: Mapping[str, Entry]) -> None:
    seen: dict[str, str] = {}
    for file in texts:
        if file != file_name(file):
            raise InputError(
                "import",
                "this is not a plain name of a TOML file",
                f'call it for example "{file_name(file)}", without a folder',
                value=file,
            )
        if file_key(file) in seen:
            raise InputError(
                "import",
                f'some disks take it for the same as "{seen[file_key(file)]}"',
                "rename one of them",
                value=file,
            )
        seen[file_key(file)] = file
    for file in entries:
        if file not in texts:
            raise InputError(
                INDEX, "it names a file that is not there", "put the file there", value=file
            )


def _decode(file: str, raw: bytes) -> str:
    try:
        return raw.decode()
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise InputError(file, "it is not UTF-8 text", "save it as UTF-8", line=line) from error


def _name_from(file: str) -> str:
    return file.removesuffix(ENDING)[:LONGEST_NAME].strip() or "imported"


__all__ = [
    "Clash",
    "Imported",
    "Outcome",
    "export_files",
    "export_folder",
    "export_one",
    "export_zip",
    "import_files",
    "import_folder",
    "import_one",
    "import_zip",
]
