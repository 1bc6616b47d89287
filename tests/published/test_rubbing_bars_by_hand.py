"""Bars on each other that rub, against sums by hand.

Sources: plastic moment b d^2/4 of a rectangle, any text on plastic design; statics of a straight
flank (moment = push times lever, friction at most 0.6 times push), worked by hand here.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve

from strapwright.bending.bend_values import BendSetup, FlowCurve
from strapwright.bending.closed_forms import rectangle_plastic_modulus
from strapwright.planning.hits_and_stacks.rubbing_bars import rubbing

# Two bars of 5 mm: the shoulders of 5 mm count 10 under the bar at the nose.
INNER = BendSetup(
    section="slice",
    thickness=5.0,
    width=1.0,
    opening=60.0,
    nose_radius=10.0,
    shoulder_radius=10.0,
    friction=0.1,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=600.0, offset=0.01, exponent=0.2),
)


@pytest.mark.parametrize(
    ("bars", "loaded", "by_hand"),
    [
        # Lever 60/2 = 30; one joint takes 0.6 N on 5 mm: 30/(30 - 3).
        (2, 0.0, 1.11111),
        # Half angle 30 deg: (30 - 25 x 0.5)/0.866025 = 20.2073; 20.2073/17.2073.
        (2, 60.0, 1.17435),
        # Two joints: 30/(30 - 6).
        (3, 0.0, 1.25),
        # Half angle 60 deg: (30 - 25 x 0.866025)/0.5 = 16.6987; 16.6987/(16.6987 - 12), under 5.
        (5, 120.0, 3.55388),
    ],
)
def test_friction_adds_no_more_than_its_joints_carry(
    bars: int, loaded: float, by_hand: float
) -> None:
    most = rubbing(INNER, bars, np.radians([loaded]))
    assert most[0] == pytest.approx(by_hand, abs=2e-5)


@pytest.mark.parametrize("bars", [2, 3, 5])
def test_it_never_adds_more_than_one_thick_bar_asks(bars: int) -> None:
    """b (n t)^2/4 over n b t^2/4 is n, and it is met where the lever gets short."""
    stuck = rectangle_plastic_modulus(1.0, bars * 5.0)
    free = bars * rectangle_plastic_modulus(1.0, 5.0)
    most = rubbing(evolve(INNER, opening=51.0), bars, np.linspace(0.0, math.pi, 61)[:-1])
    assert most.max() == pytest.approx(stuck / free)
    assert np.all(most > 1.0)
