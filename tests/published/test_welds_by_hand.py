"""Welds of many runs and of a web against sums done by hand; pounds and inches.

AISC 360 J2.2b and J2.4; the section modulus of a weld as a line, l^2/6 of one run, after any text
on welds treated as lines.
"""

from __future__ import annotations

import pytest

from hand_bench import INCH, LBF, bench, found
from strapwright.shop.members import Members, Weld
from strapwright.shop.tooling import Nose
from strapwright.strength.check_values import Check, Load
from strapwright.strength.welds import weld_checks

POUNDS_PER_INCH = LBF / INCH


def pulled(runs: int) -> Check:
    """6 in of 5/16 in fillet on each carrier, pulled back with 17 387 lbf."""
    weld = Weld(holds="carriers", size=0.3125 * INCH, length=6 * INCH, runs=runs)
    one = bench(Members(side_load=0.0, weld=(weld,)), retract=17_387.0)
    return found(weld_checks(one), "strength")


def test_two_long_runs_count_whole() -> None:
    # 8693.5/6 = 1449 lbf/in; allowed 0.6 x 70 000 x 0.7071 x 0.3125/2 = 4640 lbf/in.
    check = pulled(2)
    assert check.demand / POUNDS_PER_INCH == pytest.approx(1_449, abs=1)
    assert check.capacity / POUNDS_PER_INCH == pytest.approx(4_640, abs=1)


def test_six_short_runs_count_with_a_quarter_of_their_length_as_leg() -> None:
    # Each 1 in is under four legs, 1-1/4 in: 1/4 in of leg, 3712 lbf/in.
    check = pulled(6)
    assert check.demand / POUNDS_PER_INCH == pytest.approx(1_449, abs=1)
    assert check.capacity / POUNDS_PER_INCH == pytest.approx(3_712, abs=1)


def test_a_run_over_a_hundred_legs_counts_less_and_two_short_ones_do_not() -> None:
    # One run of 60 in of 1/4 in is 240 legs: 1.2 - 0.48 = 0.72, 43.2 in.  Two of 30 in are 120
    # legs each: 0.96, 57.6 in together.
    for runs, counted in ((1, 43.2), (2, 57.6)):
        weld = Weld(holds="carriers", size=0.25 * INCH, length=60 * INCH, runs=runs)
        one = bench(Members(side_load=0.0, weld=(weld,)), retract=17_387.0)
        check = found(weld_checks(one), "strength")
        assert check.demand / POUNDS_PER_INCH == pytest.approx(8_693.5 / counted, rel=1e-4)


@pytest.mark.parametrize("rows", [0.5, 2.0])
def test_a_push_off_along_a_web_tips_its_welds_end_to_end(rows: float) -> None:
    # 24 298 lbf 1/8 in off: 3037 lbf in on two runs of 3 in: 2 x 3^2/6 = 3 in2, 1012 lbf/in,
    # however far apart the rows stand across the web.
    weld = Weld(holds="web", size=0.25 * INCH, length=6 * INCH, runs=2, spacing=rows * INCH)
    load = Load(case="relief", force=24_298 * LBF, offset=0.125 * INCH)
    nose = Nose(radius=0.5 * INCH, held="web", web_thickness=0.5 * INCH, web_height=3 * INCH)
    members = Members(side_load=0.0, weld=(weld,))
    check = found(weld_checks(bench(members, nose=nose, load=load)), "strength")
    assert check.demand / POUNDS_PER_INCH == pytest.approx(1_012, abs=1)


def test_a_run_past_three_hundred_legs_counts_as_a_hundred_and_eighty() -> None:
    # 100 in of 1/4 in is 400 legs: 180 legs, 45 in (AISC 360 J2.2b).
    weld = Weld(holds="carriers", size=0.25 * INCH, length=100 * INCH, runs=1)
    one = bench(Members(side_load=0.0, weld=(weld,)), retract=17_387.0)
    check = found(weld_checks(one), "strength")
    assert check.demand / POUNDS_PER_INCH == pytest.approx(8_693.5 / 45, rel=1e-4)
