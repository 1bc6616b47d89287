"""The shop log against truths that do not come from the solver.

The whole tables are ``validation/learning_study.py``; here each bend with few drawn shops, so that
a learning that misleads is seen.  The draws are fixed.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.append(str(Path(__file__).parents[2] / "validation"))

import learning_study as study  # scripts, not a package

pytestmark = pytest.mark.long
COUNTS = (0, 1, 3)
SHOPS = 4  # of each of the six bends


@pytest.fixture(scope="module")
def rows() -> list[study.Foretold]:
    return [
        row
        for place, name in enumerate(study.bands.BENDS)
        for row in study.drawn(
            name, SHOPS, np.random.default_rng([11, place]), COUNTS, read_better=False
        )
    ]


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
    # The two figures of a shop are off alike: of 24 shops 18 and more lie inside nine times in ten
    # with a chance of 99 in 100 (binomial).
    assert min(one.inside, three.inside) >= 0.75
    assert max(one.worse, three.worse) <= 0.05


@pytest.mark.parametrize("figure", ["free angle", "gauge"])
def test_the_next_job_is_not_misled_as_it_is_by_carrying_a_difference_over(
    figure: str, rows: list[study.Foretold]
) -> None:
    other = [row for row in rows if row.where == "next job"]
    none, three = (study.summary(other, figure, count) for count in (0, 3))
    assert three.rms[0] <= 1.02 * none.rms[0]
    assert three.rms[0] < three.rms[1]
    assert three.inside >= 0.75
