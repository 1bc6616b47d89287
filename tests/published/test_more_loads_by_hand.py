"""What pulling back, one bar missing, the other direction and a loose die ask, by hand.

Statics in pounds and inches at a relief of 24 298 lbf, of which 5 % leans on the nose, 1214.9 lbf.
"""

from __future__ import annotations

import math

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, RELIEF, bench, found
from strapwright.planning.member_loads import assess, rate_of
from strapwright.shop.members import (
    Bolt,
    Carriers,
    DieBody,
    Members,
    NoseMember,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.tooling import Nose, Shoulders
from strapwright.strength.beams import sag_over_middle
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.carriers import carrier_checks
from strapwright.strength.check_values import Bench, Check, Load, Unchecked
from strapwright.strength.member_checks import check_members
from strapwright.strength.nose import nose_checks
from strapwright.strength.push_plate import push_plate_checks
from strapwright.strength.shoulders import shoulder_checks
from strapwright.strength.welds import weld_checks

SHAFT = Nose(radius=0.875 * INCH, reach=4 * INCH)
OUT = evolve(SHAFT, held="one end")
WEB = Nose(radius=0.875 * INCH, held="web", web_thickness=INCH, web_height=2.25 * INCH)
HUNG = Members(
    nose=NoseMember(material="4140", between=4 * INCH),
    carriers=Carriers(material="A36", thickness=0.75 * INCH, width=3.5 * INCH),
    push_plate=PushPlate(material="A36", thickness=1.5 * INCH, width=5 * INCH),
)
CIRCLE = Bolt(holds="push plate", size="5/8-11", grade="5", count=4, circle=3.5 * INCH)
PULL = 17_387.0  # lbf


def given(check: Check) -> dict[str, float]:
    return {name: value for name, value, _ in check.inputs}


# --- the nose along a bar ------------------------------------------------------------------------


def planned(nose: Nose) -> Bench:
    """3922 lbf on a round of 1-3/4 in, I 0.46039 in4, and 5 degrees a mm, 127 an inch."""
    load = Load(case="plan", force=3_922 * LBF)
    return evolve(bench(HUNG, nose=nose, load=load), steepness=math.radians(5.0))


def test_the_bend_at_the_edges_of_a_bar_is_more_than_in_its_middle() -> None:
    # 3922 x 2.5^2 x (12 x 4 - 7 x 2.5)/(384 x 29.0075e6 x 0.46039) = 0.00014579 in.
    check = found(nose_checks(planned(SHAFT)), "angle along the bar")
    assert math.degrees(check.demand) == pytest.approx(0.018515, rel=1e-4)
    assert math.degrees(check.capacity) == pytest.approx(0.5)


def test_loaded_from_end_to_end_it_is_the_sag_of_the_beam_tables() -> None:
    # AISC manual, uniform load: 5 w L^4/(384 E I) = 5 F L^3/(384 E I).
    assert sag_over_middle(600.0, 4.0, 4.0, 1e6) == pytest.approx(5 * 600 * 64 / 384e6)


def test_a_nose_out_of_one_carrier_bends_one_edge_less_than_the_other() -> None:
    # 3922 x 2.5 x (3 x 16 - 6.25)/(6 x 29.0075e6 x 0.46039) = 0.0051088 in: 0.6488 degrees.
    one = planned(OUT)
    check = found(nose_checks(one), "angle along the bar")
    assert math.degrees(check.demand) == pytest.approx(0.64882, rel=1e-4)
    # The part comes out worse and nothing breaks: told, and no reason against a rating.
    told = [each for each in assess(one, "inch").findings if "along" in each.code]
    assert [each.severity.name for each in told] == ["WARNING"]


def test_nothing_is_said_of_it_at_relief_or_without_a_plan() -> None:
    at_relief = evolve(bench(HUNG, nose=OUT), steepness=math.radians(5.0))
    without = evolve(planned(OUT), steepness=None)
    for one in (at_relief, without):
        assert all(
            each.what != "angle along the bar"
            for each in nose_checks(one)
            if isinstance(each, Check)
        )


def test_the_rate_is_that_of_the_piece_of_stroke_in_which_the_bend_ends() -> None:
    import numpy as np  # noqa: PLC0415 - one test

    travel, angle = np.array([0.0, 1.0, 2.0, 4.0]), np.array([0.0, 0.1, 0.4, 0.6])
    assert rate_of(travel, angle, 0.2) == pytest.approx(0.3)
    assert rate_of(travel, angle, 0.55) == pytest.approx(0.1)
    assert rate_of(travel, angle, 0.9) == pytest.approx(0.1)
    assert rate_of(travel[:1], angle[:1], 0.1) == 0.0


# --- the edge of a web on its round --------------------------------------------------------------


def test_the_edge_of_a_welded_web_presses_on_the_round() -> None:
    # 24 298/(1 x 2.5) = 9719 psi against 1.8 x 36 259/2 of the softer of the two, AISC 360 J7.
    weld = Weld(holds="nose", size=0.25 * INCH, length=5 * INCH, spacing=INCH)
    members = Members(nose=NoseMember(material="4140", web_material="A36"), weld=(weld,))
    check = found(nose_checks(bench(members, nose=WEB)), "edge of the web on the round")
    assert check.demand / PSI == pytest.approx(9_719, abs=2)
    assert check.capacity / PSI == pytest.approx(32_633, abs=30)


def test_the_edge_of_a_loose_web_touches_the_round_along_a_line() -> None:
    # Hertz: 9719 lbf/in on a round of 1-3/4 in, E* = 29.0075e6/(2 x 0.91) = 15.938e6 psi:
    # sqrt(9719 x 15.938e6/(pi x 0.875)) = 237 390 psi; 1.6 x 36 259 = 58 015.
    members = Members(nose=NoseMember(material="4140", web_material="A36"))
    check = found(nose_checks(bench(members, nose=WEB)), "edge of the web on the round")
    assert check.demand / PSI == pytest.approx(237_390, rel=1e-4)
    assert check.capacity / PSI == pytest.approx(58_015, abs=50)
    # 1/4 in off the middle of 2-1/2 in: 1.6 times as much at one end, 15 551 lbf/in.
    off = Load(case="relief", force=RELIEF * LBF, offset=0.25 * INCH)
    one = bench(members, nose=WEB, load=off)
    check = found(nose_checks(one), "edge of the web on the round")
    assert check.demand / PSI == pytest.approx(300_272, rel=1e-4)


# --- carriers ------------------------------------------------------------------------------------


@pytest.mark.parametrize(("below", "stood"), [(None, 45_675), (0.25, 29_362)])
def test_what_is_under_the_nose_is_sheared_out_as_the_ram_pulls_back(
    below: float | None, stood: float
) -> None:
    # AISC 360 D5.1(b): 0.6 x 58 000 x 2 x 3/4 x (a + 7/8)/2 against 17 387/2; a is half the nose,
    # 7/8 in, or 1/4 in as stated.
    stated = evolve(HUNG.carriers or Carriers(), below=None if below is None else below * INCH)
    one = bench(evolve(HUNG, carriers=stated), nose=SHAFT, retract=PULL)
    check = found(carrier_checks(one), "tearing out under the nose")
    assert check.demand / LBF == pytest.approx(PULL / 2, abs=1)
    assert check.capacity / LBF == pytest.approx(stood, rel=2e-3)


def test_one_carrier_alone_is_torn_by_all_of_it_and_its_clamp() -> None:
    # From its middle to that of the bar 4 - 1-1/4 + 3/8 = 3-1/8 in: 17 387 (1 + 6 x 3.125/0.75).
    one = bench(HUNG, nose=OUT, retract=PULL)
    check = found(carrier_checks(one), "tearing out under the nose")
    assert check.demand / LBF == pytest.approx(PULL * 26, rel=1e-4)


def test_one_carrier_alone_is_twisted_by_what_leans_on_the_nose() -> None:
    # 1214.9 x 3-1/8 = 3797 lbf in on 0.208 x 3.5 x 0.75^2 = 0.40950 in3: 9271 psi; and 1.5 x 1214.9
    # /2.625 = 694 psi.  Roark: 0.208 of a square, the least of any rectangle.
    check = found(carrier_checks(bench(HUNG, nose=OUT)), "twist by the side load")
    assert check.demand / PSI == pytest.approx(9_965, abs=5)
    assert check.capacity / PSI == pytest.approx(0.6 * 36_259 / 1.67, abs=20)
    assert all(
        each.what != "twist by the side load"
        for each in carrier_checks(bench(HUNG, nose=SHAFT))
        if isinstance(each, Check)
    )


def test_one_carrier_alone_stands_everything_at_once() -> None:
    # 24 298/2.625 = 9256; 6 x 24 298 x 3.125/(3.5 x 0.5625) = 231 412; 6 x 1214.9 x 4/(0.75 x
    # 12.25) = 3174: 243 842 psi, with the 9965 psi of its shear and twist sqrt(s^2 + 3 t^2).
    checks = list(carrier_checks(bench(HUNG, nose=OUT)))
    check = found(checks, "push, bending, side load and twist")
    assert check.demand / PSI == pytest.approx(244_452, rel=1e-4)
    assert check.capacity / PSI == pytest.approx(36_259 / 1.67, abs=20)
    # It asks more than each of them by itself does.
    alone = [found(checks, what) for what in ("push and bending", "twist by the side load")]
    assert all(one.ratio < check.ratio for one in alone)
    # Where nothing leans on the nose, it is only pushed and bent.
    bare = bench(evolve(HUNG, side_load=0.0), nose=OUT)
    assert all(each.what != check.what for each in carrier_checks(bare) if isinstance(each, Check))


def test_the_weld_of_one_carrier_is_turned_on_its_face() -> None:
    # Rows 3/4 in apart, 6 in: 1214.9/6 + 2 x 3797/(0.75 x 6) = 1890 lbf/in along; away from it
    # 2 x 24 298 x 3.125/(0.75 x 6) = 33 748 and end to end 6 x 4860 x 2/6^2 = 1620.
    weld = Weld(holds="carriers", size=0.3125 * INCH, length=6 * INCH, spacing=0.75 * INCH)
    check = found(weld_checks(bench(evolve(HUNG, weld=(weld,)), nose=OUT)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(math.hypot(1_890, 35_368), rel=1e-4)
    assert given(check)["M_t"] / LBF / INCH == pytest.approx(3_797, abs=1)


def test_the_bolts_of_one_carrier_are_turned_on_their_face() -> None:
    # Rows 2 in apart, two to a row: 1214.9/4 + 3797/2/2 = 1253 lbf.
    bolt = Bolt(holds="carriers", size="1/2-13", grade="5", count=4, spacing=2 * INCH)
    check = found(bolt_checks(bench(evolve(HUNG, bolt=(bolt,)), nose=OUT)), "tension and shear")
    assert given(check)["V"] / LBF == pytest.approx(1_253, abs=1)


# --- the push plate the other way, and off the middle --------------------------------------------


@pytest.mark.parametrize(("length", "stress"), [(None, 2_430), (4.0, 3_037)])
def test_carriers_wider_than_the_ram_bend_the_plate_across(
    length: float | None, stress: float
) -> None:
    # 12 149 x (3.5 - 2)/4 = 4556 lbf in; what takes part is 2 + 2 x 1-1/2 = 5 in long, or the
    # plate's 4 in: W = 5 x 1.5^2/6 = 1.875 or 1.5 in3.
    plate = evolve(HUNG.push_plate or PushPlate(), length=None if length is None else length * INCH)
    check = found(push_plate_checks(bench(evolve(HUNG, push_plate=plate), nose=SHAFT)),
                  "bending across")  # fmt: skip
    assert check.demand / PSI == pytest.approx(stress, abs=2)


def test_two_holes_of_the_ram_weaken_it_across_too() -> None:
    # 5 - 2 x 1.15 x 5/8 = 3.5625 in: W = 1.33594 in3.
    check = found(
        push_plate_checks(bench(evolve(HUNG, bolt=(CIRCLE,)), nose=SHAFT)), "bending across"
    )
    assert check.demand / PSI == pytest.approx(3_410, abs=2)


def test_a_ram_wider_than_the_carriers_bends_nothing_across() -> None:
    plate = evolve(HUNG.push_plate or PushPlate(), pad=3.5 * INCH)
    assert all(
        each.what != "bending across"
        for each in push_plate_checks(bench(evolve(HUNG, push_plate=plate), nose=SHAFT))
        if isinstance(each, Check)
    )


@pytest.mark.parametrize(
    ("bolt", "stress"),
    [
        # 8693.5 x 7/8 on W = 1.875; on a circle of 3-1/2 in bolts lie 7/8 to 1-3/4 in out, 7/8 in
        # from a quarter of the carriers, W = 1.33594; in rows up to 3-1/2 - 15/16 = 2-9/16 in out
        # of a plate 7 in wide (AISC 360 table J3.4), 1-11/16 in from it.
        (None, 4_057),
        (CIRCLE, 5_694),
        (evolve(CIRCLE, circle=None, spacing=3.5 * INCH), 10_981),
    ],
)
def test_pulling_back_bends_it_across_between_bolts_and_carriers(
    bolt: Bolt | None, stress: float
) -> None:
    members = evolve(
        HUNG,
        bolt=() if bolt is None else (bolt,),
        push_plate=evolve(HUNG.push_plate or PushPlate(), width=7 * INCH),
    )
    one = bench(members, nose=SHAFT, retract=PULL)
    check = found(push_plate_checks(one), "bending across", "retract")
    assert check.demand / PSI == pytest.approx(stress, abs=4)


@pytest.mark.parametrize(("nose", "stress"), [(SHAFT, 3_468), (OUT, 6_936)])
def test_what_leans_on_the_nose_twists_the_plate(nose: Nose, stress: float) -> None:
    # 1214.9 x 4 = 4860 lbf in, half to each side of the ram, all of it out of one carrier; on
    # 0.208 x 5 x 1.5^2 = 2.34 in3: 1038 or 2077; shear 1.5 x 12 149 or 24 298/7.5: 2430 or 4860.
    check = found(push_plate_checks(bench(HUNG, nose=nose)), "shear and twist by the side load")
    assert check.demand / PSI == pytest.approx(stress, abs=3)


@pytest.mark.parametrize(
    ("nose", "stress"),
    [
        # 1/4 in off, 4 in from carrier to carrier: 1/2 + 1/16 of 4860 lbf in twist, 1168; the same
        # share of 24 298 lbf shears, 1.5 x 13 668/7.5 = 2734.
        (SHAFT, 3_902),
        # Over a web of 2.5 in, 1/2 + 1/10 of 4860 lbf in, 1246; 1.5 x 24 298/2.5 x 0.5/7.5 = 972.
        (WEB, 2_218),
    ],
)
def test_a_push_off_the_middle_twists_one_side_of_the_plate_more(nose: Nose, stress: float) -> None:
    off = Load(case="relief", force=RELIEF * LBF, offset=0.25 * INCH)
    checks = push_plate_checks(bench(HUNG, nose=nose, load=off))
    (check,) = (one for one in checks if one.what == "shear and twist by the side load")
    assert isinstance(check, Check)
    assert check.off_centre
    assert check.demand / PSI == pytest.approx(stress, abs=3)


def test_a_plate_over_a_web_is_bent_by_what_stands_out_of_the_widest_bars() -> None:
    # 6 in of bars past a ram of 2 in: 2 in out; 24 298/6 x 2^2/2 = 8099 lbf in on 1.875 in3, and
    # 1.5 x 24 298/6 x 2/7.5 = 1620 psi of shear.
    members = evolve(HUNG, carriers=None)
    one = evolve(bench(members, nose=WEB), widest=6 * INCH)
    assert found(push_plate_checks(one), "bending").demand / PSI == pytest.approx(4_320, abs=2)
    assert found(push_plate_checks(one), "shear").demand / PSI == pytest.approx(1_620, abs=1)


def test_a_plate_over_a_web_is_bent_more_by_a_push_off_the_middle() -> None:
    # 1/4 in out of the ram and 1/4 in off: 24 298/2.5 x 0.5^2/2 = 1215 lbf in: 648 psi.
    off = Load(case="relief", force=RELIEF * LBF, offset=0.25 * INCH)
    one = bench(evolve(HUNG, carriers=None), nose=WEB, load=off)
    assert found(push_plate_checks(one), "bending").demand / PSI == pytest.approx(648, abs=1)


# --- hold-down to the bed ------------------------------------------------------------------------

BASE = Bolt(holds="base", size="1/2-13", grade="5", count=4, spacing=4 * INCH)
TALL = Shoulders(radius=0.25 * INCH, opening=4 * INCH, height=5 * INCH)


def test_what_leans_on_the_bar_tips_the_die_off_the_bed() -> None:
    # 1214.9 x (5 + 1/4) = 6378 lbf in: on two of four bolts 4 in apart 797 lbf; across 304.
    check = found(bolt_checks(bench(Members(bolt=(BASE,)), shoulders=TALL)), "tension and shear")
    assert given(check)["T"] / LBF == pytest.approx(797, abs=1)
    assert given(check)["V"] / LBF == pytest.approx(304, abs=1)


def test_a_part_that_sticks_lifts_the_die() -> None:
    one = bench(Members(bolt=(BASE,)), shoulders=TALL, retract=PULL)
    check = found(bolt_checks(one), "tension and shear", "retract")
    assert given(check)["T"] / LBF == pytest.approx(PULL / 4, abs=1)


def test_a_push_past_the_end_of_the_die_tips_it() -> None:
    # 2 in off on a die 3 in long: 24 298 x 1/2 = 12 149 lbf in more, 18 527/4/2 = 2316 lbf.
    off = Load(case="relief", force=RELIEF * LBF, offset=2 * INCH)
    members = Members(bolt=(BASE,), body=DieBody(length=3 * INCH))
    check = found(bolt_checks(bench(members, shoulders=TALL, load=off)), "tension and shear")
    assert given(check)["T"] / LBF == pytest.approx(2_316, abs=1)


def test_a_die_welded_to_the_bed_is_tipped_across_its_rows() -> None:
    # 1214.9/8 = 152; 2 x 6378/(4 x 8) = 399 lbf/in.
    weld = Weld(holds="base", size=0.25 * INCH, length=8 * INCH, spacing=4 * INCH)
    check = found(weld_checks(bench(Members(weld=(weld,)), shoulders=TALL)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(math.hypot(151.9, 398.6), rel=1e-3)


def test_a_die_without_height_or_hold_down_says_what_to_enter() -> None:
    lacks = [one for one in bolt_checks(bench(Members(bolt=(BASE,)))) if isinstance(one, Unchecked)]
    assert ["height of the shoulders" in one.sentence for one in lacks] == [True]
    _, unchecked = check_members(bench(HUNG, nose=SHAFT))
    (loose,) = (one for one in unchecked if one.what == "hold-down to the bed")
    assert "hold the base" in loose.sentence
    # It is told, and what pushes down is rated all the same.
    assert not loose.carries


# --- seats and bars that are missing -------------------------------------------------------------

SEATED = ShoulderMember(kind="block", material="1045 ground shaft", seat_material="A36")


def test_the_corner_of_a_half_round_seat_is_a_strut_of_no_length() -> None:
    # 12 149/(1/4 x 2-1/2) = 19 438 psi whatever the wedge; 36 259/1.67 = 21 712, AISC 360 E3.
    check = found(shoulder_checks(bench(Members(shoulders=SEATED))), "corner of the seat")
    assert check.demand / PSI == pytest.approx(19_438, abs=3)
    assert check.capacity / PSI == pytest.approx(21_712, abs=20)


def test_the_bar_that_is_left_of_two_takes_the_whole_push() -> None:
    two = evolve(bench(Members(shoulders=SEATED), width=5.0), missing=2.5 * INCH)
    check = found(shoulder_checks(two), "corner of the seat")
    assert check.demand / PSI == pytest.approx(19_438, abs=3)
    # The nose is bent over 2-1/2 in of 6 in: 24 298 x (12 - 2.5)/8 on 0.526155 in3.
    members = Members(nose=NoseMember(material="4140", between=6 * INCH))
    check = found(nose_checks(evolve(two, tooling=evolve(two.tooling, members=members))), "bending")
    assert check.demand / PSI == pytest.approx(54_840, abs=15)
    # A web is squashed on 1 in x 2-1/2 in.
    web = bench(Members(nose=NoseMember(web_material="A36")), nose=WEB, width=5.0)
    check = found(nose_checks(evolve(web, missing=2.5 * INCH)), "squashing of the web")
    assert check.demand / PSI == pytest.approx(9_719, abs=2)
