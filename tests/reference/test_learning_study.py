"""The shop log against truths that do not come from the solver.

The whole tables are ``validation/learning_study.py``; here one bend with few drawn shops, so that a
learning that misleads is seen.  The draws are fixed.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.append(str(Path(__file__).parents[2] / "validation"))

import learning_study as study  # scripts, not a package

COUNTS = (0, 1, 3)
SHOPS = 10


@pytest.fixture(scope="module")
def rows() -> list[study.Foretold]:
    return study.drawn("stainless, no friction", SHOPS, np.random.default_rng(11), COUNTS)


@pytest.mark.parametrize("figure", ["free angle", "gauge"])
def test_the_next_part_gets_surer_with_every_reading_and_the_band_says_so(
    figure: str, rows: list[study.Foretold]
) -> None:
    same = [row for row in rows if row.where == "same tooling"]
    none, one, three = (study.summary(same, figure, count) for count in COUNTS)
    assert one.rms[0] < 0.6 * none.rms[0]
    assert three.rms[0] < one.rms[0]
    assert one.width < 0.5 * none.width
    assert three.width < one.width
    # Of 20 truths 15 and more lie inside nine times in ten with a chance of 99 in 100.
    assert min(one.inside, three.inside) >= 0.75
    assert max(one.worse, three.worse) <= 0.05


@pytest.mark.parametrize("figure", ["free angle", "gauge"])
def test_the_next_job_is_not_misled_as_it_is_by_carrying_a_difference_over(
    figure: str, rows: list[study.Foretold]
) -> None:
    other = [row for row in rows if row.where == "next job"]
    three = study.summary(other, figure, 3)
    # Little is learned of another tooling's angle, and ten shops tell little: no worse than chance.
    before, now = (
        np.array([row.by[0] - row.middle for row in other if _of(row, figure, count)])
        for count in (0, 3)
    )
    worse = (now**2 - before**2).reshape(SHOPS, -1).mean(axis=1)
    assert np.mean(worse) <= 2.0 * np.std(worse, ddof=1) / np.sqrt(SHOPS)
    assert three.rms[0] < three.rms[1]
    # The two figures of a shop are off alike: of ten shops six and more lie inside nine times in
    # ten with a chance of 998 in 1000 (binomial).
    assert three.inside >= 0.6


def _of(row: study.Foretold, figure: str, readings: int) -> bool:
    return (row.figure, row.readings) == (figure, readings)
