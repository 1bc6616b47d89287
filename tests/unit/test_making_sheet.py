"""Pages of the sheets for the bench."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import pytest

from page_texts import page_texts
from strapwright.making.tooling_making import ToolingMaking
from strapwright.service.tooling_files import load_making
from strapwright.sheets.making_sheet import making_sheet

DIE = Path(__file__).parents[2] / "docs" / "examples" / "mooring-hook-die.toml"


@pytest.fixture(scope="module")
def made() -> ToolingMaking:
    return load_making(DIE)


@pytest.mark.parametrize("paper", [pytest.param("letter", marks=pytest.mark.long), "a4"])
def test_no_page_has_only_the_last_lines_of_a_plate(
    paper: Literal["letter", "a4"], made: ToolingMaking
) -> None:
    pages = page_texts(making_sheet(made, paper=paper))
    lines = [[one for one in page.splitlines() if one.strip()] for page in pages]
    names = [one.plate.title for one in made.plates]
    titles = {f"{name[:1].upper()}{name[1:]} {made.name}" for name in names}
    begins = [index for index, said in enumerate(lines) if said[0] in titles]
    assert len(begins) == len(made.plates)
    # What goes on overleaf is more than a step or a note, or the drawing would have made room.
    for index, said in enumerate(lines):
        if begins[0] < index < begins[-1] and index not in begins:
            assert len(said) > 8, said
