"""What leans on the nose by hand: 5 % of 24 298 lbf, 1215 lbf; statics, pounds and inches."""

from __future__ import annotations

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, bench, found
from strapwright.shop.members import (
    Bolt,
    Carriers,
    Guides,
    Members,
    NoseMember,
    PistonRod,
    PushPlate,
    Weld,
)
from strapwright.shop.tooling import Nose
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.carriers import carrier_checks
from strapwright.strength.check_values import Load, Unchecked
from strapwright.strength.guide_rods import guide_checks
from strapwright.strength.nose import nose_checks
from strapwright.strength.piston_rod import rod_checks
from strapwright.strength.welds import weld_checks

SHAFT = Nose(radius=0.875 * INCH, reach=4 * INCH)
HUNG = Members(
    nose=NoseMember(material="4140", between=4 * INCH),
    carriers=Carriers(material="A36", thickness=0.75 * INCH, width=3.5 * INCH),
    push_plate=PushPlate(material="A36", thickness=1.5 * INCH, width=5 * INCH),
)
WEB = Nose(radius=0.875 * INCH, held="web", web_thickness=INCH, web_height=2.25 * INCH)


def test_a_carrier_is_bent_across_its_width_by_half_of_it() -> None:
    # 12 149/(3/4 x 3-1/2) = 4628; 607.5 x 4 = 2430 lbf in on W = 3/4 x 3.5^2/6 = 1.53125: 1587 psi.
    check = found(carrier_checks(bench(HUNG, nose=SHAFT)), "push and side load")
    assert check.demand / PSI == pytest.approx(6_215, abs=3)


def test_the_foot_of_a_web_is_bent_about_its_thickness() -> None:
    # 24 298/2.5 = 9719; 1215 x (2-1/4 + 1-3/4) = 4860 lbf in on W = 2.5/6 = 0.41667: 11 663 psi,
    # which the push makes more by 1/(1 - 1.67 x 24 298/2 945 400) = 1.01397: 11 826 psi.
    members = Members(nose=NoseMember(material="4140", web_material="A36"))
    check = found(nose_checks(bench(members, nose=WEB)), "push and side load of the web")
    assert check.demand / PSI == pytest.approx(21_545, abs=5)
    # Twice the share, twice the bending.
    harder = bench(evolve(members, side_load=0.1), nose=WEB)
    check = found(nose_checks(harder), "push and side load of the web")
    assert check.demand / PSI == pytest.approx(9_719 + 23_652, abs=5)


def strength(holds: str, nose: Nose, spacing: float | None) -> float:
    weld = Weld(
        holds=holds, size=0.3125 * INCH, length=6 * INCH,
        spacing=None if spacing is None else spacing * INCH,
    )  # fmt: skip
    check = found(weld_checks(bench(evolve(HUNG, weld=(weld,)), nose=nose)), "strength")
    return check.demand / LBF * INCH


def test_the_welds_of_a_carrier_are_tipped_end_to_end() -> None:
    # 607.5/6 = 101; 6 x 2430 x 2/6^2 = 810; together 816 lbf/in.
    assert strength("carriers", SHAFT, None) == pytest.approx(816, abs=1)


def test_the_welds_of_a_web_are_tipped_across_its_thickness() -> None:
    # 1215/6 = 202; 2 x 4860/(1 x 6) = 1620; together 1632 lbf/in.
    assert strength("web", WEB, 1.0) == pytest.approx(1_632, abs=2)


def test_the_welds_between_web_and_round_are_tipped_by_the_round() -> None:
    # 1215 x 1-3/4 = 2126 lbf in; 2 x 2126/6 = 709; the whole push, 24 298/6 = 4050; with 202 across
    # 4763 lbf/in.
    assert strength("nose", WEB, 1.0) == pytest.approx(4_763, abs=2)


CIRCLE = Bolt(holds="push plate", size="5/8-11", grade="5", count=4, circle=3.5 * INCH)


def test_bolts_of_the_push_plate_take_it_where_nothing_guides() -> None:
    # 1215 x (4 + 1-1/2) = 6682 lbf in; rows 1-3/4 in apart, two bolts to one: 1909; 1215/4 = 304.
    one = bench(evolve(HUNG, bolt=(CIRCLE,)), nose=SHAFT)
    given = {name: value for name, value, _ in found(bolt_checks(one), "tension and shear").inputs}
    assert given["T"] / LBF == pytest.approx(1_909, abs=2)
    assert given["V"] / LBF == pytest.approx(304, abs=1)
    rods = Guides(material="1045 ground shaft", diameter=INCH, length=6 * INCH, bush=3 * INCH)
    guided = bench(evolve(HUNG, bolt=(CIRCLE,), guides=rods), nose=SHAFT)
    assert list(bolt_checks(guided)) == []


@pytest.mark.parametrize(("held", "stress"), [("below", 37_125), ("both ends", 9_281)])
def test_a_guide_rod_is_bent_by_its_share(held: str, stress: float) -> None:
    # 607.5 x 6 = 3645 lbf in at the foot of a rod, W = pi/32 = 0.098175 in3; held at both ends a
    # quarter of it.
    rods = Guides(
        material="1045 ground shaft", diameter=INCH, length=6 * INCH, bush=3 * INCH, held=held
    )
    check = found(guide_checks(bench(evolve(HUNG, guides=rods), nose=SHAFT)), "bending")
    assert check.demand / PSI == pytest.approx(stress, abs=10)


def test_without_the_reach_it_is_not_checked_and_said() -> None:
    weld = Weld(holds="carriers", size=8.0, length=6 * INCH)
    rod = PistonRod(material="1045 ground shaft", free_length=12 * INCH)
    one = bench(evolve(HUNG, weld=(weld,), bolt=(CIRCLE,), rod=rod))
    for results in (carrier_checks(one), weld_checks(one), bolt_checks(one), rod_checks(one)):
        missing = [each for each in results if isinstance(each, Unchecked)]
        assert any("reach" in each.sentence for each in missing)


def test_without_guides_the_piston_rod_takes_it() -> None:
    # From gland to tip 12 + 1-1/2 + 4 in: 1214.9 x 17-1/2 = 21 261 lbf in on W = pi 2^3/32 =
    # 0.7854: 27 070 psi.  Fixed and free, P_E = pi^2 29.0076e6 x 0.7854/(4 x 144) = 390 370 lbf, so
    # it grows by 1/(1 - 1.67 x 24 298/390 370) = 1.11601 to 30 210; and 24 298/3.1416 = 7734.
    rod = PistonRod(material="1045 ground shaft", free_length=12 * INCH)
    check = found(rod_checks(bench(evolve(HUNG, rod=rod), nose=SHAFT)), "push and side load")
    assert check.demand / PSI == pytest.approx(37_944, rel=2e-4)
    guides = Guides(material="1045 ground shaft", diameter=INCH, length=6 * INCH, bush=3 * INCH)
    held = evolve(HUNG, rod=evolve(rod, guided=True), guides=guides)
    assert [one.what for one in rod_checks(bench(held, nose=SHAFT))] == ["buckling"]


def test_where_the_carriers_stand_apart_is_not_stated_one_takes_all_that_leans() -> None:
    # A push off the middle falls to one carrier, who knows how much: 1214.9/6 = 202.5 across and
    # 6 x 4860 x 2/6^2 = 1620 end to end.
    weld = Weld(holds="carriers", size=0.3125 * INCH, length=6 * INCH)
    off = Load(case="relief", force=24_298.26 * LBF, offset=0.25 * INCH)
    one = bench(evolve(HUNG, nose=None, weld=(weld,)), nose=SHAFT, load=off)
    check = found(weld_checks(one), "strength")
    assert check.demand / LBF * INCH == pytest.approx(1_632.5, abs=1)
