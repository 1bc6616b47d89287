"""A backup that is damaged or was made up is refused in one sentence, and the store stays."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from attrs import evolve

from strapwright.service.backups import bring_back
from strapwright.store import StoreError, backup_store, open_store, restore_store, verify_file
from strapwright.store.database import FILE
from strapwright.store.schema import REVISIONS, schema_of
from strapwright.store.store_values import LogEntry

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
ENTRY = LogEntry(
    line=1, revision=1, item="", version=1, part=1, bend=1, lot="a", press="b", tooling="c",
    mounting=1, typed={"angle": "44"}, figures={"free": 0.7}, counted=True, why="", kept_at=AT,
)  # fmt: skip


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A store with a little of everything."""
    folder = tmp_path / "store"
    with open_store(folder) as opened:
        job = opened.create("job", "hook", "# one\n", AT).id
        opened.save(job, "# two\n", 1, AT, "a note")
        opened.create("press", "Big press", "# press\n", AT)
        opened.drafts.put(job, "kitchen", "job", 2, {"part.name": "half"}, AT)
        opened.log.add(evolve(ENTRY, item=job))
        opened.searches.begin(job, "0", AT)
        opened.set_setting("greeted", "yes")
    return folder


@pytest.fixture
def backup(store: Path, tmp_path: Path) -> Path:
    return backup_store(store, tmp_path / "backup.db")


def rows(file: Path) -> list[str]:
    with closing(sqlite3.connect(f"file:{file}?mode=ro", uri=True)) as opened:
        return [line for line in opened.iterdump() if '"seal"' not in line]


def refused(backup: Path, folder: Path) -> str:
    """Try to bring a backup back, and look whether anything at all was touched."""
    before = {path: path.read_bytes() for path in (backup, *folder.glob("store.db*"))}
    beside = sorted(backup.parent.iterdir())
    with pytest.raises(StoreError) as told:
        bring_back(backup, folder, aside=True)
    assert {path: path.read_bytes() for path in before} == before
    assert sorted(backup.parent.iterdir()) == beside
    assert "\n" not in str(told.value)
    return str(told.value)


def test_a_whole_backup_comes_back_and_its_seal_is_broken_by_going_on(
    backup: Path, tmp_path: Path
) -> None:
    verify_file(backup, sealed=True)
    again = tmp_path / "again"
    restore_store(backup, again, AT)
    with open_store(again) as opened:
        opened.create("job", "later", "", AT)
    verify_file(again / FILE)
    second = backup_store(again, tmp_path / "second.db")
    verify_file(second, sealed=True)
    assert rows(second) == rows(again / FILE)


CHANGES = {
    "a name": "UPDATE items SET name = 'hooks' WHERE name = 'hook'",
    "a file name": "UPDATE items SET file = 'Hook.toml' WHERE name = 'hook'",
    "a note": "UPDATE versions SET note = 'another' WHERE number = 2",
    "a time that is one": "UPDATE versions SET saved_at = '2030-01-01T00:00:00.000000+00:00'",
    "a time that is none": "UPDATE items SET updated = 'yesterday'",
    "a reading": "UPDATE log SET figures = '{\"free\": 0.8}'",
    "a draft": "UPDATE drafts SET fields = '{}'",
    "a setting": "INSERT INTO meta VALUES ('sharing passes', '[]')",
    "an item gone": "DELETE FROM items WHERE kind = 'press'",
    "a search gone": "DELETE FROM searches",
    "an item with its text gone": (
        "DELETE FROM versions WHERE item IN (SELECT id FROM items WHERE kind = 'press'); "
        "DELETE FROM items WHERE kind = 'press'"
    ),
    "the seal gone": "DELETE FROM seal",
    "a line of the seal gone": "DELETE FROM seal WHERE of_table = 'items'",
    "a trigger": (
        "CREATE TRIGGER evil AFTER INSERT ON versions BEGIN DELETE FROM versions; END"
    ),
    "a view": "CREATE VIEW evil AS SELECT * FROM items",
    "a foreign table": "CREATE TABLE evil (x)",
    "a foreign index": "CREATE INDEX evil ON items (name)",
    "a column more": "ALTER TABLE items ADD COLUMN evil TEXT",
    "a virtual table": "CREATE VIRTUAL TABLE evil USING fts5(x)",
    "a view in the place of a table": (
        "DROP TABLE alembic_version; CREATE VIEW alembic_version AS "
        "WITH RECURSIVE n(x) AS (VALUES(1) UNION ALL SELECT x + 1 FROM n) "
        "SELECT x AS version_num FROM n"
    ),
    "an older revision": "UPDATE alembic_version SET version_num = '0005'",
    "a revision that is not known": "UPDATE alembic_version SET version_num = '9999'",
}  # fmt: skip


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_a_crafted_backup_is_refused_and_the_store_untouched(
    store: Path, backup: Path, change: str
) -> None:
    with closing(sqlite3.connect(backup)) as opened, opened:
        opened.executescript(change)
    assert refused(backup, store).startswith(str(backup))


def test_letters_that_are_none_are_told(backup: Path) -> None:
    """In a name, in the schema and in the words of the database itself."""
    whole = backup.read_bytes()
    for word in (b"hook", b"CREATE TABLE log", b"pk_items", b"Big press", b"0006"):
        at = whole.index(word)
        backup.write_bytes(whole[: at + 1] + b"\xb6" + whole[at + 2 :])
        with pytest.raises(StoreError) as told:
            verify_file(backup, sealed=True)
        assert "\n" not in str(told.value)
        str(told.value).encode()


def test_turned_bits_are_refused_or_change_no_row(backup: Path) -> None:
    """Anywhere in the file; a few bytes of it say nothing of any row."""
    whole, wanted = backup.read_bytes(), rows(backup)
    taken = 0
    chance = random.Random(5)  # noqa: S311
    for _ in range(300):
        raw = bytearray(whole)
        for _ in range(chance.choice((1, 1, 3))):
            raw[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
        backup.write_bytes(raw)
        try:
            verify_file(backup, sealed=True)
        except StoreError as told:
            assert str(told).startswith(str(backup))  # noqa: PT017  many do not fail
        else:
            taken += 1
            assert rows(backup) == wanted
    assert taken < 300


def test_times_that_are_none_are_found_in_a_store_too(store: Path) -> None:
    file = store / FILE
    whole = file.read_bytes()
    for change, said in (
        ("UPDATE items SET created = '2031-05-04'", "a time in the table items is none"),
        ("UPDATE versions SET saved_at = '2031-05-04T06:00:00+00:00'", "a time in the table vers"),
        ("UPDATE log SET typed = '[]'", "a list of readings in the table log is none"),
        ("UPDATE items SET archived = 7", "a mark in the table items is none"),
    ):
        file.write_bytes(whole)
        with closing(sqlite3.connect(file)) as opened, opened:
            opened.execute(change)
        with pytest.raises(StoreError, match=said):
            verify_file(file)


def test_a_store_with_a_trigger_is_not_opened(store: Path) -> None:
    with closing(sqlite3.connect(store / FILE)) as opened, opened:
        opened.execute(CHANGES["a trigger"])
    with pytest.raises(StoreError, match="its tables are not as this program makes them"):
        open_store(store)


def test_a_file_with_a_log_beside_it_is_no_backup(store: Path, backup: Path) -> None:
    backup.with_name("backup.db-wal").write_bytes(b"x")
    assert "there is a file beside it" in refused(backup, store)


@pytest.mark.parametrize("revision", REVISIONS)
def test_a_backup_of_an_older_program_comes_back(revision: str, tmp_path: Path) -> None:
    sample = Path(__file__).parent / "data" / f"store_schema_{revision}.sql"
    folder = tmp_path / "old"
    folder.mkdir()
    with closing(sqlite3.connect(folder / FILE)) as made:
        made.executescript(sample.read_text(encoding="utf-8"))
    backup = backup_store(folder, tmp_path / "backup.db")
    assert bring_back(backup, tmp_path / "new").items == 2
    with closing(sqlite3.connect(backup)) as opened, opened:
        opened.execute("CREATE TABLE evil (x)")
    refused(backup, tmp_path / "new")


def test_the_schema_is_told_whole() -> None:
    names = {name for _, name, _, _ in schema_of(REVISIONS[-1])}
    assert {"items", "versions", "drafts", "searches", "log", "meta", "seal"} <= names
    assert len(schema_of("0001")) < len(schema_of("0002")) < len(schema_of("0004"))
