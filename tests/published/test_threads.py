"""Unified threads: tables of the basic sizes of ASME B1.1, and a package as a second check.

``data/shop_03_threads_unc_unf.csv``; the package screw-thread-lib 0.0.6 (MIT) lists ASME B1.1-2019
limits: the least pitch and minor diameters of a nut (2B) are the basic ones.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from screw_thread_lib.data import ASME_M_6g6H_dict, ASME_UN_2A2B_dict

from strapwright.catalog.thread_sizes import find_thread

Rows = Callable[[str], list[dict[str, str]]]


def test_basic_sizes(shop_rows: Rows) -> None:
    for row in shop_rows("03_threads_unc_unf"):
        thread = find_thread(f"{row['size']}-{row['tpi']}", "w")
        assert thread.series == row["series"]
        assert thread.major / 25.4 == pytest.approx(float(row["major_in"]), abs=1e-9)
        for ours, name in (
            (thread.pitch_diameter, "pitch_dia"),
            (thread.minor_diameter, "minor_int"),
        ):
            for how in ("calc", "table"):
                said = row[f"{name}_{how}_in"]
                if said:
                    assert ours / 25.4 == pytest.approx(float(said), abs=1.1e-4)
        area = thread.stress_area / 25.4**2
        assert area == pytest.approx(float(row["At_calc_in2"]), rel=1e-5, abs=6e-6)  # 0.7854
        assert area == pytest.approx(float(row["At_table_in2"]), rel=6e-3)  # three figures printed


@pytest.mark.parametrize("name", [one for one in ASME_UN_2A2B_dict if one != "1-14"])
def test_unified_against_a_package(name: str) -> None:
    theirs = ASME_UN_2A2B_dict[name]
    thread = find_thread(name, "w")
    assert thread.series == theirs["series"]
    assert thread.major / 25.4 == pytest.approx(theirs["dbsc"], abs=1e-9)
    assert thread.pitch_diameter / 25.4 == pytest.approx(theirs["D2min"], abs=1e-4)
    assert thread.minor_diameter / 25.4 == pytest.approx(theirs["D1min"], abs=6e-4)  # 3 places


@pytest.mark.parametrize("name", ASME_M_6g6H_dict)
def test_metric_against_a_package(name: str) -> None:
    theirs = ASME_M_6g6H_dict[name]
    thread = find_thread(name, "w")
    assert thread.series == "coarse"
    assert thread.pitch == pytest.approx(25.4 / theirs["n"])
    assert thread.pitch_diameter / 25.4 == pytest.approx(theirs["D2min"], abs=2e-5)
    assert thread.minor_diameter / 25.4 == pytest.approx(theirs["D1min"], abs=2e-5)
