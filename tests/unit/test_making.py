"""Holes from one corner, the cutters that make them, bolts that reach, steps, refusals."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import pytest
from attrs import evolve
from laid_out import lacking
from plan_fixture import make_plan

from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.making.crib_cutters import cutters_of, usual_cutters
from strapwright.making.cutters import HARDENED, make_hole
from strapwright.making.drawn_members.laying_out import wall_findings
from strapwright.making.feeds import setting
from strapwright.making.fits import iso_fit, measured_fit
from strapwright.making.hole_table import (
    bolt_hole,
    checked,
    fit_hole,
    hole_table,
    plain_hole,
    tapped_hole,
    thin_walls,
)
from strapwright.making.machining_steps import SMALL_PLATE, plate_steps, shaft_steps
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_values import (
    CORNERS,
    Cut,
    Cutter,
    HoleSpec,
    Machine,
    PlateDrawing,
    ShaftDrawing,
)
from strapwright.making.threads.tap_drills import best_tap_drill
from strapwright.making.tooling_plates import pieces_of
from strapwright.quantities import Units
from strapwright.shop.crib import BoringBar, Crib, DrillSet
from strapwright.shop.job import Job
from strapwright.shop.members import Bolt, Members, Weld
from strapwright.wording.reader import in_units
from strapwright.wording.telling import tell

INCH = 25.4
MILD = "low carbon steel"


def plate(*holes: HoleSpec, **changes: Any) -> PlateDrawing:
    made = PlateDrawing(
        name="foot", metal=MILD, width=150.0, height=90.0, thickness=12.0, holes=holes
    )
    return evolve(made, **changes)


def names(hole: HoleSpec, cutters: Sequence[Cutter], thickness: float = 12.0) -> list[str]:
    made = make_hole(hole, cutters, thickness=thickness, where="w")
    return [f"{cut.role}: {cut.cutter.name}" for cut in made.cuts]


def crib(*drills: float, **more: Any) -> tuple[Cutter, ...]:
    runs = tuple(DrillSet(series="single", first="", last="", sizes=(one,)) for one in drills)
    return cutters_of(evolve(Crib(drills=runs), **more))


@pytest.mark.parametrize("corner", CORNERS)
def test_table_counts_from_the_datum_edges_and_adds_half_the_tip(corner: str) -> None:
    hole = plain_hole(30.0, 20.0, 8.0, "w")
    row = hole_table(plate(hole, corner=corner), tip=5.0)[0]
    x = 150.0 - 30.0 if "right" in corner else 30.0
    y = 90.0 - 20.0 if "upper" in corner else 20.0
    assert (row.label, row.x, row.y) == ("A1", x, y)
    assert (row.touch_x, row.touch_y) == (x + 2.5, y + 2.5)


def test_holes_alike_share_a_letter_and_run_along_the_plate() -> None:
    spots = [(120.0, 20.0), (30.0, 70.0), (30.0, 20.0)]
    holes = [plain_hole(x, y, 8.0, "w") for x, y in spots]
    rows = hole_table(plate(*holes, tapped_hole(75.0, 45.0, "M8", "w")))
    assert [(one.label, one.x, one.y) for one in rows] == [
        ("A1", 30.0, 20.0),
        ("A2", 30.0, 70.0),
        ("A3", 120.0, 20.0),
        ("B1", 75.0, 45.0),
    ]


@pytest.mark.parametrize(
    ("hole", "words"),
    [
        (plain_hole(75.0, 45.0, 95.0, "w"), "larger than its plate"),
        (plain_hole(6.4, 45.0, 10.0, "w"), "too near an edge"),
        (plain_hole(-9.0, 45.0, 10.0, "w"), "outside the plate"),
        (plain_hole(75.0, 45.0, 10.0, "w", depth=12.0), "deep in a plate"),
        (plain_hole(35.0, 45.0, 10.0, "w"), "too near hole"),
    ],
)
def test_a_hole_that_cannot_be_is_refused_in_a_sentence(hole: HoleSpec, words: str) -> None:
    fixed = () if "near hole" not in words else (plain_hole(24.0, 45.0, 10.0, "w"),)
    with pytest.raises(InputError, match=words) as refused:
        checked(plate(*fixed, hole), "plate")
    assert "\n" not in str(refused.value)
    assert "hole[" in refused.value.where


def test_less_than_half_a_diameter_of_wall_is_warned_of_and_less_than_1_5_mm_refused() -> None:
    wide, high = plate().width, plate().height

    def beside(out: float) -> tuple[tuple[float, float], ...]:
        middle = wide / 2, high / 2
        return (out, middle[1]), (wide - out, middle[1]), (middle[0], out), (middle[0], high - out)

    for out, warned in ((10.0, False), (9.99, True), (6.5, True)):
        for x, y in beside(out):
            one = checked(plate(plain_hole(x, y, 10.0, "w")), "plate")
            assert [wall.wall for wall in thin_walls(one)] == [pytest.approx(out - 5.0)] * warned
    for x, y in beside(6.49):
        with pytest.raises(InputError, match="too near an edge"):
            checked(plate(plain_hole(x, y, 10.0, "w")), "plate")


def test_metal_between_two_holes_is_warned_of_once_for_holes_alike() -> None:
    pair = plate(plain_hole(30.0, 45.0, 10.0, "w"), plain_hole(43.0, 45.0, 10.0, "w"))
    (found,) = wall_findings(pair)
    assert tell(found, in_units("metric")).text == (
        "Foot: the hole, 10 mm across, leaves 3 mm of metal beside it, less than half its diameter."
    )


def test_a_small_hole_is_spotted_no_wider_than_its_drill() -> None:
    small = plain_hole(30.0, 20.0, 2.5, "w")
    made = make_plate(
        plate(small, plain_hole(60.0, 20.0, 10.0, "w")), crib(2.5, 4.0, 10.0), units="metric"
    )
    cuts = [group.cuts[0].cut.most for group in made.groups]
    assert cuts == [2.5, 3.0]  # the centre drill is 3 mm
    (step,) = (one for one in plate_steps(made).steps if one.startswith("Centre drill"))
    assert step.endswith("no wider than 2.500 mm.")


def test_clearance_hole_gets_its_own_drill_after_a_pilot() -> None:
    hole = bolt_hole(0.0, 0.0, "3/8", "normal", "w")
    assert names(hole, usual_cutters()) == [
        "centre: centre drill",
        "pilot: 9/64 drill",
        "drill: 13/32 drill",
    ]


def test_reamed_hole_leaves_what_the_chart_says() -> None:
    # Machine reamer of 1/2 in: 0.012 to 0.016 in on the diameter (reamer allowance chart).
    made = make_hole(
        fit_hole(0.0, 0.0, 0.5 * INCH, "H7", "w"), usual_cutters(), thickness=12.0, where="w"
    )
    drill, reamer = made.cuts[-2:]
    assert reamer.role == "ream"
    assert 0.012 <= (reamer.cutter.diameter - drill.cutter.diameter) / INCH <= 0.016 + 1e-9
    assert any("Never turn the reamer backwards" in note for note in made.notes)


def test_no_reamer_means_boring_where_the_bar_goes_in() -> None:
    hole = fit_hole(0.0, 0.0, 28.0, "H7", "w")
    bar = BoringBar(smallest_bore=16.0)
    assert names(hole, crib(6.0, 12.0, 20.0, boring_bar=bar))[-1] == "bore: boring bar"
    # 0.018 mm of an H7 at 16 mm is finer than a bar holds; 26 mm does not go into the drilled 20.
    assert names(fit_hole(0.0, 0.0, 16.0, "H7", "w"), crib(10.0, boring_bar=bar)) == []
    stuck = make_hole(
        hole, crib(6.0, 20.0, boring_bar=BoringBar(smallest_bore=26.0)), thickness=12.0, where="w"
    )
    assert stuck.cuts == ()
    kinds = [way.kind for way in stuck.ways]
    assert kinds == ["bore", "sleeve", "buy"]
    assert "26.00 mm" in stuck.ways[0].text
    assert "buy a reamer of 28.00 mm (1.102 in) H7" in stuck.ways[-1].text


def test_a_bar_too_short_for_the_plate_does_not_bore_it() -> None:
    hole = fit_hole(0.0, 0.0, 28.0, "H7", "w")
    short = crib(20.0, boring_bar=BoringBar(smallest_bore=16.0, reach=20.0))
    assert names(hole, short, thickness=20.0)
    assert not names(hole, short, thickness=20.5)


def test_next_size_for_a_bolt_is_the_larger_drill() -> None:
    made = make_hole(
        bolt_hole(0.0, 0.0, "M6", "close", "w"), crib(6.3, 6.6), thickness=10.0, where="w"
    )
    assert made.cuts == ()
    assert [way.text for way in made.ways if way.kind == "next size"] == [
        "take the 6.6 mm drill, 0.20 mm (0.008 in) larger, if that much play will do"
    ]


def test_tapped_hole_takes_the_chart_drill_and_says_the_real_percentage() -> None:
    hole = tapped_hole(0.0, 0.0, "3/8-16", "w", depth=14.0)
    made = make_hole(hole, usual_cutters(), thickness=40.0, where="w")
    assert [cut.cutter.name for cut in made.cuts[-2:]] == ["5/16 drill", "3/8-16 tap"]
    assert made.percent == pytest.approx(77.0, abs=0.05)  # 0.0625 / (1.299 / 16)
    assert any("deeper than the thread" in note for note in made.notes)
    deep = make_hole(evolve(hole, depth=20.0), usual_cutters(), thickness=40.0, where="w")
    assert deep.percent is not None
    assert made.percent is not None
    assert deep.percent < made.percent
    assert any("turn back every half turn" in note for note in deep.notes)
    through = make_hole(evolve(hole, depth=14.0), usual_cutters(), thickness=15.0, where="w")
    assert any("comes out on the other side" in note for note in through.notes)


def test_a_deep_thread_takes_a_drill_of_its_own_system() -> None:
    """Letter P is 0.323 in (ASME B94.11M), so 100 (0.375 - 0.323) / (1.299 / 16) = 64.05 %."""
    unified = tapped_hole(0.0, 0.0, "3/8-16", "w", depth=17.5)
    metric = tapped_hole(0.0, 0.0, "M8", "w", depth=14.0)
    for units in ("inch", "metric"):
        made = make_hole(unified, usual_cutters(), thickness=30.0, where="w", units=units)
        assert [cut.cutter.name for cut in made.cuts[1:3]] == ["7/64 drill", "P drill"]
        assert made.percent == pytest.approx(64.05, abs=0.01)
        made = make_hole(metric, usual_cutters(), thickness=30.0, where="w", units=units)
        assert made.cuts[-2].cutter.metric
    # One of the other system that is much nearer to the aim is better than a thread that binds.
    thread = find_thread("3/8-16", "w")
    near, far = (
        Cutter(kind="drill", name=name, diameter=diameter, metric=name.endswith("mm"))
        for name, diameter in (("8.2 mm", 8.2), ("19/64", 19 / 64 * INCH))
    )
    assert best_tap_drill(thread, (near, far), aim=75.0) == near


@pytest.mark.parametrize(("units", "metric"), [("inch", False), ("metric", True)])
def test_a_hole_takes_a_drill_of_the_persons_own_units(units: Units, metric: bool) -> None:
    for hole in (
        bolt_hole(20, 20, "1/4", "normal", "w"),
        bolt_hole(20, 20, "M8", "normal", "w"),
        fit_hole(20, 20, INCH / 2, "H7", "w"),
    ):
        made = make_hole(hole, usual_cutters(), thickness=12.0, where="w", units=units)
        drills = [cut.cutter for cut in made.cuts if cut.cutter.kind == "drill"]
        assert drills
        assert {one.metric for one in drills} == {metric}
    # Where the crib has none of them, another does.
    only = [one for one in usual_cutters() if one.kind != "drill" or one.metric is not metric]
    hole = bolt_hole(20, 20, "M8", "normal", "w")
    assert make_hole(hole, only, thickness=12.0, where="w", units=units).cuts


def test_missing_tap_or_drill_is_named_to_buy() -> None:
    hole = tapped_hole(0.0, 0.0, "3/8-16", "w")
    no_tap = make_hole(hole, crib(7.9375, taps=("7/16-14",)), thickness=10.0, where="w")
    assert [way.text for way in no_tap.ways] == [
        "tap 7/16-14 instead, bolts to suit",
        "buy a 3/8-16 tap",
    ]
    no_drill = make_hole(hole, crib(6.0, taps=("3/8-16",)), thickness=10.0, where="w")
    assert [way.text for way in no_drill.ways] == ["buy a tap drill 5/16"]


def test_empty_crib_and_hardened_steel() -> None:
    hole = plain_hole(0.0, 0.0, 8.0, "w")
    with pytest.raises(InputError, match="the tool crib is empty"):
        make_hole(hole, (), thickness=10.0, where="w")
    made = make_hole(hole, usual_cutters(), thickness=10.0, where="w", hardened=True)
    assert made.cuts == ()
    assert made.notes == (HARDENED,)
    assert "carbide" in made.ways[0].text


def test_slow_machine_is_said_and_not_outrun() -> None:
    drill = Cutter(kind="drill", name="1 in drill", diameter=INCH)
    cut = Cut(cutter=drill, role="drill", least=INCH, most=INCH + 0.2)
    # 80 ft/min at 1 in is 305 rpm; the motor of 750 W at 80 % gives 600 W.
    free = Machine(rpm_low=50.0, rpm_high=3000.0, power=20_000.0)
    at = setting(cut, metal=MILD, depth=19.0, machine=free, where="w")
    assert at.rpm == pytest.approx(80 * 12 / math.pi, rel=1e-9)
    small = setting(cut, metal=MILD, depth=19.0, machine=evolve(free, power=750.0), where="w")
    assert small.power == pytest.approx(600.0)
    assert "speed limited by motor power" in small.notes[0]
    fast = setting(cut, metal=MILD, depth=19.0, machine=evolve(free, rpm_low=500.0), where="w")
    assert fast.rpm == 500.0
    assert "is faster than this cutter wants" in fast.notes[0]
    with pytest.raises(InputError, match="hardened steel is ground"):
        setting(cut, metal="hardened shaft", depth=19.0, machine=free, where="w")


def test_a_drill_that_the_motor_cannot_turn_even_at_its_slowest_is_said() -> None:
    drill = Cutter(kind="drill", name="1 in drill", diameter=INCH)
    cut = Cut(cutter=drill, role="drill", least=INCH, most=INCH + 0.2)
    # At 0.007 in (0.1778 mm), the low end over 1/2 in, and 200 rpm:
    # 2.22 x 645.16 x 200 x (0.647 + 17.29 x 0.1778) = 1066 W; of 750 W a drill gets 600.
    weak = Machine(rpm_low=200.0, rpm_high=3000.0, power=750.0)
    at = setting(cut, metal=MILD, depth=19.0, machine=weak, where="w")
    assert at.rpm == 200.0
    assert at.power == pytest.approx(1066, abs=1)
    assert "asks for 1066 W and the motor gives 600 W: it stalls" in at.notes[-1]
    strong = setting(cut, metal=MILD, depth=19.0, machine=evolve(weak, power=1350.0), where="w")
    assert not any("stalls" in note for note in strong.notes)
    # At 112.6 rpm it just turns: 1066 x 112.6/200 = 600 W.
    slow = setting(cut, metal=MILD, depth=19.0, machine=evolve(weak, rpm_low=50.0), where="w")
    assert slow.rpm == pytest.approx(112.6, abs=0.1)
    assert slow.power == pytest.approx(600.0)


def test_fits_in_words() -> None:
    assert iso_fit(25.0, "H7/p6", "w").words.startswith("press fit")
    assert "snug" in iso_fit(25.0, "H7/h6", "w").words
    assert iso_fit(25.0, "H11/c11", "w").words.startswith("loose")
    found = measured_fit((25.4, 25.415), (25.38, 25.38), "w")
    assert (found.least, found.most) == pytest.approx((0.02, 0.035))
    assert found.words.startswith("sliding")
    for classes in ("h7/G6", "H7", "H7 g6"):
        with pytest.raises(InputError, match="not a hole and a shaft class"):
            iso_fit(25.0, classes, "w")
    with pytest.raises(InputError, match="the wrong way round"):
        measured_fit((25.0, 24.0), (24.0, 24.0), "w")


def job(members: Members | None = None) -> Job:
    made = make_plan("inch").job
    assert made.tooling is not None
    return evolve(made, tooling=evolve(made.tooling, members=members))


def test_tooling_is_laid_out_so_that_its_pieces_meet() -> None:
    made = pieces_of(job())
    by_name = {one.name: one for one in made.plates}
    push, carrier = by_name["push plate"], by_name["nose carrier"]
    edge = by_name["nose carrier, upper edge"]
    assert edge.quantity == carrier.quantity == 2
    # A bolt goes through the push plate into the carrier's upper edge.
    tapped = [hole.x for hole in edge.holes]
    low = (push.height - carrier.width) / 2
    bolts = [one for one in push.holes if one.purpose == "carrier bolt"]
    assert sorted({round(one.y, 6) for one in bolts}) == pytest.approx([low + x for x in tapped])
    xs = sorted({round(one.x, 6) for one in bolts})
    span = made.shafts[0].length - 2 * carrier.thickness
    assert xs[1] - xs[0] - carrier.thickness <= span + 1e-6
    nose = carrier.holes[0]
    assert (nose.x, nose.diameter) == (carrier.width / 2, 25.4)
    base, block = by_name["die base"], by_name["shoulder block, lower edge"]
    gaps = sorted({round(one.x, 6) for one in base.holes})
    # Inner faces stand the opening less two radii apart: 2-1/2 less 3/4 in.
    assert gaps[1] - gaps[0] - block.height == pytest.approx(1.75 * INCH)
    assert [one.diameter for one in made.shafts] == [25.4]


def test_bolts_that_cannot_reach_or_find_no_room_are_refused() -> None:
    def with_bolt(**changes: Any) -> Members:
        return Members(bolt=(evolve(Bolt(holds="carriers", size="3/8-16", count=2), **changes),))

    assert pieces_of(job(with_bolt(length=1.25 * INCH))).plates
    for changes, words in (
        ({"length": 1.0 * INCH}, "cannot reach: it passes 3/4 in and needs 3/8 in"),
        ({"length": 1.0 * INCH}, "Use one of 1-1/8 in or longer."),
        ({"length": 30 * INCH}, "would bottom"),
        ({"size": "1/2-13"}, "find no room in a thickness of 3/4 in"),
        ({"count": 9}, "find no room"),
    ):
        made = pieces_of(job(with_bolt(**changes)))
        assert words in lacking(made)["bolts of the carriers"]
        # The carriers still come, without the threads that cannot be.
        names = [one.name for one in made.plates]
        assert "nose carrier" in names
        assert "nose carrier, upper edge" not in names
        assert "die base" in names
    with pytest.raises(InputError, match="no unified or metric thread"):
        pieces_of(job(with_bolt(size="3/8-17")))


def test_welded_carriers_have_no_bolt_holes() -> None:
    weld = Weld(holds="carriers", size=8.0, length=200.0)
    made = pieces_of(job(Members(weld=(weld,))))
    assert "nose carrier, upper edge" not in [one.name for one in made.plates]
    assert not [one for one in made.plates[0].holes if one.purpose == "carrier bolt"]


def test_no_tooling_and_too_narrow_a_span_are_refused() -> None:
    made = job()
    assert made.tooling is not None
    with pytest.raises(InputError, match="there is no tooling to make"):
        pieces_of(evolve(made, tooling=None))
    narrow = evolve(made.tooling, nose=evolve(made.tooling.nose, span=20.0))
    without = pieces_of(evolve(made, tooling=narrow))
    assert "does not pass the bar" in lacking(without)["carriers"]
    assert {one.name for one in without.plates} >= {"shoulder block", "die base"}


VERBS = {
    "Saw", "Face", "Mill", "Stamp", "Touch", "Centre", "Drill", "Bore", "Ream", "Tap", "Check",
    "Clamp", "Choose", "File", "Deburr", "Measure", "Stand", "Open", "Find", "Counterbore", "Cut",
    "Grind", "Turn", "Make", "Dress",
}  # fmt: skip


def test_every_step_begins_with_a_verb_and_ends_with_a_point() -> None:
    made = pieces_of(job())
    said = [plate_steps(make_plate(one, usual_cutters(), units="inch")) for one in made.plates]
    said += [shaft_steps(one, "inch") for one in made.shafts]
    for one in said:
        for step in one.steps:
            assert step.split()[0] in VERBS, step
            assert step.endswith("."), step
    assert SMALL_PLATE in said[0].cautions


def test_order_of_steps_and_allowances() -> None:
    hole = fit_hole(75.0, 45.0, 0.5 * INCH, "H7", "w")
    steps = plate_steps(make_plate(plate(hole), usual_cutters(), units="metric")).steps
    first = [step.split()[0] for step in steps]
    assert first == [
        "Saw", "Face", "Mill", "Stamp", "Touch", "Centre", "Drill", "Drill", "Ream", "Check",
        "Measure", "Deburr",
    ]  # fmt: skip
    assert "153 mm x 93 mm: about 3 mm over size each way" in steps[0]
    assert "2.540 mm outside" in steps[4]
    assert "12.700 mm to 12.718 mm (H7)" in steps[9]


def test_tap_drill_goes_five_pitches_deeper_or_comes_out() -> None:
    # M8 has a pitch of 1.25 mm: 8 mm of thread wants 14.25 mm of hole.
    tapped = tapped_hole(75.0, 45.0, "M8", "w", depth=8.0)
    for thickness, words in ((15.0, "14.25 mm deep"), (14.0, "through")):
        made = make_plate(plate(tapped, thickness=thickness), usual_cutters(), units="metric")
        (step,) = [one for one in plate_steps(made).steps if "for the tap" in one]
        assert f"6.8 mm drill, {words}, " in step


def test_hardened_shaft_is_ground_and_not_sawn() -> None:
    shaft = ShaftDrawing(
        name="nose shaft", metal="alloy steel", diameter=25.0, length=100.0, hardened=True
    )
    said = shaft_steps(shaft, "metric")
    assert "abrasive wheel" in said.steps[0]
    assert any("can shatter" in one for one in said.cautions)
    assert "Saw" in shaft_steps(evolve(shaft, hardened=False), "metric").steps[0]
