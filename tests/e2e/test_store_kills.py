"""A program that saves is killed: nothing acknowledged is lost, nothing is half written."""

from __future__ import annotations

import importlib.util
import json
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from types import ModuleType

import pytest

from strapwright.store import StoreError, new_id, open_store
from strapwright.store.database import FILE

TRIAL = Path(__file__).resolve().parents[2] / "benchmarks" / "store_kills.py"
AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def trial() -> ModuleType:
    spec = importlib.util.spec_from_file_location("store_kills", TRIAL)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_kills_and_backups_lose_nothing() -> None:
    done = subprocess.run(
        [sys.executable, TRIAL, "--kills", "20", "--backups", "3"],
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    figures = json.loads(done.stdout)
    assert figures["kill"]["wrong"] == figures["backup"]["wrong"] == []
    assert figures["kill"]["kills"] == 20
    assert figures["kill"]["kills_while_opening"] < 20
    assert figures["kill"]["acknowledged"] > 0
    assert figures["backup"]["acknowledged_during_backups"] > 0


@pytest.mark.parametrize(
    ("damage", "says"),
    [
        ("DELETE FROM drafts", "the draft of {item} is lost"),
        ("DELETE FROM versions; DELETE FROM items", "item {item} is lost"),
        (
            "DELETE FROM versions WHERE number = 2; UPDATE items SET current = 1",
            "version 2 of {item} is lost",
        ),
        ("UPDATE versions SET text = substr(text, 1, 90)", "version 2 of {item} is half written"),
        ("UPDATE drafts SET base = NULL", "{item} is half made: its first draft is still there"),
        ('UPDATE drafts SET fields = \'{"number": "7"}\'', "the draft of {item} is half"),
        ("DELETE FROM log", "line 1 of the log is lost"),
        ("UPDATE log SET figures = '{}'", "line 1 of the log is half written"),
        ("UPDATE versions SET sha256 = ''", "a text is not what was saved"),
    ],
)
def test_the_trial_sees_what_is_wrong(
    trial: ModuleType, damage: str, says: str, tmp_path: Path
) -> None:
    known = trial.Known()
    item = new_id()
    with open_store(tmp_path) as store:
        store.create("job", "hook", trial.text_for(item, 1), AT, item_id=item)
        store.save(item, trial.text_for(item, 2), 1, AT)
        store.drafts.put(item, trial.BROWSER, "job", 2, trial.draft_for(7), AT)
        store.log.add(trial.line_for(item, 1))
    for line in (f"new {item} 0", f"version {item} 2", f"draft {item} 7", f"log {item} 1"):
        known.take(line)
    assert trial.faults(tmp_path, known) == []
    with closing(sqlite3.connect(tmp_path / FILE)) as file, file:
        file.executescript(damage)
    assert any(says.format(item=item) in fault for fault in trial.faults(tmp_path, known))


def test_a_second_program_is_refused_until_the_first_is_gone(tmp_path: Path) -> None:
    holding = (
        "import sys, pathlib, strapwright.store as s\n"
        "opened = s.open_store(pathlib.Path(sys.argv[1]))\n"
        "print('open', flush=True)\n"
        "sys.stdin.read()\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", holding, tmp_path],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as first:
        assert first.stdout is not None
        assert first.stdout.readline() == "open\n"
        with pytest.raises(StoreError) as refused:
            open_store(tmp_path)
        assert str(tmp_path) in str(refused.value)
        assert "is open in another window or program already" in str(refused.value)
        first.send_signal(signal.SIGKILL)
        first.wait()
    with open_store(tmp_path) as store:  # and no lock outlives the one who held it
        assert store.list() == ()
