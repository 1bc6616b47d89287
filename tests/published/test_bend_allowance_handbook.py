"""Bend allowance lines of a machinist's handbook.

Source: Machinery's Handbook, bend allowance for straight bends, formulas (32) to (34) and the
rule for other angles; ``data/07_bend_allowance_machinerys_handbook.csv``.  The grid was worked
out from the printed formulas to four places, so it is held to half a unit of the fourth.
"""

from __future__ import annotations

import csv
import re
from math import pi
from pathlib import Path

import pytest

from strapwright.blank.allowance_methods import book_allowance
from strapwright.shop.job import BlankMethod

DATA = Path(__file__).parent / "data" / "07_bend_allowance_machinerys_handbook.csv"
LINES = [line for line in DATA.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
ROWS = list(csv.DictReader(LINES))
GRID = [row for row in ROWS if row["item"] == "grid"]
METHODS: dict[str, BlankMethod] = {
    "soft": "book soft",
    "half-hard/soft steel": "book medium",
    "hard": "book hard",
}
FORMULAS: dict[str, BlankMethod] = {
    "formula 32": "book soft",
    "formula 33": "book medium",
    "formula 34": "book hard",
}


@pytest.mark.parametrize("row", GRID, ids=lambda row: f"{row['material_class']} {row['value']}")
def test_the_grid(row: dict[str, str]) -> None:
    thickness, radius, angle = (
        float(number) for number in re.findall(r"\d+(?:\.\d+)?", row["inputs_or_formula"])
    )
    allowance = book_allowance(METHODS[row["material_class"]], angle * pi / 180, thickness, radius)
    assert allowance == pytest.approx(float(row["value"]), abs=5.1e-5)


def test_the_grid_is_whole() -> None:
    assert len(GRID) == 3 * 3 * 4  # materials, thicknesses, radii


@pytest.mark.parametrize(("item", "method"), FORMULAS.items())
def test_the_printed_formula(item: str, method: BlankMethod) -> None:
    (row,) = [row for row in ROWS if row["item"] == item]
    for_thickness, for_radius = map(
        float,
        re.findall(r"(\d\.\d+) [TR]", row["inputs_or_formula"]),
    )
    assert book_allowance(method, pi / 2, 1.0, 0.0) == pytest.approx(for_thickness)
    assert book_allowance(method, pi / 2, 1.0, 1.0) - for_thickness == pytest.approx(for_radius)


@pytest.mark.parametrize("method", METHODS.values())
def test_other_angles_are_multiplied_by_angle_over_90(method: BlankMethod) -> None:
    square = book_allowance(method, pi / 2, 6.0, 12.0)
    for degrees in (30, 45, 120, 135):
        allowance = book_allowance(method, degrees * pi / 180, 6.0, 12.0)
        assert allowance == pytest.approx(square * degrees / 90)
