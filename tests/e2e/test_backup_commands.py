"""``backup`` while the pages are served, and ``restore`` into an empty store, as whole commands."""

from __future__ import annotations

import re
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from urllib.request import urlopen

import pytest

sys.path.append(str(Path(__file__).parent))

from browsing import served

from strapwright.store import import_one, open_store, verify_file

ROOT = Path(__file__).resolve().parents[2]
JOB = ROOT / "docs" / "examples" / "rail-stay.toml"
AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)


def run(*words: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "strapwright", *words], capture_output=True, text=True, check=False
    )


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A store with one job of two versions and one put away."""
    folder = tmp_path / "store"
    text = JOB.read_text(encoding="utf-8")
    with open_store(folder) as opened:
        item = import_one(opened, JOB.name, text.encode(), AT)
        opened.save(item.id, text.replace("quantity = 10", "quantity = 12"), 1, AT)
        opened.archive(import_one(opened, "old.toml", text.encode(), AT).id)
    return folder


def kept(folder: Path) -> list[tuple[object, ...]]:
    """Everything that was ever saved, read past the program."""
    with closing(sqlite3.connect(folder / "store.db")) as file:
        return sorted(file.execute("SELECT item, number, text FROM versions"))


def refused(done: subprocess.CompletedProcess[str]) -> str:
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    assert "Traceback" not in done.stderr
    return done.stderr


@pytest.mark.long
def test_backup_while_serving_and_restore_into_an_empty_store(store: Path, tmp_path: Path) -> None:
    backup, back = tmp_path / "monday.db", tmp_path / "back"
    with served(store) as server:
        done = run("backup", backup, "--store", store)
        assert (done.returncode, done.stderr) == (0, "")
        assert str(backup) in done.stdout
        with urlopen(server.address + "backup.db") as answer:  # noqa: S310  our own address
            (tmp_path / "page.db").write_bytes(answer.read())
        assert "in another window or program" in refused(run("restore", backup, "--store", store))
    verify_file(tmp_path / "page.db")
    done = run("restore", backup, "--store", back)
    assert (done.returncode, done.stderr) == (0, "")
    assert re.search(r"Restored 2 jobs", done.stdout)
    assert kept(back) == kept(store)
    assert len(kept(back)) == 3
    with open_store(back) as opened:
        assert [item.file for item in opened.list()] == [JOB.name]


@pytest.mark.long
def test_restore_leaves_a_store_that_has_something_alone(store: Path, tmp_path: Path) -> None:
    backup = tmp_path / "monday.db"
    assert run("backup", backup, "--store", store).returncode == 0
    with open_store(store) as opened:
        import_one(opened, "new.toml", JOB.read_bytes(), AT)
    before = kept(store)
    said = refused(run("restore", backup, "--store", store))
    assert "has 3 jobs or shop files" in said
    assert kept(store) == before
    done = run("restore", backup, "--store", store, "--aside")
    assert done.returncode == 0
    assert len(kept(store)) == 3
    (aside,) = store.glob("before-restore-*.db")
    assert str(aside) in done.stdout
    verify_file(aside)


def test_backup_into_a_folder_is_named_by_the_moment_and_replaces_nothing(
    store: Path, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    assert run("backup", stick, "--store", store).returncode == 0
    (made,) = stick.iterdir()
    assert re.fullmatch(r"strapwright-\d{4}-\d\d-\d\d-\d{6}\.db", made.name)
    verify_file(made)
    assert "something of that name" in refused(run("backup", made, "--store", store))


@pytest.mark.parametrize(("name", "says"), [("gone.db", "no such file"), ("job.db", "damaged|not")])
def test_what_is_no_backup_is_refused_before_a_store_is_made(
    name: str, says: str, tmp_path: Path
) -> None:
    (tmp_path / "job.db").write_bytes(JOB.read_bytes())
    assert re.search(says, refused(run("restore", tmp_path / name, "--store", tmp_path / "s")))
    assert not (tmp_path / "s").exists()


def test_backup_of_no_store_is_refused(tmp_path: Path) -> None:
    assert "no store here" in refused(run("backup", tmp_path / "b.db", "--store", tmp_path))
