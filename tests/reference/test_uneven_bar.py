"""A nose off the middle of the opening: two legs against a bar integrated along its length."""

from __future__ import annotations

import math

import pytest
from attrs import evolve
from chain_cases import ROUGH, STAINLESS, WIDE
from uneven_bar import UnevenBar

from strapwright.bending import BendSetup, state_for_free_angle
from strapwright.bending.off_middle.two_legs import uneven_at_travel
from strapwright.bending.solver_model import THIN

OFF = 0.05  # of the opening


# A big nose goes far round; without friction; and a bar that touches the nose at one place alone.
@pytest.mark.parametrize(
    ("setup", "angle", "wrapped"),
    [
        (ROUGH, 80.0, True),
        (evolve(WIDE, friction=0.0), 88.0, True),
        (STAINLESS, 20.0, False),
    ],
)
def test_two_legs_agree_with_a_bar_integrated_along_its_length(
    setup: BendSetup, angle: float, *, wrapped: bool
) -> None:
    even = state_for_free_angle(setup, math.radians(angle), THIN)
    ours = uneven_at_travel(setup, OFF * setup.opening, even.travel, THIN)
    assert ours is not None
    bar = UnevenBar(setup, OFF * setup.opening, even.travel)
    # Started from an even bend of the same angle, not from our answer.
    slope, push = 0.5 * even.loaded_angle, 0.55 * even.force
    near, far = (1.15 * slope, push / math.cos(slope)), (0.85 * slope, push / math.cos(slope))
    if wrapped:
        theirs = bar.wrapped(near, far)
    else:
        half = 0.5 * setup.opening
        theirs = bar.single((*near, 0.9 * half), (*far, 1.1 * half), 0.1 * slope)
    assert ours.force == pytest.approx(theirs.force, rel=2e-4)
    assert math.degrees(ours.loaded_angle - theirs.loaded) == pytest.approx(0.0, abs=0.01)
    assert ours.near_share == pytest.approx(theirs.near_push / theirs.force, abs=2e-4)
    assert ours.across_nose == pytest.approx(theirs.across, rel=2e-3)
    # It is far from what a flat bar would do, which 1/(1 - q^2) = 1.01 stands for.
    if wrapped:
        assert ours.force > 1.05 * even.force


def test_a_nose_in_the_middle_makes_the_even_bend() -> None:
    even = state_for_free_angle(WIDE, math.radians(60.0))
    ours = uneven_at_travel(WIDE, 0.0, even.travel)
    assert ours is not None
    assert ours.force == pytest.approx(even.force, rel=1e-7)
    assert ours.free_angle == pytest.approx(even.free_angle, abs=1e-7)
    assert ours.near_share == pytest.approx(0.5, abs=1e-9)
