"""Noses, webs, pins, tied bodies, rods, ratings: the sums that stand nowhere else, by hand.

Statics, beam tables and the clauses that each check names; pounds and inches.  E = 200 GPa is
29.0076e6 psi; A36 36 259 psi (250 MPa), 1045 shaft 60 000, both to 1.67.
"""

from __future__ import annotations

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, READ, RELIEF, bench, found
from strapwright.shop.members import (
    Bolt,
    Carriers,
    Circuit,
    Coupling,
    DieBody,
    Frame,
    Guides,
    Members,
    NoseMember,
    PistonRod,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.tooling import Nose
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.carriers import carrier_checks
from strapwright.strength.check_values import Check, Load
from strapwright.strength.coupling import coupling_checks
from strapwright.strength.die_body import body_checks
from strapwright.strength.frame_and_circuit import circuit_checks, frame_checks
from strapwright.strength.guide_rods import guide_checks
from strapwright.strength.member_checks import check_members
from strapwright.strength.nose import nose_checks
from strapwright.strength.piston_rod import rod_checks
from strapwright.strength.shoulders import shoulder_checks
from strapwright.strength.welds import weld_checks

SHAFT = Nose(radius=0.875 * INCH, reach=4 * INCH)
OUT = evolve(SHAFT, held="one end")
WEB = Nose(radius=0.875 * INCH, held="web", web_thickness=INCH, web_height=2.25 * INCH)
HUNG = Members(
    nose=NoseMember(material="4140", between=4 * INCH),
    carriers=Carriers(material="A36", thickness=0.75 * INCH, width=3.5 * INCH, height=3 * INCH),
    push_plate=PushPlate(material="A36", thickness=1.5 * INCH, width=5 * INCH),
)
CARRIERS = HUNG.carriers or Carriers()
OFF = Load(case="relief", force=RELIEF * LBF, outward=1_385.0 * LBF, offset=0.25 * INCH)
PULL = 17_387.0  # lbf


# --- nose: a round of 1-3/4 in, A 2.40528 in2, W 0.526155 in3, I 0.460386 in4 --------------------


def test_a_nose_between_two_carriers() -> None:
    one = bench(HUNG, nose=SHAFT)
    # 24 298 x (2 x 4 - 2.5)/8 on W; (4/3) 12 149/A; 24 298 x (512 - 100 + 15.625)/(384 E I).
    assert found(nose_checks(one), "bending").demand / PSI == pytest.approx(31_749, abs=10)
    assert found(nose_checks(one), "shear").demand / PSI == pytest.approx(6_734.7, abs=1)
    sag = found(nose_checks(one), "sag")
    assert sag.demand / INCH == pytest.approx(0.0020262, rel=1e-4)
    assert sag.capacity / INCH == pytest.approx(4 / 500)
    own = evolve(HUNG, nose=NoseMember(material="4140", between=4 * INCH, sag=0.005 * INCH))
    assert found(nose_checks(bench(own)), "sag").capacity / INCH == pytest.approx(0.005)


def test_a_nose_out_of_one_carrier() -> None:
    # 24 298 x 4 on W; (4/3) 24 298/A; 24 298 x 64/(3 E I).
    one = bench(HUNG, nose=OUT)
    assert found(nose_checks(one), "bending").demand / PSI == pytest.approx(184_723, abs=40)
    assert found(nose_checks(one), "shear").demand / PSI == pytest.approx(13_469, abs=2)
    assert found(nose_checks(one), "sag").demand / INCH == pytest.approx(0.038815, rel=1e-4)


def test_a_groove_leaves_a_thinner_core() -> None:
    # 1/4 in of rod half in all about: 1-1/2 in, W = pi 1.5^3/32 = 0.33134 in3; M = 16 705 lbf in.
    one = bench(HUNG, nose=evolve(SHAFT, groove="fitted"))
    assert found(nose_checks(one), "bending").demand / PSI == pytest.approx(50_417, abs=20)


def test_a_web_is_a_plate_fixed_above_and_free_below() -> None:
    # 1 in x 2-1/2 in, 2-1/4 in tall, I = 0.208333 in4: pi^2 E I/(4 h^2) = 2.9454e6 lbf; Johnson
    # 90 648 (1 - 90 648/(4 x 2.9454e6)) = 89 950; AISC 360 E1, 1.67: 53 862.
    members = Members(nose=NoseMember(material="4140", web_material="A36"))
    check = found(nose_checks(bench(members, nose=WEB)), "buckling of the web")
    assert check.demand / LBF == pytest.approx(RELIEF, abs=1)
    assert check.capacity / LBF == pytest.approx(53_862, rel=2e-4)
    # 1/4 in off 2-1/2 in: 9719 (1 + 6 x 0.1) at one end.
    check = found(nose_checks(bench(members, nose=WEB, load=OFF)), "squashing of the web")
    assert check.demand / PSI == pytest.approx(15_551, abs=3)


# --- carriers and pins ---------------------------------------------------------------------------


def test_a_carrier_is_a_strut_fixed_above_and_free_below() -> None:
    # 3/4 x 3-1/2 in, 3 in tall, I = 0.123047 in4: pi^2 E I/(4 x 9) = 978 530 lbf; Johnson 95 180
    # (1 - 95 180/(4 x 978 530)) = 92 865, over 1.67.
    check = found(carrier_checks(bench(HUNG, nose=SHAFT)), "buckling")
    assert check.demand / LBF == pytest.approx(RELIEF / 2, abs=1)
    assert check.capacity / LBF == pytest.approx(55_608, rel=2e-4)


def test_the_hole_of_one_carrier_is_clamped() -> None:
    # 24 298/(1.75 x 0.75) = 18 513; times 1 + 6 x 3.125/0.75 = 26.
    check = found(carrier_checks(bench(HUNG, nose=OUT)), "bearing")
    assert check.demand / PSI == pytest.approx(481_337, rel=1e-4)


@pytest.mark.parametrize(("pin", "stress"), [(None, 6_624), (2.0, 7_728)])
def test_a_carrier_is_pulled_beside_the_larger_of_its_holes(
    pin: float | None, stress: float
) -> None:
    # 8693.5/((3.5 - 1.75) x 0.75); beside a pin of 2 in on 1-1/2 x 3/4.
    stated = evolve(CARRIERS, pin=None if pin is None else pin * INCH)
    one = bench(evolve(HUNG, carriers=stated), nose=SHAFT, retract=PULL)
    check = found(carrier_checks(one), "tension beside the hole")
    assert check.demand / PSI == pytest.approx(stress, abs=2)


def test_a_carrier_hangs_on_a_pin_in_double_shear() -> None:
    # Shigley: 12 149/2 x (3/16 + 3/8) on pi 0.5^3/32; (4/3) 12 149/(2 x 0.19635); 12 149/(1/2 x
    # 3/4).
    stated = evolve(CARRIERS, pin=0.5 * INCH, pin_material="A36", cheek=0.375 * INCH)
    checks = list(carrier_checks(bench(evolve(HUNG, carriers=stated), nose=SHAFT)))
    pin = [one for one in checks if isinstance(one, Check) and one.member == "carrier pins"]
    assert found(pin, "bending").demand / PSI == pytest.approx(278_437, rel=1e-4)
    assert found(pin, "shear").demand / PSI == pytest.approx(41_250, rel=1e-4)
    assert found(pin, "bearing").demand / PSI == pytest.approx(32_398, rel=1e-4)
    # AISC 360 F1, G1 and J7.
    assert found(pin, "bending").capacity / PSI == pytest.approx(21_712, abs=20)
    assert found(pin, "shear").capacity / PSI == pytest.approx(13_027, abs=12)
    assert found(pin, "bearing").capacity / PSI == pytest.approx(32_633, abs=30)


def test_the_pin_of_a_coupling_pulls_back() -> None:
    # 1 in in lugs of 1/2, 1 and 1/2 in: 17 387/2 x (1/4 + 1/2) on pi/32; (4/3) 17 387/(2 x 0.7854).
    members = Members(coupling=Coupling(kind="pinned", pin=INCH))
    one = bench(members, retract=PULL)
    assert found(coupling_checks(one), "bending").demand / PSI == pytest.approx(66_413, rel=1e-4)
    assert found(coupling_checks(one), "shear").demand / PSI == pytest.approx(14_759, rel=1e-4)
    assert found(coupling_checks(one), "bearing").demand / PSI == pytest.approx(17_387, rel=1e-4)


def test_a_floating_coupling_tilts_before_its_guides_bind() -> None:
    # Bushes 3 in long with 0.004 in of clearance tilt by 0.0013333; play of 0.04 in across 2 in.
    members = Members(
        coupling=Coupling(kind="floating", play=0.04 * INCH, length=2 * INCH, pin=INCH),
        guides=Guides(diameter=INCH, length=6 * INCH, bush=3 * INCH, clearance=0.004 * INCH),
    )
    check = found(coupling_checks(bench(members, load=OFF)), "tilt before it binds")
    assert check.demand == pytest.approx(0.0013333, rel=1e-4)
    assert check.capacity == pytest.approx(0.0199973, rel=1e-5)


@pytest.mark.parametrize(("spacing", "most"), [(None, 5.5), (8.0, 4.0)])
def test_a_bush_binds_past_twice_its_length(spacing: float | None, most: float) -> None:
    # Free while 3 > 2 x 0.25 x + 0.25 x 1: x 5-1/2 in, and no farther than the rods, 4 in.
    rods = Guides(
        diameter=INCH, length=6 * INCH, bush=3 * INCH,
        spacing=None if spacing is None else spacing * INCH,
    )  # fmt: skip
    check = found(guide_checks(bench(Members(guides=rods), load=OFF)), "binding")
    assert check.demand / INCH == pytest.approx(0.25)
    assert check.capacity / INCH == pytest.approx(most)


# --- die body ------------------------------------------------------------------------------------

WEDGED = Load(case="relief", force=RELIEF * LBF, outward=8_000.0 * LBF)
BODY = DieBody(
    material="A36", cheek=0.75 * INCH, floor=0.75 * INCH, length=3 * INCH, height=1.5 * INCH
)


def test_a_wedge_shears_the_cheek_and_pulls_and_bends_the_floor() -> None:
    # 1.5 x 8000/(3 x 3/4) = 5333; 8000/2.25 + 8000 x 1.5/0.28125 = 46 222 psi.
    one = bench(Members(body=BODY), load=WEDGED)
    assert found(body_checks(one), "shear").demand / PSI == pytest.approx(5_333, abs=2)
    floor = found(body_checks(one), "tension and bending of the floor")
    assert floor.demand / PSI == pytest.approx(46_222, abs=15)


# Cheeks of 1 in, 3 in tall, tied 5 in apart by plates of 3/4 in; the round seat of 1/4 in carries
# nothing.  Two 1/2 in bolts a side, 2 in apart about the plate's middle.
TIED = Members(
    body=DieBody(
        material="A36", cheek=INCH, length=5 * INCH, height=2.75 * INCH,
        side_plate=0.75 * INCH, between=5 * INCH, tall=3 * INCH,
    ),
    bolt=(
        Bolt(holds="side plates", size="1/2-13", grade="8", count=2, length=1.5 * INCH,
             grip=0.75 * INCH, into="A36", spacing=2 * INCH, height=1.25 * INCH),
    ),
)  # fmt: skip


def test_a_tied_cheek_is_a_beam_between_the_plates_and_twisted() -> None:
    # 2-3/4 in of it: 8000 x (10 - 2.5)/8 = 7500 lbf in on 2.75/6 = 0.45833 in3.  Pushed 1-1/4 in
    # over the plates' middle: 10 000 lbf in, which is more than 12 149/2 + 14 547 x 0.049029 =
    # 6788; half to each end: 5000/(0.208 x 2.75 x 1) = 8741 and 1.5 x 4000/2.75 = 2182.
    one = bench(TIED, load=WEDGED)
    assert found(body_checks(one), "bending").demand / PSI == pytest.approx(16_364, abs=5)
    assert found(body_checks(one), "shear").demand / PSI == pytest.approx(10_923, abs=5)


def test_side_plates_are_pulled_and_bent_past_their_holes() -> None:
    # Holes of 0.575 in an inch over and under the middle: A = (3 - 1.15) x 0.75 = 1.3875 in2;
    # I/c = (0.75 x 27/12 - 0.75 x 2 x (0.575 + 0.575^3/12))/1.5 = 0.53416 in3.
    one = bench(TIED, load=WEDGED)
    plates = found(body_checks(one), "tension and bending of the side plates")
    assert plates.demand / PSI == pytest.approx(4_000 / 1.3875 + 5_000 / 0.53416, rel=1e-4)
    # On two bolts 4000 and 5000/2 on each row: (4000 + 2 x 2500)/2 = 4500 lbf on 1/2 x 3/4 in.
    bearing = found(body_checks(one), "bearing")
    assert bearing.demand / PSI == pytest.approx(12_000, abs=3)


# --- shoulders -----------------------------------------------------------------------------------


def test_a_shoulder_between_supports_is_a_beam() -> None:
    # P = sqrt(12 149^2 + 1385^2) = 12 228 lbf: (2 x 3 - 2.5)/8 of it on pi 0.5^3/32, 0.0122718
    # in3, and (4/3) P/(2 x 0.19635).
    stated = ShoulderMember(material="A36", backed=False, between=3 * INCH)
    one = bench(Members(shoulders=stated))
    assert found(shoulder_checks(one), "bending").demand / PSI == pytest.approx(435_932, rel=1e-4)
    assert found(shoulder_checks(one), "shear").demand / PSI == pytest.approx(41_517, rel=1e-4)


def test_a_shoulder_on_a_flat_touches_it_along_a_line() -> None:
    # Hertz: 4891 lbf/in on a round of 1/2 in, E* = 15.938e6: sqrt(4891 x 15.938e6/(pi x 0.25)).
    stated = ShoulderMember(material="1045 ground shaft", seat_material="A36")
    check = found(shoulder_checks(bench(Members(shoulders=stated))), "contact on the seat")
    assert check.demand / PSI == pytest.approx(315_050, rel=1e-4)
    assert check.capacity / PSI == pytest.approx(58_015, abs=50)


# --- fastenings ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("thinner", "least"), [(0.25, 0.125), (0.5, 0.1875), (0.75, 0.25), (1, 0.3125)]
)
def test_a_weld_has_its_least_leg(thinner: float, least: float) -> None:
    # AISC 360 table J2.4.
    weld = Weld(holds="carriers", size=0.3125 * INCH, length=6 * INCH, thinner=thinner * INCH)
    check = found(weld_checks(bench(Members(weld=(weld,)), nose=SHAFT)), "least size")
    assert check.demand / INCH == pytest.approx(least)
    assert check.capacity / INCH == pytest.approx(0.3125)


def test_the_welds_of_a_web_are_tipped_both_ways_by_a_push_off_the_middle() -> None:
    # 1214.9 x 4 across rows 1 in apart: 2 x 4860/6 = 1620, and 1214.9/6 across: 202; 1/4 in off the
    # middle of 3 in asks 1.5 of both; 24 298/4 along: 6 x 6075 x 2/36 = 2025.
    weld = Weld(holds="web", size=0.25 * INCH, length=6 * INCH, spacing=INCH)
    check = found(weld_checks(bench(evolve(HUNG, weld=(weld,)), nose=WEB, load=OFF)), "strength")
    assert check.demand / LBF * INCH == pytest.approx(4_465.0, abs=1)


def test_a_bolt_strips_the_weaker_thread() -> None:
    # 1/2-13: pitch 0.4500 in; half a cylinder, pi/2 x 0.45 x 120 000 = 84 823 of the bolt, pi/2 x
    # 0.5 x 58 015 = 45 565 lbf/in of the hole; counted on 3/4 in, half shared, over 2: 8543 lbf.
    bolt = Bolt(holds="push plate", size="1/2-13", grade="5", count=4, length=1.75 * INCH,
                grip=0.75 * INCH, into="A36", spacing=4 * INCH)  # fmt: skip
    one = bench(evolve(HUNG, bolt=(bolt,)), nose=SHAFT, retract=PULL)
    check = found(bolt_checks(one), "stripping", "retract")
    assert check.demand / LBF == pytest.approx(PULL / 4, abs=1)
    assert check.capacity / LBF == pytest.approx(8_543, abs=3)


# --- piston rod, frame, circuit ------------------------------------------------------------------


@pytest.mark.parametrize(("guided", "stood"), [(True, 45_703), (False, 41_436)])
def test_a_piston_rod_is_a_column(guided: bool, stood: float) -> None:
    # 2 in, 12 in out: pi^2 E 0.785398/144 = 1 561 490 lbf with its end held, a quarter without;
    # Johnson 188 500 (1 - 188 500/(4 P_E)), over 4.
    rod = PistonRod(material="1045 ground shaft", free_length=12 * INCH, guided=guided)
    one = bench(evolve(HUNG, rod=rod), nose=SHAFT)
    check = found(rod_checks(one), "buckling")
    assert check.demand / LBF == pytest.approx(RELIEF, abs=1)
    assert check.capacity / LBF == pytest.approx(stood, rel=2e-4)


@pytest.mark.parametrize(("side_load", "stress"), [(0.0, 16_366), (0.05, 39_154)])
def test_a_push_off_the_middle_bends_a_rod_that_nothing_guides(
    side_load: float, stress: float
) -> None:
    # 24 298/3.14159 = 7734; 24 298/4 = 6075 lbf in on 0.785398 in3, 7734 too, over
    # 1 - 1.67 x 24 298/390 371 = 0.896053; with 1214.9 x (12 + 4 + 1.5) = 21 261 across it 22 112
    # lbf in.
    rod = PistonRod(material="1045 ground shaft", free_length=12 * INCH)
    one = bench(evolve(HUNG, rod=rod, side_load=side_load), nose=SHAFT, load=OFF)
    check = found(rod_checks(one), "push and bending")
    assert check.demand / PSI == pytest.approx(stress, abs=3)


def test_frame_and_circuit_are_held_to_what_is_stated_of_them() -> None:
    circuit = Circuit(hose=3_000 * PSI, fitting=3_100 * PSI, valve=3_200 * PSI,
                      cylinder=3_300 * PSI, rod_side=3_400 * PSI, gauge=5_000 * PSI,
                      holds_load=True)  # fmt: skip
    one = bench(Members(circuit=circuit, frame=Frame(rating=40_000 * LBF)))
    frame = found(frame_checks(one), "rating")
    assert (frame.demand / LBF, frame.capacity / LBF) == pytest.approx((RELIEF, 40_000), abs=1)
    checks = [each for each in circuit_checks(one) if isinstance(each, Check)]
    for member, rating in (
        ("hose", 3_000), ("fitting", 3_100), ("valve", 3_200), ("cylinder", 3_300),
    ):  # fmt: skip
        check = found([each for each in checks if each.member == member], "rating")
        assert (check.demand / PSI, check.capacity / PSI) == pytest.approx((2_200, rating))
    # 2200 x 3.75^2/(3.75^2 - 2^2); 0.75 of the gauge's range, common practice.
    blocked, gauge = found(checks, "pressure when blocked"), found(checks, "range")
    assert blocked.demand / PSI == pytest.approx(3_074.5, abs=0.1)
    assert gauge.capacity / PSI == pytest.approx(3_750)


# --- life at five thousand bends a year, (2e6/5e4)^(1/3) = 3.41995 -------------------------------


def lasts(members: Members, nose: Nose, force: float, outward: float = 0.0) -> dict[str, float]:
    """Range of each life under a plan's push [lbf], in psi."""
    load = Load(case="plan", force=force * LBF, outward=outward * LBF)
    stated = evolve(members, bends_a_year=5_000)
    checks, _ = check_members(bench(stated, nose=nose, load=load))
    # Bolts, rods, pins and plates with holes have categories and sums of their own.
    others = ("push plate", "shoulders", "guide rods", "piston rod", "carrier pins")
    life = [
        one
        for one in checks
        if one.what.startswith("life")
        and one.member not in others
        and not one.member.startswith("bolts")
    ]
    READ.extend(life)
    # Beside a weld category 56, EN 1993-1-9 table 8.5: 56/1.35 x 3.41995 = 141.87 MPa.
    assert all(
        one.capacity == pytest.approx(141.87, abs=0.01) for one in life if one.member != "nose"
        or "web" in one.what
    )  # fmt: skip
    return {f"{one.member}: {one.what}": one.demand / PSI for one in life}


def test_the_life_of_carriers() -> None:
    # 2000/2.625 + 6 x 100 x 4/(0.75 x 3.5^2) = 1023; of one alone 1000/2.625 + 1000 x 3.125
    # /0.328125 = 9905, and 1000/2.625 + 6 x 50 x 4/(0.75 x 3.5^2) = 512.
    plain = Members(carriers=CARRIERS)
    assert lasts(plain, SHAFT, 4_000) == {
        "carriers: life in push and side load": pytest.approx(1_023, abs=1)
    }
    alone = lasts(Members(nose=HUNG.nose, carriers=CARRIERS), OUT, 1_000)
    assert alone["carriers: life in push and bending"] == pytest.approx(9_905, abs=2)
    assert alone["carriers: life in push and side load"] == pytest.approx(512, abs=1)


def test_the_life_of_cheeks_and_floor() -> None:
    # P = sqrt(2000^2 + 300^2) = 2022: 2000 (0.375 + 0.2 x 1.5) + 2022 x 0.049029 = 1449 on
    # 0.28125 in3: 5152; with 2000/2.25 6041, with 300/2.25 5285 psi.
    assert lasts(Members(body=BODY), SHAFT, 4_000, 300) == {
        "die body: life in push and bending": pytest.approx(6_041, abs=1),
        "die body: life in tension and bending of the floor": pytest.approx(5_285, abs=1),
    }


def test_the_life_of_a_tied_body() -> None:
    # 300 x 7.5/8/0.45833 = 614; half of 2000 (1/2 + 0.2 x 1.25) + 2022 x 0.049029 = 800 lbf in
    # on 0.53416 in3 and 150/1.3875: 1605 psi.
    assert lasts(TIED, SHAFT, 4_000, 300) == {
        "die body: life in bending": pytest.approx(614, abs=1),
        "die body: life in tension and bending of the side plates": pytest.approx(1_605, abs=1),
    }


def test_the_life_of_the_foot_of_a_web() -> None:
    # 4000/2.5 + 6 x 200 x 4/2.5/(1 - 1.67 x 4000/2 945 400) = 3524.4 psi.
    members = Members(nose=NoseMember(material="4140", web_material="A36"))
    assert lasts(members, WEB, 4_000) == {
        "nose: life in push and side load of the web": pytest.approx(3_524.4, abs=0.5)
    }
