"""Figures as people read them: units, rounding by band, limits rounded to the safe side."""

from __future__ import annotations

import math

import pytest

from strapwright.bending.bend_values import Band
from strapwright.wording.figures import Figures

INCH = Figures(units="inch", reading="1/64")
METRIC = Figures(units="metric", reading="mm")
PSI = 0.006894757293168361  # MPa; one lbf (4.4482216152605 N) on one square inch


def test_a_length_keeps_the_digits_its_band_supports() -> None:
    # The last digit is at most a fifth of the band: 1 mm takes tenths, 6 mm whole millimetres.
    assert METRIC.length(20.04, Band(low=19.5, high=20.5)) == "20.0 mm"
    assert METRIC.length(20.04, Band(low=17.0, high=23.0)) == "20 mm"
    assert INCH.length(25.4, Band(low=25.4 - 0.762, high=25.4 + 0.762)) == "1.00 in"


def test_a_band_never_prints_as_one_number() -> None:
    text = METRIC.between(Band(low=math.radians(89.96), high=math.radians(90.04)), "rad")
    low, high = text.removesuffix("°").split(" to ")
    assert float(low) < 90 < float(high)


@pytest.mark.parametrize("mpa", [0.5, 3.0, 6.8999, 13.8])
@pytest.mark.parametrize("show", [INCH, METRIC])
def test_a_pressure_that_is_a_limit_is_never_rounded_up(show: Figures, mpa: float) -> None:
    number, unit = show.pressure_down(mpa).split()
    size = {"psi": PSI, "bar": 0.1}[unit]
    assert float(number) * size <= mpa + 1e-12
    assert float(number) * size > mpa - 10 * PSI - 0.1


def test_units_follow_the_job() -> None:
    assert INCH.pressure(1000 * PSI) == "1000 psi"
    assert METRIC.pressure(10.0) == "100 bar"
    assert INCH.force(4448.2216152605) == "1000 lbf"
    assert METRIC.force(12_340.0) == "12.3 kN"
    assert INCH.force(4.4482216152605 * 5678.0) == "5680 lbf"
    assert INCH.force(4.4482216152605 * 1_234_567.0) == "1230000 lbf"
    assert INCH.angle(math.pi / 2) == "90°"
    assert INCH.on_bar(25.4 * 1.25) == "1-1/4 in"


def test_a_setting_is_finer_than_the_rule_on_the_bar() -> None:
    # 1/64 in is 0.397 mm, which near the end of a stroke can be two degrees.
    marked = Figures(units="inch", reading="1/16")
    assert marked.setting(20.2438) == "0.797 in"
    assert marked.bare_setting(2.54) == "0.100"
    assert marked.on_bar(20.2438) == "13/16 in"
    assert METRIC.setting(20.2438) == "20.24 mm"
    assert METRIC.on_bar(20.2438) == "20.2 mm"
    assert [METRIC.stated(size) for size in (6.0, 100.0, 6.5)] == ["6 mm", "100 mm", "6.5 mm"]


@pytest.mark.parametrize("mm", [9.999, 20.2438, 25.4])
@pytest.mark.parametrize("show", [INCH, METRIC])
def test_a_travel_not_to_be_passed_is_rounded_down(show: Figures, mm: float) -> None:
    number, unit = show.setting_below(mm).split()
    size, step = {"in": (25.4, 0.0254), "mm": (1.0, 0.01)}[unit]
    assert mm - step < float(number) * size <= mm + 1e-9


def test_the_jam_is_said_only_where_there_is_one() -> None:
    followed = math.radians(169.7)
    assert (
        INCH.jam(math.radians(150.9), followed)
        == "By calculation this tooling jams at 150° under load."
    )
    # No more is said than was worked out, and that rounded down.
    found = INCH.jam(math.pi, followed)
    assert found == "By calculation this tooling does not jam up to 169° under load."


def test_figure_and_band_have_one_last_place() -> None:
    said = METRIC.banded(5630.0, Band(low=4180.0, high=9310.0), "N")
    assert said.shown == "5.6 kN"
    assert said.between == "4.2 to 9.3 kN"
