"""The law by which errors at two turns go together, against the finite elements, left out.

Errors of each case are by constants that were tuned without it.
"""

from __future__ import annotations

import math
import sys
from itertools import pairwise
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parents[2] / "validation"))

import error_along_turn as along  # scripts, not a package
from strapwright.learning.log_spreads import USUAL_LOG

LAWS = (USUAL_LOG.force_error, USUAL_LOG.angle_error)
# Nearer than 2 deg what dies out at once is in part still there.
FAR_ENOUGH = [pair for pair in pairwise(along.APART) if pair[0] >= 2.0]


@pytest.mark.parametrize("figure", [0, 1], ids=along.FIGURES)
@pytest.mark.parametrize(("low", "high"), FAR_ENOUGH)
def test_errors_go_together_as_the_log_takes_them_to(figure: int, low: float, high: float) -> None:
    cases = along.left_out_errors()
    assert len(cases) >= 20
    found, spread = along.together(cases, figure, low, high)
    by_law = LAWS[figure].together(math.radians(0.5 * (low + high)))
    assert abs(found - by_law) <= max(2.0 * spread, 0.05)


def test_of_the_force_alone_a_share_dies_out_at_once() -> None:
    force, angle = (along.together(along.left_out_errors(), figure, 2.0, 4.0) for figure in (0, 1))
    assert force[0] + 2.0 * force[1] < 0.8
    assert angle[0] - 2.0 * angle[1] > 0.8
