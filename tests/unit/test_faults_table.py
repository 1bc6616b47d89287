"""Each fault of the handbook's table is tried by a test that is there."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_every_test_of_the_table_is_there() -> None:
    text = (ROOT / "docs" / "faults.md").read_text(encoding="utf-8")
    text = text.partition("\n## ")[0]  # the tables below it tell what was tried
    named = re.findall(r"`(test_\w+)` \|$", text, re.MULTILINE)
    there = {
        name
        for path in (ROOT / "tests").rglob("test_*.py")
        for name in re.findall(r"^def (test_\w+)", path.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert len(named) == sum(line.startswith("| ") for line in text.split("\n")) - 1
    assert len(set(named)) == len(named) > 30
    assert set(named) <= there
