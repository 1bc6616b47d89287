"""Smallest radii of the catalog beside a design book's table of preferred inside radii.

Source: ``data/15_preferred_radii_inch_table.csv``, preferred radii of 90 deg bends in inches.  Its
values are printed; how its columns are headed was inferred and is doubtful, so the order of
the columns is held to first.  A preferred radius is no limit: it is one that a shop likes, in steps
of 1/32 in, so it lies between the smallest radius and a little over twice that, and a limit of ours
may pass it by one step, no more.  Thicknesses are rounded to three decimals: 0.063 is 1/16.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from strapwright.catalog import find_material, smallest_radius

DATA = Path(__file__).parent / "data" / "15_preferred_radii_inch_table.csv"
ROWS = list(
    csv.DictReader(one for one in DATA.read_text("utf-8").splitlines() if not one.startswith("#"))
)
INCH = 25.4  # mm
STEP = 1 / 32  # in
ROUNDED = 0.0005  # in
# Column -> metal of the catalog, smallest share of a preferred radius that its limit may be.
COLUMNS = {
    "6061-T6": ("6061-T6", 1 / 2.2),
    "5052-H32": ("5052-H32", 1 / 2.2),
    "1020_1025_4130ann": ("1018 hot rolled", 1 / 2.2),
    # Its limit is trade use, one thickness, from 0.5 (soft) to 6 (hard) in the textbook's table.
    "SS304": ("304 annealed", 1 / 2.6),
}


def test_columns_stand_in_the_order_of_their_metals() -> None:
    """From soft to hard temper the radii of aluminium grow; 302 is never easier than 304."""
    assert len(ROWS) == 14
    for row in ROWS:
        soft, half, most, hard = (
            float(row[name])
            for name in (
                "O_tempers_2024_3003_1100_6061_5052",
                "5052-H32",
                "5052-H34_6061-T4",
                "6061-T6",
            )
        )
        assert soft <= half <= most <= hard <= float(row["2024-T3"])
        if row["SS302"] != "NR":
            assert float(row["SS304"]) <= float(row["SS302"])


@pytest.mark.parametrize("column", COLUMNS)
def test_smallest_radius_beside_the_preferred_one(column: str) -> None:
    name, share = COLUMNS[column]
    metal = find_material(name, "")
    compared = 0
    for row in ROWS:
        if row[column] == "NR":
            continue
        thickness, preferred = float(row["thickness_in"]) - ROUNDED, float(row[column])
        least = smallest_radius(metal, thickness * INCH)[0] / INCH
        assert least <= preferred + STEP
        # Under 1/16 in the smallest tool that a shop has decides, not the metal.
        if thickness > 1 / 16 - 2 * ROUNDED:
            assert least >= share * preferred
            compared += 1
    assert compared >= 5
