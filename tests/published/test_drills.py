"""Drill sizes: the number and letter list behind ASME B94.11M, and fractions by arithmetic.

``data/shop_01_drills_number_letter.csv``: an open data list; a CAD package's own column
(Apache-2.0) is the second witness, though it rounds sizes of half a thousandth.
``data/shop_01_drills_fraction.csv``: exact arithmetic.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from strapwright.catalog.drills import drills, find_drill, nearest_drills

Rows = Callable[[str], list[dict[str, str]]]


def test_numbers_and_letters(shop_rows: Rows) -> None:
    listed = shop_rows("01_drills_number_letter")
    for row in listed:
        drill = find_drill(row["designation"], "w")
        assert drill.series == row["series"]
        assert drill.diameter / 25.4 == pytest.approx(float(row["decimal_in"]), abs=1e-9)
        assert drill.diameter / 25.4 == pytest.approx(float(row["package_value_in"]), abs=5.1e-4)
    ours = [one for one in drills() if one.series in ("number", "letter")]
    assert len(ours) == len(listed) == 106


def test_fractions(shop_rows: Rows) -> None:
    listed = shop_rows("01_drills_fraction")
    for row in listed:
        drill = find_drill(row["fraction"], "w")
        assert drill.series == "fraction"
        assert drill.diameter / 25.4 == pytest.approx(float(row["decimal_in"]), abs=5e-7)
        assert drill.diameter == pytest.approx(float(row["mm"]), abs=5.1e-5)
        assert (
            nearest_drills(float(row["mm"]), [one for one in drills() if one.series == "fraction"])[
                0
            ]
            == drill
        )
    assert len([one for one in drills() if one.series == "fraction"]) == len(listed)


def test_e_is_a_quarter_inch() -> None:
    assert find_drill("E", "w").diameter == find_drill("1/4", "w").diameter == 6.35
