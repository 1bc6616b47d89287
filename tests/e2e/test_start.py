"""What a person sees of start.py, above all when something is in the way."""

from __future__ import annotations

import ast
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]
START = ROOT / "start.py"
NEEDED = ("start.py", "pyproject.toml", "requirements.lock", "requirements-dev.lock")


def run(
    *words: str, start: Path = START, env: dict[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, str(start), *words],
        check=False,
        capture_output=True,
        text=True,
        env=env,
        timeout=60,
    )


def load(path: Path) -> ModuleType:
    spec = importlib.util.spec_from_file_location(path.stem, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def start() -> ModuleType:
    return load(START)


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """Copy of what the set-up reads, in a folder with a space in its name."""
    folder = tmp_path / "bent parts"
    folder.mkdir()
    for name in NEEDED:
        shutil.copy(ROOT / name, folder)
    return folder


def environment_without_network() -> dict[str, str]:
    kept = {key: value for key, value in os.environ.items() if not key.startswith("PIP_")}
    return {
        **kept,
        "PIP_CONFIG_FILE": os.devnull,
        "PIP_INDEX_URL": "http://127.0.0.1:9/",  # nothing answers on the discard port
        "PIP_NO_CACHE_DIR": "1",
        "NO_PROXY": "127.0.0.1",
        "no_proxy": "127.0.0.1",
    }


def test_without_a_verb_the_usage_is_shown() -> None:
    done = run()
    assert done.returncode == 0
    assert done.stdout.startswith("usage: python3 start.py VERB")


def test_an_unknown_verb_gets_the_list_in_one_sentence(start: ModuleType) -> None:
    done = run("bned")
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("'bned' is not a verb of start.py; the verbs are: ")
    assert done.stderr.count("\n") == 1
    assert all(verb in done.stderr for verb in start.VERBS)


def test_every_verb_is_in_the_usage(start: ModuleType) -> None:
    listed = [line.split()[0] for line in start.USAGE.splitlines() if line.startswith("  ")]
    assert sorted(listed) == sorted(start.VERBS)


def test_old_pythons_can_read_it() -> None:
    tree = ast.parse(START.read_text(encoding="utf-8"), feature_version=(3, 6))
    modules = {
        name
        for node in ast.walk(tree)
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    }
    assert {name.split(".")[0] for name in modules} <= sys.stdlib_module_names
    assert "__future__" not in modules  # annotations came with 3.7


def test_a_python_outside_the_range_is_told_which_to_install(start: ModuleType) -> None:
    assert start.unsuitable((3, 9)) == "You have Python 3.9; install 3.11 to 3.14."
    assert start.unsuitable((3, 10)) == "You have Python 3.10; install 3.11 to 3.14."
    assert start.unsuitable((3, 15)) == "You have Python 3.15; install 3.11 to 3.14."
    assert "pypy" in start.unsuitable((3, 12), "pypy")
    assert [start.unsuitable((3, minor)) for minor in (11, 12, 13, 14)] == [""] * 4


def test_the_range_is_the_one_of_the_project(start: ModuleType) -> None:
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    oldest, newest = start.OLDEST[1], start.NEWEST[1]
    assert f'requires-python = ">=3.{oldest},<3.{newest + 1}"' in text


@pytest.mark.long
def test_without_a_network_and_after_it(copy: Path, start: ModuleType) -> None:
    done = run("demo", start=copy / "start.py", env=environment_without_network())
    assert done.returncode == 1
    first, sentence = done.stderr.splitlines()
    assert first == "Setting up (once, a minute or two) ..."
    assert sentence.startswith("The packages could not be fetched: no connection")
    assert str(copy / "wheels") in sentence
    # What is half made is not taken for ready, and the next start makes it afresh.
    note = copy / ".venv" / start.NOTE.name
    assert '"making"' in note.read_text(encoding="utf-8")
    left_over = copy / ".venv" / "left-over"
    left_over.touch()
    (copy / "wheels").mkdir()
    done = run("demo", start=copy / "start.py", env=environment_without_network())
    assert done.returncode == 1
    assert f"A package was not found in {copy / 'wheels'}" in done.stderr
    assert not left_over.exists()


def test_a_missing_lock_is_named(copy: Path) -> None:
    (copy / "requirements.lock").unlink()
    done = run("demo", start=copy / "start.py")
    assert done.returncode == 1
    assert done.stderr == (
        "requirements.lock is missing beside start.py; unpack the project again.\n"
    )


def test_a_folder_that_cannot_be_written_is_named(copy: Path) -> None:
    (copy / ".venv.lock").mkdir()  # in the way, for the superuser too
    done = run("demo", start=copy / "start.py")
    assert done.returncode == 1
    assert done.stderr.startswith(f"Cannot write in {copy} (")
    assert done.stderr.count("\n") == 1


def test_left_out_tests_are_deselected_and_named(monkeypatch: pytest.MonkeyPatch) -> None:
    checks = load(ROOT / ".ci" / "checks.py")
    monkeypatch.setenv("STRAPWRIGHT_BROWSER", "")  # put back afterwards
    monkeypatch.setenv("STRAPWRIGHT_POPPLER", "")
    monkeypatch.setattr(checks, "present", lambda programs: programs == ("pdftoppm",))
    command, left_out = checks.pytest_command(["-m", "not slow", "tests/unit"])
    assert command[-3:] == ["-m", "not long and (not slow) and not browser", "tests/unit"]
    assert left_out == [
        "long tests (python3 start.py test --long runs them)",
        "browser tests (they need chromium, chromium-driver)",
    ]
    command, left_out = checks.pytest_command(["--long", "tests/unit"])
    assert command[-3:] == ["-m", "long and not browser", "tests/unit"]
    assert left_out == ["browser tests (they need chromium, chromium-driver)"]
    assert os.environ["STRAPWRIGHT_BROWSER"] == "0"
    assert os.environ["STRAPWRIGHT_POPPLER"] == "1"


@pytest.mark.parametrize(("told", "kept"), [("1", True), ("", False)])
def test_what_python_compiles_is_kept_in_our_folder_where_it_is_told_to_keep_nothing(
    told: str, kept: bool, start: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "first.py").write_text("import second\n", encoding="utf-8")
    (tmp_path / "second.py").touch()
    monkeypatch.setenv("PYTHONPYCACHEPREFIX", "")  # put back afterwards
    monkeypatch.delenv("PYTHONPYCACHEPREFIX")
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", told)
    monkeypatch.setattr(start, "ENVIRONMENT", tmp_path / "ours")
    monkeypatch.setattr(start, "make_ready", lambda **_: None)
    ran = [sys.executable, str(tmp_path / "first.py")]
    monkeypatch.setattr(start, "hand_over", lambda _: subprocess.call(ran))
    assert start.start(["plan", "job.toml"]) == 0
    (compiled,) = tmp_path.rglob("second.*.pyc")
    assert compiled.is_relative_to(tmp_path / "ours") == kept


@pytest.mark.parametrize(
    ("words", "waits"),
    [
        (("python", "-m", "strapwright", "plan", "job.toml"), True),
        (("python", "checks.py", "strapwright"), False),
        (("python", "start.py", "test", "-m", "strapwright"), False),
        (("python", "start.py", "plan", "strapwright"), False),
    ],
)
def test_only_the_program_itself_is_handed_over_with_ctrl_c_held_back(
    words: tuple[str, ...], waits: bool, start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What never lets it through, such as a test whose name has ours in it, must get it at once."""
    held: list[object] = []
    handed: list[list[str]] = []
    monkeypatch.setattr(start.signal, "pthread_sigmask", lambda *what: held.append(what))
    monkeypatch.setattr(start.os, "execv", lambda _, command: handed.append(command))
    monkeypatch.setattr(start.subprocess, "call", lambda _: 0)
    start.hand_over(list(words))
    assert handed == [list(words)]
    assert bool(held) is waits
