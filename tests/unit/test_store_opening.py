"""Opening a store: one program at a time, schemas of every release, and plain words otherwise."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import create_engine, inspect

from strapwright.store import StoreError, open_store, verify_file
from strapwright.store.database import FILE, _engine
from strapwright.store.schema import REVISIONS, scripts, upgrade
from strapwright.store.tables import Base

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
RELEASED = sorted((Path(__file__).parent / "data").glob("store_schema_*.sql"))


def make(file: Path, script: str) -> None:
    with closing(sqlite3.connect(file)) as made:
        made.executescript(script)


def schema_of(file: Path) -> list[str]:
    with closing(sqlite3.connect(file)) as opened:
        found = opened.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall()
        return sorted(" ".join(sql.split()) for (sql,) in found)


def test_a_second_opening_is_refused_until_the_first_ends(tmp_path: Path) -> None:
    with open_store(tmp_path), pytest.raises(StoreError) as refused:
        open_store(tmp_path)
    assert str(refused.value) == (
        f"{tmp_path}: this store is open in another window or program already; "
        "go on there, or close it first, or name another folder."
    )
    open_store(tmp_path).close()


def test_the_file_is_kept_as_the_documents_say(tmp_path: Path) -> None:
    with open_store(tmp_path) as store:
        engine = store.database._engine
        assert engine is not None
        with engine.connect() as connection:
            settings = {
                name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
                for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
            }
    assert settings == {
        "journal_mode": "wal",
        "synchronous": 2,  # FULL
        "foreign_keys": 1,
        "busy_timeout": 5000,
    }
    assert sorted(path.name for path in tmp_path.iterdir()) == [FILE, "store.lock"]


def test_migrations_make_what_the_tables_say(tmp_path: Path) -> None:
    open_store(tmp_path).close()
    made = create_engine("sqlite://")
    Base.metadata.create_all(made)
    migrated = create_engine(f"sqlite:///{tmp_path / FILE}")
    with migrated.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), Base.metadata) == []
        for table in Base.metadata.tables:  # checks are not among what is compared above
            assert inspect(connection).get_check_constraints(table) == inspect(
                made
            ).get_check_constraints(table)
    migrated.dispose()
    made.dispose()


def test_every_released_schema_has_its_sample() -> None:
    newest_first = [step.revision for step in scripts().walk_revisions()]
    assert newest_first == list(reversed(REVISIONS))
    assert [path.stem.removeprefix("store_schema_") for path in RELEASED] == list(REVISIONS)


@pytest.mark.parametrize("sample", RELEASED, ids=lambda path: path.stem)
def test_a_released_step_still_makes_what_it_made(sample: Path, tmp_path: Path) -> None:
    make(tmp_path / "then.db", sample.read_text(encoding="utf-8"))
    engine = _engine(tmp_path / "now.db")
    upgrade(engine, sample.stem.removeprefix("store_schema_"))
    engine.dispose()
    assert schema_of(tmp_path / "now.db") == schema_of(tmp_path / "then.db")


@pytest.mark.parametrize("sample", RELEASED, ids=lambda path: path.stem)
def test_a_store_of_every_release_opens_empty(sample: Path, tmp_path: Path) -> None:
    empty, _, _ = sample.read_text(encoding="utf-8").partition("-- rows")
    make(tmp_path / FILE, empty)
    with open_store(tmp_path) as store:
        assert store.list() == ()
        store.create("job", "first", "", AT)
    verify_file(tmp_path / FILE)


@pytest.mark.parametrize("sample", RELEASED, ids=lambda path: path.stem)
def test_a_store_of_every_release_opens_with_all_it_holds(sample: Path, tmp_path: Path) -> None:
    make(tmp_path / FILE, sample.read_text(encoding="utf-8"))
    verify_file(tmp_path / FILE)
    with open_store(tmp_path) as store:
        (job,) = store.list()
        assert (job.name, job.current, job.quantity, job.sound) == ("Fender hanger", 2, 6, True)
        assert (job.material, job.bar) == ("S235JR", "flat 6 x 40 mm")
        first, second = store.text_of(job.id, 1), store.text_of(job.id)
        assert second == first.replace("quantity = 4", "quantity = 6")
        assert "# bent lying\n" in first
        assert [version.note for version in store.history(job.id)] == ["", "first"]
        (press,) = store.list("press", archived=True)
        assert 'bore = "63 mm"' in store.text_of(press.id)
        (draft,) = store.drafts.of("kitchen")
        assert dict(draft.fields) == {"bar": "flat 1/4 x"}
        assert store.setting("greeted") == "yes"
        store.save(job.id, second + "# newer\n", 2, AT)
    verify_file(tmp_path / FILE)


def test_an_opening_that_was_cut_off_is_gone_on_with(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / FILE)) as begun:
        begun.execute("PRAGMA journal_mode = WAL")  # writes the head of the file, no table yet
    assert (tmp_path / FILE).stat().st_size > 0
    with open_store(tmp_path) as store:
        assert store.list() == ()


def filled(folder: Path) -> Path:
    with open_store(folder) as store:
        for number in range(20):
            store.create("job", f"hook {number}", "# long\n" * 300, AT)
    return folder / FILE


def refused(folder: Path) -> str:
    before = {path.name: path.read_bytes() for path in folder.iterdir() if path.name == FILE}
    with pytest.raises(StoreError) as told:
        open_store(folder)
    assert str(told.value).startswith(str(folder))
    assert {path.name: path.read_bytes() for path in folder.glob(FILE)} == before
    return str(told.value)


def test_a_damaged_file_is_told_and_left_alone(tmp_path: Path) -> None:
    file = filled(tmp_path)
    whole = file.read_bytes()
    for damaged in (
        b"not a database" * 500,
        whole[: len(whole) // 2],
        whole[:8192] + b"\xff" * 4096 + whole[12288:],
    ):
        file.write_bytes(damaged)
        said = refused(tmp_path)
        assert "the store's file is damaged and was left as it is; restore a backup" in said
    file.write_bytes(whole)
    open_store(tmp_path).close()  # and nothing is locked by the refusals


def test_a_newer_schema_is_told_and_left_alone(tmp_path: Path) -> None:
    with closing(sqlite3.connect(filled(tmp_path))) as opened, opened:
        opened.execute("UPDATE alembic_version SET version_num = '9999'")
    assert "a newer version of this program wrote it; use that version" in refused(tmp_path)


def test_another_programs_file_is_told_and_left_alone(tmp_path: Path) -> None:
    make(tmp_path / FILE, "CREATE TABLE tides (height)")
    assert "this is another program's file" in refused(tmp_path)


def test_a_text_that_was_changed_behind_the_stores_back_is_found(tmp_path: Path) -> None:
    file = filled(tmp_path)
    whole = file.read_bytes()
    for change, said in (
        ("UPDATE versions SET text = text || ' '", "a text is not what was saved"),
        ("DELETE FROM versions WHERE rowid = 3", "an item lacks one of its versions"),
        ("DELETE FROM items WHERE rowid = 3", "a version belongs to no item"),
    ):
        file.write_bytes(whole)
        with closing(sqlite3.connect(file)) as opened, opened:
            opened.execute(change)
        with pytest.raises(StoreError, match=said):
            verify_file(file)


def test_a_folder_that_cannot_be_written_is_told() -> None:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        file = filled(folder)
        root = os.geteuid() == 0
        for path, mode in ((file, 0o444), (folder, 0o555)):
            path.chmod(mode)
            if root:  # to whom permissions do not apply, so somebody else tries
                os.chmod(folder, 0o555 if path == folder else 0o777)  # noqa: PTH101
                (folder / "store.lock").chmod(0o666)
                os.setresuid(65534, 65534, 0)
            try:
                with pytest.raises(StoreError, match=r"cannot be written here \(no permission"):
                    open_store(folder)
            finally:
                if root:
                    os.setresuid(0, 0, 0)
                path.chmod(0o755)


def test_what_is_no_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    for folder in (tmp_path / "file", tmp_path / "file" / "below", Path("a\0b")):
        with pytest.raises(StoreError, match="the store cannot be written here"):
            open_store(folder)


def test_an_undo_of_an_earlier_release_is_still_known_for_one(tmp_path: Path) -> None:
    sample = Path(__file__).parent / "data" / "store_schema_0002.sql"
    earlier = sample.read_text(encoding="utf-8")
    saved = "', '2026-11-25T07:30:00.000000+00:00', '"
    text = earlier.replace(saved, f"{saved}back to version 1", 1)
    assert text != earlier
    make(tmp_path / FILE, text)
    with open_store(tmp_path) as store:
        (job,) = store.list()
        assert [one.restores for one in store.history(job.id)] == [1, None]
        store.save(job.id, store.text_of(job.id) + "# more\n", 2, AT)
        assert store.restore_version(job.id, 2, 3, AT, "as it was on Tuesday").restores == 2
