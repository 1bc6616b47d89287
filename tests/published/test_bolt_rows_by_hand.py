"""Bolts in rows as they are drawn, by hand: in line, beside a block's round, and on a circle.

Statics in pounds and inches at a relief of 24 298 lbf, of which 5 % leans on the nose, 1214.9 lbf.
"""

from __future__ import annotations

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, RELIEF, bench, found
from strapwright.shop.members import Bolt, Carriers, DieBody, Members, NoseMember, PushPlate
from strapwright.shop.tooling import Nose, Shoulders
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.check_values import Check, Load, Unchecked
from strapwright.strength.die_body import body_checks

SHAFT = Nose(radius=0.875 * INCH, reach=4 * INCH)
HUNG = Members(
    nose=NoseMember(material="4140", between=4 * INCH),
    carriers=Carriers(material="A36", thickness=0.75 * INCH, width=3.5 * INCH),
    push_plate=PushPlate(material="A36", thickness=1.5 * INCH, width=5 * INCH),
)


def tension(check: Check) -> float:
    """Of the most loaded bolt [lbf]."""
    return next(value for name, value, _ in check.inputs if name == "T") / LBF


@pytest.mark.parametrize("count", [2, 4])
def test_the_outer_bolts_of_one_row_take_all_that_tips_a_carrier(count: int) -> None:
    # Half of 1214.9 lbf, 4 in down: 2430 lbf in on bolts 3 in from first to last: 810 lbf.  Of four
    # evenly in line M x/sum x^2 = 2430 x 1.5/(2 x (1.5^2 + 0.5^2)) = 729 lbf.
    bolt = Bolt(holds="carriers", size="1/4-20", grade="8", count=count, spacing=3 * INCH)
    check = found(bolt_checks(bench(evolve(HUNG, bolt=(bolt,)), nose=SHAFT)), "tension and shear")
    assert tension(check) == pytest.approx(810, abs=1)


@pytest.mark.parametrize(
    ("shoulders", "least"),
    [
        # Rows 1 in apart and 3/8 in to each side: a block of 1-3/4 in, its round of 1/4 in behind
        # its face 7/8 - 1/4 = 5/8 in beside its middle, and dragged in over its top, 1-1/2 in up:
        # 12 149 (5/8 + 0.2 x 1.5) = 11 238 lbf in on two.
        (Shoulders(radius=0.25 * INCH, opening=4 * INCH, height=1.5 * INCH), 5_619),
        # Out to 4-1/4 in from 1-3/4 in it is 2-1/2 in thick: 1 in beside: 15 794 lbf in.
        (
            Shoulders(
                radius=0.25 * INCH, opening=4 * INCH, height=1.5 * INCH, outer_edge=4.25 * INCH
            ),
            7_897,
        ),
    ],
    ids=["rows", "outer edge"],
)
def test_bolts_of_a_block_take_what_its_round_is_beside_its_middle(
    shoulders: Shoulders, least: float
) -> None:
    bolt = Bolt(holds="shoulders", size="3/8-16", grade="8", count=4, spacing=INCH)
    one = bench(Members(bolt=(bolt,)), shoulders=shoulders)
    assert tension(found(bolt_checks(one), "tension and shear")) == pytest.approx(least, abs=2)


# As the die whose side plates are held by two bolts each, 8000 lbf outwards 1-1/4 in over them.
TIED = DieBody(
    material="A36", cheek=INCH, length=5 * INCH, height=2.75 * INCH, side_plate=0.75 * INCH,
    between=5 * INCH, tall=3 * INCH,
)  # fmt: skip


@pytest.mark.parametrize(
    ("count", "shear", "net", "third"),
    [
        # 4000/2 + 5000/2 = 4500; 4000/3 + 5000/2 = 3833; 4000/4 + 5000/2 = 3500 lbf each.  Holes of
        # 0.575 in leave 3 - n 0.575 of 3/4 in, and of the inertia sum 0.575 x^2 + 0.575^3/12.
        (2, 4_500, 3 - 1.15, 2 * (0.575 + 0.015843)),
        (3, 3_833, 3 - 1.725, 2 * 0.575 + 3 * 0.015843),
        (4, 3_500, 3 - 2.3, 0.575 * (2 + 2 / 9) + 4 * 0.015843),
    ],
)
def test_bolts_of_a_side_plate_stand_in_one_line(
    count: int, shear: float, net: float, third: float
) -> None:
    bolt = Bolt(
        holds="side plates", size="1/2-13", grade="8", count=count, spacing=2 * INCH,
        height=1.25 * INCH,
    )  # fmt: skip
    load = Load(case="relief", force=RELIEF * LBF, outward=8_000 * LBF)
    one = bench(Members(body=TIED, bolt=(bolt,)), load=load)
    check = found(bolt_checks(one), "tension and shear")
    given = {name: value for name, value, _ in check.inputs}
    assert given["V"] / LBF == pytest.approx(shear, abs=1)
    plate = found(body_checks(one), "tension and bending of the side plates")
    modulus = (0.75 * 27 / 12 - 0.75 * third) / 1.5
    assert plate.demand / PSI == pytest.approx(4_000 / (0.75 * net) + 5_000 / modulus, rel=1e-3)


@pytest.mark.parametrize(
    ("apart", "pull"),
    [
        # 1214.9 x (4 + 1-1/2) = 6682 lbf in across rows of two in a plate 5 in wide, which are
        # 5 - 3 x 5/8 = 3-1/8 in long: 6682/3.125/2 = 1069 lbf; 3 in apart 6682/3/2 = 1114 lbf.
        (4.0, 1_069),
        (3.0, 1_114),
    ],
)
def test_what_leans_on_the_nose_tips_the_bolts_of_the_ram_along_their_rows(
    apart: float, pull: float
) -> None:
    bolt = Bolt(holds="push plate", size="5/8-11", grade="8", count=4, spacing=apart * INCH)
    check = found(bolt_checks(bench(evolve(HUNG, bolt=(bolt,)), nose=SHAFT)), "tension and shear")
    assert tension(check) == pytest.approx(pull, abs=2)
    # One in a row tips over.
    two = evolve(bolt, count=2)
    (none,) = bolt_checks(bench(evolve(HUNG, bolt=(two,)), nose=SHAFT))
    assert isinstance(none, Unchecked)
    assert "four bolts or more" in none.sentence


@pytest.mark.parametrize(("count", "said"), [(2, False), (3, True)])
def test_two_bolts_on_a_circle_stand_against_no_tilting(count: int, said: bool) -> None:
    # 1214.9 x (4 + 1-1/2) = 6682 lbf in: three on 3-1/2 in take 2 x 6682/(3 x 1.75) = 2546 lbf at
    # most, and as one row of them counts here 6682/1.75 = 3818 lbf.
    bolt = Bolt(holds="push plate", size="5/8-11", grade="8", count=count, circle=3.5 * INCH)
    results = list(bolt_checks(bench(evolve(HUNG, bolt=(bolt,)), nose=SHAFT)))
    assert any(isinstance(one, Check) for one in results) is said
    if said:
        assert tension(found(results, "tension and shear")) == pytest.approx(3_818, abs=2)
