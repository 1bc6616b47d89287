"""How the solver's own error hangs together along the turn."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strapwright.learning.error_along_turn import ErrorAlongTurn
from strapwright.learning.log_spreads import USUAL_LOG

TURNS = st.floats(0.0, 2.4)
LAWS = (USUAL_LOG.force_error, USUAL_LOG.angle_error)


@pytest.mark.parametrize("law", LAWS, ids=["force", "angle"])
@given(turn=TURNS)
def test_the_error_is_as_large_at_every_turn(law: ErrorAlongTurn, turn: float) -> None:
    assert sum(weight**2 for weight in law.weights(turn).values()) == pytest.approx(1.0)


@pytest.mark.parametrize("law", LAWS, ids=["force", "angle"])
@given(here=TURNS, there=TURNS)
def test_errors_at_two_turns_go_together_by_the_law(
    law: ErrorAlongTurn, here: float, there: float
) -> None:
    of_here, of_there = law.weights(here), law.weights(there)
    product = sum(weight * of_there.get(knot, 0.0) for knot, weight in of_here.items())
    apart = abs(here - there)
    if math.degrees(apart) >= 4.0:  # two knots of what dies out at once
        assert product == pytest.approx(law.together(apart), abs=0.02)
    else:
        assert law.together(apart) - 0.02 <= product <= 1.0 + 1e-9


def test_the_law_by_hand() -> None:
    # A quarter even, half dying out over 10 deg: 10 deg apart 0.25 + 0.5 exp(-1/2) = 0.55327,
    # 20 deg apart 0.25 + 0.5 exp(-2) = 0.31767.
    law = ErrorAlongTurn(even=0.25, quick=0.25, reach=math.radians(10.0))
    assert law.together(math.radians(10.0)) == pytest.approx(0.55327, abs=1e-5)
    assert law.together(math.radians(-20.0)) == pytest.approx(0.31767, abs=1e-5)
    with pytest.raises(ValueError, match="add up to one at most"):
        ErrorAlongTurn(even=0.7, quick=0.4, reach=0.1)
