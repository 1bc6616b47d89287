"""Loads, guides, seats and cheeks against sums done by hand; statics, the numbers worked on paper.

Pounds and inches, as the die is stated.
"""

from __future__ import annotations

from math import radians

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, RELIEF, bench, found
from strapwright.shop.kept_plates import KeptHole, KeptPlate
from strapwright.shop.members import (
    Bolt,
    Carriers,
    DieBody,
    Guides,
    Members,
    NoseMember,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.carriers import carrier_checks
from strapwright.strength.check_values import Bench, Load, Unchecked
from strapwright.strength.die_body import body_checks
from strapwright.strength.guide_rods import guide_checks
from strapwright.strength.load_cases import push_loads, retract_load
from strapwright.strength.push_plate import push_plate_checks
from strapwright.strength.shoulders import shoulder_checks
from strapwright.strength.welds import weld_checks

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
    # Nothing leans on the nose; what does is in the sums of the four dies.
    check = found(guide_checks(bench(Members(guides=rods, side_load=0.0), load=load)), "bending")
    assert check.demand / PSI == pytest.approx({2: 30_937, 4: 15_468}[count], abs=5)


SEATED = ShoulderMember(kind="block", material="1045 ground shaft", seat_material="A36")


def test_a_half_round_seat_carries_a_flat_bar_on_half_the_round() -> None:
    # No wedge: 12 149 lbf on 1/4 in x 2-1/2 in, and not on the whole 1/2 in of the round.
    load = Load(case="relief", force=RELIEF * LBF)
    check = found(shoulder_checks(bench(Members(shoulders=SEATED), load=load)), "bearing")
    assert check.demand / PSI == pytest.approx(19_438, abs=3)
    # 1.8 x 36 259 psi/2 by AISC 360 J7.
    assert check.capacity / PSI == pytest.approx(32_633, abs=30)


def test_a_half_round_seat_is_wider_across_what_leans_outwards() -> None:
    # H 9112, V 12 149: P = 15 186 lbf leaning by sin d = 0.6; across it 1/4 (1 + 0.6) = 0.4 in.
    load = Load(case="relief", force=RELIEF * LBF, outward=9_112 * LBF)
    check = found(shoulder_checks(bench(Members(shoulders=SEATED), load=load)), "bearing")
    assert check.demand / PSI == pytest.approx(15_186, abs=5)


# Cheeks of 3/4 in, 3 in long, 1-1/2 in tall: A = 2.25 in2, W = 3 x 0.75^2/6 = 0.28125 in3.  The
# round's middle is over the inner face, 3/8 in beside the cheek's: 12 149 x 0.375 = 4556 lbf in.
# Friction of 0.2 turns P = 12 228 lbf off it by 1/4 sin(atan 0.2) = 0.04903 in: 600 lbf in more.
# The bar drags the round inwards with 0.2 x 12 149 lbf, 1-1/2 in up: 3645 lbf in more, 8801.
# The wedge turns it outwards with 1385 x 1.5 = 2078 lbf in only.
WELD = Weld(
    holds="cheeks", size=0.3125 * INCH, length=6 * INCH, thinner=0.75 * INCH, spacing=0.75 * INCH,
    height=1.5 * INCH,
)  # fmt: skip
CHEEKS = Members(
    body=DieBody(
        material="A36", cheek=0.75 * INCH, floor=0.75 * INCH, length=3 * INCH, height=1.5 * INCH
    ),
    weld=(WELD,),
)


def test_half_the_push_bends_a_cheek_inwards_more_than_the_wedge_bends_it_out() -> None:
    check = found(body_checks(bench(CHEEKS)), "push and bending")
    # 12 149/2.25 = 5400; 8801/0.28125 = 31 290; allowed 36 259/1.67 = 21 712 psi: 169 %.
    assert check.demand / PSI == pytest.approx(36_690, abs=15)
    assert check.ratio == pytest.approx(1.690, abs=0.002)


def test_the_floor_is_bent_by_what_bends_the_cheek() -> None:
    # 1385/2.25 = 616, and 31 290 as above.
    check = found(body_checks(bench(CHEEKS)), "tension and bending of the floor")
    assert check.demand / PSI == pytest.approx(31_906, abs=15)


def test_a_wedge_that_outweighs_the_push_bends_the_cheek_outwards() -> None:
    # 8000 x 1.5 = 12 000 lbf in; inwards 4556 + 3645 + 0.04903 x 14 547 = 8914.
    load = Load(case="relief", force=RELIEF * LBF, outward=8_000 * LBF)
    check = found(body_checks(bench(CHEEKS, load=load)), "push and bending")
    assert check.demand / PSI == pytest.approx(5_400 + 42_667, abs=15)


def test_the_weld_of_a_cheek_takes_the_larger_of_the_two() -> None:
    # 6 in of run, rows 3/4 in apart: 1385/6 = 231; 2 x 8801/(0.75 x 6) = 3911; 3918 lbf/in.
    check = found(weld_checks(bench(CHEEKS)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(3_918, abs=3)


def test_bolts_of_a_cheek_take_the_couple_on_one_row() -> None:
    # Six in two rows 3 in apart: 8801/3/3 = 978 lbf on each of a row, 1385/6 = 231 lbf across.
    bolt = Bolt(holds="cheeks", size="1/2-13", grade="8", count=6, spacing=3 * INCH,
                height=1.5 * INCH)  # fmt: skip
    members = evolve(CHEEKS, weld=(), bolt=(bolt,))
    check = found(bolt_checks(bench(members)), "tension and shear")
    given = {name: value for name, value, _ in check.inputs}
    assert given["T"] / LBF == pytest.approx(978, abs=1)
    assert given["V"] / LBF == pytest.approx(231, abs=1)
    # SAE J429 grade 8: 0.75 x 120 000 x 0.1419 in2 = 12 771; AISC 360 J3.6, threads in the plane:
    # 0.45 x 150 000 x 0.19635/2 = 6627 lbf.
    assert given["T_a"] / LBF == pytest.approx(12_771, abs=8)
    assert given["V_a"] / LBF == pytest.approx(6_627, abs=2)
    assert check.demand == pytest.approx(0.08415, rel=2e-3)


def test_a_block_is_turned_by_what_its_round_lies_beside_its_middle() -> None:
    # Rows 1 in apart, its round 1/4 in behind its face: 1/4 in beside, and the bar drags it in
    # 1-1/2 in and its radius up with 0.2 x 12 149 = 2430: 3037 + 4252 = 7289 lbf in, H h = 2424 is
    # less; 2 x 7289/(1 x 6) = 2430 and 405 across: 2463 lbf/in.
    weld = evolve(WELD, holds="shoulders", spacing=INCH)
    check = found(weld_checks(bench(Members(weld=(weld,)))), "strength")
    assert check.demand / LBF * INCH == pytest.approx(2_463, abs=2)


HUNG = Members(
    nose=NoseMember(material="4140", between=4 * INCH),
    carriers=Carriers(
        material="A36", thickness=0.75 * INCH, width=3.5 * INCH, height=3 * INCH
    ),
    push_plate=PushPlate(material="A36", thickness=1.5 * INCH, width=5 * INCH),
)  # fmt: skip
OFF = Load(case="relief", force=RELIEF * LBF, offset=0.25 * INCH)


def test_the_nearer_carrier_takes_more_of_a_push_off_centre() -> None:
    # Levers about the other carrier: 24 298 x (2 + 1/4)/4 = 13 668 lbf on 1-3/4 x 3/4 in.
    check = found(carrier_checks(bench(HUNG, load=OFF)), "bearing")
    assert check.demand / PSI == pytest.approx(10_414, abs=3)


def test_a_push_past_the_carrier_loads_it_with_more_than_all_of_it() -> None:
    # 24 298 x (2 + 3)/4 = 30 373 lbf; the other carrier is lifted with the rest.
    far = evolve(OFF, offset=3 * INCH)
    check = found(carrier_checks(bench(HUNG, load=far)), "bearing")
    assert check.demand / PSI == pytest.approx(23_141, abs=5)


def test_one_carrier_alone_is_bent_farther_by_a_push_off_away_from_it() -> None:
    # From the middle of a bar of 2-1/2 in to that of the carrier 4 - 1-1/4 + 3/8 = 3-1/8 in, and
    # 1/4 in more: 82 007 lbf in on W = 3.5 x 0.75^2/6 = 0.328125 in3; and 24 298/2.625 psi.
    nose = Nose(radius=0.875 * INCH, held="one end")
    one = bench(HUNG, nose=nose, load=OFF)
    check = found(carrier_checks(one), "push and bending")
    assert check.demand / PSI == pytest.approx(249_925 + 9_256, rel=1e-4)
    # The push plate is bent by the same: W = 5 x 1.5^2/6 = 1.875 in3.
    plate = found(push_plate_checks(one), "bending")
    assert plate.demand / PSI == pytest.approx(24_298.26 * 3.375 / 1.875, rel=1e-4)


def test_the_push_plate_is_bent_more_by_a_push_off_centre() -> None:
    # Pad 2 in, 4 in between the carriers: 24 298 x 6/8 = 18 224; 24 298 x 1/8 = 3037 lbf in more;
    # W = 1.875 in3: 11 339 psi.  Shear 1.5 x 24 298 x 0.5625/(5 x 1.5) = 2734 psi.
    one = bench(HUNG, load=OFF)
    assert found(push_plate_checks(one), "bending").demand / PSI == pytest.approx(11_339, abs=3)
    assert found(push_plate_checks(one), "shear").demand / PSI == pytest.approx(2_734, abs=2)


def test_two_bolts_of_the_ram_weaken_the_push_plate() -> None:
    # Holes of 1.15 x 5/8 = 0.71875 in: 5 - 1.4375 = 3.5625 in; W = 3.5625 x 1.5^2/6 = 1.33594:
    # 18 224/1.33594 = 13 641 psi; shear 1.5 x 12 149/(3.5625 x 1.5) = 3410 psi.
    bolt = Bolt(holds="push plate", size="5/8-11", grade="5", count=4, circle=3.5 * INCH)
    one = bench(evolve(HUNG, bolt=(bolt,)))
    assert found(push_plate_checks(one), "bending").demand / PSI == pytest.approx(13_641, abs=3)
    assert found(push_plate_checks(one), "shear").demand / PSI == pytest.approx(3_410, abs=2)


KEPT = KeptPlate(length=9 * INCH, width=5 * INCH, thickness=1.5 * INCH)


def hole(along: float, across: float, diameter: float, made_for: str = "") -> KeptHole:
    return KeptHole(along=along * INCH, across=across * INCH, diameter=diameter * INCH,
                    made_for=made_for)  # fmt: skip


def on_kept(*holes: KeptHole, members: Members = HUNG) -> Bench:
    one = bench(members)
    assert one.press is not None
    return evolve(one, press=evolve(one.press, push_plate=evolve(KEPT, holes=holes)))


@pytest.mark.parametrize(
    ("holes", "bent", "sheared"),
    [
        # Two of 1-1/4 in in one column leave 2-1/2 of 5 in, W = 2.5 x 1.5^2/6 = 0.9375 in3:
        # 18 224/0.9375 = 19 439 psi, 1.5 x 12 149/(2.5 x 1.5) = 4860 psi.
        ([(1, 1.5), (1, -1.5), (-1, 1.5), (-1, -1.5)], 19_439, 4_860),
        # Rows 1/4 in apart: one section cuts both.
        ([(0.5, 1.5), (0.75, -1.5)], 19_439, 4_860),
        # 1-1/2 in apart no section cuts both: 3-3/4 in left, W = 1.40625 in3.
        ([(0.75, 1.5), (-0.75, -1.5)], 12_959, 3_240),
    ],
)
def test_the_holes_of_a_push_plate_that_stays_weaken_it(
    holes: list[tuple[float, float]], bent: float, sheared: float
) -> None:
    there = [hole(*at, 1.25) for at in holes]
    # One that is still to be drilled for another die takes out as much.
    for known in (there, [evolve(one, made_for="cleat") for one in there]):
        one = on_kept(*known)
        assert found(push_plate_checks(one), "bending").demand / PSI == pytest.approx(bent, abs=4)
        assert found(push_plate_checks(one), "shear").demand / PSI == pytest.approx(sheared, abs=2)


def test_holes_of_one_row_weaken_a_plate_that_stays_across() -> None:
    # Carriers of 3-1/2 in on a pad of 2 in: 12 149 x 1.5/4 = 4556 lbf in on 2 + 2 x 1-1/2 = 5 in
    # of length less two of 1-1/4 in: W = 2.5 x 1.5^2/6 = 0.9375 in3.  Bores for guide rods 4 in out
    # lie outside of it; of one 2-1/2 in out half lies in it: 1.875 in left, W = 0.703125 in3.
    row, rods = (hole(1, 1, 1.25), hole(-1, 1, 1.25)), (hole(4, 1, 1), hole(-4, 1, 1))
    across = found(push_plate_checks(on_kept(*row, *rods)), "bending across")
    assert across.demand / PSI == pytest.approx(4_860, abs=2)
    across = found(push_plate_checks(on_kept(*row, hole(2.5, 1, 1.25))), "bending across")
    assert across.demand / PSI == pytest.approx(6_479, abs=3)


def test_a_plate_that_stays_with_nothing_left_in_a_section_is_not_checked() -> None:
    (missing,) = push_plate_checks(on_kept(hole(0, 1.25, 2.5), hole(0, -1.25, 2.5)))
    assert isinstance(missing, Unchecked)
    assert missing.where.endswith("push_plate.width")


def test_a_plate_narrower_than_its_holes_is_not_checked() -> None:
    bolt = Bolt(holds="push plate", size="1-1/4-7", count=4)
    thin = PushPlate(material="A36", thickness=INCH, width=2.5 * INCH)
    (missing,) = push_plate_checks(bench(evolve(HUNG, bolt=(bolt,), push_plate=thin)))
    assert isinstance(missing, Unchecked)
