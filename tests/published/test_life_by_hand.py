"""Life by EN 1993-1-9 7.1: dS_R = (dS_C/1.35) (2e6/N)^(1/3); categories from memory."""

from __future__ import annotations

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, READ, bench
from strapwright.shop.members import (
    Bolt,
    Carriers,
    Guides,
    Members,
    NoseMember,
    PistonRod,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.tooling import Nose
from strapwright.strength.check_values import Check, Load, Result, Unchecked
from strapwright.strength.lasting.life import bends_stood, range_allowed
from strapwright.strength.member_checks import check_members
from strapwright.strength.rating import rating_of

NOSE = NoseMember(material="4140", between=4 * INCH)


def lives(members: Members, force: float, held: str = "both ends") -> list[Result]:
    """Every life of a die under a planned push [lbf] on a round of 1-3/4 in."""
    nose = Nose(radius=0.875 * INCH, reach=4 * INCH, held=held)
    load = Load(case="plan", force=force * LBF)
    checks, unchecked = check_members(bench(members, nose=nose, load=load))
    lasting = [one for one in (*checks, *unchecked) if one.what.startswith("life")]
    READ.extend(one for one in lasting if isinstance(one, Check))
    return lasting


@pytest.mark.parametrize("category", [36.0, 125.0])
def test_a_category_is_the_range_of_two_million_over_the_factor(category: float) -> None:
    assert range_allowed(category, 2e6) == pytest.approx(category / 1.35)
    # Twice the range, an eighth of the bends.
    assert bends_stood(category, 2 * category / 1.35) == pytest.approx(2.5e5)


def test_below_ten_thousand_bends_the_curve_has_not_begun() -> None:
    assert range_allowed(36.0, 100.0) == range_allowed(36.0, 1e4)
    # (2e6/1e4)^(1/3) = 5.848: just above that range nothing is proven.
    assert bends_stood(36.0, 36 / 1.35 * 5.85) == 0.0
    assert bends_stood(36.0, 36 / 1.35 * 5.84) > 1e4


def test_a_range_however_small_still_counts() -> None:
    # At 1e8 bends a category of 125 stands 125/1.35/50^(1/3) = 25.13 MPa and not the 0.405 of 125
    # below which the standard counts nothing.
    assert range_allowed(125.0, 1e8) == pytest.approx(25.13, abs=0.01)


def test_a_nose_at_five_thousand_bends_a_year() -> None:
    # 3922 x 5.5/8/0.526155 = 5125 psi, 35.33 MPa; 125/1.35 x (2e6/5e4)^(1/3) = 316.7 MPa.
    (check,) = lives(Members(nose=NOSE, bends_a_year=5_000), 3_922)
    assert isinstance(check, Check)
    assert check.demand == pytest.approx(35.33, abs=0.02)
    assert check.capacity == pytest.approx(316.7, abs=0.1)


def test_a_weld_is_held_by_what_is_in_its_throat() -> None:
    # 5 % of 4000 on two runs of 3 in, 4 in below the plate: half to each carrier, 100/6 across,
    # 6 x 400 x 2/6^2 = 133.3 end to end: 134.4 lbf/in on 0.7071 x 5/16 in: 608 psi, 4.19 MPa;
    # 36/1.35 x (2e6/5e4)^(1/3) = 91.2 MPa.
    weld = Weld(holds="carriers", size=0.3125 * INCH, length=6 * INCH)
    (check,) = lives(Members(weld=(weld,), bends_a_year=5_000), 4_000)
    assert isinstance(check, Check)
    assert check.member == "weld of the carriers"
    assert check.demand == pytest.approx(608 * PSI, rel=2e-3)
    assert check.capacity == pytest.approx(91.2, abs=0.1)


def test_past_its_life_it_is_not_proven_and_says_how_long() -> None:
    # 24 298 lbf out of one carrier: 24 298 x 4/0.526155 = 184 724 psi, 1273.6 MPa: none.  At
    # 4000 lbf 209.7 MPa: 2e6 (56/1.35/209.7)^3 = 15 487 bends, half of 125 where it is clamped.
    members = Members(nose=NOSE, bends_a_year=5_000)
    (none,) = lives(members, 24_298, "one end")
    (some,) = lives(members, 4_000, "one end")
    assert isinstance(none, Unchecked)
    assert "no number of bends" in none.sentence
    assert isinstance(some, Unchecked)
    assert "15000 bends, 3.0 years at 5000 a year" in some.sentence
    assert "not checked; it is proven for" in some.sentence
    # Fewer bends and it lasts ten years: 1500 a year.
    (lasts,) = lives(evolve(members, bends_a_year=1_500), 4_000, "one end")
    assert isinstance(lasts, Check)
    assert lasts.holds


def test_no_curve_holds_for_a_hardened_shaft() -> None:
    shaft = evolve(NOSE, material="hardened shaft")
    (one,) = lives(Members(nose=shaft, bends_a_year=100), 1_000)
    assert isinstance(one, Unchecked)
    assert "hardened" in one.sentence


def test_without_the_bends_a_year_it_is_not_proven_and_the_push_is_rated_all_the_same() -> None:
    (one,) = lives(Members(nose=NOSE), 3_922)
    assert isinstance(one, Unchecked)
    assert "bends_a_year" in one.sentence
    relief = bench(Members(nose=NOSE))
    assert rating_of(relief, (), (one,)) == pytest.approx(24_298.26 * LBF)


# --- what stands beside the nose; 5000 bends a year, (2e6/5e4)^(1/3) = 3.41995 -------------------

PLATE = PushPlate(material="A36", thickness=1.5 * INCH, width=5 * INCH)
CARRIERS = Carriers(material="A36", thickness=0.75 * INCH, width=3.5 * INCH)
OFF = Load(case="plan", force=4_000 * LBF, offset=0.25 * INCH)


def life_of(member: str, what: str, members: Members, load: Load | None = None) -> Check:
    """The life of one member under 4000 lbf on a round of 1-3/4 in, its tip 4 in down."""
    push = load or Load(case="plan", force=4_000 * LBF)
    stated = evolve(members, bends_a_year=5_000)
    checks, _ = check_members(
        bench(stated, nose=Nose(radius=0.875 * INCH, reach=4 * INCH), load=push)
    )
    (check,) = (one for one in checks if one.member == member and one.what == f"life in {what}")
    READ.append(check)
    return check


def test_the_life_of_a_shoulder_between_supports() -> None:
    # 500 lbf on it: 500 x (6 - 2.5)/8 = 218.75 lbf in on pi 0.5^3/32 in3; plain round 125.
    stated = ShoulderMember(material="A36", backed=False, between=3 * INCH)
    push = Load(case="plan", force=1_000 * LBF)
    check = life_of("shoulders", "bending", Members(shoulders=stated), push)
    assert check.demand / PSI == pytest.approx(17_825, abs=2)
    assert check.capacity == pytest.approx(316.7, abs=0.1)


def test_the_life_of_a_push_plate_past_its_holes_or_beside_its_welds() -> None:
    # 4000 x (8 - 2)/8 = 3000 lbf in on 1.875 in3, and 2000 x (3.5 - 2)/4 = 750 across on as much.
    # A plate with holes 90: 90/1.35 x 3.41995 = 228.0 MPa; beside a weld 56: 141.9 MPa.
    hung = Members(nose=NOSE, carriers=CARRIERS, push_plate=PLATE)
    weld = Weld(holds="carriers", size=0.3125 * INCH, length=6 * INCH)
    for members, allowed in ((hung, 228.0), (evolve(hung, weld=(weld,)), 141.87)):
        along = life_of("push plate", "bending", members)
        across = life_of("push plate", "bending across", members)
        assert along.demand / PSI == pytest.approx(1_600, abs=1)
        assert across.demand / PSI == pytest.approx(400, abs=1)
        assert (along.capacity, across.capacity) == pytest.approx((allowed, allowed), abs=0.1)


def test_the_life_of_guide_rods_clamped_at_their_foot() -> None:
    # 200 lbf leans on two rods 10 in long: 1000 lbf in each on pi/32 in3; 56 where it frets.
    rods = Guides(material="1045 ground shaft", diameter=INCH, length=10 * INCH, bush=3 * INCH)
    check = life_of("guide rods", "bending", Members(guides=rods))
    assert check.demand / PSI == pytest.approx(10_186, abs=1)
    assert check.capacity == pytest.approx(141.87, abs=0.1)
    # A hardened rod has no curve.
    hard = Members(guides=evolve(rods, material="hardened shaft"), bends_a_year=5_000)
    (none,) = lives(hard, 4_000)
    assert isinstance(none, Unchecked)
    assert (none.member, "hardened" in none.sentence) == ("guide rods", True)


def test_the_life_of_a_piston_rod_that_nothing_guides() -> None:
    # 4000/3.14159 = 1273 psi and 200 x (8 + 4 + 1-1/2) = 2700 lbf in on 0.785398 in3, which grows
    # by 1/(1 - 1.67 x 4000/P_E), P_E = pi^2 x 29.0075e6 x 0.785398/(4 x 8^2) = 878 326 lbf, to
    # 3464.1 psi.
    rod = Members(push_plate=PLATE, rod=PistonRod(material="1045 ground shaft", free_length=203.2))
    leant = life_of("piston rod", "push and side load", rod)
    assert leant.demand / PSI == pytest.approx(4_737.3, abs=1)
    assert leant.capacity == pytest.approx(141.87, abs=0.1)
    # 1/4 in off: 1000 lbf in beside that, together 2879.2: 3694 psi.
    bent = life_of("piston rod", "push and bending", rod, OFF)
    assert bent.demand / PSI == pytest.approx(4_967.2, abs=1)


def test_the_life_of_bolts_counts_pull_and_shear_without_their_clamp() -> None:
    # Half of 200 lbf, 4 in down, on two 1/2-13 3 in apart: 133.3 lbf of pull and 50 of shear on
    # 0.1419 in2: 939.6 and 352.4 psi: 469.8 + sqrt(469.8^2 + 352.4^2) = 1057 psi.  A bolt in
    # tension 50: 50/1.35 x 3.41995 = 126.7 MPa.
    bolt = Bolt(holds="carriers", size="1/2-13", grade="5", count=2, spacing=3 * INCH)
    check = life_of("bolts of the carriers", "tension and shear", Members(bolt=(bolt,)))
    assert check.demand / PSI == pytest.approx(1_057, abs=2)
    assert check.capacity == pytest.approx(126.7, abs=0.1)


def test_the_life_of_a_pin_through_a_carrier() -> None:
    # 16 x 2000 x (1/4 + 3/8)/(pi x 1^3) = 6366 psi; 56 where it frets in its holes.
    hung = evolve(CARRIERS, pin=INCH, cheek=0.5 * INCH)
    check = life_of("carrier pins", "bending", Members(nose=NOSE, carriers=hung))
    assert check.demand / PSI == pytest.approx(6_366, abs=1)
    assert check.capacity == pytest.approx(141.87, abs=0.1)
