"""Plans as a person gets them: from a job file's text to steps, blank and findings."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st
from telling import told

from strapwright.bending import state_at_travel, state_for_free_angle
from strapwright.bending.solver_model import build
from strapwright.blank.blank_values import Blank, Mark
from strapwright.drawing.words_beside_bend import facts_of
from strapwright.errors import InputError
from strapwright.findings import Angle, BendAt, Severity
from strapwright.pages.plan_page import loaded_angle
from strapwright.pages.played_bend import stage_of
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.natural_order import Need, natural_order
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.planning.push_further import push_on
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.sheets.angle_gauges import gauges_of
from strapwright.sheets.bend_data import bend_data
from strapwright.shop_files.reading_job import read_job

T = 6.0
HEAD = """\
format = 1
units = "metric"

[part]
name = "dock ladder bracket"
"""
BAR = 'bar = "flat 6 x 40"\nmaterial = "S235JR"\n'
SHAPE = 'measured = "outside"\nshape = ["70", "up 90", "120", "down 60", "70"]\n'
PRESS = """
[press]
bore = "63"
relief = "140 bar"
stroke = "200"
pump = "0.8 L/min"
no_load = "3 bar"
"""
# Narrow and slender, so that neither jams before a square bend, nor past it.
TOOLING = """
[tooling]
ram_side = "nose"
nose = { radius = "9", reach = "140" }
shoulders = { radius = "6", opening = "55", height = "90", outer_edge = "45" }
"""
JOB = HEAD + BAR + SHAPE + PRESS + TOOLING


def planned(text: str) -> Plan:
    return plan(read_job(text))


def with_shape(*shape: str, measured: str = "outside", extra: str = "") -> str:
    words = ", ".join(f'"{word}"' for word in shape)
    return JOB.replace(SHAPE, f'measured = "{measured}"\nshape = [{words}]\n{extra}')


def codes(found: Plan) -> set[str]:
    return {finding.code for finding in told(found)}


def step_of(found: Plan, bend: int) -> Step:
    (step,) = [step for step in found.steps if step.bend == bend]
    return step


@pytest.fixture(scope="module")
def bracket() -> Plan:
    return planned(JOB)


def test_a_whole_job_has_a_step_for_every_bend_and_nothing_against_it(bracket: Plan) -> None:
    assert sorted(step.bend for step in bracket.steps) == [1, 2]
    assert [step.order for step in bracket.steps] == [1, 2]
    assert not [f for f in told(bracket) if f.severity is Severity.REFUSAL]
    for step, angle in ((step_of(bracket, 1), 90.0), (step_of(bracket, 2), 60.0)):
        assert math.degrees(step.free_angle) == pytest.approx(angle, abs=1e-5)
        assert step.loaded_angle > step.free_angle
        assert step.peak_force >= step.force > 0.0
        assert step.radii.tightest < step.radii.gauge < step.radii.wrap
    assert step_of(bracket, 1).hold.face == "top"
    assert step_of(bracket, 2).hold.face == "bottom"


def test_the_gauge_is_the_force_over_the_piston(bracket: Plan) -> None:
    for step in bracket.steps:
        assert step.gauge is not None
        # p = F/(eta A) + no-load: 0.95 is the documented efficiency, 3 bar are stated.
        expected = step.force / (0.95 * math.pi * 63.0**2 / 4.0) + 0.3
        assert step.gauge.value == pytest.approx(expected, rel=1e-9)
        assert step.gauge.peak >= step.gauge.value


def test_bands_hold_their_figures_and_say_so_in_order(bracket: Plan) -> None:
    for step in bracket.steps:
        figures = {
            "travel": step.setting.travel,
            "loaded_angle": step.loaded_angle,
            "free_angle": step.free_angle,
            "force": step.force,
            "gauge": step.gauge.value if step.gauge is not None else 0.0,
        }
        for name, value in figures.items():
            band = getattr(step.bands, name)
            assert band.low < value < band.high, name
        # Reading the angle once takes out touch, give and most of the metal.
        single, staged = step.bands.free_angle, step.bands.staged_angle
        assert staged.high - staged.low < 0.6 * (single.high - single.low)
        assert (step.curve_low[1:] < step.curve.force[1:]).all()
        assert (step.curve_high[1:] > step.curve.force[1:]).all()
    assert bracket.length_band is not None
    assert bracket.blank is not None
    assert bracket.length_band.low < bracket.blank.length < bracket.length_band.high


def test_ease_off_is_above_the_band_or_a_finding_says_why_not(bracket: Plan) -> None:
    for step in bracket.steps:
        assert step.gauge is not None
        assert step.gauge.ease_off > step.gauge.high
        assert step.relief is not None
        assert step.relief.kind == "set"
        assert step.gauge.high < step.relief.pressure <= 14.0
    # 5 MPa at the valve; 15 kN on the nose are 15000/(pi 63^2/4) = 4.81 MPa at the piston.
    for change, most in (
        (JOB.replace('relief = "140 bar"', 'relief = "50 bar"'), 5.0),
        (JOB.replace('ram_side = "nose"', 'ram_side = "nose"\nrating = "15 kN"'), 4.82),
    ):
        tight = planned(change)
        assert {"ease-off-below-band", "press-too-weak", "tooling-too-weak"} & set(codes(tight))
        assert any(s.gauge and s.gauge.ease_off < s.gauge.high for s in tight.steps)
        for step in tight.steps:
            assert step.gauge is not None
            # Whatever the band says, nobody is sent past the valve or the weakest member.
            assert step.gauge.ease_off <= most
            assert step.relief is not None
            assert step.relief.pressure <= most
            assert (step.relief.kind == "set") == (step.gauge.high < step.relief.pressure)


def test_without_a_press_all_but_the_gauge() -> None:
    bare = planned(JOB.replace(PRESS, ""))
    assert "no-press" in codes(bare)
    for step in bare.steps:
        assert step.gauge is None
        assert step.no_gauge == "no press"
        assert step.relief is None
        assert step.setting.travel > 0.0
        assert step.bands.gauge is None
    without_bore = planned(JOB.replace('bore = "63"\n', ""))
    assert "press-incomplete" in codes(without_bore)
    assert all(s.gauge is None and s.no_gauge == "no bore" for s in without_bore.steps)


def test_without_tooling_only_the_blank() -> None:
    text = HEAD + BAR + SHAPE + PRESS
    nothing = planned(text)
    assert nothing.blank is None
    assert nothing.steps == ()
    assert {"no-tooling", "radius-unknown"} <= codes(nothing)
    radius = planned(text.replace(SHAPE, SHAPE + 'inside_radius = "9"\n'))
    assert radius.steps == ()
    assert {"no-tooling", "blank-by-book"} <= codes(radius)
    assert radius.blank is not None
    # Machinery's Handbook (33): 0.64 T + 1.57 R for 90 deg; setbacks (R + T) tan(angle/2).
    allowance = (0.64 * T + 1.57 * 9.0) * (1.0 + 60.0 / 90.0)
    setbacks = 2.0 * (9.0 + T) * (1.0 + math.tan(math.radians(30.0)))
    assert radius.blank.length == pytest.approx(70 + 120 + 70 - setbacks + allowance, abs=1e-9)


def test_what_cannot_be_meant_is_refused() -> None:
    wrong = {
        'nose = { radius = "9"': 'nose = { radius = "22"',  # wider than the clear gap
        'material = "S235JR"': 'material = "driftwood"',
        '"70", "up 90"': '"20", "up 90"',  # shorter than the bend takes
    }
    for old, new in wrong.items():
        with pytest.raises(InputError) as caught:
            planned(JOB.replace(old, new))
        assert caught.value.where


def test_past_the_jam_the_bend_is_refused_and_the_rest_planned() -> None:
    stout = JOB.replace('radius = "6", opening = "55"', 'radius = "14", opening = "55"')
    jammed = planned(stout.replace('"down 60"', '"down 150"'))
    [jam] = [one for one in jammed.findings if one.code == "bend-jams"]
    assert jam.severity == Severity.REFUSAL
    assert jam.about == (BendAt(2),)
    # What it says of the jam is what the solver says of the bend that does not: one tooling.
    square = planned(stout)
    assert jam.one(Angle, "jam").value == pytest.approx(square.steps[0].jam_angle, abs=1e-3)
    assert math.degrees(jam.one(Angle, "wanted").value) == pytest.approx(150.0)
    assert jam.one(Angle, "reaches").value < jam.one(Angle, "jam").value
    # The other bend keeps every figure of its own; the jammed one gets none.
    assert [step.bend for step in jammed.steps] == [1]
    assert jammed.steps[0].setting.travel == pytest.approx(square.steps[0].setting.travel)
    # Blank by the handbook line, 0.64 T + 1.57 R for 90 deg scaled by angle, as nothing is solved.
    assert jammed.blank is not None
    assert jammed.blank.method == "book medium"
    assert len(jammed.blank.marks) == 2


# Order.

# The middle leg is long enough for one of the two neighbours to come second, not for the other.
ORDER_TOOLING = """
[tooling]
nose = { radius = "4", reach = "140" }
shoulders = { radius = "3", opening = "60", height = "90" }
"""


def test_a_stated_order_that_drops_a_leg_names_the_one_that_works() -> None:
    def text(order: str) -> str:
        return (
            HEAD
            + BAR
            + 'shape = ["120", "up 110", "51", "up 20", "120"]\n'
            + f"order = {order}\n"
            + ORDER_TOOLING
        )

    good, bad = planned(text("[1, 2]")), planned(text("[2, 1]"))
    assert "order-cannot-be-made" not in codes(good)
    refusals = [f for f in told(bad) if f.code == "order-cannot-be-made"]
    assert [f.severity for f in refusals] == [Severity.REFUSAL]
    assert "bend 1 last: " in refusals[0].text
    assert "of straight bar towards end 2" in refusals[0].text
    assert "order 1, 2" in refusals[0].remedy
    assert [step.bend for step in bad.steps] == [2, 1]
    natural = planned(text('"natural"'))
    assert [step.bend for step in natural.steps] == [1, 2]


def test_no_order_at_all_asks_for_other_tooling() -> None:
    none = planned(
        HEAD + BAR + 'shape = ["120", "up 90", "62", "down 90", "120"]\n' + ORDER_TOOLING
    )
    refusals = [f for f in told(none) if f.severity is Severity.REFUSAL]
    assert [f.code for f in refusals] == ["no-order"]
    assert "Bend 1 last" in refusals[0].text
    assert "Bend 2 last" in refusals[0].text
    assert "finish it by hand, away from the tooling" in refusals[0].remedy


def marked(zones: Sequence[tuple[float, float]], length: float) -> Blank:
    return Blank(
        length=length,
        method="strain",
        allowances=(),
        deductions=(),
        alternatives=(),
        marks=tuple(
            Mark(bend=i, nose=0.5 * (a + b), sight=0.0, tangents=(a, b))
            for i, (a, b) in enumerate(zones, start=1)
        ),
        holes=(),
    )


@st.composite
def bars(draw: st.DrawFn) -> tuple[Blank, tuple[Need, ...]]:
    at, zones, needs = 0.0, [], []
    for _ in range(draw(st.integers(1, 5))):
        at += draw(st.floats(0.0, 60.0))
        zone = draw(st.floats(5.0, 30.0))
        zones.append((at, at + zone))
        at += zone
        needs.append(Need(straight=draw(st.floats(5.0, 50.0)), depth=1.0))
    return marked(zones, at + draw(st.floats(0.0, 60.0))), tuple(needs)


def fits(blank: Blank, order: Sequence[int], needs: Sequence[Need]) -> bool:
    """Whether every bend of the order has its bar, told anew from the made bends' zones."""
    for place, bend in enumerate(order):
        middle = blank.marks[bend].nose
        low, high = middle - needs[bend].straight, middle + needs[bend].straight
        if low < 0.0 or high > blank.length:
            return False
        for made in order[:place]:
            begin, end = blank.marks[made].tangents
            if begin < high and end > low:
                return False
    return True


@settings(deadline=None)
@given(bars())
def test_natural_order_is_the_first_in_which_every_bend_has_its_bar(
    bar: tuple[Blank, tuple[Need, ...]],
) -> None:
    blank, needs = bar
    every = itertools.permutations(range(len(needs)))
    first = next((order for order in every if fits(blank, order, needs)), None)
    assert natural_order(blank, needs) == first


# Findings.


def test_one_sentence_for_all_bends_that_it_is_true_of() -> None:
    sharp = JOB.replace('radius = "9"', 'radius = "4"')
    same = planned(sharp.replace('"down 60"', '"down 90"'))
    spots = [f for f in told(same) if f.code == "model-weak-spot" and "sharper" in f.text]
    assert [f.where for f in spots] == ["bends 1 and 2"]
    assert len({(f.code, f.where, f.text) for f in told(same)}) == len(told(same))
    ranks = [[Severity.REFUSAL, Severity.WARNING, Severity.NOTE].index(f.severity) for f in
             told(same)]  # fmt: skip
    assert ranks == sorted(ranks)


HOLE = '\n[[part.hole]]\nleg = {leg}\n{place}\ndiameter = "10"\n'


def holed(leg: int, place: str) -> str:
    return JOB.replace(SHAPE, SHAPE + HOLE.format(leg=leg, place=place))


def test_holes_far_near_and_in_the_bend(bracket: Plan) -> None:
    far = planned(holed(1, 'from_end = "15"'))
    assert codes(far) == codes(bracket)
    assert far.blank is not None
    assert far.blank.holes[0].position == 15.0
    # The bend begins 70 mm less its zone from end 1; a hole just before it, and one inside.
    begin = far.blank.marks[0].tangents[0]
    near = planned(holed(1, f'from_end = "{begin - 5.0 - T:.3f}"\ndrilled = "flat"'))
    assert codes(near) - codes(bracket) == {"hole-near-bend"}
    inside = planned(holed(1, f'from_end = "{begin:.3f}"'))
    assert codes(inside) - codes(bracket) == {"hole-in-bend"}
    finding = next(f for f in told(inside) if f.code == "hole-in-bend")
    assert "5 mm" in finding.text
    assert finding.severity is Severity.WARNING


def test_bar_that_can_snap_and_bar_that_nobody_knows() -> None:
    known = planned(JOB)
    unknown = planned(JOB.replace("S235JR", "unknown mild steel"))
    assert "unknown-bar" in codes(unknown)
    assert "unknown-bar" not in codes(known)
    wide, narrow = (step_of(p, 1).bands.force for p in (unknown, known))
    assert wide.high / wide.low > narrow.high / narrow.low
    rebar = planned(JOB.replace('"flat 6 x 40"', '"round 8"').replace("S235JR", "reinforcing bar"))
    assert "brittle-bar" in codes(rebar)


def test_a_certificate_narrows_the_band(bracket: Plan) -> None:
    certified = planned(JOB.replace(PRESS, '\n[lot]\nyield = "290 MPa"\nthickness = "6"\n' + PRESS))
    before, after = (step_of(p, 1).bands.force for p in (bracket, certified))
    assert after.high / after.low < before.high / before.low


def test_stroke_floor_and_reach_that_fall_short() -> None:
    short = planned(JOB.replace('stroke = "200"', 'stroke = "10"'))
    assert "stroke-too-short" in codes(short)
    floor = planned(JOB.replace('height = "90"', 'height = "90", depth = "15", floor = "flat"'))
    assert {"bottoms-before-angle", "no-order"} <= codes(floor)
    assert "of depth" in next(f.text for f in told(floor) if f.code == "no-order")
    first = step_of(floor, 1)
    assert first.bottoming_travel is not None
    # A tenth of a mm early, and by the gap under the tip of the nose, up to 0.06 of the thickness.
    assert 14.9 - 0.06 * floor.job.part.bar.thickness < first.bottoming_travel < 14.9
    vee = planned(
        JOB.replace(
            'height = "90"', 'height = "90", depth = "27.13", floor = "vee", vee_angle = 85'
        )
    )
    square = step_of(vee, 1)
    assert square.bottoming_travel is not None
    # Legs meet the faces of an 85 deg vee at a loaded angle of 95 deg, a tenth of a mm early.
    setup = bend_setup(vee.job, known_bar(vee.job), vee.job.tooling)
    at = state_at_travel(setup, square.bottoming_travel + 0.1)
    assert math.degrees(at.loaded_angle) == pytest.approx(95.0, abs=0.02)


def test_what_bottoms_is_refused_and_promises_no_angle() -> None:
    """Onset from the description: slope of legs equal to that of the faces, less 0.1 mm."""
    steep = 'height = "90", depth = "23.06", floor = "vee", vee_angle = 95'
    vee = planned(JOB.replace('height = "90"', steep))
    square, slack = step_of(vee, 1), step_of(vee, 2)
    assert square.bottoms_first
    assert square.staged is None
    # The bend of 60 deg never meets faces that legs of 85 deg lie on.
    assert not slack.bottoms_first
    assert slack.staged is not None
    (found,) = (one for one in told(vee) if one.code == "bottoms-before-angle")
    assert (found.where, found.severity) == ("bend 1", Severity.REFUSAL)
    said = plan_to_text(vee)
    assert said.count("not predicted: it bottoms first") == 2
    # Nor on a page: not in a table, not at the slider, not in the picture.
    assert loaded_angle(vee, square) == "not predicted"
    (act,) = stage_of(vee, square).data["acts"]
    assert act["turn"][act["stop"] :] == ["\N{EN DASH}"] * (act["count"] - act["stop"])
    assert act["turn"][0] == "0.0°"
    assert facts_of(vee, square, "stroke").turn == "\N{EN DASH}"
    assert facts_of(vee, slack, "stroke").turn.endswith("°")
    # The same faces far below are never met.
    low = planned(JOB.replace('height = "90"', steep.replace("23.06", "60")))
    assert step_of(low, 1).bottoming_travel is None
    assert "bottoms-before-angle" not in codes(low)
    assert f"Bottoms    at {square.bottoming_travel:.2f}"[:-1] in said
    on_sheet = bend_data(vee, square.order - 1)
    assert on_sheet["angles"]["free"] == "no angle"
    assert [gauge.what for gauge in gauges_of(vee)] == ["bend 2 under load", "bend 2 released"]
    with pytest.raises(InputError, match="the bar bottoms at"):
        push_on(square, math.radians(70.0))
    assert push_on(square, math.radians(70.0), math.radians(78.0)).extra > 0.0
    assert any(line.startswith("The bar bottoms") for line in on_sheet["small"])


def test_a_channel_under_the_bar() -> None:
    """Its walls' tops 12 mm deep and 17 mm out, its floor 30 mm deep."""
    narrow = (
        'height = "90", depth = "30", floor = "channel", channel_width = "34", channel_walls = "18"'
    )
    found = planned(JOB.replace('height = "90"', narrow))
    plain = planned(JOB.replace('height = "90"', 'height = "90", depth = "30", floor = "flat"'))
    made, on_floor = step_of(found, 1).bottoming_travel, step_of(plain, 1).bottoming_travel
    assert made is not None
    assert on_floor is not None
    assert made < on_floor
    walls = [piece for piece in found.pieces if piece.name == "wall of the channel"]
    assert sorted(piece.polygon[0] for piece in walls) == [(-21.5, -30.0), (17.0, -30.0)]
    # Walls that are the shoulders themselves are as a flat floor.
    wide = planned(JOB.replace('height = "90"', 'height = "90", depth = "30", floor = "channel"'))
    assert step_of(wide, 1).bottoming_travel == on_floor


# Figures that belong together.


def test_the_step_card_is_the_stroke_curve(bracket: Plan) -> None:
    assert bracket.job.tooling is not None
    setup = bend_setup(bracket.job, known_bar(bracket.job), bracket.job.tooling)
    for step in bracket.steps:
        card = step.staged
        assert card is not None
        assert card.first_travel == pytest.approx(0.85 * step.setting.travel)
        first = state_at_travel(setup, card.first_travel)
        assert card.first_free == pytest.approx(first.free_angle, abs=math.radians(0.02))
        assert card.first_loaded == pytest.approx(first.loaded_angle, abs=math.radians(0.02))
        assert len(card.readings) == len(card.extra) == 9
        assert min(card.readings) < first.free_angle < max(card.readings)
        assert list(card.extra) == sorted(card.extra, reverse=True)
        for reading, extra in zip(card.readings, card.extra, strict=True):
            other = state_for_free_angle(setup, reading)
            assert extra == pytest.approx(step.setting.travel - other.travel, abs=0.005)


def test_bars_side_by_side(bracket: Plan) -> None:
    two = planned(JOB.replace(SHAPE, SHAPE + "at_once = 2\n"))
    for bend in (1, 2):
        one, both = step_of(bracket, bend), step_of(two, bend)
        assert both.force == pytest.approx(2.0 * one.force, rel=1e-9)
        assert both.bands.force.high == pytest.approx(2.0 * one.bands.force.high)
        assert both.setting.travel == pytest.approx(one.setting.travel, rel=1e-9)
        for ours, theirs in zip(both.cross_checks, one.cross_checks, strict=True):
            share = 2.0 if ours.unit == "N" else 1.0
            assert ours.value == pytest.approx(share * theirs.value), ours.name
            assert ours.ours == pytest.approx(share * theirs.ours), ours.name


def test_three_ways_to_measure_one_part() -> None:
    """At a square bend the mid-lines meet half a thickness inside the outer corner."""
    outside = planned(with_shape("70", "up 90", "120", "down 90", "70")).blank
    centre = planned(with_shape("67", "up 90", "114", "down 90", "67", measured="centre")).blank
    inside = planned(with_shape("64", "up 90", "108", "down 90", "64", measured="inside")).blank
    assert outside is not None
    for other in (centre, inside):
        assert other is not None
        assert other.length == pytest.approx(outside.length, abs=1e-9)
        for mine, theirs in zip(other.marks, outside.marks, strict=True):
            assert mine.nose == pytest.approx(theirs.nose, abs=1e-9)


def test_a_part_read_from_its_other_end() -> None:
    here = planned(with_shape("70", "up 90", "120", "down 45", "60", "up 30", "90")).blank
    there = planned(with_shape("90", "up 30", "60", "down 45", "120", "up 90", "70")).blank
    assert here is not None
    assert there is not None
    assert there.length == pytest.approx(here.length, abs=1e-9)
    for mine, theirs in zip(here.marks, reversed(there.marks), strict=True):
        assert mine.nose == pytest.approx(here.length - theirs.nose, abs=1e-9)


def test_a_plan_made_twice_is_the_same_to_the_last_digit() -> None:
    assert plan_to_data(planned(JOB)) == plan_to_data(planned(JOB))


def test_give_moves_the_setting_not_the_plates(bracket: Plan) -> None:
    soft = planned(JOB.replace("no_load", 'give = { travel = "1", at = "100 kN" }\nno_load'))
    for bend in (1, 2):
        rigid, given_ = step_of(bracket, bend), step_of(soft, bend)
        lost = 1e-5 * rigid.force
        assert given_.setting.travel == pytest.approx(rigid.setting.travel + lost, abs=1e-6)
        assert rigid.setting.faces is not None
        assert given_.setting.faces == pytest.approx(rigid.setting.faces, abs=1e-6)
        # Reach and thickness less the travel between nose and shoulders.
        assert rigid.setting.faces == pytest.approx(140.0 + T - rigid.setting.travel)
        assert rigid.setting.block == pytest.approx(90.0 + rigid.setting.faces)


def test_poses_rest_on_the_tooling(bracket: Plan) -> None:
    for step in bracket.steps:
        rest, stroke, released = step.poses.all
        near = np.abs(rest.x) < 30.0
        assert rest.y[near] == pytest.approx(T / 2.0)
        assert rest.nose_y == pytest.approx(T + 9.0)
        # Round the shoulders (centre 27.5, -6; radius 6) the mid-line never comes nearer than
        # half a thickness more, and touches it on both sides.
        for side in (-1.0, 1.0):
            reach = np.hypot(stroke.x - side * 27.5, stroke.y + 6.0)
            assert reach.min() == pytest.approx(6.0 + T / 2.0, abs=0.1)
            assert reach.min() > 6.0 + T / 2.0 - 0.01
        # The nose has gone down by the travel, but for sag, shear and the contact's offset.
        assert rest.nose_y - stroke.nose_y == pytest.approx(step.setting.travel, abs=0.6)
        assert released.nose_y >= stroke.nose_y - 0.5


def measured_outside(found: Plan) -> tuple[list[float], list[float]]:
    """Legs to the outside and angles, taken from the finished mid-line alone [mm], [deg].

    Up to 90 deg a leg ends where the outer faces meet, past it
    at the farthest point of the outer face.
    """
    line = found.finished
    pieces = np.diff(line, axis=0)
    lengths = np.hypot(pieces[:, 0], pieces[:, 1])
    # A straight is laid out as two equal pieces in line; no two pieces of a bend are in line.
    turned = pieces[:-1, 0] * pieces[1:, 1] - pieces[:-1, 1] * pieces[1:, 0]
    ahead = np.abs(turned) < 1e-9 * lengths[:-1] * lengths[1:]
    starts = np.flatnonzero(ahead & (np.abs(np.diff(lengths)) < 1e-9))
    ends = starts + 1
    directions = [pieces[i] / lengths[i] for i in starts]
    half = found.job.part.bar.thickness / 2.0
    legs = []
    angles = [
        math.degrees(math.atan2(a[0] * b[1] - a[1] * b[0], a @ b))
        for a, b in itertools.pairwise(directions)
    ]

    def end_of(leg: int, bend: int, outward: float) -> float:
        """Along the leg's direction, where its dimension ends at a bend."""
        along = directions[leg]
        if abs(angles[bend]) <= 90.0 + 1e-6:
            other = directions[bend + 1] if leg == bend else directions[bend]
            here, there = line[starts[leg]], line[starts[bend + 1 if leg == bend else bend]]
            cross = along[0] * other[1] - along[1] * other[0]
            gap = there - here
            apex = here + along * (gap[0] * other[1] - gap[1] * other[0]) / cross
            corner = half * math.tan(math.radians(abs(angles[bend])) / 2.0)
            return float(apex @ along) + outward * corner
        zone = slice(ends[bend] + 1, starts[bend + 1])
        middle = 0.5 * (line[zone] + line[zone.start + 1 : zone.stop + 1])
        along_face = pieces[zone] / lengths[zone][:, None]
        outer = -math.copysign(1.0, angles[bend])
        face = middle + outer * half * np.column_stack([-along_face[:, 1], along_face[:, 0]])
        return float(np.max(outward * (face @ along)) * outward)

    for leg in range(len(directions)):
        along = directions[leg]
        begin = float(line[0] @ along) if leg == 0 else end_of(leg, leg - 1, -1.0)
        last = leg == len(directions) - 1
        finish = float(line[-1] @ along) if last else end_of(leg, leg, 1.0)
        legs.append(finish - begin)
    return legs, angles


@pytest.mark.parametrize(
    "shape",
    [
        ("70", "up 90", "120", "down 60", "70"),
        ("100", "down 30", "90", "down 45", "90", "up 75", "100"),
        ("110", "up 120", "140", "down 100", "110"),
    ],
)
def test_the_finished_part_measures_what_was_asked(shape: tuple[str, ...]) -> None:
    found = planned(with_shape(*shape))
    legs, angles = measured_outside(found)
    wanted = [float(word) for word in shape[::2]]
    turns = [float(w.split()[1]) * (1.0 if w.startswith("up") else -1.0) for w in shape[1::2]]
    assert angles == pytest.approx(turns, abs=0.01)
    assert legs == pytest.approx(wanted, abs=0.05)
    assert found.blank is not None
    # What the mid-line is longer than the blank is what the bends thinned, a few hundredths of t.
    pieces = np.diff(found.finished, axis=0)
    grown = float(np.hypot(pieces[:, 0], pieces[:, 1]).sum()) - found.blank.length
    assert 0.0 < grown < 0.1 * T * len(turns)


def test_the_blank_lies_among_the_handbook_lines(bracket: Plan) -> None:
    """Mild steel at 1.5 thicknesses: no printed rule is more than a fifth of t a bend away."""
    assert bracket.blank is not None
    assert {a.method for a in bracket.blank.alternatives} >= {"book medium", "din 6935"}
    for other in bracket.blank.alternatives:
        assert other.length == pytest.approx(bracket.blank.length, abs=0.2 * T * 2)


def test_the_model_of_the_plan_is_that_of_the_solver(bracket: Plan) -> None:
    assert bracket.job.tooling is not None
    setup = bend_setup(bracket.job, known_bar(bracket.job), bracket.job.tooling)
    step = step_of(bracket, 1)
    state = state_for_free_angle(setup, math.radians(90.0))
    assert step.force == pytest.approx(state.force)
    assert step.setting.travel == pytest.approx(state.travel)
    assert step.jam_angle == pytest.approx(2.0 * build(setup).jam)
    assert step.straight_left == pytest.approx(state.straight_left)
    narrower = evolve(setup, opening=50.0)
    assert state_for_free_angle(narrower, math.radians(90.0)).force > state.force
