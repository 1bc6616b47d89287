"""Percentage of thread and tap drills.

``data/shop_02_tap_drills_inch.csv`` and ``..._metric.csv``: a shop chart (open data) with the
percentage worked out beside them; a CAD package's drills (Apache-2.0) as second witness.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from strapwright.catalog.drills import find_drill
from strapwright.catalog.thread_sizes import chart_drill, find_thread

Rows = Callable[[str], list[dict[str, str]]]


def test_inch_percentages_and_chart(shop_rows: Rows) -> None:
    for row in shop_rows("02_tap_drills_inch"):
        thread = find_thread(f"{row['size']}-{row['tpi']}", "w")
        assert thread.major / 25.4 == pytest.approx(float(row["major_in"]), abs=1e-9)
        for percent in (75, 50):
            formula = float(row[f"formula_{percent}pct_in"])
            assert thread.hole(percent) / 25.4 == pytest.approx(formula, abs=6e-5)
            # The printed decimals have four places: half a step of them, in per cent of thread.
            step = 100 * 5e-5 / (0.01299 * 100 / float(row["tpi"])) + 0.06
            said = thread.percent(25.4 * float(row[f"chart_dec_{percent}_in"]))
            assert said == pytest.approx(float(row[f"actual_pct_of_chart{percent}"]), abs=step)
            chart = chart_drill(thread, percent)
            if "outside" in row["note"]:
                assert chart is None
            else:
                assert chart is not None
                package = row["package_drill_soft" if percent == 75 else "package_drill_hard"]
                assert chart == find_drill(package, "w")


def test_metric_percentages_and_chart(shop_rows: Rows) -> None:
    for row in shop_rows("02_tap_drills_metric"):
        thread = find_thread(f"{row['size']}x{row['pitch_mm']}", "w")
        drill = float(row["chart_tap_mm"])
        assert thread.percent(drill) == pytest.approx(float(row["actual_pct"]), abs=0.051)
        assert thread.major - thread.pitch == pytest.approx(float(row["d_minus_p_mm"]), abs=6e-4)
        chart = chart_drill(thread)
        assert chart is not None
        assert chart.diameter == drill
