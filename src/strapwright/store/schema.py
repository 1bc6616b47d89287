"""Bring the file of a store to the newest schema, and tell whether a file is sound."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Callable, Iterable
from contextlib import closing
from datetime import UTC, datetime
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import Engine, StaticPool, create_engine

from strapwright.store.seal import SEALED_FROM, is_sealed, is_unbroken
from strapwright.store.store_errors import StoreError, damaged_words, refusal

if TYPE_CHECKING:
    from alembic.runtime.migration import MigrationContext, RevisionStep
    from alembic.script import ScriptDirectory

REVISIONS = (
    "0001",
    "0002",
    "0003",
    "0004",
    "0005",
    "0006",
)  # of every schema, oldest first, as the migrations have them
APPLICATION = 0x53747270  # "Strp" in ASCII; stands in the head of the file
_SCHEMA = "SELECT type, name, tbl_name, sql FROM sqlite_master"
_FOREIGN = (
    "SELECT 1 FROM sqlite_master WHERE type NOT IN ('table', 'index') "
    "OR upper(sql) LIKE 'CREATE VIRTUAL%' LIMIT 1"
)
_FOREIGN_WORDS = (
    "its tables are not as this program makes them, so it was left as it is",
    "restore a backup that this program took",
)
_MIGRATIONS = Path(__file__).parent / "migrations"


def scripts() -> ScriptDirectory:
    """Return the steps between schemas."""
    from alembic.script import ScriptDirectory  # noqa: PLC0415 - slow, and rarely needed

    return ScriptDirectory(_MIGRATIONS)


def upgrade(engine: Engine, to: str = "head") -> None:
    """Bring a store to a schema, in one transaction.

    Parameters
    ----------
    engine
        Of the store.
    to
        Revision; the newest where not given.
    """
    # Slow to load, and needed only where a store is new or old.
    from alembic.config import Config  # noqa: PLC0415
    from alembic.runtime.environment import EnvironmentContext  # noqa: PLC0415

    steps = scripts()

    def next_steps(revision: object, context: MigrationContext) -> list[RevisionStep]:
        del context
        # What alembic's own upgrade command does; its types leave the method out.
        return steps._upgrade_revs(to, revision)  # type: ignore[arg-type]  # noqa: SLF001

    with (
        EnvironmentContext(Config(), steps, fn=next_steps, destination_rev=to) as environment,
        engine.execution_options(writing=True).begin() as connection,
    ):
        environment.configure(connection=connection)
        environment.run_migrations()


def is_current(path: Path) -> bool:
    """Tell whether a file, sound or new, has the newest schema already.

    Parameters
    ----------
    path
        File of the store.
    """
    if not path.exists():
        return False
    with closing(connect(path)) as file:
        return _revision(file) == REVISIONS[-1]


@cache
def schema_of(revision: str) -> frozenset[tuple[str, ...]]:
    """Return what the steps up to a revision make, as a file says it of itself."""
    made = create_engine("sqlite://", poolclass=StaticPool)
    upgrade(made, revision)
    with made.connect() as connection:
        found = _normal(connection.exec_driver_sql(_SCHEMA).fetchall())
    made.dispose()
    return found


def _normal(rows: Iterable[Any]) -> frozenset[tuple[str, ...]]:
    """Leave out of a schema what releases of a library write differently: spaces and quotes."""
    return frozenset(
        tuple("".join(str(one or "").split()).replace('"', "") for one in row) for row in rows
    )


def check_file(path: Path, *, thorough: bool, sealed: bool = False) -> None:
    """Refuse a file that is damaged, newer than this program, or another program's.

    Parameters
    ----------
    path
        File of a store; one in which nothing was made yet passes unless ``thorough``.
    thorough
        Read every page, every index entry and every row, and compare the schema as a whole, as
        for a backup that one relies on.
    sealed
        Whether it must carry the seal of a backup, if its schema knows one.

    Raises
    ------
    StoreError
        With the first thing found.
    """
    try:
        with closing(connect(path, untouched=thorough)) as file:
            if _is_blank(file) and not thorough:
                return
            # Before anything is asked of its tables: what they call would run.
            if file.execute(_FOREIGN).fetchone() is not None:
                raise StoreError(path, *_FOREIGN_WORDS)
            if file.execute("PRAGMA application_id").fetchone()[0] != APPLICATION:
                raise StoreError(
                    path, "this is another program's file or an empty one", "name a store of ours"
                )
            revision = _revision(file) if thorough else None
            if revision in REVISIONS and _normal(file.execute(_SCHEMA)) != schema_of(revision):
                raise StoreError(path, *_FOREIGN_WORDS)
            check = "integrity_check" if thorough else "quick_check"
            if file.execute(f"PRAGMA {check}(1)").fetchone()[0] != "ok":
                raise StoreError(path, *damaged_words())
            if _revision(file) not in REVISIONS:
                raise StoreError(
                    path,
                    "a newer version of this program wrote it",
                    "use that version or a newer one; nothing was changed",
                )
            if thorough:
                _check_seal(path, file, sealed=sealed)
                _check_rows(path, file)
    except sqlite3.Error as error:
        raise refusal(path, error) from error
    except UnicodeDecodeError as error:  # what the database says quotes what is damaged
        raise StoreError(path, *damaged_words()) from error


def connect(path: Path, *, untouched: bool = False) -> sqlite3.Connection:
    """Open the file of a store without the engine; it must exist.

    Parameters
    ----------
    path
        File of a store.
    untouched
        Read it as it is, without making or rolling back anything beside it.
    """
    # What a store in use has not yet taken in lies beside it, and is part of it.
    alone = untouched and not path.with_name(path.name + "-wal").exists()
    how = "mode=ro&immutable=1" if alone else "mode=rw"
    file = sqlite3.connect(f"{path.absolute().as_uri()}?{how}", uri=True, isolation_level=None)
    # What is damaged need not be UTF-8, and is to be told from what is sound, not to break off.
    file.text_factory = partial(str, encoding="utf-8", errors="surrogateescape")
    file.execute("PRAGMA busy_timeout = 5000")
    file.execute("PRAGMA trusted_schema = OFF")
    file.execute("PRAGMA cell_size_check = ON")
    return file


def _is_blank(file: sqlite3.Connection) -> bool:
    """Whether nothing was ever committed: it was stopped in its very first opening."""
    (application,) = file.execute("PRAGMA application_id").fetchone()
    (things,) = file.execute("SELECT count(*) FROM sqlite_master").fetchone()
    return bool(application == 0 and things == 0)


def _revision(file: sqlite3.Connection) -> str | None:
    if _is_blank(file):
        return None
    found = file.execute("SELECT version_num FROM alembic_version").fetchall()
    return str(found[0][0]) if len(found) == 1 else None


def _check_seal(path: Path, file: sqlite3.Connection, *, sealed: bool) -> None:
    """Hold every row to the seal, where there is one or has to be one."""
    if (_revision(file) or "") < SEALED_FROM:
        return  # its backups had none
    if not is_sealed(file):
        if sealed:
            raise StoreError(
                path,
                "this is the file of a store and no backup, or its seal was taken away",
                "put it into an empty folder as store.db and back that up with --store",
            )
        return
    if not is_unbroken(file):
        problem, remedy = damaged_words()
        raise StoreError(path, f"a row is not what was backed up, so {problem}", remedy)


def _wrong_value(file: sqlite3.Connection) -> str | None:
    """Find a time, a mark or a list that is none; the engine would stumble over it later."""
    present = {name for (name,) in file.execute("SELECT name FROM sqlite_master")}
    for table, columns, what, is_right in _VALUES:
        if table not in present:
            continue
        for row in file.execute(f"SELECT {columns} FROM {table}"):  # noqa: S608  names of ours
            if not all(is_right(one) for one in row):
                return f"{what} in the table {table} is none"
    return None


def _is_moment(value: object) -> bool:
    """Whether a time is one as the store writes it, so that it also sorts."""
    try:
        moment = datetime.fromisoformat(str(value))
        written = moment.astimezone(UTC).isoformat(timespec="microseconds")
    except (ValueError, OverflowError):
        return False
    return moment.tzinfo is not None and written == value


def _is_mapping(value: object) -> bool:
    try:
        return isinstance(value, str) and isinstance(json.loads(value), dict)
    except (ValueError, RecursionError):
        return False


def _is_mark(value: object) -> bool:
    return value in (0, 1)


_VALUES: tuple[tuple[str, str, str, Callable[[object], bool]], ...] = (
    ("items", "created, updated", "a time", _is_moment),
    ("items", "archived, sound", "a mark", _is_mark),
    ("versions", "saved_at", "a time", _is_moment),
    ("versions", "sound", "a mark", _is_mark),
    ("drafts", "updated", "a time", _is_moment),
    ("drafts", "fields", "a list of fields", _is_mapping),
    ("searches", "begun", "a time", _is_moment),
    ("log", "kept_at", "a time", _is_moment),
    ("log", "typed, figures", "a list of readings", _is_mapping),
    ("log", "counted", "a mark", _is_mark),
)


def _check_rows(path: Path, file: sqlite3.Connection) -> None:
    """Hold texts to their digests, versions to a row without gaps, items to their last version."""
    trouble: str | None = None
    if file.execute("PRAGMA foreign_key_check").fetchone() is not None:
        trouble = "a version belongs to no item"
    gaps = (
        "SELECT items.id FROM items LEFT JOIN versions ON versions.item = items.id "
        "GROUP BY items.id HAVING count(number) != current OR max(number) != current"
    )
    if file.execute(gaps).fetchone() is not None:
        trouble = "an item lacks one of its versions"
    lost = (
        "SELECT line FROM log GROUP BY line "
        "HAVING count(revision) != max(revision) OR min(revision) != 1"
    )
    if (_revision(file) or "") >= "0004" and file.execute(lost).fetchone() is not None:
        trouble = "a line of the log lacks one of its states"
    trouble = trouble or _wrong_value(file)
    file.text_factory = bytes  # the digest is of the bytes, and damaged ones may be no UTF-8
    for text, digest in file.execute("SELECT text, sha256 FROM versions"):
        if hashlib.sha256(text).hexdigest().encode() != digest:
            trouble = "a text is not what was saved"
    if trouble is not None:
        problem, remedy = damaged_words()
        raise StoreError(path, f"{trouble}, so {problem}", remedy)
