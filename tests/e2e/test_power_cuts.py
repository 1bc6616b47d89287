"""The power goes at any moment of a saving: what was acknowledged is there, and nothing is half."""

from __future__ import annotations

import os
import random
import sys
from pathlib import Path
from typing import Any

import pytest

sys.path.append(str(Path(__file__).resolve().parents[2] / "benchmarks"))

import power_cuts
import recorded_disk
import store_kills
from strapwright.service.file_access import write_files

CUTS = 40  # of each trial; the long run makes thousands


@pytest.fixture(scope="module", autouse=True)
def warm() -> None:
    store_kills.warm_up()


def figures(name: str) -> dict[str, Any]:
    try:
        return power_cuts.cut(name, CUTS, 3)
    except recorded_disk.CannotRecordError as reason:
        pytest.skip(str(reason))


@pytest.mark.parametrize("name", power_cuts.TRIALS)
def test_a_power_cut_loses_nothing_that_was_acknowledged(name: str) -> None:
    found = figures(name)
    assert found["wrong"] == []
    assert found["acknowledged"] > 0
    assert found["cuts"] == CUTS


def recorded(tmp_path: Path, work: Any) -> recorded_disk.Recorded:
    root = tmp_path / "disk"
    root.mkdir()
    try:
        return recorded_disk.record(root, lambda say: work(root, say))
    except recorded_disk.CannotRecordError as reason:
        pytest.skip(str(reason))


def after_cuts(found: recorded_disk.Recorded, tmp_path: Path) -> set[bytes | None]:
    """What a file may hold after a cut at the end: ``None`` where it is not there."""
    seen: set[bytes | None] = set()
    for number in range(60):
        left = tmp_path / f"left {number}"
        left.mkdir()
        chance = random.Random(number)  # noqa: S311
        recorded_disk.left_by_a_cut(found, left, len(found.events), chance)
        path = left / "file"
        seen.add(path.read_bytes() if path.exists() else None)
    return seen


def test_what_nobody_waited_for_may_be_lost_and_what_was_waited_for_not(tmp_path: Path) -> None:
    """The disk on paper against what POSIX says of fsync: file and name each for themselves."""
    whole = b"a" * 2000

    def loose(root: Path, say: Any) -> None:
        (root / "file").write_bytes(whole)
        say("done")

    seen = after_cuts(recorded(tmp_path, loose), tmp_path)
    assert {None, b"", whole} <= seen
    assert any(one not in (None, b"", whole) for one in seen)  # a part of it


def test_a_name_that_was_not_written_through_may_be_lost(tmp_path: Path) -> None:
    def half(root: Path, say: Any) -> None:
        with (root / "file").open("wb") as file:
            file.write(b"a" * 2000)
            file.flush()
            os.fsync(file.fileno())
        say("done")

    assert after_cuts(recorded(tmp_path, half), tmp_path) == {None, b"a" * 2000}


def test_what_is_written_through_with_its_name_is_there(tmp_path: Path) -> None:
    def through(root: Path, say: Any) -> None:
        write_files(root, {"file": b"a" * 2000})
        say("done")

    assert after_cuts(recorded(tmp_path, through), tmp_path) == {b"a" * 2000}
