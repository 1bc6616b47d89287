"""Ends of a band from few draws, against distributions whose quantiles stand in tables."""

from __future__ import annotations

import numpy as np
import pytest

from strapwright.bending.bend_band import NINETY
from strapwright.learning.band_ends import DRAWS, band_ends, draws


def test_of_normal_figures_the_ends_are_where_the_table_has_them() -> None:
    # A sum of normal figures is normal: its ends lie 1.645 deviations out to each side.
    rng = np.random.default_rng(3)
    for _ in range(20):
        weights = rng.standard_normal(draws().shape[1]) * rng.exponential(1.0, draws().shape[1])
        found = band_ends(200.0 + draws() @ weights)
        reach = NINETY * float(np.linalg.norm(weights))
        assert (found.low - 200.0, found.high - 200.0) == pytest.approx((-reach, reach), rel=0.03)


def test_of_a_square_the_ends_are_those_of_the_chi_square_distribution() -> None:
    # Chi-square of one degree of freedom: 0.0039 at 5 %, 3.841 at 95 % (tables of any handbook).
    found = band_ends(10.0 + draws()[:, 4] ** 2)
    assert (found.low - 10.0, found.high - 10.0) == pytest.approx((0.004, 3.841), abs=0.05)


def test_what_no_smooth_surface_meets_is_not_smoothed_away() -> None:
    # Half of the draws show 1 and half 3, as where a bar lets go: both lie inside.
    found = band_ends(2.0 + np.sign(draws()[:, 0]))
    assert found.low <= 1.0
    assert found.high >= 3.0


def test_of_draws_that_jam_the_ends_are_those_of_the_others() -> None:
    # Hyndman and Fan 1996, type 8: the place of a quantile p among n values is p (n + 1/3) + 1/3,
    # here of 1 to 128 at 0.05 x 128.333 + 0.333 = 6.75 and 0.95 x 128.333 + 0.333 = 122.25.
    values = np.full(DRAWS, np.nan)
    values[::2] = np.arange(1.0, 129.0)
    found = band_ends(values)
    assert (found.low, found.high) == pytest.approx((6.75, 122.25), abs=1e-9)
