"""Blocks with a rounded edge that stand on a base, by hand.

The strap press: 24 298 lbf at relief, half of it 12 149 lbf on each block.  Statics; a flat pressed
into steel by slip lines, (2 + pi) Re/2 (Hill, The Mathematical Theory of Plasticity, from memory);
AISC 360 E3, F1, G1, J7; Whitmore's 30 degrees of AISC manual part 9, from memory.
"""

from __future__ import annotations

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, RELIEF, bench, found
from strapwright.shop.members import Bolt, DieBody, Members, ShoulderMember, Weld
from strapwright.shop.tooling import Shoulders
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.check_values import Bench, Check, Load, Unchecked
from strapwright.strength.die_body import body_checks
from strapwright.strength.lasting.life import life_checks
from strapwright.strength.shoulders import shoulder_checks
from strapwright.strength.welds import weld_checks

# 1-3/4 in thick, its edge beginning 1-3/4 in out; 3 in long, 2 in tall.
EDGED = Shoulders(radius=0.25 * INCH, opening=4 * INCH, height=3 * INCH, outer_edge=3.5 * INCH)
WELD = Weld(
    holds="shoulders", size=0.375 * INCH, length=6 * INCH, thinner=INCH, spacing=1.75 * INCH,
    height=2 * INCH,
)  # fmt: skip
STANDS = Members(
    shoulders=ShoulderMember(kind="block", material="A36"),
    body=DieBody(material="A36", floor=INCH, length=3 * INCH, tall=2 * INCH),
    weld=(WELD,),
)
# A flat bar wedges nothing; a steep one wedges hard.
FLAT = Load(case="relief", force=RELIEF * LBF)
STEEP = Load(case="relief", force=RELIEF * LBF, outward=12_000 * LBF)


def under(load: Load, members: Members = STANDS, *, width: float = 2.5) -> Bench:
    return bench(members, shoulders=EDGED, load=load, width=width)


def asked(one: Check) -> float:
    return one.demand / PSI


def test_a_flat_bar_turns_a_block_inwards_by_weight_and_by_rubbing() -> None:
    # Round 7/8 - 1/4 = 5/8 in beside the middle; 12 149 (0.625 + 0.2 x 2) = 12 453 lbf in.
    # A = 3 x 1.75 = 5.25 in2, W = 3 x 1.75^2/6 = 1.53125 in3: 2314 + 8133.
    checks = list(body_checks(under(FLAT)))
    assert asked(found(checks, "push and bending at the root")) == pytest.approx(10_447, abs=3)
    assert asked(found(checks, "bearing of a block on the base")) == pytest.approx(10_447, abs=3)
    # The bar drags with 0.2 x 12 149 = 2430 lbf: 1.5 x 2430/5.25.
    assert asked(found(checks, "shear at the root")) == pytest.approx(694.2, abs=1)
    # A base 1 in thick, W = 0.5 in3, that nothing pulls: 12 453/0.5.
    assert asked(found(checks, "tension and bending of the base")) == pytest.approx(24_906, abs=5)


def test_a_steep_bar_turns_it_outwards_by_the_wedge_at_its_edge() -> None:
    # 12 000 x 2 = 24 000 lbf in, more than inwards: 2314 + 24 000/1.53125; 1.5 x 12 000/5.25; the
    # base 12 000/3 + 24 000/0.5.
    checks = list(body_checks(under(STEEP)))
    assert asked(found(checks, "push and bending at the root")) == pytest.approx(17_988, abs=5)
    assert asked(found(checks, "shear at the root")) == pytest.approx(3_428.6, abs=1)
    assert asked(found(checks, "tension and bending of the base")) == pytest.approx(52_000, abs=5)
    # Allowed are 36 259/1.67, 0.6 of it, and 1.8 Re/2.
    allowed = {one.what: one.capacity / PSI for one in checks if isinstance(one, Check)}
    assert allowed["push and bending at the root"] == pytest.approx(21_712, abs=5)
    assert allowed["shear at the root"] == pytest.approx(13_027, abs=5)
    assert allowed["bearing of a block on the base"] == pytest.approx(32_633, abs=5)


def test_a_nose_off_the_middle_turns_the_worse_block_with_its_larger_share() -> None:
    # 0.6 x 24 298 = 14 579 down: 14 579/5.25 + 14 579 x 1.025/1.53125.
    checks = list(body_checks(under(evolve(FLAT, near=0.6))))
    assert asked(found(checks, "push and bending at the root")) == pytest.approx(12_536, abs=4)
    edge = list(shoulder_checks(under(evolve(FLAT, near=0.6))))
    assert asked(found(edge, "corner of the edge")) == pytest.approx(14_579 / 0.625, abs=3)


def test_the_end_nearer_to_a_push_off_the_middle_takes_more_of_it() -> None:
    # 1/4 in off on a root of 3 in: 1 + 6 x 0.25/3 = 1.5 of 10 447 and of 24 906.
    checks = list(body_checks(under(evolve(FLAT, offset=0.25 * INCH))))
    assert asked(found(checks, "push and bending at the root")) == pytest.approx(15_671, abs=5)
    assert asked(found(checks, "bearing of a block on the base")) == pytest.approx(15_671, abs=5)
    assert asked(found(checks, "tension and bending of the base")) == pytest.approx(37_359, abs=8)
    # Four bolts of 3/8 in, two to a row 3 - 9/8 = 1.875 in long: the outer one takes
    # 1 + 6 x 0.25/(1.875 x 3) = 1.2667 of 6226 lbf.
    bolt = Bolt(holds="shoulders", size="3/8-16", grade="8", count=4, spacing=INCH, height=2 * INCH)
    held = under(evolve(FLAT, offset=0.25 * INCH), evolve(STANDS, weld=(), bolt=(bolt,)))
    given = {n: v for n, v, _ in found(bolt_checks(held), "tension and shear").inputs}
    assert given["T"] / LBF == pytest.approx(7_887, abs=3)


def test_no_more_of_a_long_block_is_counted_than_the_bar_spreads_to() -> None:
    # A bar of 1/2 in on a block 3 in long spreads to 1/2 + 2 x 2 tan 30 = 2.8094 in at the root:
    # A 4.91645, W 1.43396: 2471.1 + 8684.
    checks = list(body_checks(under(FLAT, width=0.5)))
    assert asked(found(checks, "push and bending at the root")) == pytest.approx(11_155, abs=4)


def test_the_edge_stands_what_the_bar_presses_on_it() -> None:
    # Bar 2-1/2 in on a round of 1/4 in: straight down 12 149/(0.25 x 2.5); a flat of
    # sqrt(12 149^2 + 12 000^2) = 17 076 lbf over 2.5708 x 36 259 x 2.5 = 233 038 lbf/in.
    edge = list(shoulder_checks(under(STEEP)))
    assert asked(found(edge, "corner of the edge")) == pytest.approx(19_439, abs=3)
    flat = found(edge, "flat that the bar presses on the edge")
    assert flat.demand / INCH == pytest.approx(0.07328, abs=2e-5)
    assert flat.capacity / INCH == pytest.approx(0.125)


def test_its_weld_and_its_bolts_are_held_to_the_same_couple() -> None:
    # 12 453 lbf in on rows 1-3/4 in apart, 6 in of run: 2 x 12 453/(1.75 x 6) = 2372, and 2430/6 =
    # 405 across.
    check = found(weld_checks(under(FLAT)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(2_406, abs=2)
    # Two of four bolts on rows 1 in apart: 6226 lbf each.
    bolt = Bolt(holds="shoulders", size="3/8-16", grade="8", count=4, spacing=INCH, height=2 * INCH)
    held = under(FLAT, evolve(STANDS, weld=(), bolt=(bolt,)))
    given = {n: v for n, v, _ in found(bolt_checks(held), "tension and shear").inputs}
    assert given["T"] / LBF == pytest.approx(6_226, abs=2)
    assert given["V"] / LBF == pytest.approx(607.5, abs=1)


def test_no_more_weld_and_bolts_are_counted_than_the_bar_spreads_to() -> None:
    # A bar of 1/2 in spreads to 2.8094 in at the root, 2 in down.  A block 12 in long with 24 in of
    # weld and 16 bolts carries with 2.8094/12 of them, 4.2714 times less; 1/4 in off the middle the
    # end of 2.8094 in takes 1 + 6 x 0.25/2.8094 = 1.53393.
    long = evolve(
        STANDS,
        body=DieBody(material="A36", floor=INCH, length=12 * INCH, tall=2 * INCH),
        weld=(evolve(WELD, length=24 * INCH),),
    )
    off = evolve(FLAT, offset=0.25 * INCH)
    # 2 x 12 453/(1.75 x 24) = 593.0 and 2430/24 = 101.2: 601.6 x 4.2714 = 2569.6.
    check = found(weld_checks(under(FLAT, long, width=0.5)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(2_569.6, abs=2)
    check = found(weld_checks(under(off, long, width=0.5)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(3_941.6, abs=3)
    # 12 453/1 over 8 bolts of one row: 1556.6 x 4.2714; the outer bolt of a row no longer than
    # 2.8094 in takes 1 + 6 x 0.25 x 7/(2.8094 x 9) = 1.41527 of it.
    bolt = Bolt(
        holds="shoulders", size="3/8-16", grade="8", count=16, spacing=INCH, height=2 * INCH
    )
    bolted = evolve(long, weld=(), bolt=(bolt,))
    for load, tension in ((FLAT, 6_649), (off, 9_410)):
        check = found(bolt_checks(under(load, bolted, width=0.5)), "tension and shear")
        given = {name: value for name, value, _ in check.inputs}
        assert given["T"] / LBF == pytest.approx(tension, abs=4)


def test_a_lever_stated_too_short_does_not_lift_what_the_height_of_the_block_asks() -> None:
    # A flat bar drags over the top of a block 2 in tall, whatever height welds or body say.
    low = evolve(
        STANDS,
        body=DieBody(material="A36", floor=INCH, length=3 * INCH, height=INCH / 2, tall=2 * INCH),
        weld=(evolve(WELD, height=INCH / 2),),
    )
    checks = list(body_checks(under(FLAT, low)))
    assert asked(found(checks, "push and bending at the root")) == pytest.approx(10_447, abs=3)
    check = found(weld_checks(under(FLAT, low)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(2_406, abs=2)
    # A body that is stated higher than its weld lifts the weld's lever too.
    one = evolve(STANDS, body=DieBody(length=3 * INCH, height=1.75 * INCH), weld=low.weld)
    check = found(weld_checks(under(FLAT, one)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(2_406, abs=2)


def test_root_and_base_last_as_long_as_what_is_beside_a_weld() -> None:
    # At 300 a year for ten years no fewer than 10 000 bends count: 56/1.35 x 200^(1/3) = 242.6 MPa.
    plan = Load(case="plan", force=6_000 * LBF)
    one = under(plan, evolve(STANDS, bends_a_year=300))
    made = list(body_checks(one))
    life = [check for check in life_checks(one, made) if isinstance(check, Check)]
    root = found(life, "life in push and bending at the root")
    # 3000/5.25 + 3000 x 1.025/1.53125 = 2579.6 psi.
    assert asked(root) == pytest.approx(2_579.6, abs=1)
    assert root.capacity == pytest.approx(242.6, abs=0.1)
    base = found(life, "life in tension and bending of the base")
    assert asked(base) == pytest.approx(6_150, abs=2)


@pytest.mark.parametrize(
    ("shoulders", "body", "said"),
    [
        (evolve(EDGED, outer_edge=None), STANDS.body, "enter tooling.shoulders.outer_edge"),
        (EDGED, DieBody(floor=INCH), "enter tooling.members.body.length"),
        (EDGED, DieBody(length=INCH), "enter tooling.members.body.floor"),
        (EDGED, None, "enter tooling.members.body.length"),
    ],
    ids=["thickness", "length", "floor", "no body"],
)
def test_a_block_of_which_a_size_is_missing_is_not_said_to_hold(
    shoulders: Shoulders, body: DieBody | None, said: str
) -> None:
    one = bench(evolve(STANDS, body=body), shoulders=shoulders, load=FLAT)
    missing = [each for each in body_checks(one) if isinstance(each, Unchecked)]
    assert any(said in each.sentence for each in missing)
    assert all(each.carries for each in missing)


def test_a_round_in_the_seat_of_its_cheek_is_no_block() -> None:
    seated = evolve(
        STANDS, body=DieBody(cheek=INCH, floor=INCH, length=3 * INCH, height=2 * INCH),
        weld=(evolve(WELD, holds="cheeks"),),
    )  # fmt: skip
    made = [*shoulder_checks(under(FLAT, seated)), *body_checks(under(FLAT, seated))]
    assert {one.what for one in made} == {
        "bearing", "corner of the seat", "push and bending", "shear",
        "tension and bending of the floor",
    }  # fmt: skip
