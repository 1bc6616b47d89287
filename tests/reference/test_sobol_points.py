"""The points that are kept are the library's own."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import qmc

from strapwright.catalog.sobol_points import KEPT_DIMENSIONS, KEPT_POINTS, SEED, sobol_points


@pytest.mark.parametrize("dimensions", [*KEPT_DIMENSIONS, 5])
def test_kept_points_are_those_of_the_library(dimensions: int) -> None:
    drawn = qmc.Sobol(dimensions, rng=np.random.default_rng(SEED)).random(KEPT_POINTS)
    assert np.array_equal(sobol_points(KEPT_POINTS, dimensions), drawn)
