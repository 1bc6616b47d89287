"""A load off the middle of a beam on two supports, worked on paper.

AISC Manual, beam tables, 'simple beam, concentrated load at any point': M = P a b/l, R = P b/l on
the support at a, deflection at the load P a^2 b^2/(3 E I l); the plastic collapse load follows from
the first with M = Mp.  Opening 100 mm, the nose 10 mm off: a = 40, b = 60, q = 2 e/W = 0.2.
"""

from __future__ import annotations

from math import radians

import numpy as np
import pytest
from attrs import evolve

from strapwright.bending import BendSetup, FlowCurve
from strapwright.bending.off_middle.two_legs import UnevenBend, uneven_at_travel
from strapwright.bending.solver_model import THIN
from strapwright.planning.member_loads import Pushed, bench_under, uneven_share
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.check_values import Load
from strapwright.strength.load_cases import ONE_SHOULDER, UnevenShare, push_loads
from strapwright.strength.statics.seat_loads import resultant

BAR = BendSetup(
    section="slice",
    thickness=6.0,
    width=1.0,
    opening=100.0,
    nose_radius=0.5,
    shoulder_radius=0.5,
    friction=0.0,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=300.0, offset=1.0, exponent=0.0),
    width_state=0.0,
)


def test_an_elastic_bar_is_stiffer_off_the_middle() -> None:
    # E I = 2e5 * 6^3/12 = 3.6e6; 3 E I l/(a b)^2 = 1.08e9/5.76e6 = 187.5 N/mm, in the middle
    # 48 E I/l^3 = 172.8: 1/(1 - q^2)^2 = 1.0851 times as much at the same travel.
    bend = uneven_at_travel(BAR, 10.0, 0.01, THIN)
    assert bend is not None
    assert bend.force / 0.01 == pytest.approx(187.5, rel=1e-3)
    # R = P b/l: the nearer support carries 0.6 of it.
    assert bend.near_share == pytest.approx(0.6, abs=1e-3)
    # Both end slopes of the beam together: M l/(2 E I) = P a b/(2 E I) = 1.875*2400/7.2e6.
    assert bend.loaded_angle == pytest.approx(6.25e-4, rel=1e-3)


def test_a_bar_that_does_not_harden_folds_at_the_collapse_load() -> None:
    # Mp = 300 * 36/4 = 2700; Mp l/(a b) = 112.5 N/mm, in the middle 4 Mp/l = 108.0.
    bend = uneven_at_travel(BAR, 10.0, 3.0, THIN)
    even = uneven_at_travel(BAR, 0.0, 3.0, THIN)
    assert bend is not None
    assert even is not None
    # At 3 mm the legs stand at 4.3 and 2.9 deg: the arms are shorter by what the rounds turn.
    assert bend.force == pytest.approx(112.5, rel=0.02)
    assert bend.force / even.force == pytest.approx(1.0 / (1.0 - 0.2**2), rel=0.01)


def test_at_a_right_angle_the_push_is_even_again_and_the_nose_is_pushed_aside() -> None:
    # Sharp rounds, legs straight from the nose to the shoulders: tan of a slope is h/a, h/b.  The
    # moment about the nose is the same on both sides, so a shoulder carries M/sqrt(a^2 + h^2)
    # square to its leg.  At h = 50: along the ram M a/(a^2 + h^2) = 40/4100 = 9.756e-3 M against
    # 60/6100 = 9.836e-3 M; across it M h/(...) = 12.195e-3 M against 8.197e-3 M.
    # A thin bar a hundred times as stiff as steel: its legs stay straight.
    stiff = evolve(BAR.flow, modulus=2e7)
    thin = evolve(BAR, thickness=0.5, nose_radius=0.05, shoulder_radius=0.05, flow=stiff)
    bend = uneven_at_travel(thin, 10.0, 50.0, THIN)
    assert bend is not None
    assert bend.near_share == pytest.approx(9.756 / (9.756 + 9.836), abs=0.006)
    assert bend.across_nose / bend.force == pytest.approx(3.998 / 19.592, abs=0.01)


def test_the_nearer_shoulder_is_held_to_its_own_share() -> None:
    # 10 kN, 0.6 of it on one shoulder: 6 kN down; wedge 3 kN, a tenth more: 3.3 kN; 6.848 kN.
    (load,) = push_loads(
        peak=10e3, outward=3e3, steepest=0.5, press=None, friction=0.1, off_centre=0.0,
        uneven=UnevenShare(near=0.6, lean=1.1, across=0.08),
    )  # fmt: skip
    assert resultant(load) == pytest.approx(6848.0, abs=1.0)
    assert load.across == pytest.approx(800.0)
    # In the middle: 5 kN and 3 kN, 5.831 kN.
    assert resultant(Load(case="plan", force=10e3, outward=3e3)) == pytest.approx(5831.0, abs=1.0)


def test_the_nearer_shoulder_leans_out_though_friction_holds_the_mean_of_both_legs() -> None:
    # mu 0.2 holds 11.31 deg: of two legs of 9 deg none leans out.  The nearer one of 15 deg does,
    # by tan 3.69 deg = 0.06449 of its 6 kN of 10 kN: 387 N.
    near = UnevenBend(
        travel=5.0, force=10e3, loaded_angle=radians(18.0), free_angle=radians(17.0),
        near_slope=radians(15.0), far_slope=radians(3.0), near_push=6e3, far_push=4e3,
        near_outward=387.0, far_outward=0.0, tilt=radians(6.0),
    )  # fmt: skip
    share = uneven_share([near], 10.0, evolve(BAR, friction=0.2), radians(18.0))
    push = Pushed(
        high=np.array([10e3]), angle=np.array([0.0]), peak=10e3, loaded=0.0, steepest=0.0,
        uneven=share,
    )  # fmt: skip
    tooling = Tooling(nose=Nose(radius=10.0), shoulders=Shoulders(radius=5.0, opening=100.0))
    # At relief the same share of pi 50^2/4 mm2 at 10 MPa = 19 635 N: 760 N.
    press = Press(bore=50.0, relief=10.0)
    plan_load, relief = bench_under([push], [], tooling, press).pushes
    assert plan_load.outward == pytest.approx(387.0, abs=1.0)
    assert relief.outward == pytest.approx(760.0, abs=1.0)


def test_where_the_bar_cannot_be_followed_one_shoulder_takes_all_of_it() -> None:
    # 10 kN under a nose of which the bar cannot be followed: all of it on one shoulder, twice the
    # wedge of 2 kN, and as much across the nose as along it.
    (load,) = push_loads(
        peak=10e3, outward=2e3, steepest=0.5, press=None, friction=0.1, off_centre=0.0,
        uneven=ONE_SHOULDER,
    )  # fmt: skip
    assert (load.down, load.outward, load.across) == (10e3, 4e3, 10e3)
