"""What a push off the middle asks of the end that it lies nearer to; statics, worked on paper.

Pounds and inches.  24 298 lbf at relief, half of it 12 149 on a shoulder that is pushed out with
1385: together 12 227.8, turned off the round's middle by 1/4 sin(atan 0.2) = 0.049029 in.  The push
lies 1/4 in off the middle.
"""

from __future__ import annotations

import pytest

from hand_bench import INCH, LBF, PSI, RELIEF, WEDGE, bench, found
from strapwright.shop.members import (
    Bolt,
    DieBody,
    Members,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.tooling import Nose, Shoulders
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.check_values import Bench, Check, Load
from strapwright.strength.die_body import body_checks
from strapwright.strength.shoulders import shoulder_checks
from strapwright.strength.statics.worse_end import (
    end_share,
    nearer_share,
    outer_bolt_share,
    spread_along,
)
from strapwright.strength.welds import weld_checks

OFF = Load(case="relief", force=RELIEF * LBF, outward=WEDGE * LBF, offset=0.25 * INCH)
BODY = DieBody(material="A36", cheek=2 * INCH)
SEAT = Shoulders(radius=0.25 * INCH, opening=4 * INCH, height=3 * INCH)


def off(members: Members, **given: object) -> Bench:
    return bench(members, load=OFF, shoulders=SEAT, **given)  # type: ignore[arg-type]


def of_bolts(bolt: Bolt, body: DieBody | None = BODY, **given: object) -> Check:
    members = Members(body=body, bolt=(bolt,), push_plate=PushPlate(thickness=INCH))
    return found(bolt_checks(off(members, **given)), "tension and shear", "relief off centre")


def pull_and_shear(check: Check) -> tuple[float, float]:
    """T and V of the worst bolt [lbf]."""
    given = {name: value for name, value, _ in check.inputs}
    return given["T"] / LBF, given["V"] / LBF


def cheek_bolts(count: int, **more: float) -> Bolt:
    """Half-inch bolts; a cheek is tipped with 12 149 (1 + 0.2 x 1.5) + 599.5 = 16 393 lbf in."""
    place = {"spacing": 2 * INCH} if "circle" not in more else {}
    return Bolt(holds="cheeks", size="1/2-13", grade="8", count=count, length=3 * INCH,
                grip=INCH, into="A36", height=1.5 * INCH, **place, **more)  # fmt: skip


@pytest.mark.parametrize("count", [2, 3, 4, 7])
def test_the_forces_of_a_row_are_in_balance(count: int) -> None:
    """Each takes N/n (1 + x y n/sum y^2): together N, and N x about the row's middle."""
    row, at = 90.0, 4.0
    places = [row * (k / (count - 1) - 0.5) for k in range(count)]
    slope = (outer_bolt_share(at, row, count) - 1) / (row / 2)
    shares = [(1 + slope * y) / count for y in places]
    assert sum(shares) == pytest.approx(1.0)
    assert sum(share * y for share, y in zip(shares, places, strict=True)) == pytest.approx(at)


def test_the_load_along_a_length_is_in_balance() -> None:
    """From 2 - k at the far end to k at the near one: its middle is where the push is."""
    length, at = 60.0, 4.0
    more = end_share(at, length) - 1
    # The triangle on top has its lever l^2/6 of its slope.
    assert more * length / 6 == pytest.approx(at)


def test_the_two_supports_of_a_beam_are_in_balance() -> None:
    # 3 of 12 off the middle: 3/4 on the nearer support, 1/4 on the other: 3/4 x 3 = 1/4 x 9.
    assert nearer_share(3.0, 12.0) == 0.75
    assert nearer_share(0.0, 0.0) == 0.5


def test_nothing_so_short_or_narrow_holds_a_push_beside_it() -> None:
    assert end_share(1.0, 0.0) == float("inf")
    assert outer_bolt_share(1.0, 0.0, 3) == float("inf")
    assert nearer_share(1.0, 0.0) == float("inf")
    assert end_share(0.0, 0.0) == outer_bolt_share(0.0, 0.0, 3) == 1.0


def test_a_shoulder_between_supports_is_sheared_at_the_nearer_one() -> None:
    # Supports 4 in apart: (4/3) 12 227.8 (1/2 + 0.25/4)/0.19635.
    round_ = ShoulderMember(backed=False, between=4 * INCH, material="1045 ground shaft")
    check = found(shoulder_checks(off(Members(shoulders=round_))), "shear")
    assert check.demand / PSI == pytest.approx(46_707, rel=2e-4)


def test_the_outer_bolts_of_a_cheek_take_more() -> None:
    # Rows 2 in apart of two, 6 - 1.5 = 4.5 in from the first to the last: 1 + 6 x 0.25/(4.5 x 3) =
    # 1.1111 of 16 393/4 and of 1385/4.
    body = DieBody(material="A36", cheek=2 * INCH, length=6 * INCH)
    pull, shear = pull_and_shear(of_bolts(cheek_bolts(4), body, width=3.0))
    assert pull == pytest.approx(4_553.7, rel=2e-4)
    assert shear == pytest.approx(384.7, rel=2e-4)


def test_bolts_stand_as_close_as_they_may_where_a_cheek_has_no_length() -> None:
    # 2-2/3 x 1/2 = 1.3333 in apart: 1 + 6 x 0.25/(1.3333 x 3) = 1.375; of three 2.6667 in from the
    # first to the last, 1 + 6 x 0.25 x 2/(2.6667 x 4) = 1.28125 of 16 393/6.
    assert pull_and_shear(of_bolts(cheek_bolts(4)))[0] == pytest.approx(5_635.2, rel=2e-4)
    assert pull_and_shear(of_bolts(cheek_bolts(6)))[0] == pytest.approx(3_500.7, rel=2e-4)


def test_one_bolt_in_each_row_is_turned_on_its_face() -> None:
    # 16 393/2; 1385/2 + 1385 x 0.25/2.
    pull, shear = pull_and_shear(of_bolts(cheek_bolts(2)))
    assert pull == pytest.approx(8_196.7, rel=2e-4)
    assert shear == pytest.approx(865.6, rel=2e-4)


def test_bolts_on_a_circle_are_a_row_as_long_as_it_is_wide() -> None:
    # 4 in: 1 + 6 x 0.25/4 = 1.375 of 16 393/(2 x 3).
    pull, _ = pull_and_shear(of_bolts(cheek_bolts(6, circle=4 * INCH)))
    assert pull == pytest.approx(3_756.8, rel=2e-4)


@pytest.mark.parametrize(
    ("holds", "place", "turned"),
    [
        # 1214.9/4 + 1214.9 x 0.25/(1.75 x 2), half of a circle's radius apart.
        ("push plate", {"circle": 3.5 * INCH}, 390.5),
        # 1214.9/4 + 1214.9 x 0.25/(7.5 x 2).
        ("base", {"spacing": 7.5 * INCH}, 323.98),
    ],
)
def test_what_leans_on_a_nose_off_the_middle_turns_base_and_plate(
    holds: str, place: dict[str, float], turned: float
) -> None:
    bolt = Bolt(holds=holds, size="1/2-13", grade="8", count=4, length=3 * INCH,  # type: ignore[arg-type]
                grip=INCH, into="A36", **place)  # fmt: skip
    check = of_bolts(bolt, None, nose=Nose(radius=0.5 * INCH, reach=4 * INCH))
    assert pull_and_shear(check)[1] == pytest.approx(turned, rel=2e-4)


def test_the_end_of_one_run_of_weld_takes_more() -> None:
    # 4 in: 1 + 6 x 0.25/4 = 1.375 of sqrt((1385/4)^2 + (2 x 16 393/(2 x 4))^2) = 4112.9; in
    # two runs of 2 in 1 + 6 x 0.25/2 = 1.75 of it.
    for runs, line in ((1, 5_655.3), (2, 7_197.6)):
        weld = Weld(holds="cheeks", size=0.25 * INCH, length=4 * INCH, runs=runs, thinner=INCH,
                    spacing=2 * INCH, height=1.5 * INCH)  # fmt: skip
        check = found(weld_checks(off(Members(body=BODY, weld=(weld,)))), "strength")
        assert check.demand / LBF * INCH == pytest.approx(line, rel=2e-4)


def test_a_side_plate_takes_all_where_nobody_says_how_far_the_other_is() -> None:
    # 1385 + 2 (12 149 (1 + 0.2) + 599.5)/3 along 8 in.
    weld = Weld(holds="side plates", size=0.25 * INCH, length=8 * INCH, thinner=INCH,
                spacing=3 * INCH, height=INCH)  # fmt: skip
    check = found(weld_checks(off(Members(body=BODY, weld=(weld,)))), "strength")
    assert check.demand / LBF * INCH == pytest.approx(1_438.0, rel=2e-4)


def test_the_length_of_cheek_and_floor_is_that_of_the_body() -> None:
    # 6 in, so 1 + 6 x 0.25/6 = 1.25; A 12 in2, W 4 in3: 12 149/12 + 16 393/4 = 5110.7; shear
    # 1.5 x 1385/12 = 173.1; floor 1 in, A 6, W 1: 1385/6 + 16 393 = 16 624.
    body = DieBody(material="A36", cheek=2 * INCH, length=6 * INCH, floor=INCH, height=1.5 * INCH)
    checks = list(body_checks(off(Members(body=body), width=3.0)))
    for what, stress in (
        ("push and bending", 6_388.4),
        ("shear", 216.4),
        ("tension and bending of the floor", 20_780),
    ):
        assert found(checks, what).demand / PSI == pytest.approx(stress, rel=2e-4)


def test_a_cheek_longer_than_the_push_spreads_to_carries_with_no_more_of_it() -> None:
    # A bar of 2.5 in, 1.5 in above the root: 2.5 + 3 = 5.5 of 11 in.  A 11 in2, W 3.6667 in3:
    # 12 149/11 + 16 393/3.6667 = 5575.4 in the middle; shear 1.5 x 1385/11 = 188.9.
    assert spread_along(2.5, 1.5, 11.0) == 5.5
    assert spread_along(2.5, 1.5, 5.0) == 5.0
    body = DieBody(material="A36", cheek=2 * INCH, length=11 * INCH, height=1.5 * INCH)
    weld = Weld(holds="cheeks", size=0.25 * INCH, length=22 * INCH, thinner=INCH,
                spacing=2 * INCH, height=1.5 * INCH)  # fmt: skip
    members = Members(body=body, weld=(weld,))
    one = bench(members, shoulders=SEAT)
    assert found(body_checks(one), "push and bending").demand / PSI == pytest.approx(
        5_575.4, rel=2e-4
    )
    assert found(body_checks(one), "shear").demand / PSI == pytest.approx(188.9, rel=5e-4)
    # Half of the weld carries: 2 x 1385/22 with 2 x 2 x 16 393/(2 x 22): sqrt(125.9^2 + 1490^2).
    check = found(weld_checks(one), "strength")
    assert check.demand / LBF * INCH == pytest.approx(1_495.6, rel=5e-4)
