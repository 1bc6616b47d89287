"""A hole deeper than the cutters reach: from both sides, a longer cutter, or not at all."""

from __future__ import annotations

import pytest

from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.cutters import FROM_BOTH, make_hole
from strapwright.making.drill_reach import usual_reach
from strapwright.making.hole_table import bolt_hole, fit_hole, plain_hole, tapped_hole
from strapwright.making.machining_steps import plate_steps
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_values import Cutter, HoleSpec, PlateDrawing

INCH = 25.4
DRILLS = tuple(
    Cutter(
        kind="drill", name=f"{one:g} mm drill", diameter=one, metric=True, reach=usual_reach(one)
    )
    for one in (3.0, 5.0, 8.5, 10.0, 11.0, 12.0)
)
TAP = Cutter(kind="tap", name="M10 x 1.5 tap", diameter=10.0, thread="M10 x 1.5")


# Flutes of DIN 338 (from memory): 10 mm has 87 mm, of which a diameter stays out for chips.
@pytest.mark.parametrize(("diameter", "reach"), [(10.0, 77.0), (6.0, 51.0), (20.0, 56.2)])
def test_a_jobber_drill_reaches_its_flute_less_a_diameter(diameter: float, reach: float) -> None:
    assert usual_reach(diameter) == pytest.approx(reach)


def test_what_one_side_does_not_reach_is_met_from_the_other() -> None:
    hole = plain_hole(20, 20, 10.0, "w")
    within = make_hole(hole, DRILLS, thickness=77.0, where="w")
    past = make_hole(hole, DRILLS, thickness=77.1, where="w")
    assert FROM_BOTH not in within.notes
    assert past.cuts
    assert FROM_BOTH in past.notes
    assert not make_hole(hole, DRILLS, thickness=155.0, where="w").cuts


def test_a_close_fit_is_never_bored_from_both_sides() -> None:
    close, wide = (fit_hole(30, 30, INCH, one, "w") for one in ("H7", "H11"))
    cutters = usual_cutters()  # whose boring bar reaches 3 in
    assert not make_hole(close, cutters, thickness=100.0, where="w").cuts
    assert FROM_BOTH in make_hole(wide, cutters, thickness=100.0, where="w").notes


def test_a_blind_hole_too_deep_names_the_longer_drill_in_the_units_of_the_job() -> None:
    blind = plain_hole(20, 20, 10.0, "w", depth=90.0)
    made = make_hole(blind, DRILLS, thickness=120.0, where="w", units="metric")
    assert not made.cuts
    assert made.ways[0].text == (
        "buy a longer 10 mm drill: the hole is 90 mm deep, and one of usual length reaches 77 mm"
    )
    inch = make_hole(blind, DRILLS, thickness=120.0, where="w", units="inch")
    assert " in deep" in inch.ways[0].text
    assert "90" not in inch.ways[0].text


def test_the_drill_of_a_thread_must_reach_below_it() -> None:
    # M10: 8.5 mm drill, flute 81, reach 72.5; five pitches of 1.5 below the thread: 7.5 mm.
    def possible(depth: float) -> bool:
        hole = tapped_hole(20, 20, "M10", "w", depth=depth)
        return bool(make_hole(hole, (*DRILLS, TAP), thickness=120.0, where="w").cuts)

    assert possible(65.0)
    assert not possible(65.1)


def pair(*holes: HoleSpec, long: float) -> PlateDrawing:
    return PlateDrawing(
        name="cheeks face to face, each end", piece="pair of cheeks", metal="low carbon steel",
        width=2.5 * INCH, height=1.5 * INCH, thickness=long, holes=holes, joint=True,
    )  # fmt: skip


def test_seats_are_bored_on_the_joint_with_a_strip_and_from_both_ends_where_they_are_long() -> None:
    seat = fit_hole(1.25 * INCH, 1.125 * INCH, 0.75 * INCH, "H11", "w")
    said = plate_steps(make_plate(pair(seat, long=2 * INCH), usual_cutters(), units="inch"))
    steps = list(said.steps)

    def first(words: str) -> int:
        return next(n for n, one in enumerate(steps) if words in one)

    order = [first(one) for one in ("clamp them inner side", "strip of steel", "Find the joint",
                                    "Drill A1 with", "Check A1", "lay the round in")]  # fmt: skip
    assert order == sorted(order)
    # The bore is on the joint, 1-1/8 in above the feet.
    assert "at X 0 and Y 1.125" in steps[first("Touch the lower edges")]
    assert not any(FROM_BOTH in one for one in said.cautions)
    long = plate_steps(make_plate(pair(seat, long=5 * INCH), usual_cutters(), units="inch"))
    assert any(FROM_BOTH in one for one in long.cautions)


def test_strap_is_used_as_bought_and_saws_are_set_to_sixteenths() -> None:
    hole = bolt_hole(0.5 * INCH, INCH, "1/4", "normal", "w")
    thin = PlateDrawing(
        name="nose keeper", metal="low carbon steel", width=INCH, height=1.535 * INCH,
        thickness=INCH / 8, holes=(hole,),
    )  # fmt: skip
    steps = plate_steps(make_plate(thin, usual_cutters(), units="inch")).steps
    assert not any(one.startswith("Face") for one in steps)
    # 1.535 and 1/8 are 1.660, the next sixteenth is 1-11/16.
    assert "1-1/8 in x 1-11/16 in" in steps[0]
