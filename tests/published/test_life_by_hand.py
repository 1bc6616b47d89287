"""Life by EN 1993-1-9 7.1: dS_R = (dS_C/1.35) (2e6/N)^(1/3); categories from memory."""

from __future__ import annotations

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, READ, bench
from strapwright.shop.members import Members, NoseMember, Weld
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
