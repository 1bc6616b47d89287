"""Bring the file of a store to the newest schema, and tell whether a file is sound."""

from __future__ import annotations

import hashlib
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Engine

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
)  # of every schema, oldest first, as the migrations have them
APPLICATION = 0x53747270  # "Strp" in ASCII; stands in the head of the file
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


def check_file(path: Path, *, thorough: bool) -> None:
    """Refuse a file that is damaged, newer than this program, or another program's.

    Parameters
    ----------
    path
        File of a store; one in which nothing was made yet passes unless ``thorough``.
    thorough
        Read every page, every index entry and every text, as for a backup that one relies on.

    Raises
    ------
    StoreError
        With the first thing found.
    """
    try:
        with closing(connect(path)) as file:
            if _is_blank(file) and not thorough:
                return
            if file.execute("PRAGMA application_id").fetchone()[0] != APPLICATION:
                raise StoreError(
                    path, "this is another program's file or an empty one", "name a store of ours"
                )
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
                _check_rows(path, file)
    except sqlite3.Error as error:
        raise refusal(path, error) from error


def connect(path: Path) -> sqlite3.Connection:
    """Open the file of a store without the engine; it must exist.

    Parameters
    ----------
    path
        File of a store.
    """
    file = sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True, isolation_level=None)
    file.execute("PRAGMA busy_timeout = 5000")
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
    file.text_factory = bytes  # the digest is of the bytes, and damaged ones may be no UTF-8
    for text, digest in file.execute("SELECT text, sha256 FROM versions"):
        if hashlib.sha256(text).hexdigest().encode() != digest:
            trouble = "a text is not what was saved"
    if trouble is not None:
        problem, remedy = damaged_words()
        raise StoreError(path, f"{trouble}, so {problem}", remedy)
