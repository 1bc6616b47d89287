"""Masses of bars from the catalog's density of steel.

``data/shop_10_constants.csv``: 7850 kg/m3, exact arithmetic; common tables use 490 lb/ft3.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from strapwright.catalog import find_material

Rows = Callable[[str], list[dict[str, str]]]
FOOT, POUND = 304.8, 0.45359237  # mm, kg


def test_pounds_in_a_foot(shop_rows: Rows) -> None:
    density = find_material("A36", "w").density * 1e-9  # kg/mm3
    said = {
        row["name"].removesuffix(", per ft"): float(row["value"])
        for row in shop_rows("10_constants")
    }
    assert density * 25.4**3 / POUND == pytest.approx(said["steel mass"], abs=1e-4)
    areas = {"flat bar 1/2 x 4": 2.0, "flat bar 1/4 x 2": 0.5, "flat bar 1 x 6": 6.0}
    areas |= {"round 1 in": math.pi / 4, "round 2 in": math.pi, "square 1 in": 1.0}
    for name, area in areas.items():
        pounds = density * area * 25.4**2 * FOOT / POUND
        assert pounds == pytest.approx(said[name], rel=3e-4)  # printed to 0.001 lb
