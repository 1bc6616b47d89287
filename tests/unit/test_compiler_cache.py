"""Where compiled loops are kept: a folder that follows the kernels."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from strapwright.service.compiler_cache import (
    STALE_DAYS,
    VARIABLE,
    is_cold,
    kernel_digest,
    prepare_cache,
    remove_stale,
)
from strapwright.service.user_folders import user_cache_folder


def package(folder: Path) -> Path:
    (folder / "bending").mkdir()
    (folder / "compiled.py").write_text("import numba\n", encoding="utf-8")
    (folder / "bending" / "loops.py").write_text(
        "from strapwright.compiled import jit\n", encoding="utf-8"
    )
    (folder / "bending" / "values.py").write_text("x = 1\n", encoding="utf-8")
    return folder


def test_the_digest_follows_every_file_that_uses_the_compiler(tmp_path: Path) -> None:
    root = package(tmp_path)
    before = kernel_digest(root)
    assert kernel_digest(root) == before
    (root / "bending" / "values.py").write_text("x = 2\n", encoding="utf-8")
    assert kernel_digest(root) == before
    for name in ("compiled.py", "bending/loops.py"):
        path = root / name
        path.write_text(path.read_text(encoding="utf-8") + "y = 3\n", encoding="utf-8")
        after = kernel_digest(root)
        assert after != before
        before = after


def test_the_folder_lies_in_the_user_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setenv(VARIABLE, "")
    assert prepare_cache() is None
    made = Path(os.environ[VARIABLE])
    assert made == tmp_path / "strapwright" / kernel_digest()
    assert made.is_dir()


def test_a_folder_the_user_named_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, "/mine")
    assert prepare_cache() is None
    assert os.environ[VARIABLE] == "/mine"


def test_a_relative_cache_home_is_ignored(monkeypatch: pytest.MonkeyPatch) -> None:
    # XDG base directory specification: relative paths are invalid and ignored.
    monkeypatch.setenv("XDG_CACHE_HOME", "here")
    assert user_cache_folder() == Path.home() / ".cache"


def test_a_blocked_cache_is_said_and_worked_around(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "cache"
    blocked.write_text("in the way", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(blocked))
    monkeypatch.setenv(VARIABLE, "")
    note = prepare_cache()
    assert note is not None
    assert "\n" not in note
    assert str(blocked) in note
    assert Path(os.environ[VARIABLE]).is_dir()
    assert blocked.read_text(encoding="utf-8") == "in the way"


def test_the_cache_is_cold_until_something_is_compiled_into_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    assert is_cold()
    (tmp_path / "bending_1").mkdir()
    (tmp_path / "bending_1" / "kernel.solve-1.py311.nbi").write_bytes(b"")
    assert not is_cold()


DAY = 86_400.0
NOW = 2_000_000_000.0


def compiled(folder: Path, name: str, days: float, more: str = "") -> Path:
    made = folder / name
    (made / "bending_1").mkdir(parents=True)
    (made / "bending_1" / "kernel.solve-1.py311.nbi").write_bytes(b"x")
    (made / "bending_1" / "kernel.solve-1.py311.1.nbc").write_bytes(b"x")
    if more:
        (made / more).write_text("mine", encoding="utf-8")
    os.utime(made, (NOW - days * DAY, NOW - days * DAY))
    return made


def test_what_earlier_versions_compiled_goes_and_nothing_else(tmp_path: Path) -> None:
    old, mine, young = "0123456789abcdef", "aaaaaaaaaaaaaaaa", "bbbbbbbbbbbbbbbb"
    with_notes, elsewhere = "cccccccccccccccc", "dddddddddddddddd"
    for name in (old, mine):
        compiled(tmp_path, name, STALE_DAYS + 1)
    compiled(tmp_path, young, STALE_DAYS - 1)
    compiled(tmp_path, with_notes, STALE_DAYS + 1, more="notes.txt")
    compiled(tmp_path, "my jobs", STALE_DAYS + 1)
    compiled(tmp_path, f"{old}0", STALE_DAYS + 1)
    away = compiled(tmp_path / "away", "eeeeeeeeeeeeeeee", STALE_DAYS + 1)
    (tmp_path / elsewhere).symlink_to(away)
    before = {one.name for one in tmp_path.iterdir()}
    assert remove_stale(tmp_path, mine, NOW) == [old]
    assert {one.name for one in tmp_path.iterdir()} == before - {old}
    assert any(away.rglob("*.nbi"))
    assert remove_stale(tmp_path / "not there", mine, NOW) == []


def test_a_start_marks_its_folder_and_removes_stale_ones(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setenv(VARIABLE, "")
    ours = tmp_path / "strapwright"
    current = compiled(ours, kernel_digest(), 0.0)
    os.utime(current, (DAY, DAY))
    stale = compiled(ours, "0123456789abcdef", 0.0)
    os.utime(stale, (DAY, DAY))
    assert prepare_cache() is None
    assert current.is_dir()
    assert not stale.exists()
    assert current.stat().st_mtime > 365 * DAY
