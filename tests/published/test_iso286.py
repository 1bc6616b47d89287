"""ISO 286 limits and fits against tables, and every size band against a package.

``data/shop_04_iso286_it_grades.csv`` and ``..._fits.csv``: the package pressfit 0.1.0 (MIT), rows
checked against isofits 1.0 (MIT).
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pressfit
import pytest

from strapwright.catalog.iso286_limits import grade_width, limits
from strapwright.making.fits import iso_fit

# Inside each band of the package's tables, and on its ends.
SIZES: tuple[float, ...] = (
    1,
    3,
    3.5,
    6,
    8,
    10,
    14,
    18,
    22,
    24,
    27,
    30,
    36,
    40,
    45,
    50,
    60,
    65,
    75,
    80,
    90,
    110,
    130,
)
SIZES += (150, 170, 190, 210, 240, 270, 300, 330, 380, 420, 480, 500)
Rows = Callable[[str], list[dict[str, str]]]


def test_grades(shop_rows: Rows) -> None:
    for row in shop_rows("04_iso286_it_grades"):
        low, high = float(row["over_mm"]), float(row["up_to_mm"])
        for grade in range(5, 12):
            for size in (math.nextafter(low, high), (low + high) / 2, high):
                assert 1000 * grade_width(size, grade, "w") == pytest.approx(
                    float(row[f"IT{grade}"])
                )


def test_fits(shop_rows: Rows) -> None:
    for row in shop_rows("04_iso286_fits"):
        fit = iso_fit(float(row["nominal_mm"]), row["fit"], "w")
        said = [float(row[key]) for key in ("hole_lower_um", "hole_upper_um")]
        assert [1000 * fit.hole.lower, 1000 * fit.hole.upper] == pytest.approx(said)
        said = [float(row[key]) for key in ("shaft_lower_um", "shaft_upper_um")]
        assert [1000 * fit.shaft.lower, 1000 * fit.shaft.upper] == pytest.approx(said)
        said = [float(row[key]) for key in ("min_clearance_um", "max_clearance_um")]
        assert [1000 * fit.least, 1000 * fit.most] == pytest.approx(said)
        assert fit.kind == row["kind"]


@pytest.mark.parametrize(
    "letter", ["c", "d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "s", "u"]
)
def test_every_band_and_letter_against_a_package(letter: str) -> None:
    for size in SIZES:
        for grade in (6, 7, 9, 11):
            theirs = pressfit.fit(f"{size} H8/{letter}{grade}")
            ours = limits(size, f"{letter}{grade}", "w")
            assert 1000 * ours.lower == pytest.approx(theirs.shaft_ei_um)
            assert 1000 * ours.upper == pytest.approx(theirs.shaft_es_um)
