"""Bends begun on one tooling and pushed on to their angle on another."""

from __future__ import annotations

import math
from functools import cache

import jsonschema
import numpy as np
import pytest
from test_plan_json import SCHEMA

from strapwright.bending.bend_values import FlowCurve
from strapwright.drawing import bend_scene
from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.midline.pose_values import DrawnPose
from strapwright.money.part_hours import hours_of
from strapwright.pages.page_statements import on_page
from strapwright.pages.push_answer import push_answer
from strapwright.pages.remedy_offers import offered_text
from strapwright.pages.taking_remedies import taken
from strapwright.planning.bench_work.again import (
    apex_gap,
    harder,
    stops_higher,
    touches_lower,
)
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.member_loads import bench_of, shared_benches
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, SecondStroke, Step
from strapwright.planning.remedy_values import Remedy
from strapwright.remedies.part_levers import part_way, part_ways
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.service.further_push import (
    Further,
    further_to_data,
    further_to_text,
    push_further,
)
from strapwright.sheets.angle_gauges import gauges_of
from strapwright.sheets.sheet_data import sheet_data
from strapwright.shop.shop_rates import TimeRates
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job
from strapwright.wording.at_bench.second_stroke_words import stroke_text

INCH = 25.4
# Two bends up at the ends of a base, on a die of their own each or on one.
SADDLE = """\
format = 1
units = "{units}"
[part]
name = "rope saddle"
bar = "{bar}"
material = "{metal}"
measured = "outside"
shape = {shape}
{finish}
[[part.other_tooling]]
name = "the narrow die"
bends = {bends}
{narrow}
[press]
bore = "3-3/4 in"
rod = "2 in"
relief = "{relief}"
stroke = "10 in"
{press}
[tooling]
{rating}
nose = {{ shaft = "3/4 in", web = {{ thick = "1/2 in", height = "4 in" }} }}
shoulders = {{ radius = "3/8 in", opening = "2-1/4 in", depth = "2-1/2 in", height = "4 in" }}
"""
SMALL = """\
nose = { shaft = "1/2 in", reach = "4-1/2 in", web = { thick = "3/8 in", height = "4 in" } }
shoulders = { radius = "1/4 in", opening = "1-1/2 in", depth = "2 in", height = "4 in" }
"""
WIDE = """\
nose = { shaft = "3/4 in", reach = "5 in", web = { thick = "1/2 in", height = "4 in" } }
shoulders = { radius = "3/8 in", opening = "4 in", depth = "3 in", height = "4 in" }
"""
PLAIN = {
    "units": "inch",
    "bar": "flat 3/16 in x 1-1/2 in",
    "metal": "A36 hot rolled",
    "shape": '["4 in", "up 90", "4 in"]',
    "finish": "",
    "bends": "[]",
    "narrow": SMALL,
    "relief": "2200 psi",
    "press": "",
    "rating": "",
}


def finish(bend: int = 1, at: float = 50, tooling: str = "the narrow die") -> str:
    return f'[[part.finish]]\nbend = {bend}\nat = {at}\ntooling = "{tooling}"\n'


@cache
def made(**changes: str) -> Plan:
    return plan(read_job(SADDLE.format(**{**PLAIN, **changes})))


def refusals(plan: Plan) -> set[str]:
    return {one.code for one in plan.findings if one.severity is Severity.REFUSAL}


def stroke_of(plan: Plan) -> SecondStroke:
    (stroke,) = plan.second_strokes
    return stroke


# --- by hand ---------------------------------------------------------------------------------


def test_where_the_nose_touches_a_bent_bar() -> None:
    # Right triangle of arc centre, shoulder centre and contact, by hand: opening 50, shoulders 10,
    # bar 5, inside 10, bent to 60 degrees, so each leg leans by 30.  Arc centre above the tops:
    # -10 + (10 + 5 + 10 - 25 x 0.5)/0.866025 = -10 + 14.43376 = 4.43376; the inside of the bend at
    # 4.43376 - 10 = -5.56624, of the straight bar at 5: lower by 10.56624.
    assert touches_lower(math.radians(60.0), 50.0, 10.0, 5.0, 10.0) == pytest.approx(
        10.56624, abs=1e-5
    )
    assert touches_lower(0.0, 50.0, 10.0, 5.0, 10.0) == pytest.approx(0.0, abs=1e-12)
    # A rounder bend keeps the nose higher: inside 15 at 60 degrees,
    # -10 + (30 - 12.5)/0.866025 = 10.20726, less 15: -4.79274, lower by 9.79274.
    assert touches_lower(math.radians(60.0), 50.0, 10.0, 5.0, 15.0) == pytest.approx(
        9.79274, abs=1e-5
    )


def test_a_rounder_bend_keeps_the_nose_higher_at_every_angle() -> None:
    # Mid-line radius 20 at 60 degrees: its middle 20 (1/0.866025 - 1) = 3.09401 above where its
    # legs meet.
    turn = np.radians(np.linspace(0.0, 30.0, 601))
    x, y = 20.0 * np.sin(turn), 20.0 * (1.0 - np.cos(turn))
    out = np.array([10.0, 20.0])
    x = np.concatenate([x, x[-1] + out * math.cos(turn[-1])])
    y = np.concatenate([y, y[-1] + out * math.sin(turn[-1])])
    # Drawn 7 above the shoulder tops, under a nose of 6 on a bar of 5.
    lying = DrawnPose(
        x=np.concatenate([-x[:0:-1], x]), y=np.concatenate([y[:0:-1], y]) + 7.0, nose_y=15.5
    )
    assert apex_gap(lying, 6.0, 5.0) == pytest.approx(3.09401, abs=1e-4)
    # Closed to 90 by 30 more at radius 10 in its middle, half of it by hand, legs at 45: across
    # 20 (0.707107 - 0.258819) + 10 x 0.258819 = 11.55395, up 20 (0.965926 - 0.707107) +
    # 10 (1 - 0.965926) = 5.51712, so 11.55395 - 5.51712 = 6.03683 above where the legs meet; all
    # of it at radius 10, 10 (1.414214 - 1) = 4.14214: 1.89469 less.  At 60 it was 1.54701 less.
    assert stops_higher(1.54701, math.radians(60.0), math.radians(90.0)) == pytest.approx(
        1.89469, abs=1e-5
    )


def test_a_bar_that_was_bent_tighter_resists_more() -> None:
    # Power law of exponent 0.2 with no offset: stresses go as the strain to the 0.2.  Bar 5, inside
    # 5: outer strain ln(1 + 2.5/7.5) = 0.287682; under a nose at a mid-line radius of 22.5, inside
    # 20: ln(1 + 2.5/22.5) = 0.105361.  (0.287682/0.105361)^0.2 = 2.730443^0.2 = 1.22249.
    flow = FlowCurve(modulus=200e3, poisson=0.3, strength=500.0, exponent=0.2, offset=0.0)
    assert harder(flow, 5.0, 5.0, 1.0 / 22.5) == pytest.approx(1.22249, abs=1e-5)
    # Never less than in one push, and on a straight bar up to its yield.
    assert harder(flow, 5.0, 5.0, 1.0) == 1.0
    assert harder(flow, 5.0, 20.0, 1.0 / 22.5) == pytest.approx(1.0)
    assert harder(flow, 5.0, 5.0, 0.0) > 1.22249


# --- end to end ------------------------------------------------------------------------------


def test_a_bracket_begun_on_one_tooling_is_finished_on_another() -> None:
    both = made(finish=finish())
    assert refusals(both) == set()
    (first,) = both.steps
    assert first.free_angle == pytest.approx(math.radians(50.0), abs=1e-3)
    stroke = stroke_of(both)
    step = stroke.step
    assert step.free_angle == pytest.approx(math.radians(90.0), abs=1e-3)
    # The wider die has bent it rounder, so the nose stands higher for the same angle, by what the
    # straight legs of both say (plane geometry, as above).
    alone = made(bends="[1]").steps[0]
    own = made(bends="[1]", shape='["4 in", "up 50", "4 in"]').steps[0]
    gap = _gap(first, 3 / 8 * INCH)
    more = gap - _gap(own, INCH / 4)
    higher = more * math.cos(math.radians(25.0)) / math.cos(0.5 * step.loaded_angle)
    assert higher > 0.3
    assert alone.setting.faces is not None
    assert alone.setting.block is not None
    assert step.setting.faces == pytest.approx(alone.setting.faces + higher, abs=1e-3)
    assert step.setting.block == pytest.approx(alone.setting.block + higher, abs=1e-3)
    assert step.loaded_angle == pytest.approx(alone.loaded_angle)
    # Travel counts from the bent bar.
    inside = gap / (1.0 / math.cos(math.radians(25.0)) - 1.0) - 3 / 32 * INCH
    lower = touches_lower(math.radians(50.0), 1.5 * INCH, INCH / 4, 3 / 16 * INCH, inside)
    assert step.setting.travel == pytest.approx(alone.setting.travel - higher - lower, abs=2e-3)
    assert step.setting.travel == pytest.approx(
        float(np.interp(step.free_angle, step.curve.free_angle, step.curve.travel)), abs=0.02
    )
    # It may come out as in one push all the same: further down, and short where it is stopped.
    assert step.bands.travel.high > alone.bands.travel.high - lower
    assert step.bands.free_angle.low < alone.bands.free_angle.low - math.radians(2.0)
    # The solver's own bend, let go at 50 degrees, lies as the straight legs say, nearly.
    touch = 3 / 16 * INCH + INCH / 4 - own.poses.released.nose_y
    same = touches_lower(math.radians(50.0), 1.5 * INCH, INCH / 4, 3 / 16 * INCH, INCH / 4)
    assert touch == pytest.approx(same, abs=0.5)


def test_the_text_of_a_second_stroke_says_the_relief_of_its_own_tooling() -> None:
    both = made(finish=finish())
    stroke = stroke_of(both)
    assert stroke.step.relief is not None
    reader = on_page(both.job)
    text = stroke_text(stroke, reader)
    pressure = reader.figures.pressure_down(stroke.step.relief.pressure)
    assert f"the relief valve to {pressure}" in text
    assert text.index("relief valve") < text.index(" from first contact")


def _gap(step: Step, nose: float) -> float:
    """From the middle of a bracket let go down to where its legs meet, by its two ends [mm]."""
    pose = step.poses.released
    (x2, x1), (y2, y1) = pose.x[-2:], pose.y[-2:]
    meet = float(y1 - x1 * (y2 - y1) / (x2 - x1))
    return pose.nose_y - nose - 3 / 32 * INCH - meet


def test_the_nose_is_drawn_where_the_block_stops_it() -> None:
    both, alone = made(finish=finish()), made(bends="[1]").steps[0]
    step = stroke_of(both).step
    assert step.setting.block is not None
    assert alone.setting.block is not None
    higher = step.setting.block - alone.setting.block
    assert higher > 0.3
    assert step.poses.stroke.nose_y - alone.poses.stroke.nose_y == pytest.approx(higher, abs=1e-3)
    # The bar lies under it, and its ends are where they were.
    for pose, as_once in (
        (step.poses.stroke, alone.poses.stroke),
        (step.poses.released, alone.poses.released),
    ):
        under = float(np.interp(0.0, pose.x, pose.y))
        assert pose.nose_y - under == pytest.approx(INCH / 4 + 3 / 32 * INCH, abs=0.02)
        assert pose.y[0] == as_once.y[0]
        assert pose.y[-1] == as_once.y[-1]


def test_begun_as_tight_as_this_tooling_makes_it_the_block_is_that_of_one_push() -> None:
    # The same die under another name: nothing keeps the nose higher.
    like = """\
nose = { shaft = "3/4 in", reach = "4-1/2 in", web = { thick = "1/2 in", height = "4 in" } }
shoulders = { radius = "3/8 in", opening = "2-1/4 in", depth = "2-1/2 in", height = "4 in" }
"""
    step = stroke_of(made(finish=finish(), narrow=like)).step
    alone = made(narrow=like, bends="[1]").steps[0]
    assert alone.setting.block is not None
    assert step.setting.block == pytest.approx(alone.setting.block, abs=1e-3)


@pytest.mark.parametrize(("at", "bar"), [(40, "1/8 in"), (60, "5/16 in"), (80, "3/16 in")])
def test_begun_tighter_the_nose_goes_down_from_its_touch_all_the_same(at: int, bar: str) -> None:
    # One push would have turned the bar by more where the nose touches it, so low that lies.
    flat = f"flat {bar} x 1-1/2 in"
    step = stroke_of(made(finish=finish(at=at), narrow=WIDE, bar=flat)).step
    assert step.curve.travel[0] == 0.0
    assert np.all(np.diff(step.curve.travel) > 0.0)
    assert np.all(np.diff(step.curve.free_angle) >= 0.0)
    assert step.curve.free_angle[1] == pytest.approx(math.radians(at))
    assert step.setting.travel == pytest.approx(
        float(np.interp(step.free_angle, step.curve.free_angle, step.curve.travel)), abs=0.02
    )
    assert step.staged is None or min(step.staged.extra) > 0.0


@pytest.mark.parametrize("stop", ["in stages", "on a block"])
def test_a_bend_begun_too_far_is_touched_lower_and_stopped_lower_by_travel(stop: str) -> None:
    press = f'stop = "{stop}"'
    both, alone = made(finish=finish(), press=press), made(bends="[1]", press=press).steps[0]
    (first,), step = both.steps, stroke_of(both).step
    begun = first.bands.staged_angle if stop == "in stages" else first.bands.free_angle
    # As far as straight legs say, at the roundness of the bend: where the nose touches it more.
    inside = _gap(first, 3 / 8 * INCH) / (1.0 / math.cos(math.radians(25.0)) - 1.0) - 3 / 32 * INCH
    touch, far = (
        touches_lower(angle, 1.5 * INCH, INCH / 4, 3 / 16 * INCH, inside)
        for angle in (math.radians(50.0), begun.high)
    )
    assert far > touch
    deeper = alone.setting.travel + far - touch
    turned = float(np.interp(deeper, alone.curve.travel, alone.curve.free_angle)) - alone.free_angle
    over = alone.bands.free_angle.high - alone.free_angle
    if stop == "on a block":
        turned = 0.0  # it stands on the bed, wherever the nose touches
    assert step.bands.free_angle.high - step.free_angle == pytest.approx(
        math.hypot(over, turned), rel=1e-3
    )


@pytest.mark.parametrize(("depth", "bottoms"), [("0.70", True), ("0.725", True), ("0.74", False)])
def test_legs_meet_a_vee_at_the_angle_they_meet_it_at_in_one_push(
    depth: str, bottoms: bool
) -> None:
    # Bent rounder before, the nose stands higher there too.
    vee = f'opening = "1-1/2 in", floor = "vee", vee_angle = 80, depth = "{depth} in"'
    plan = made(finish=finish(), narrow=SMALL.replace('opening = "1-1/2 in", depth = "2 in"', vee))
    assert ("bottoms-before-angle" in {one.code for one in plan.findings}) == bottoms
    assert stroke_of(plan).step.bottoms_first == bottoms


def test_a_tighter_bend_springs_as_far_as_one_that_this_tooling_bent() -> None:
    step = stroke_of(made(finish=finish(at=60), narrow=WIDE)).step
    alone = made(bends="[1]", narrow=WIDE).steps[0].curve
    own = made(bends="[1]", narrow=WIDE, shape='["4 in", "up 60", "4 in"]').steps[0]
    inside = _gap(own, 3 / 8 * INCH) / (1.0 / math.cos(math.radians(30.0)) - 1.0) - 3 / 32 * INCH
    touch = touches_lower(math.radians(60.0), 4 * INCH, 3 / 8 * INCH, 3 / 16 * INCH, inside)
    rising = int(np.argmax(alone.free_angle > 0.0))
    there = np.interp(math.radians(60.0), alone.free_angle[rising:], alone.travel[rising:])
    assert step.curve.travel[1] == pytest.approx(float(there) - touch, abs=2e-3)
    assert step.curve.travel[1] > 0.3


def test_where_a_tighter_bend_has_nearly_all_of_its_angle_no_stop_is_told() -> None:
    refused = made(finish=finish(at=88), narrow=WIDE)
    assert refusals(refused) == {"finish-too-little"}
    no_figures(refused)


def test_what_is_not_proven_is_taken_to_the_safe_side() -> None:
    both, alone = made(finish=finish()), made(bends="[1]").steps[0]
    stroke = stroke_of(both)
    step = stroke.step
    assert stroke.force >= float(np.max(alone.curve_high)) > step.force
    assert step.gauge is not None
    assert alone.gauge is not None
    assert step.gauge.ease_off >= alone.gauge.ease_off
    # It may spring back further, so it may come out shorter and want more travel.
    assert step.bands.free_angle.low < alone.bands.free_angle.low
    assert step.bands.travel.high - step.setting.travel > (
        alone.bands.travel.high - alone.setting.travel
    )
    assert {"finish-not-proven", "other-tooling-unchecked"} <= {one.code for one in both.findings}
    # The curve starts at the touch with nothing, and rises.
    assert step.curve.travel[0] == 0.0
    assert step.curve.force[0] == 0.0
    assert step.curve.loaded_angle[0] == pytest.approx(math.radians(50.0))
    assert np.all(np.diff(step.curve.travel) > 0.0)
    assert np.all(np.diff(step.curve.free_angle) >= 0.0)
    assert step.staged is not None
    assert 0.0 < step.staged.first_travel < step.setting.travel
    assert all(math.radians(50.0) < one < math.radians(90.0) for one in step.staged.readings)


def test_text_json_sheet_and_drawings_have_the_second_stroke() -> None:
    both = made(finish=finish())
    stroke = stroke_of(both)
    text = " ".join(plan_to_text(both).split())
    assert "Bend 1, up 50°, the rest up to 90° on the narrow die" in text
    assert "2. Push bend 1 on from 50° to 90° on the narrow die" in text
    assert "Change the tooling to the narrow die: nose radius 1/4 in, opening 1-1/2 in" in text
    assert "Its inside under the nose, top face towards the nose, end 1 on the left" in text
    data = plan_to_data(both)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    (work,) = data["bench_work"]
    assert (work["kind"], work["bend"], work["changed"]) == ("second stroke", 1, True)
    assert work["step"]["tooling"] == "the narrow die"
    assert work["step"]["travel_mm"] == pytest.approx(stroke.step.setting.travel)
    assert len(data["steps"]) == 1
    said, drawings = sheet_data(both)
    assert [one["title"] for one in said["bends"]] == ["Bend 1", "Bend 1 again"]
    assert said["bends"][1]["turn"] == "50° to 90°"
    assert said["bench_work"] == []
    assert {"bend-2-rest.svg", "bend-2-stroke.svg"} <= drawings.keys()
    # It lies bent on the shoulders before, and bent further under load.
    rest, loaded = stroke.step.poses.rest, stroke.step.poses.stroke
    assert max(rest.y) > 20.0
    assert max(loaded.y) > max(rest.y)
    assert rest.nose_y > loaded.nose_y
    assert bend_scene(stroke.made, stroke.step, "rest") != bend_scene(
        stroke.made, stroke.step, "stroke"
    )
    assert {round(one.degrees) for one in gauges_of(both)} >= {50, 90}


def test_the_bar_is_marked_for_the_whole_bend_and_laid_in_by_the_first_tooling() -> None:
    both, whole = made(finish=finish()), made(bends="[1]")
    main = made(shape='["4 in", "up 50", "4 in"]')
    assert both.blank is not None
    assert whole.blank is not None
    assert main.blank is not None
    assert both.blank.length == pytest.approx(whole.blank.length)
    (mark,), (ended,) = both.blank.marks, whole.blank.marks
    (begun,) = main.blank.marks
    assert mark.nose == pytest.approx(ended.nose)
    assert mark.sight - mark.nose == pytest.approx(begun.sight - begun.nose)
    assert mark.sight - mark.nose != pytest.approx(ended.sight - ended.nose)
    assert np.allclose(both.finished[-1], whole.finished[-1])


def test_hours_count_the_change_and_the_stroke() -> None:
    rates = TimeRates()
    once = {one.work: one for one in hours_of(made(), rates).works}
    twice = {one.work: one for one in hours_of(made(finish=finish()), rates).works}
    assert twice["set up"].lot == pytest.approx(
        once["set up"].lot + rates.set_tooling + rates.set_bend
    )
    assert twice["bend"].part > once["bend"].part + rates.handle
    assert "finish" not in twice


def test_handling_counts_the_change_once_a_part() -> None:
    twice = made(shape=TWO, finish=finish())
    again = made(shape=TWO, bends="[2]", finish=finish())
    plain = made(shape=TWO.replace("up 90", "up 50", 1)).handling
    assert plain is not None
    assert plain.cost is not None
    weights = plain.weights
    handling = twice.handling
    assert handling is not None
    assert handling.cost == plain.cost + weights.tool + _laid(twice)
    assert handling.bends == 3
    assert handling.tool_change == weights.tool
    # It is on the narrow die already where the last first stroke was made there.
    last = again.job.part.tool_of(again.steps[-1].bend)
    assert [one.changed for one in again.second_strokes] == [last == 0]
    assert "changing the tooling" in " ".join(plan_to_text(twice).split())


def _laid(plan: Plan) -> int:
    """Cost of laying the part in for its second stroke, by hand: turned over or ends swapped."""
    before, after = plan.steps[-1].hold, stroke_of(plan).step.hold
    assert plan.handling is not None
    weights = plan.handling.weights
    return (before.face != after.face) * weights.flip + (
        before.end_left != after.end_left
    ) * weights.swap


def test_how_much_more_to_push_is_asked_of_the_stroke_that_the_reading_is_of() -> None:
    both = made(finish=finish())
    first = push_further(both, 1, stands="40", wanted=None, pushed=None)
    second = push_further(both, 1, stands="80", wanted=None, pushed=None)
    assert isinstance(first, Further)
    assert isinstance(second, Further)
    assert math.degrees(first.wanted) == pytest.approx(50.0)
    assert math.degrees(second.wanted) == pytest.approx(90.0)
    # A little less than from 80 to 90 on the narrow die in one push: a rounder bend keeps the nose
    # the higher the further it is bent.
    alone = push_further(made(bends="[1]"), 1, stands="80", wanted=None, pushed=None)
    assert isinstance(alone, Further)
    assert 0.85 * alone.push.extra < second.push.extra < 0.99 * alone.push.extra
    # A bend that the first stroke has turned a little too far is not pushed on where it lies.
    over = push_further(both, 1, stands="50.5", wanted=None, pushed=None)
    assert isinstance(over, Further)
    there = "That is on the narrow die: on the tooling that began the bend do not push it"
    assert there in " ".join(further_to_text(over).split())
    assert there in push_answer(both, both.steps[0], "50.5")[0]
    assert further_to_data(over)["tooling"] == "the narrow die"
    assert "That is on" not in further_to_text(first) + push_answer(both, both.steps[0], "40")[0]
    with pytest.raises(InputError, match="the part is refused, so there is no push"):
        push_further(
            made(finish=finish(), relief="150 psi"), 1, stands="80", wanted=None, pushed=None
        )


def test_what_is_found_of_the_second_stroke_stands_with_it_on_the_sheet() -> None:
    first, second = sheet_data(made(finish=finish()))[0]["bends"]
    sharp = "The nose radius 0.25 in is below"
    assert not any(sharp in one["text"] for one in first["findings"])
    assert any(sharp in one["text"] for one in second["findings"])
    assert "Put in the main tooling" in first["tools"]


def test_members_that_a_second_stroke_pushes_on_are_held_to_it() -> None:
    # Begun on the narrow die and finished on the main one, whose members then carry that.
    wide = SMALL.replace('"1/2 in", reach', '"3/4 in", reach').replace("1-1/2 in", "2 in")
    back = made(bends="[1]", finish=finish(tooling="the main tooling"), narrow=wide)
    assert refusals(back) == set()
    tooling = back.job.tooling
    assert tooling is not None
    push = bench_of([back], tooling, back.job.press).pushes[0]
    assert push.force == pytest.approx(stroke_of(back).force)


def test_a_nose_off_the_middle_leans_at_a_second_stroke_as_in_one_push() -> None:
    # Bent before or not, the bar lies as deep between the shoulders at the end.
    off = SMALL.replace('shaft = "1/2 in"', 'shaft = "1/2 in", offset = "1/16 in"')
    once, again = (
        shared_benches(one, one.job.tooling, one.job.press)[0].pushes
        for one in (made(bends="[1]", narrow=off), made(finish=finish(), narrow=off))
        if one.job.tooling is not None
    )
    for one, other in zip(once, again, strict=True):
        assert one.across > 0.1 * one.force
        assert other.across / other.force == pytest.approx(one.across / one.force)
        assert other.near == pytest.approx(one.near)
        assert other.outward >= one.outward * (1.0 - 1e-9)


def test_the_gauge_may_show_more_where_the_bar_was_bent_tighter_before() -> None:
    both, alone = made(finish=finish(at=80), narrow=WIDE), made(bends="[1]", narrow=WIDE).steps[0]
    (first,), step = both.steps, stroke_of(both).step
    assert first.radii.tightest < alone.radii.tightest
    setup = bend_setup(both.job, known_bar(both.job), both.job.toolings()[1])
    bent = float(np.interp(alone.setting.travel, alone.curve.travel, alone.curve.nose_curvature))
    share = harder(setup.flow, setup.thickness, first.radii.tightest, bent)
    assert share > 1.01
    assert step.bands.force.high == pytest.approx(share * alone.bands.force.high, rel=2e-4)
    assert step.bands.force.low == pytest.approx(alone.bands.force.low)
    assert step.gauge is not None
    assert alone.gauge is not None
    assert step.gauge.high > alone.gauge.high


TWO = '["4 in", "up 90", "6 in", "up 90", "4 in"]'
NOSE_ALONE = 'nose = { shaft = "5/8 in", web = { thick = "3/8 in", height = "4 in" } }\n'


@pytest.mark.parametrize(
    "changes",
    [
        {"finish": finish() + finish(2, 60), "shape": TWO},
        {"finish": finish(2, 35), "shape": TWO, "bends": "[1]"},
        {"bar": "square 1/4 in", "metal": "1018 HR"},
        {"bar": "round 8 mm", "metal": "S235", "units": "metric"},
        {"narrow": NOSE_ALONE},
        {"press": 'hand_pump = { volume = "0.5 in3", strokes_per_minute = 30 }'},
        {"rating": 'rating = "8 tons (US)"'},
        {"finish": finish() + "[[part.finish]]\nbend = 2\nat = 60\n", "shape": TWO},
    ],
)  # fmt: skip
def test_other_bars_ends_and_tooling(changes: dict[str, str]) -> None:
    changes = {"finish": finish(), **changes}
    both = made(**changes)
    assert refusals(both) == set()
    for stroke in both.second_strokes:
        assert stroke.step.setting.travel > 0.0
        assert stroke.step.clearance is not None
        assert stroke.step.coming_off is not None
    orders = [one.step.order for one in both.second_strokes]
    count = len(both.steps)
    assert orders == list(range(count + 1, count + 1 + len(orders)))
    # One change serves both where both are finished on one tooling.
    assert [one.changed for one in both.second_strokes] == [True, False][: len(orders)]
    jsonschema.Draft202012Validator(SCHEMA).validate(plan_to_data(both))
    job = both.job
    assert read_job(write_job(job)).part.finishes == job.part.finishes
    assert sheet_data(both)[0]["bends"]


LOW = SMALL.replace('depth = "2 in", height = "4 in"', 'depth = "1-3/4 in", height = "2 in"')
Z = '["5 in", "up 90", "3 in", "down 60", "3 in"]'


def test_a_bend_begun_high_is_finished_where_the_whole_of_it_would_hit_the_bed() -> None:
    # On the low die the leg beyond bend 2 hangs 3 sin 60 = 2.6 in below the bar while bend 1 is
    # flat, and the bed is 2 in below.  Begun at 50 degrees it hangs at 60 - 25 = 35: 1.7 in.
    assert refusals(made(shape=Z, narrow=LOW, bends="[1]")) == {"no-order"}
    last = made(shape=Z, narrow=LOW, bends="[1]", finish="order = [2, 1]\n")
    assert "bed" in " ".join(plan_to_text(last).split()).split("order-cannot-be-made")[0]
    both = made(shape=Z, narrow=LOW, finish=finish())
    assert refusals(both) == set()
    # Begun flatter, it still hits it.
    assert "finish-blocked" in refusals(made(shape=Z, narrow=LOW, finish=finish(at=15)))


def test_a_trimmed_leg_is_pushed_on_first_and_sawn_last() -> None:
    trim = 'trim = { end_2 = "1 in" }\n'
    both = made(shape='["4 in", "up 90", "1 in"]', finish=trim + finish())
    assert refusals(both) == set()
    assert [one["kind"] for one in plan_to_data(both)["bench_work"]] == ["second stroke", "saw"]


def test_a_hand_pump_has_to_make_less_strokes_from_the_bent_bar() -> None:
    pump = 'hand_pump = { volume = "0.5 in3", strokes_per_minute = 30 }'
    both = plan_to_data(made(finish=finish(), press=pump))["bench_work"][0]["step"]["pump"]
    alone = plan_to_data(made(bends="[1]", press=pump))["steps"][0]["pump"]
    assert 0 < both["strokes"] < alone["strokes"]


# --- refused ---------------------------------------------------------------------------------


def no_figures(plan: Plan) -> None:
    work = next(one for one in plan_to_data(plan)["bench_work"] if one["kind"] == "second stroke")
    assert work["step"] is None
    assert work["force_N"] is None
    assert "refused" in work["text"]
    assert not any(sign in work["text"] for sign in "0123456789")
    assert "Find first contact again, on the bent bar" not in " ".join(plan_to_text(plan).split())
    assert all("again" not in one["title"] for one in sheet_data(plan)[0]["bends"])


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"narrow": SMALL.replace('"1/2 in", reach', '"1-1/8 in", reach').replace(
            'opening = "1-1/2 in"', 'opening = "2 in"')}, "finish-nose-too-round"),
        ({"relief": "150 psi"}, "press-too-weak"),
        ({"narrow": SMALL + 'rating = "1000 lbf"'}, "tooling-too-weak"),
        ({"shape": '["4 in", "up 90", "1-3/4 in", "up 90", "4 in"]'}, "finish-blocked"),
    ],
)  # fmt: skip
def test_what_cannot_be_pushed_on_is_refused(changes: dict[str, str], code: str) -> None:
    refused = made(**{"finish": finish(), **changes})
    assert code in refusals(refused)
    no_figures(refused)
    # Nor is it begun.
    assert plan_to_data(refused)["steps"][0]["no_stop"]
    with pytest.raises(InputError, match="no push to add to"):
        push_further(refused, 1, stands="40", wanted=None, pushed=None)


@pytest.mark.parametrize(
    ("entry", "sentence"),
    [
        (finish(tooling="the wide die"), "no tooling of the job is called so"),
        (finish(tooling="the main tooling"), "bend 1 is begun on that tooling"),
        (finish(at=90), "at the whole angle of bend 1"),
        (finish() + 'by = "vise"\n', "this has no effect where by is"),
        ('[[part.finish]]\nbend = 1\nat = 50\nby = "tooling"\n', "nothing says which tooling"),
    ],
)
def test_an_entry_that_cannot_be_meant_is_refused(entry: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        made(finish=entry)


def test_the_remedy_that_finishes_a_bend_on_tooling_at_hand_is_written_by_its_button() -> None:
    text = SADDLE.format(**{**PLAIN, "shape": TWO})
    job = read_job(text)
    levers = [one for one in part_ways(job, (0, 1)) if one.tooling is not None]
    assert [one.numbers for one in levers] == [(1,), (2,)]
    lever = levers[1]
    at = math.radians(60.0)
    after = lever.put(job, at)
    remedy = Remedy(changes=(lever.change(at, at),), job=after, order=(1, 2), blank=300.0)
    assert offered_text(made(shape=TWO), remedy) == (
        "Stop bend 2 at 60° (now 90°) and finish it on the narrow die "
        "(nose radius 1/4 in, opening 1-1/2 in)."
    )
    again = read_job(taken(text, job, remedy))
    (finished,) = again.part.finishes
    assert (finished.bend, finished.by, finished.tooling) == (2, "tooling", "the narrow die")
    assert finished.at == pytest.approx(at)
    # Finished in the vise instead, nothing is left of the tooling.
    vise = part_way(again, 1)
    assert vise is not None
    other = Remedy(
        changes=(vise.change(at, at),), job=vise.put(again, at), order=(1, 2), blank=300.0
    )
    (back,) = read_job(taken(taken(text, job, remedy), again, other)).part.finishes
    assert (back.by, back.tooling) == ("vise", None)
    # A bend that is made there already is not finished there.
    on_it = read_job(SADDLE.format(**{**PLAIN, "shape": TWO, "bends": "[2]"}))
    named = [one.tooling.name for one in part_ways(on_it, (1,)) if one.tooling is not None]
    assert named == ["the main tooling"]
