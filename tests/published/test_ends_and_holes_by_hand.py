"""Ends that lift off or run out, holes in the floor, softer steels, prying, a stuck bar, by hand.

Pounds and inches, 24 298 lbf at relief, half of it 12 149 on a shoulder that is pushed out with
1385 and turned inwards with 16 393 lbf in on cheeks 2 in thick and 1-1/2 in tall
(``test_worse_end_by_hand``).  Statics unless a test says otherwise.
"""

from __future__ import annotations

import math

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, RELIEF, WEDGE, bench, found
from strapwright.catalog.clearance import widest_hole
from strapwright.shop.members import (
    Bolt,
    Carriers,
    Coupling,
    DieBody,
    Guides,
    Members,
    NoseMember,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.tooling import Nose, Shoulders
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.carriers import carrier_checks
from strapwright.strength.check_values import Bench, Check, Load
from strapwright.strength.columns import magnified
from strapwright.strength.coupling import coupling_checks
from strapwright.strength.die_body import body_checks
from strapwright.strength.lasting.life import life_checks
from strapwright.strength.nose import nose_checks
from strapwright.strength.push_plate import push_plate_checks
from strapwright.strength.rating import force_carried
from strapwright.strength.statics.worse_end import end_share, pressed_share, root_strip
from strapwright.strength.welds import weld_checks

PUSH = Load(case="relief", force=RELIEF * LBF, outward=WEDGE * LBF)
SEAT = Shoulders(radius=0.25 * INCH, opening=4 * INCH, height=3 * INCH)
SHAFT = Nose(radius=0.875 * INCH, reach=4 * INCH)
HUNG = Members(
    nose=NoseMember(material="4140", between=5 * INCH),
    carriers=Carriers(material="A36", thickness=0.75 * INCH, width=3.5 * INCH),
    push_plate=PushPlate(material="A36", thickness=1.5 * INCH, width=5 * INCH, pad=2 * INCH),
)
PULL = 9_000.0  # lbf


def off(inches: float) -> Load:
    return evolve(PUSH, offset=inches * INCH)


# --- an end that lifts off, an end that runs out -------------------------------------------------


def test_what_only_presses_lifts_off_at_its_far_end() -> None:
    # 12 long, 3 off: a triangle 3 (6 - 3) = 9 long, whose end is 2 N/9, 2.6667 of N/12; its middle
    # is 9/3 from that end, under the push.  At a sixth of 12 both pictures meet, at 2.
    assert pressed_share(3.0, 12.0) == pytest.approx(12 * 2 / 9)
    assert pressed_share(2.0, 12.0) == pytest.approx(2.0)
    assert pressed_share(1.0, 12.0) == pytest.approx(1.5)
    assert pressed_share(6.0, 12.0) == math.inf


def test_the_edge_of_a_loose_web_lifts_off_its_round() -> None:
    # In the middle 237 390 psi, as the root of the force (test_more_loads_by_hand).  1-1/4 in off
    # 5 in the end takes 2/(3 x 1/4) = 2.6667 of half as much a length: 237 390 sqrt(1.3333).
    web = Nose(radius=0.875 * INCH, held="web", web_thickness=INCH, web_height=2.25 * INCH)
    members = Members(nose=NoseMember(material="4140", web_material="A36"))
    one = bench(members, nose=web, load=off(1.25), width=5.0)
    check = found(nose_checks(one), "edge of the web on the round")
    assert check.demand / PSI == pytest.approx(274_114, rel=2e-4)


@pytest.mark.parametrize(("held", "end"), [(True, 2.8), (False, 10 / 3)], ids=["welded", "bolted"])
@pytest.mark.parametrize(
    ("out", "bent", "sheared", "pulled"),
    [
        # A strip of 2-1/2 in, A 5 in2, W 1.66667 in3: 12 149/5 + 16 393/1.66667; 1.5 x 1385/5; the
        # floor, 1 in thick, W 0.416667 in3: 1385/2.5 + 16 393/0.416667.
        (WEDGE, 12_265.6, 415.5, 39_897),
        # Pushed out with 12 000, 18 000 lbf in: 12 149/5 + 18 000/1.66667; 1.5 x 12 000/5;
        # 12 000/2.5 + 18 000/0.416667.
        (12_000.0, 13_229.8, 3_600, 48_000),
    ],
    ids=["flat", "steep"],
)
def test_a_push_near_the_end_of_a_cheek_is_carried_by_what_is_left_beside_it(
    held: bool, end: float, out: float, bent: float, sheared: float, pulled: float
) -> None:
    # A bar of 1 in spreads to 1 + 2 x 1.5 = 4 in of 5.  2 in off the middle it lies 1/2 in from the
    # end: 2 + 1/2 in carry, and it lies (2 - 1/2)/2 = 3/4 in off their middle.  The end takes 1 + 6
    # x 0.75/2.5 = 2.8 of the mean, or lifts off at the other: 2/(3 (1/2 - 0.3)) = 3.3333.
    weld = Weld(holds="cheeks", size=0.25 * INCH, length=10 * INCH, thinner=INCH,
                spacing=2 * INCH, height=1.5 * INCH)  # fmt: skip
    body = DieBody(material="A36", cheek=2 * INCH, length=5 * INCH, height=1.5 * INCH, floor=INCH)
    members = Members(body=body, weld=(weld,) if held else ())
    load = evolve(off(2.0), outward=out * LBF)
    checks = list(body_checks(bench(members, shoulders=SEAT, load=load, width=1.0)))
    for what, mean in (
        ("push and bending", bent),
        ("shear", sheared),
        ("tension and bending of the floor", pulled),
    ):
        assert found(checks, what).demand / PSI == pytest.approx(end * mean, rel=3e-4)


def test_of_two_pictures_of_a_root_the_worse_is_taken() -> None:
    # 1/4 in off the middle of 11 in both sides of the spread of 5 in are there: the whole plate.
    far = root_strip(2.0, 1.5, 11.0, 0.25)
    assert (far.carries, far.off, far.length) == (5.0, 0.25, 11.0)
    # 4 in off, 1-1/2 left: (1 + 6 x 4/11)/5 = 0.636 still passes (1 + 6 x 0.5/4)/4 = 0.4375.
    assert root_strip(2.0, 1.5, 11.0, 4.0).length == 11.0
    # 5 in off, 1/2 left: (1 + 6 x 1/3)/3 = 1.0 passes (1 + 6 x 5/11)/5 = 0.745.
    near = root_strip(2.0, 1.5, 11.0, 5.0)
    assert (near.carries, near.off, near.length) == (3.0, 1.0, 3.0)
    # Past the end it asks more, not less: 6 in off, (1 + 6 x 1.5/2)/2 = 2.75.
    past = root_strip(2.0, 1.5, 11.0, 6.0)
    assert end_share(past.off, past.length) / past.carries == pytest.approx(2.75)
    # 8 in off the whole spread lies beyond the end: nothing stands it.
    gone = root_strip(2.0, 1.5, 11.0, 8.0)
    assert end_share(gone.off, gone.length) == float("inf")


# --- holes in the floor --------------------------------------------------------------------------


def test_bolts_from_below_take_their_holes_out_of_the_floor() -> None:
    """AISC 360 D2, F13.1: all of a width to Re/1.67, what its holes leave to Rm/2."""
    # A36, Rm/Re 1.6: 1.67 x 1.6/2 = 1.336 of the net width.  Four to a row of 6 in, each 1.15 x 1/2
    # = 0.575 in: 3.7 in, as 4.9432; W 0.823867 in3: 1385/4.9432 + 16 393/0.823867 = 20 178 psi.
    bolt = Bolt(holds="cheeks", size="1/2-13", grade="8", count=8, spacing=INCH)
    body = DieBody(material="A36", cheek=2 * INCH, length=6 * INCH, floor=INCH, height=1.5 * INCH)
    one = bench(Members(body=body, bolt=(bolt,)), shoulders=SEAT, width=3.0)
    check = found(body_checks(one), "tension and bending of the floor")
    assert check.demand / PSI == pytest.approx(20_178, rel=2e-4)
    # Two to a row leave 4.85 in, 6.48 of 6: all of it, 1385/6 + 16 393.
    few = bench(Members(body=body, bolt=(evolve(bolt, count=4),)), shoulders=SEAT, width=3.0)
    check = found(body_checks(few), "tension and bending of the floor")
    assert check.demand / PSI == pytest.approx(16_624, rel=2e-4)
    # Of a cheek of 12 in with eight of them a bar of 1 in bears on 4 in: rows 12 - 1.5 = 10.5 in
    # long, 3-1/2 in from bolt to bolt, so two holes lie in it: 2.85 in, as 3.8076.
    long = evolve(body, length=12 * INCH)
    one = bench(Members(body=long, bolt=(bolt,)), shoulders=SEAT, width=1.0)
    check = found(body_checks(one), "tension and bending of the floor")
    assert check.demand / PSI == pytest.approx((1_385 + 16_393 * 6) / 3.8076, rel=2e-4)


def test_more_holes_than_floor_are_not_said_to_hold() -> None:
    bolt = Bolt(holds="cheeks", size="3/4-10", grade="8", count=14, spacing=INCH)
    body = DieBody(material="A36", cheek=2 * INCH, length=6 * INCH, floor=INCH, height=1.5 * INCH)
    one = bench(Members(body=body, bolt=(bolt,)), shoulders=SEAT, width=3.0)
    said = [each.sentence for each in body_checks(one) if hasattr(each, "sentence")]
    assert any("leave some of it between them" in each for each in said)


@pytest.mark.parametrize(
    ("size", "major", "wide"),
    [
        ("M12", 12.0, 13.8),  # 1.15 x 12; ISO 273 medium 13.5 (from memory), older charts 14
        ("#10", 4.826, 5.61),  # ASME B18.2.8 normal: drill 2, 0.221 in; 1.15 x 0.190 = 0.2185
        ("none such", 10.0, 11.5),
    ],
)
def test_a_hole_counts_as_wide_as_it_may_be(size: str, major: float, wide: float) -> None:
    assert widest_hole(size, major) == pytest.approx(wide, abs=0.01)


# --- blocks: the bar drags over their top --------------------------------------------------------


def test_a_block_of_which_only_the_height_of_its_edge_is_known_is_its_radius_taller() -> None:
    # 2 in up to the middle of an edge of 1/4 in: dragged at 2-1/4.  12 149 (0.625 + 0.2 x 2.25) =
    # 13 060 lbf in; 12 149/5.25 + 13 060/1.53125; weld 2 x 13 060/(1.75 x 6) and 2430/6.
    weld = Weld(holds="shoulders", size=0.375 * INCH, length=6 * INCH, thinner=INCH,
                spacing=1.75 * INCH, height=2 * INCH)  # fmt: skip
    members = Members(
        shoulders=ShoulderMember(kind="block", material="A36"),
        body=DieBody(material="A36", floor=INCH, length=3 * INCH),
        weld=(weld,),
    )
    edged = evolve(SEAT, outer_edge=3.5 * INCH)
    one = bench(members, shoulders=edged, load=Load(case="relief", force=RELIEF * LBF))
    check = found(body_checks(one), "push and bending at the root")
    assert check.demand / PSI == pytest.approx(10_843, abs=4)
    check = found(weld_checks(one), "strength")
    assert check.demand / LBF * INCH == pytest.approx(2_520.4, abs=2)


def test_a_bolted_block_lifts_off_its_base_at_the_far_end() -> None:
    # 3/4 in off a root of 3 in: the block itself takes 1 + 6 x 0.75/3 = 2.5 of 10 447 psi, the base
    # under it 2/(3 x 1/4) = 2.6667.
    bolt = Bolt(holds="shoulders", size="3/8-16", grade="8", count=4, spacing=INCH, height=INCH)
    members = Members(
        shoulders=ShoulderMember(kind="block", material="A36"),
        body=DieBody(material="A36", floor=INCH, length=3 * INCH, tall=2 * INCH),
        bolt=(bolt,),
    )
    edged = evolve(SEAT, outer_edge=3.5 * INCH)
    flat = Load(case="relief", force=RELIEF * LBF, offset=0.75 * INCH)
    checks = list(body_checks(bench(members, shoulders=edged, load=flat)))
    root = found(checks, "push and bending at the root")
    assert root.demand / PSI == pytest.approx(2.5 * 10_447, rel=3e-4)
    pressed = found(checks, "bearing of a block on the base")
    assert pressed.demand / PSI == pytest.approx(2.66667 * 10_447, rel=3e-4)
    # The base loses two holes of 1.15 x 3/8 in: 2.1375 of 3 in, as 2.8557; W 0.47595 in3.
    base = found(checks, "tension and bending of the base")
    assert base.demand / PSI == pytest.approx(2.5 * 12_453 / 0.47595, rel=3e-4)


# --- a nose off the middle is pushed along the ram and across it ---------------------------------


def test_a_nose_off_the_middle_is_bent_by_both_of_its_forces() -> None:
    # 5 % and 45 % across: sqrt(1 + 0.25) = 1.118034 of 24 298 is 27 166 lbf.  Between 5 in, bar of
    # 2-1/2: 27 166 x 7.5/8 on 0.526155 in3; (4/3) 27 166/2 on 2.40528 in2; 1/4 in off 0.55 of it.
    leaning = evolve(PUSH, across=0.45 * RELIEF * LBF)
    one = bench(HUNG, nose=SHAFT, load=leaning)
    assert found(nose_checks(one), "bending").demand / PSI == pytest.approx(48_404, rel=2e-4)
    assert found(nose_checks(one), "shear").demand / PSI == pytest.approx(7_529.6, rel=2e-4)
    beside = bench(HUNG, nose=SHAFT, load=evolve(leaning, offset=0.25 * INCH))
    assert found(nose_checks(beside), "shear").demand / PSI == pytest.approx(8_282.6, rel=2e-4)
    # Half of it in the hole of a carrier: 13 583/(1.75 x 0.75).
    check = found(carrier_checks(one), "bearing")
    assert check.demand / PSI == pytest.approx(10_349, rel=2e-4)
    # Out of one carrier: 27 166 x 5 and (4/3) 27 166.
    out = bench(HUNG, nose=evolve(SHAFT, held="one end"), load=leaning)
    assert found(nose_checks(out), "bending").demand / PSI == pytest.approx(258_156, rel=2e-4)
    assert found(nose_checks(out), "shear").demand / PSI == pytest.approx(15_059, rel=2e-4)


# --- of two steels the softer --------------------------------------------------------------------


@pytest.mark.parametrize(("nose", "plate"), [("4140", "A36"), ("A36", "4140")])
def test_nose_and_carrier_press_on_each_other_as_the_softer_stands(nose: str, plate: str) -> None:
    # AISC 360 J7: 1.8 x 36 259/2 of A36, whichever of the two it is.
    members = evolve(
        HUNG,
        nose=NoseMember(material=nose, between=5 * INCH),
        carriers=evolve(HUNG.carriers, material=plate),
    )
    check = found(carrier_checks(bench(members, nose=SHAFT)), "bearing")
    assert check.capacity / PSI == pytest.approx(32_633, abs=30)


def test_a_hard_pin_is_held_by_the_plates_and_by_the_thinner_of_them() -> None:
    # Half of the push on a pin of 3/4 in: cheeks of 1/4 in, 12 149/(2 x 0.75 x 0.25).
    hung = evolve(HUNG.carriers, pin=0.75 * INCH, pin_material="4140", cheek=0.25 * INCH)
    checks = list(carrier_checks(bench(evolve(HUNG, carriers=hung), nose=SHAFT)))
    (check,) = (one for one in checks if (one.member, one.what) == ("carrier pins", "bearing"))
    assert found([check], "bearing").demand / PSI == pytest.approx(32_398, rel=2e-4)
    assert check.capacity / PSI == pytest.approx(32_633, abs=30)


def test_the_lugs_of_a_coupling_pin_are_of_no_known_steel() -> None:
    # 9000/1^2 psi against 1.8 x Re/2 of the low end of an unknown steel, not of the pin.
    pin = Coupling(kind="pinned", pin=INCH, pin_material="4140")
    check = found(coupling_checks(bench(Members(coupling=pin), retract=PULL)), "bearing")
    assert check.demand / PSI == pytest.approx(PULL, rel=1e-6)
    shear = found(coupling_checks(bench(Members(coupling=pin), retract=PULL)), "shear")
    assert check.capacity < shear.capacity / (0.6 / 1.67) * 0.9


# --- a part that sticks as far off as it is pushed -----------------------------------------------


def stuck(members: Members, *, nose: Nose = SHAFT) -> Bench:
    """Pulled back with 9000 lbf, 1/4 in off the middle."""
    return bench(members, nose=nose, load=off(0.25), retract=PULL, shoulders=SEAT)


def test_a_part_that_sticks_off_the_middle_hangs_on_the_nearer_carrier() -> None:
    # 0.55 of 9000 on (3.5 - 1.75) x 0.75 = 1.3125 in2; 0.6 x 58 000 x 2 x 0.75 (7/8 + 7/8)/2 holds.
    one = stuck(HUNG)
    check = found(carrier_checks(one), "tension beside the hole")
    assert check.demand / PSI == pytest.approx(3_771.4, rel=2e-4)
    assert found(carrier_checks(one), "tearing out under the nose").demand / LBF == pytest.approx(
        4_950, rel=2e-4
    )
    # 9000 (5/4 + 1/8) on the plate, W = 5 x 1.5^2/6 = 1.875 in3; 1.5 x 4950/7.5.
    bent = found(push_plate_checks(one), "bending", "retract")
    assert bent.demand / PSI == pytest.approx(6_600, rel=2e-4)
    assert found(push_plate_checks(one), "shear", "retract").demand / PSI == pytest.approx(
        990, rel=2e-4
    )


def test_it_bends_the_plate_across_by_the_half_that_takes_more() -> None:
    # 4950 lbf x |0 - 3.5/4| on what takes part, 2 + 2 x 1.5 = 5 in of 1-1/2: W 1.875.
    check = found(push_plate_checks(stuck(HUNG)), "bending across", "retract")
    assert check.formula == "R |s - w/4|/W"
    assert check.demand / PSI == pytest.approx(2_310, rel=2e-4)


def test_it_tips_what_nothing_guides_and_lifts_one_end_of_a_base() -> None:
    # 9000/4 and 9000 x 1/4 on rows 7 in apart of two.
    ram = Bolt(holds="push plate", size="1/2-13", grade="8", count=4, spacing=7 * INCH)
    check = found(bolt_checks(stuck(evolve(HUNG, bolt=(ram,)))), "tension and shear", "retract")
    given = {name: value for name, value, _ in check.inputs}
    assert given["T"] / LBF == pytest.approx(2_250 + 160.7, rel=2e-4)
    rods = Guides(material="1045 ground shaft", diameter=INCH, length=6 * INCH, bush=3 * INCH)
    guided = evolve(HUNG, bolt=(ram,), guides=rods)
    check = found(bolt_checks(stuck(guided)), "tension and shear", "retract")
    assert {n: v for n, v, _ in check.inputs}["T"] / LBF == pytest.approx(2_250, rel=2e-4)
    # Two bolts to a row as long as the body, 6 in: 1 + 6 x 0.25/(6 x 3) = 1.08333 of 2250; in two
    # runs of 3 in 1 + 6 x 0.25/3 = 1.5 of 9000/6.
    base = Bolt(holds="base", size="1/2-13", grade="8", count=4, spacing=8 * INCH)
    body = DieBody(material="A36", cheek=2 * INCH, length=6 * INCH, height=1.5 * INCH)
    check = found(
        bolt_checks(stuck(Members(body=body, bolt=(base,)))), "tension and shear", "retract"
    )
    assert {n: v for n, v, _ in check.inputs}["T"] / LBF == pytest.approx(2_437.5, rel=2e-4)
    weld = Weld(holds="base", size=0.25 * INCH, length=6 * INCH, spacing=8 * INCH)
    check = found(weld_checks(stuck(Members(body=body, weld=(weld,)))), "strength", "retract")
    assert check.demand / LBF * INCH == pytest.approx(2_250, rel=2e-4)


def test_it_tips_a_web_along_its_runs_and_a_round_on_its_web() -> None:
    # 9000/6 with 6 x 2250 x 2/6^2 = 750; on two runs of 3 in 1.5 of 1500.
    web = Nose(radius=0.875 * INCH, held="web", web_thickness=INCH, web_height=2.25 * INCH)
    for holds, line in (("web", 2_250), ("nose", 2_250)):
        weld = Weld(holds=holds, size=0.25 * INCH, length=6 * INCH, spacing=INCH)  # type: ignore[arg-type]
        check = found(weld_checks(stuck(Members(weld=(weld,)), nose=web)), "strength", "retract")
        assert check.demand / LBF * INCH == pytest.approx(line, rel=2e-4)


# --- prying --------------------------------------------------------------------------------------


def test_a_plate_that_bends_between_its_carriers_pries_on_the_bolts_of_the_ram() -> None:
    # Carriers 5 in apart, rows 2-1/2: each row is pulled with 4500 (1 + 3 x 1.25/2.5) = 11 250.
    # From the beam tables: level and held down in the middle, 1-1/4 in to a row that 4500 x 1.25 =
    # 5625 lbf in turns: (3/2) 5625/1.25 = 6750 lbf more on it.
    ram = Bolt(holds="push plate", size="1/2-13", grade="8", count=4, spacing=2.5 * INCH)
    one = bench(evolve(HUNG, bolt=(ram,)), nose=SHAFT, retract=PULL)
    check = found(bolt_checks(one), "tension and shear", "retract")
    given = {name: value for name, value, _ in check.inputs}
    assert given["T"] / LBF == pytest.approx((4_500 + 6_750) / 2, rel=2e-4)
    assert given["prying"] == pytest.approx(2.5)
    # Rows as far apart as the carriers are pulled by what hangs on them, and no more; so is a web.
    wide = bench(evolve(HUNG, bolt=(evolve(ram, spacing=5 * INCH),)), nose=SHAFT, retract=PULL)
    web = bench(
        evolve(HUNG, bolt=(ram,)), retract=PULL,
        nose=Nose(radius=0.875 * INCH, held="web", web_thickness=INCH, web_height=2.25 * INCH),
    )  # fmt: skip
    for each in (wide, web):
        check = found(bolt_checks(each), "tension and shear", "retract")
        assert {n: v for n, v, _ in check.inputs}["T"] / LBF == pytest.approx(2_250, rel=2e-4)
    # On a circle of 4 in two rows are 2 in apart: 1 + 3 x 1.5/2.
    round_ = evolve(HUNG, bolt=(evolve(ram, spacing=None, circle=4 * INCH),))
    check = found(bolt_checks(bench(round_, nose=SHAFT, retract=PULL)), "tension and shear",
                  "retract")  # fmt: skip
    assert {n: v for n, v, _ in check.inputs}["prying"] == pytest.approx(3.25)


# --- columns that lean ---------------------------------------------------------------------------


def test_a_column_yields_at_167_times_all_of_its_loads() -> None:
    # AISC 360 appendix 8: 1/(1 - 1.67 x 0.3) = 2.004; at 0.6 of Euler's load there is none.
    assert magnified(300.0, 1000.0) == pytest.approx(2.004008)
    assert magnified(600.0, 1000.0) == float("inf")


def test_what_a_slender_rod_carries_is_not_in_step_with_what_it_is_asked() -> None:
    """At the force carried the sum, done anew, is just what is allowed or less."""
    web = Nose(radius=0.875 * INCH, held="web", web_thickness=0.25 * INCH, web_height=4 * INCH)
    members = Members(nose=NoseMember(material="4140", web_material="A36"), side_load=0.02)

    def asked(force: float) -> float:
        load = Load(case="relief", force=force)
        one = bench(members, nose=web, load=load)
        return found(nose_checks(one), "push and side load of the web").ratio

    for force in (6e3, 9e3, 20e3):
        one = bench(members, nose=web, load=Load(case="relief", force=force))
        check = found(nose_checks(one), "push and side load of the web")
        assert asked(force_carried(one, check)) <= 1.0 + 1e-9


@pytest.mark.parametrize("force", [400.0, 40e3])
def test_a_line_contact_carries_with_the_square_of_what_is_left(force: float) -> None:
    # Hertz: the pressure goes as the root of the force, so at the force carried it is just allowed.
    web = Nose(radius=0.875 * INCH, held="web", web_thickness=0.5 * INCH, web_height=2 * INCH)
    members = Members(nose=NoseMember(material="4140", web_material="A36"))

    def of(force: float) -> tuple[Bench, Check]:
        one = bench(members, nose=web, load=Load(case="relief", force=force))
        return one, found(nose_checks(one), "edge of the web on the round")

    one, check = of(force)
    assert abs(check.ratio - 1.0) > 0.3
    carried = force_carried(one, check)
    assert carried == pytest.approx(force / check.ratio**2)
    assert of(carried)[1].ratio == pytest.approx(1.0)


def test_a_line_contact_whose_far_end_lifts_off_for_good_carries_nothing() -> None:
    # A bar 6 wide that lies 3 off the middle of an edge as long presses on its very end.
    web = Nose(radius=0.875 * INCH, held="web", web_thickness=0.5 * INCH, web_height=2 * INCH)
    members = Members(nose=NoseMember(material="4140", web_material="A36"))
    load = Load(case="relief", force=400.0, offset=3.0)
    one = bench(members, nose=web, load=load, width=6.0 / INCH)
    check = found(nose_checks(one), "edge of the web on the round")
    assert check.ratio == float("inf")
    assert not check.holds
    assert force_carried(one, check) == 0.0


# --- life of a grooved nose ----------------------------------------------------------------------


def test_the_groove_of_a_nose_is_a_notch_for_its_life() -> None:
    # 56/1.35 x 200^(1/3) = 242.6 MPa in place of 125/1.35 x 200^(1/3) = 541.5.
    plan = Load(case="plan", force=2_000 * LBF)
    members = evolve(HUNG, bends_a_year=300)
    for groove, allowed in (("fitted", 242.6), ("none", 541.5)):
        nose = evolve(SHAFT, groove=groove)  # type: ignore[arg-type]
        one = bench(members, nose=nose, load=plan)
        life = list(life_checks(one, list(nose_checks(one))))
        check = found(life, "life in bending")  # type: ignore[arg-type]
        assert check.capacity == pytest.approx(allowed, abs=0.1)
