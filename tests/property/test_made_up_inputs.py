"""A short part of the long trial with made-up inputs, always the same ones."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).resolve().parents[2] / "validation" / "fuzz"))

import judging

# About a second of each; the long trial goes on from other seeds.
SHORT = {
    "quantities": 800, "limits": 300, "json": 800, "jobs": 40,
    "uploads": 40, "backups": 40, "forms": 4,
}  # fmt: skip


@pytest.fixture(scope="module")
def bench() -> Iterator[judging.Bench]:
    made = judging.Bench()
    yield made
    made.close()


@pytest.mark.parametrize("kind", SHORT)
def test_no_made_up_input_breaks_anything(bench: judging.Bench, kind: str) -> None:
    found = {
        number: wrong
        for number in range(SHORT[kind])
        if (wrong := judging.judged(bench, kind, 7, number)[1])
    }
    assert found == {}
