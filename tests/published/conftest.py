"""Rows of the copies of the shop tables beside these tests."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

DATA = Path(__file__).parent / "data"


@pytest.fixture
def shop_rows() -> Callable[[str], list[dict[str, str]]]:
    def rows(name: str) -> list[dict[str, str]]:
        text = (DATA / f"shop_{name}.csv").read_text("utf-8").splitlines()
        # A line that begins with '#7' is a drill.
        return list(csv.DictReader(one for one in text if not one.startswith("# ")))

    return rows
