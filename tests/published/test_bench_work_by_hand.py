"""Closing a bend at the bench, worked by hand.

Fully plastic moment: b t^2/4 of a rectangle, d^3/6 of a round (strength of materials, any text;
from memory).  What the hand gives and how the jaws hold is common practice, no source.
"""

from __future__ import annotations

import math

import pytest

from strapwright.bending.bend_values import FlowCurve
from strapwright.planning.bench_work.closing_force import (
    goes_past,
    outer_stress,
    plastic_moment,
    squeezing_force,
    stiffness,
)
from strapwright.planning.bench_work.opening_a_bend import (
    Tent,
    springs_back,
    tent_force,
    tent_travel,
)


def test_moment_of_a_flat_bar() -> None:
    # 1/4 x 2 in at 60 000 psi: 2 x 0.25^2/4 = 0.03125 in3, x 60 000 = 1875 lbf in, x 2/sqrt 3 =
    # 2165 lbf in = 244.6 N m.
    psi, lbf_in = 6.894757e-3, 112.98483
    moment = plastic_moment("flat", 6.35, 50.8, 60_000 * psi)
    assert moment / lbf_in == pytest.approx(2165.0, abs=0.5)
    # One person pulling 90 lbf stands 24 in away.
    assert moment / lbf_in / 90.0 == pytest.approx(24.06, abs=0.01)


def test_moment_of_a_round_rod() -> None:
    # 12 mm at 500 MPa: 12^3/6 = 288 mm3, x 500 = 144 000 N mm.
    assert plastic_moment("round", 12.0, 12.0, 500.0) == pytest.approx(144_000.0)


def test_stress_at_the_outer_face() -> None:
    # K 800, e0 0, n 0.2, t 6, r 9: strain ln(1 + 3/12) = 0.2231; 0.2231^0.2 = 0.7407: 592.6 MPa.
    flow = FlowCurve(modulus=200e3, poisson=0.3, strength=800.0, offset=1e-12, exponent=0.2)
    assert outer_stress(flow, 6.0, 9.0) == pytest.approx(592.6, abs=0.2)


def test_force_of_a_squeeze() -> None:
    # Legs at 90 degrees, each 45 to the middle plane: the arm of a leg of 50 mm is 35.36 mm, and
    # 200 000 N mm over it are 5657 N.  Shut, the arm is the whole leg: 4000 N.
    assert squeezing_force(200e3, 50.0, math.radians(90)) == pytest.approx(5656.9, abs=0.1)
    assert squeezing_force(200e3, 50.0, math.radians(180)) == pytest.approx(4000.0)


def test_how_far_it_opens_again() -> None:
    # 40 x 5 mm, E 200 000: E I = 200 000 x 40 x 125/12 = 83.33e6 N mm2.  200 000 N mm over 30 mm
    # turn it by 200 000 x 30/83.33e6 = 0.072 rad.
    e_i = stiffness("flat", 5.0, 40.0, 200e3)
    assert e_i == pytest.approx(83.333e6, rel=1e-4)
    assert goes_past(200e3, 30.0, e_i) == pytest.approx(0.0720, abs=1e-4)
    # Rod of 10 mm: pi 10^4/64 = 490.87 mm4.
    assert stiffness("round", 10.0, 10.0, 1.0) == pytest.approx(490.87, abs=0.01)


def test_the_least_that_it_springs_back_is_that_of_a_soft_bar() -> None:
    # As above 0.072 rad in the middle.  A standard deviation of 0.1 is 1.645 x 0.1 = 0.1645 at one
    # in twenty: e^0.1645 = 1.1788, so a hard bar does 0.08487; e^-0.1645 = 0.8483, so a soft one
    # 0.06108, and half of that is 0.03054.
    least, most = springs_back(200e3, 0.1, 30.0, 83.333e6)
    assert least == pytest.approx(0.03054, abs=1e-5)
    assert most == pytest.approx(0.08487, abs=1e-5)


def tent(shoulder: float, half_thickness: float, friction: float) -> Tent:
    return Tent(
        moment=100e3,
        half_opening=30.0,
        shoulder=shoulder,
        half_thickness=half_thickness,
        friction=friction,
    )


def test_force_that_opens_a_tent() -> None:
    # Sharp shoulders 60 mm apart, legs at 45 degrees: each pushes square to its leg at
    # 30/cos 45 = 42.43 mm from the bend.  100 N m over that are 2357 N, and twice its upright part
    # 2357 cos 45 = 1667 N is 3333 N.
    assert tent_force(tent(0.0, 0.0, 0.0), math.radians(45)) == pytest.approx(3333.3, abs=0.1)
    # Rounds of 10 mm and a bar of 6 mm: (30 + 13 sin 45)/cos 45 = 55.43 mm, so 1804 N and 2551 N.
    assert tent_force(tent(10.0, 3.0, 0.0), math.radians(45)) == pytest.approx(2551.5, abs=0.5)


def test_friction_of_the_shoulders_adds_to_the_force_that_opens_a_tent() -> None:
    # Sharp: 2357 N (cos 45 + 0.2 sin 45) = 2357 x 0.84853 = 2000 N, twice that 4000 N.
    assert tent_force(tent(0.0, 0.0, 0.2), math.radians(45)) == pytest.approx(4000.0, abs=0.1)
    # Rounds of 10 mm, bar of 6 mm: friction runs 3 mm off the middle of the leg and takes
    # 0.2 x 3 = 0.6 mm off the arm: 100 000/(55.43 - 0.6) = 1823.8 N, x 0.84853 x 2 = 3095 N.
    assert tent_force(tent(10.0, 3.0, 0.2), math.radians(45)) == pytest.approx(3095.2, abs=0.5)


def test_way_that_opens_a_tent() -> None:
    # From 90 to 85: 30 (tan 45 - tan 42.5) = 30 x 0.08367 = 2.510 mm, and on rounds
    # 13 (1/cos 45 - 1/cos 42.5) = 13 (1.41421 - 1.35634) = 0.752 mm more.
    ninety, less = math.radians(90), math.radians(85)
    assert tent_travel(ninety, less, 30.0, 0.0) == pytest.approx(2.510, abs=0.001)
    assert tent_travel(ninety, less, 30.0, 13.0) == pytest.approx(3.262, abs=0.002)
