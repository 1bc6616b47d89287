"""Clearance holes against two charts.

``data/shop_02_clearance_inch.csv``: data of a CAD package (Apache-2.0), classes named as in ASME
B18.2.8, and an older shop chart (open data).  Rows marked doubtful there are left out here too.
``data/shop_02_clearance_metric_iso273.csv``: ISO 273 from the same package and from a second chart.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import get_args

import pytest

from strapwright.catalog.clearance import ClearanceFit, clearance_hole, shop_clearance
from strapwright.errors import InputError

# ISO 273, EN 20273: fine, medium, coarse; from memory.  Both charts have medium and coarse half a
# millimetre wider, as DIN 69 once had them (from memory).
LATER = {"M12": (13.0, 13.5, 14.5), "M14": (15.0, 15.5, 16.5), "M16": (17.0, 17.5, 18.5)}

Rows = Callable[[str], list[dict[str, str]]]


def test_inch(shop_rows: Rows) -> None:
    for row in shop_rows("02_clearance_inch"):
        size = row["size"].replace(" ", "-")
        if "doubtful" in row["note"]:
            with pytest.raises(InputError, match="no clearance hole for this bolt"):
                clearance_hole(size, "normal", "w")
            continue
        for fit in get_args(ClearanceFit):
            hole = clearance_hole(size, fit, "w")
            assert hole.diameter / 25.4 == pytest.approx(float(row[f"{fit}_in"]), abs=5.1e-5)
        for key, free in (("oldchart_close_in", False), ("oldchart_free_in", True)):
            found = shop_clearance(size, free=free)
            assert (found is None) == (not row[key])
            if found is not None:
                assert found / 25.4 == pytest.approx(float(row[key]), abs=1.1e-4)  # it truncates


def test_iso_273(shop_rows: Rows) -> None:
    for row in shop_rows("02_clearance_metric_iso273"):
        if row["size"] == "M9":
            continue  # its fine row is no size that is sold
        if row["size"] in LATER:
            continue
        for fit, first, second in (
            ("close", "fine_mm", "second_close_mm"),
            ("normal", "medium_mm", "second_medium_mm"),
            ("loose", "coarse_mm", "second_free_mm"),
        ):
            hole = clearance_hole(row["size"], fit, "w")  # type: ignore[arg-type]
            assert hole.diameter == float(row[first])
            if row[second] and "differ" not in row["note"]:
                assert hole.diameter == float(row[second])
            assert hole.source.endswith("charts differ") == ("differ" in row["note"])


@pytest.mark.parametrize("size", LATER)
def test_three_sizes_that_the_charts_have_as_they_once_were(shop_rows: Rows, size: str) -> None:
    (row,) = (one for one in shop_rows("02_clearance_metric_iso273") if one["size"] == size)
    for fit, key, wide in zip(
        get_args(ClearanceFit), ("fine_mm", "medium_mm", "coarse_mm"), LATER[size], strict=True
    ):
        hole = clearance_hole(size, fit, "w")
        assert hole.diameter == wide
        assert wide <= float(row[key])
        assert "older charts" in hole.source
