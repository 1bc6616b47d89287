"""Figures on a terminal: units, rounding by band, limits rounded to the safe side."""

from __future__ import annotations

import math

import pytest

from strapwright.bending.values import Band
from strapwright.service.figures_text import Figures

INCH = Figures(units="inch", reading="1/64")
METRIC = Figures(units="metric", reading="mm")
PSI = 0.006894757293168361  # MPa; one lbf (4.4482216152605 N) on one square inch


def test_a_length_keeps_the_digits_its_band_supports() -> None:
    # The last digit is at most a fifth of the band: 1 mm takes tenths, 6 mm whole millimetres.
    assert METRIC.length(20.04, Band(low=19.5, high=20.5)) == "20.0 mm"
    assert METRIC.length(20.04, Band(low=17.0, high=23.0)) == "20 mm"
    assert INCH.length(25.4, Band(low=25.4 - 0.762, high=25.4 + 0.762)) == "1.00 in"


def test_a_band_never_prints_as_one_number() -> None:
    text = METRIC.between(Band(low=89.96, high=90.04), "deg")
    low, high = text.removeprefix("between ").removesuffix("°").split(" and ")
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
    assert INCH.angle(math.pi / 2) == "90°"
    assert INCH.on_bar(25.4 * 1.25) == "1-1/4 in"
    assert INCH.pushes((2.54, 0.0))[1] == ["0.100", "0.000"]
    assert METRIC.pushes((2.546,))[1] == ["2.55"]
