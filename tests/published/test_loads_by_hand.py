"""Loads, guides, seats and cheeks against sums done by hand; statics, the numbers worked on paper.

Pounds and inches, as the die is stated.
"""

from __future__ import annotations

from math import radians

import pytest

from hand_bench import INCH, LBF, PSI, RELIEF, bench, found
from strapwright.shop.members import Guides, Members
from strapwright.shop.press import Press
from strapwright.strength.check_values import Load
from strapwright.strength.guide_rods import guide_checks
from strapwright.strength.load_cases import push_loads, retract_load

PRESS = Press(bore=3.75 * INCH, rod=2 * INCH, relief=2200 * PSI)


def at_relief(outward: float, slope: float, friction: float) -> Load:
    loads = push_loads(
        peak=1000.0 * LBF, outward=outward * LBF, steepest=radians(slope), press=PRESS,
        friction=friction, off_centre=0.0,
    )  # fmt: skip
    return loads[1]


@pytest.mark.parametrize("friction", [0.05, 0.1, 0.2])
def test_the_wedge_at_relief_takes_the_low_end_of_friction(friction: float) -> None:
    # A leg at 45 deg; atan 0.05 = 2.8624 deg, tan 42.1376 deg = 0.90476; half of 24 298 lbf.
    assert at_relief(0.0, 45.0, friction).outward / LBF == pytest.approx(10_992, abs=3)


def test_the_wedge_of_a_shoulder_more_slippery_than_that_is_its_own() -> None:
    # Without friction the tangent of 45 deg is 1.
    assert at_relief(0.0, 45.0, 0.0).outward / LBF == pytest.approx(12_149, abs=2)


def test_the_wedge_at_relief_is_never_under_that_of_the_plan() -> None:
    # A flat leg wedges nothing at relief; on its way the plan wedged with 700 lbf.
    assert at_relief(700.0, 0.0, 0.1).outward / LBF == pytest.approx(700)


def test_the_ram_pulls_back_on_what_the_rod_leaves_of_the_bore() -> None:
    # pi (3.75^2 - 2^2)/4 = 7.9031 in2 at 2200 psi; the full bore would pull with 24 298 lbf.
    load = retract_load(PRESS)
    assert load is not None
    assert load.force / LBF == pytest.approx(17_387, abs=2)


@pytest.mark.parametrize("count", [2, 4])
def test_a_guide_rod_takes_its_share_of_the_couple(count: int) -> None:
    # 24 298 lbf 1/4 in off: 6074.5 lbf in, of two rods 3037 each; W = pi/32 = 0.098175 in3.
    rods = Guides(
        material="1045 ground shaft", diameter=INCH, length=6 * INCH, bush=3 * INCH, count=count
    )
    load = Load(case="relief", force=RELIEF * LBF, offset=0.25 * INCH)
    check = found(guide_checks(bench(Members(guides=rods), load=load)), "bending")
    assert check.demand / PSI == pytest.approx({2: 30_937, 4: 15_468}[count], abs=5)
