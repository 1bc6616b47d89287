"""The seal of a backup: how many rows each table has, and a digest over all of them.

It finds what changed, came or went since the backup was taken, by a fault of the disk or by hand.
It is no signature: whoever means ill can write a new one.
"""

from __future__ import annotations

import hashlib
import sqlite3

SEALED_FROM = "0006"  # the first schema whose backups carry a seal
_TABLE = "seal"


def seal(file: sqlite3.Connection) -> None:
    """Write the seal into a backup.

    Parameters
    ----------
    file
        Of newest schema, and nobody else's yet.
    """
    found = _digests(file)
    file.execute("BEGIN")
    unseal(file)
    file.executemany(
        f"INSERT INTO {_TABLE} VALUES (?, ?, ?)",  # noqa: S608  names of ours
        [(table, rows, digest) for table, (rows, digest) in found.items()],
    )
    file.execute("COMMIT")


def unseal(file: sqlite3.Connection) -> None:
    """Take the seal off, within the transaction of the caller."""
    file.execute(f"DELETE FROM {_TABLE}")  # noqa: S608  names of ours


def knows_seal(file: sqlite3.Connection) -> bool:
    """Tell whether the schema of a file has a place for the seal."""
    wanted = "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?"
    return file.execute(wanted, (_TABLE,)).fetchone() is not None


def is_sealed(file: sqlite3.Connection) -> bool:
    """Tell whether a file of a schema that knows the seal carries one."""
    (rows,) = file.execute(f"SELECT count(*) FROM {_TABLE}").fetchone()  # noqa: S608  as above
    return bool(rows)


def is_unbroken(file: sqlite3.Connection) -> bool:
    """Tell whether every row is as it was when the file was sealed."""
    kept = {
        table: (rows, digest)
        for table, rows, digest in file.execute(f"SELECT * FROM {_TABLE}")  # noqa: S608  as above
    }
    return kept == _digests(file)


def _digests(file: sqlite3.Connection) -> dict[str, tuple[int, str]]:
    tables = [
        name
        for (name,) in file.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        if name != _TABLE
    ]
    before = file.text_factory
    # Bytes as they are, which need not be UTF-8 in a damaged file, told apart from a blob.
    file.text_factory = _as_text
    try:
        return {table: _digest(file, table) for table in tables}
    finally:
        file.text_factory = before


def _digest(file: sqlite3.Connection, table: str) -> tuple[int, str]:
    total, count = hashlib.sha256(), 0
    for row in file.execute(f'SELECT * FROM "{table}" ORDER BY rowid'):  # noqa: S608  as above
        total.update(repr(row).encode() + b"\n")
        count += 1
    return count, total.hexdigest()


def _as_text(raw: bytes) -> tuple[str, bytes]:
    return "text", raw
