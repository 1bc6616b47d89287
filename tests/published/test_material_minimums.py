"""Strength minimums of the catalog against the standards and handbooks.

Source: ``data/19_material_minimums.csv``, named row by row in its head.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from strapwright.catalog import find_material

DATA = Path(__file__).parent / "data" / "19_material_minimums.csv"
ROWS = list(
    csv.DictReader(one for one in DATA.read_text("utf-8").splitlines() if not one.startswith("#"))
)


@pytest.mark.parametrize("row", [one for one in ROWS if one["kind"] != "mean"], ids=str)
def test_the_catalog_holds_the_minimum_and_is_typically_above(row: dict[str, str]) -> None:
    metal = find_material(row["catalog_name"], "w")
    assert metal.yield_minimum == float(row["yield"])
    assert metal.tensile_minimum == float(row["tensile_low"])
    assert metal.yield_typical > metal.yield_minimum
    assert metal.tensile_typical > metal.tensile_minimum
    if row["tensile_high"]:
        assert metal.tensile_typical < float(row["tensile_high"])
    if row["elongation"]:
        assert metal.elongation == float(row["elongation"])


def test_a_single_test_series_is_typical_and_no_minimum() -> None:
    (row,) = (one for one in ROWS if one["kind"] == "mean")
    metal = find_material(row["catalog_name"], "w")
    assert metal.yield_minimum is None
    assert metal.tensile_minimum is None
    assert metal.yield_typical == pytest.approx(float(row["yield"]), rel=1e-3)
    assert metal.tensile_typical == pytest.approx(float(row["tensile_low"]), rel=1e-3)
    assert metal.elongation == float(row["elongation"])
