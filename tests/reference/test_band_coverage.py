"""The plan's bands against truths that do not come from the solver.

The whole tables are ``validation/band_coverage.py``; here one bend with few draws, so that a band
that is off by a third is seen.  Of 24 draws 18 and more lie inside nine times in ten with a chance
of 98 in 100; the draws are fixed.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.append(str(Path(__file__).parents[2] / "validation"))

import band_coverage  # scripts, not a package

pytestmark = pytest.mark.long
COUNT = 24


@pytest.fixture(scope="module")
def drawn() -> tuple[dict[str, tuple[float, float]], dict[str, np.ndarray]]:
    bands, truths = band_coverage.bands_and_truths(
        "aluminium, wide opening", COUNT, np.random.default_rng(7)
    )
    return (
        {figure: (band.low, band.high) for figure, band in bands.items()},
        {figure: np.array([truth[figure] for truth in truths]) for figure in bands},
    )


@pytest.mark.parametrize("figure", band_coverage.FIGURES)
def test_nine_truths_in_ten_lie_inside_and_not_nearly_as_many_in_half_the_band(
    figure: str, drawn: tuple[dict[str, tuple[float, float]], dict[str, np.ndarray]]
) -> None:
    (low, high), truths = drawn[0][figure], drawn[1][figure]
    middle, half = 0.5 * (low + high), 0.5 * (high - low)
    assert np.mean(np.abs(truths - middle) <= half) >= 0.75
    assert np.mean(np.abs(truths - middle) <= 0.5 * half) <= 0.8
    # Neither shifted: truths lie on both sides.
    assert 0.25 <= np.mean(truths > middle) <= 0.75
