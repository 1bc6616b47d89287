"""Labels of holes in a plate's drawing: clear of every hole and of each other."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from strapwright.drawing.plate_drawing import plate_scene
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.tooling_making import make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.scene.boxes import Box, text_box
from strapwright.scene.frame import Frame
from strapwright.scene.primitives import Text
from strapwright.shop_files.reading_job import read_job

ROOT = Path(__file__).resolve().parents[2]
SMALL = Frame(width=680.0, height=230.0, body=17.0)  # less than a sheet ever gives a plate
DIES = (
    ROOT / "docs" / "examples" / "mooring-hook-die.toml",
    ROOT / "tests" / "unit" / "data" / "thin-cheek-die.toml",
)


def meets(a: Box, b: Box) -> bool:
    return a.left < b.right and b.left < a.right and a.bottom < b.top and b.bottom < a.top


@pytest.mark.parametrize("die", DIES, ids=lambda die: die.stem)
def test_no_label_hides_a_hole_or_another_label(die: Path) -> None:
    pieces = pieces_of(read_job(die.read_text(encoding="utf-8")))
    made = make_tooling(pieces, usual_cutters(), name="hook", units="inch")
    assert any(len(one.rows) > 3 for one in made.plates)
    for plate in made.plates:
        scene = plate_scene(plate, SMALL)
        names = {row.label for row in plate.rows}
        labels = [
            text_box(one, scene.scale)
            for one in scene.shapes
            if isinstance(one, Text) and one.text in names
        ]
        assert len(labels) == len(names)
        assert not any(meets(*pair) for pair in combinations(labels, 2)), plate.plate.name
        for row in plate.rows:
            # The middle of a hole; its round may touch the corner of a word's box.
            reach = 0.35 * row.hole.diameter
            x, y = row.hole.x, row.hole.y
            middle = Box(left=x - reach, right=x + reach, bottom=y - reach, top=y + reach)
            assert not any(meets(one, middle) for one in labels), (plate.plate.name, row.label)
