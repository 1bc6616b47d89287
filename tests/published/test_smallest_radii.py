"""Smallest inside radii against the standards and handbooks, every class from both sides.

Sources: EN 10025-2 (cold flanging, up to 90 deg); ASTM A6, table X4.2; Aluminum Association type
table (90 deg); Kalpakjian and Schmid, table 16.3.  Copies in ``data/11`` to ``data/14``.
"""

from __future__ import annotations

import csv
import math
from fractions import Fraction
from pathlib import Path

import attrs
import pytest

from strapwright.catalog import find_material, smallest_radius
from strapwright.catalog.smallest_radii import textbook_multiple

DATA = Path(__file__).parent / "data"


def rows(name: str) -> list[dict[str, str]]:
    text = (DATA / name).read_text("utf-8").splitlines()
    return list(csv.DictReader(one for one in text if not one.startswith("#")))


@pytest.mark.parametrize("row", rows("11_min_inside_radius_EN10025-2.csv"), ids=str)
def test_en_10025_2(row: dict[str, str]) -> None:
    metal = find_material(row["grade"], "w")
    along = row["bend_line"] == "longitudinal"
    for head, radius in list(row.items())[2:]:
        low, high = head.removeprefix("t_").removesuffix("_mm").split("-")
        for thickness in (float(low) + 1e-3, float(high)):
            found, source = smallest_radius(metal, thickness, along_grain=along)
            assert found == float(radius)
            assert source == (
                f"EN 10025-2, {row['grade']}, bend line {row['bend_line']}, up to 90° (standard)"
            )


@pytest.mark.parametrize("row", rows("12_min_inside_radius_ASTM_A6.csv"), ids=str)
def test_astm_a6(row: dict[str, str]) -> None:
    metal = attrs.evolve(find_material("A36", "w"), min_radius_row=row["group"])
    spans = [("t_up_to_20mm", 1.0, 20.0), ("t_20_to_25mm", 20.01, 25.0)]
    spans += [("t_25_to_50mm", 25.01, 50.0), ("t_over_50mm", 50.01, 80.0)]
    for head, low, high in spans:
        for thickness in (low, high):
            multiple = float(row[head])
            found, source = smallest_radius(metal, thickness)
            assert found == pytest.approx(multiple * thickness)
            assert "not proven" not in source
            along, source = smallest_radius(metal, thickness, along_grain=True)
            assert along == pytest.approx(1.5 * multiple * thickness)
            assert source.endswith("times 1.5 along the grain")


@pytest.mark.parametrize("row", rows("13_min_inside_radius_aluminium_90deg.csv"), ids=str)
def test_aluminium(row: dict[str, str]) -> None:
    metal = attrs.evolve(find_material("6061-T6", "w"), min_radius_row=row["alloy_temper"])
    before = 0.0
    for head, multiple in list(row.items())[1:]:
        thickness = float(Fraction(head.removeprefix("t_in_"))) * 25.4
        # The column's own thickness, and anything above the column before it.
        for t in (thickness, before + 1e-3):
            assert smallest_radius(metal, t)[0] == pytest.approx(float(multiple) * t)
        before = thickness


def test_textbook() -> None:
    for row in rows("14_min_radius_textbook.csv"):
        for condition in ("soft", "hard"):
            assert textbook_multiple(f"{row['material']}|{condition}") == float(row[condition])
    # Low-carbon steel, hard: 4 t.
    assert smallest_radius(find_material("1018 cold drawn", "w"), 5.0)[0] == 20.0


def test_past_the_table_the_multiple_grows_and_nothing_is_proven() -> None:
    metal = find_material("S235", "w")
    at, _ = smallest_radius(metal, 30.0)
    past, source = smallest_radius(metal, 60.0)
    assert math.isclose(past / 60.0, 2 * at / 30.0)
    assert source.endswith("carried on past the thickest bar of the table, not checked")
    thick, source = smallest_radius(find_material("6061-T6", "w"), 25.4)
    assert math.isclose(thick, 2 * 5 * 25.4)
    assert "not checked" in source
