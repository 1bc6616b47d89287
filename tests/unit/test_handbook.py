"""The handbook cannot drift from the code."""

from __future__ import annotations

from pathlib import Path

import pytest

from strapwright.shop.keys import KNOWN

ROOT = Path(__file__).resolve().parent.parent.parent
DOCS = ROOT / "docs"


@pytest.mark.parametrize("table", sorted(KNOWN))
def test_every_key_of_a_job_file_is_described(table: str) -> None:
    page = (DOCS / "job-file.md").read_text(encoding="utf-8")
    missing = [
        key
        for key in KNOWN[table]
        if f"`{key}`" not in page
        and f"[{key}]" not in page
        and f"`[part.{key}]`" not in page
        and f"part.{key}]]" not in page
    ]
    assert missing == []


def test_every_case_is_on_the_validation_page() -> None:
    page = (DOCS / "validation.md").read_text(encoding="utf-8")
    cases = {(p.parent.name, p.stem) for p in (ROOT / "validation" / "cases").rglob("*.json")}
    assert cases
    shown = {
        tuple(cell.strip() for cell in line.split("|")[1:3])
        for line in page.splitlines()
        if line.startswith("| ")
    }
    assert cases <= shown


def test_no_case_on_the_validation_page_fails() -> None:
    page = (DOCS / "validation.md").read_text(encoding="utf-8")
    assert ", 0 fail" in page.splitlines()[-1]


def test_every_page_is_in_the_contents() -> None:
    contents = (DOCS / "index.md").read_text(encoding="utf-8")
    assert {p.stem for p in DOCS.glob("*.md")} - {"index"} <= set(contents.split())
