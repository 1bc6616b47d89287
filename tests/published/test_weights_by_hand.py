"""Masses of bar against the tables it is sold by, lifting limit and stands by hand.

Nominal masses of reinforcing bar: ISO 6935-2, table 2, and ASTM A615, table 1.  Weight of flat and
round bar: tables of the trade, 490 lb/ft3 for steel and 0.098 lb/in3 for 6061.  Load constant of
the NIOSH lifting equation: 23 kg, 51 lb.  All from memory.
"""

from __future__ import annotations

import math

import pytest

from strapwright.findings import Mass, Severity
from strapwright.planning.limits_and_weights.weights import (
    LIFT_ALONE,
    mass_per_length,
    stand_of,
)
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.shop.part import Part
from strapwright.shop_files.reading_job import read_job

POUND, FOOT = 0.45359237, 304.8
PART = """\
format = 1
units = "{units}"
[part]
name = "dock cleat"
bar = "{bar}"
material = "{material}"
shape = [{shape}]
{more}
"""
PRESS = """\
[press]
bore = "3-1/2 in"
relief = "2500 psi"
[tooling]
nose = { radius = "1/2 in", web = { thick = "1/2 in", height = "9 in" } }
shoulders = { radius = "1/2 in", opening = "3 in", height = "3 in" }
"""


def text_of(bar: str, material: str, shape: str, units: str = "inch", more: str = "") -> str:
    return PART.format(bar=bar, material=material, shape=shape, units=units, more=more)


def part(bar: str, material: str, units: str = "metric") -> Part:
    return read_job(text_of(bar, material, '"100", "up 45", "100"', units)).part


@pytest.mark.parametrize(
    ("bar", "material", "per_metre"),
    [
        ("round 8", "rebar B500B", 0.395),
        ("round 10", "rebar B500B", 0.617),
        ("round 12", "rebar B500B", 0.888),
        ("round 16", "rebar B500C", 1.58),
        ("round 20", "rebar B500C", 2.47),
        ("square 20", "S235", 3.14),
        ("flat 6 x 40", "S235", 1.88),
        ("flat 10 x 50", "S355", 3.93),
    ],
)
def test_kilograms_a_metre(bar: str, material: str, per_metre: float) -> None:
    assert mass_per_length(part(bar, material)) * 1000 == pytest.approx(per_metre, rel=3e-3)


@pytest.mark.parametrize(
    ("bar", "material", "per_foot"),
    [
        ("round 1/2", "rebar grade 40", 0.668),
        ("round 1", "reinforcing bar", 2.670),
        ("flat 1/4 x 2", "A36", 1.70),
        ("flat 1/2 x 4", "A36", 6.81),
        ("square 1", "A36", 3.40),
        ("flat 1/4 x 2", "6061-T6", 0.588),
        ("round 1", "copper half hard", 3.04),
        ("round 1", "brass 360", 2.89),
    ],
)
def test_pounds_a_foot(bar: str, material: str, per_foot: float) -> None:
    material = "C360" if material == "brass 360" else material
    pounds = mass_per_length(part(bar, material, "inch")) * FOOT / POUND
    assert pounds == pytest.approx(per_foot, rel=8e-3)


def test_a_part_is_lighter_by_its_holes() -> None:
    hole = '[[part.hole]]\nleg = 1\nfrom_end = "2"\ndiameter = "1"'
    text = text_of("flat 1/2 x 3", "A36", '"12", "up 90", "12"', more=hole) + PRESS
    found = plan(read_job(text), search=False).weights
    assert found is not None
    assert found.blank is not None
    assert found.part is not None
    # 3.1416/4 x 1/2 in3 at 0.2836 lb/in3.
    assert (found.blank - found.part) / POUND == pytest.approx(0.3927 * 0.2836, rel=1e-3)


def codes(made: Plan) -> dict[str, Severity]:
    return {one.code: one.severity for one in made.findings}


def test_what_is_over_the_load_constant_needs_two_people() -> None:
    # 1 x 4 flat is 13.61 lb/ft: 3.7 ft lie just under 51 lb (50.7 lb is 23 kg), 4 ft over it.
    heavy = text_of("flat 1 x 4", "A36", '"24", "up 30", "24"') + PRESS.replace("3 in", "8 in", 1)
    made = plan(read_job(heavy), search=False)
    assert codes(made)["too-heavy-to-lift"] is Severity.WARNING
    found = next(one for one in made.findings if one.code == "too-heavy-to-lift")
    assert found.one(Mass, "lifted").value / POUND == pytest.approx(13.61 * 4, rel=0.01)
    light = text_of("flat 1 x 4", "A36", '"22", "up 30", "22"') + PRESS.replace("3 in", "8 in", 1)
    assert "too-heavy-to-lift" not in codes(plan(read_job(light), search=False))
    assert pytest.approx(50.7, abs=0.05) == LIFT_ALONE / POUND
    # Two side by side are lifted at once.
    both = light.replace("[part]", "[part]\nat_once = 2")
    assert "too-heavy-to-lift" in codes(plan(read_job(both), search=False))
    # A bar of 20 ft: 1/2 x 4 is 136 lb, 1/8 x 1 is 8.5 lb; without tooling it is told as well.
    bare = "assumed_radius = 1"
    assert "heavy-stock-bar" in codes(
        plan(read_job(text_of("flat 1/2 x 4", "A36", '"9", "up 90", "9"', more=bare)))
    )
    assert "heavy-stock-bar" not in codes(
        plan(read_job(text_of("flat 1/8 x 1", "A36", '"9", "up 90", "9"', more=bare)))
    )


def test_a_stand_goes_past_the_weight_and_carries_its_share() -> None:
    text = text_of("flat 1/4 x 2", "A36", '"4", "up 90", "20"') + PRESS
    made = plan(read_job(text), search=False)
    (step,) = made.steps
    assert step.hold.tips == "right"
    stand = stand_of(made, step)
    assert stand is not None
    assert made.blank is not None
    # A straight bar of length L, bent at m: its weight is L/2 - m out, its end L - m; the stand
    # goes half-way between.
    length, mark = made.blank.length, made.blank.marks[0].nose
    assert stand.across == pytest.approx(0.5 * ((length / 2 - mark) + (length - mark)), abs=1.0)
    assert stand.height == pytest.approx(3 * 25.4)
    # Moments about the left shoulder, 1.5 in left of the middle.
    weight = length / FOOT * 1.7014 * POUND
    arm, out = length / 2 - mark + 38.1, stand.across + 38.1
    assert stand.carries == pytest.approx(weight * arm / out, rel=2e-3)
    said = " ".join(plan_to_text(made).split())
    assert "level with the shoulder tops, 3 in above the bed. It carries " in said
    data = plan_to_data(made)["steps"][0]["hold"]["stand"]
    assert data["right_of_nose_mm"] == stand.across
    # The other way round it goes to the left.
    turned = plan(read_job(text.replace('"4", "up 90", "20"', '"20", "up 90", "4"')), search=False)
    other = stand_of(turned, turned.steps[0])
    assert other is not None
    assert other.across == pytest.approx(-stand.across, abs=1.0)
    assert math.isclose(other.carries, stand.carries, rel_tol=1e-3)


def test_no_stand_where_the_shoulders_move_or_the_bar_lies_by_itself() -> None:
    text = text_of("flat 1/4 x 2", "A36", '"4", "up 90", "20"') + PRESS
    moved = plan(
        read_job(text.replace("[tooling]", '[tooling]\nram_side = "shoulders"')), search=False
    )
    assert stand_of(moved, moved.steps[0]) is None
    even = plan(read_job(text.replace('"4", "up 90", "20"', '"8", "up 90", "8"')), search=False)
    assert even.steps[0].hold.tips is None
    assert stand_of(even, even.steps[0]) is None
