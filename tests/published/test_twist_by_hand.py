"""A quarter twist of a flat, worked by hand.

A thin rectangle in torsion: fibres of a helix, shear 2 z k, the sand heap for the plastic torque
(Timoshenko and Goodier, Nadai; from memory).  How long a run is made and how jaws hold it is common
practice, no source.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from strapwright.bending.bend_values import FlowCurve
from strapwright.planning.bench_work.twisting_force import (
    least_run,
    length_lost,
    twist_springs_back,
    twist_strain,
    twist_torque,
)

QUARTER = math.radians(90.0)


def even(stress: float) -> FlowCurve:
    """A metal that flows at one stress."""
    return FlowCurve(modulus=200e3, poisson=0.3, strength=stress, offset=1e-12, exponent=1e-9)


def test_length_that_a_twist_takes() -> None:
    # 40 mm wide over 80 mm: (1.5708 x 40)^2 = 3947.8; over 80 it is 49.348: 1/32 is 1.542 mm and
    # 1/24 is 2.056 mm.
    assert length_lost(QUARTER, 80.0, 40.0) == pytest.approx((1.542, 2.056), abs=5e-4)


def test_it_lies_between_what_helices_ask_for() -> None:
    # Each fibre as a helix of its own: sqrt(L^2 + (a y)^2) long, if the middle kept its length.
    # Balance of stretched and shortened fibres: in an even metal half of the width on each side
    # of the balance, in one that hardens in proportion their mean.
    y = np.linspace(0.0, 20.0, 20_001)
    longer = np.hypot(80.0, QUARTER * y) - 80.0
    low, high = length_lost(QUARTER, 80.0, 40.0)
    assert low == pytest.approx(float(np.median(longer)), rel=0.02)
    assert high == pytest.approx(float(np.mean(longer)), rel=0.03)
    # The outer fibre alone would ask for three times the mean.
    assert float(longer[-1]) == pytest.approx(3.0 * high, rel=0.05)


def test_strain_of_the_hardest_spot() -> None:
    # k = 1.5708/80 = 0.019635 a mm.  Edge: k^2 x 40^2/12 = 0.05141; face: k x 6 = 0.11781, over
    # sqrt 3 it is 0.06802; together sqrt(0.05141^2 + 0.06802^2) = 0.08526.
    strain = twist_strain(QUARTER, 80.0, 6.0, 40.0)
    assert strain == pytest.approx(0.08526, abs=1e-5)
    # The shortest run for that strain is this one.
    assert least_run(QUARTER, 6.0, 40.0, strain) == pytest.approx(80.0)
    assert least_run(QUARTER, 6.0, 40.0, 0.5 * strain) > 80.0


def test_torque_of_a_thin_strip_that_hardly_stretches() -> None:
    # 40 x 6 at 300 MPa, twisted over 10 m: 300/1.73205 x 40 x 36/2 = 124 708 N mm.
    assert twist_torque(even(300.0), QUARTER, 10_000.0, 6.0, 40.0) == pytest.approx(
        124_708.0, rel=2e-3
    )


def test_torque_of_a_strip_so_thin_that_only_its_edges_resist() -> None:
    # Without shear the work of a turn is s k t times the integral of |y^2 - w^2/12| over the width,
    # w^3/(9 sqrt 3): 40^3/15.588 = 4105.7; x 300 x 0.019635 x 0.05 = 1209.2 N mm.
    assert twist_torque(even(300.0), QUARTER, 80.0, 0.05, 40.0) == pytest.approx(1209.2, rel=2e-3)


def test_torque_lies_between_the_larger_of_both_and_their_sum() -> None:
    # 40 x 6 over 80: shear 124 708 as above, edges 1209.2 x 6/0.05 = 145 104 N mm.
    torque = twist_torque(even(300.0), QUARTER, 80.0, 6.0, 40.0)
    assert math.hypot(124_708.0, 145_104.0) < torque < 124_708.0 + 145_104.0


def test_how_far_it_springs_back() -> None:
    # G = 200 000/2.6 = 76 923; 40 x 6: J = 40 x 216 (1 - 0.63 x 0.15 + 0.052 x 0.15^5)/3 =
    # 2880 x 0.90550 = 2607.9 mm4; 200 000 N mm over 80 mm: 200 000 x 80/(76 923 x 2607.9) =
    # 0.07976 rad at most.  Edges: 200 000 x 6 x 40^5 x 0.019635^2/180 = 263.19e6 N mm2 beside
    # G J = 200.61e6: 16e6/463.80e6 = 0.03450 rad at least.
    low, high = twist_springs_back((200e3, 200e3), even(300.0), QUARTER, 80.0, 6.0, 40.0)
    assert high == pytest.approx(0.07976, abs=2e-5)
    assert low == pytest.approx(0.03450, abs=2e-5)
    # A bar that takes 160 to 240 N m: 0.8 of the least and 1.2 of the most.
    ends = twist_springs_back((160e3, 240e3), even(300.0), QUARTER, 80.0, 6.0, 40.0)
    assert ends == pytest.approx((0.02760, 0.09571), abs=2e-5)
