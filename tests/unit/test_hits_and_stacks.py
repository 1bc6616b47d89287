"""Rows of hits, stacks and rolled bars: every hit and every bar is held against the tooling."""

from __future__ import annotations

import math
from typing import Any

import pytest
from attrs import evolve
from telling import told

from strapwright.findings import Severity
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import Hits, InStack
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered
from strapwright.planning.hits_and_stacks.row_order import RowPart, rows_in_order
from strapwright.planning.hits_and_stacks.stacked_steps import StackedSteps, thick_bar
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.shop_files.reading_job import read_job

JOB = """\
format = 1
units = "metric"
[part]
name = "piling strap"
quantity = 2
bar = "flat 6 x 50"
material = "S235JR"
PART
[press]
bore = "95"
relief = "150 bar"
daylight = "60"
[tooling]
plate = { width = "PLATE", thick = "16" }
[tooling.nose]
radius = "12"
reach = "120"
span = "80"
web = { thick = "16", height = "96" }
[tooling.shoulders]
radius = "12"
opening = "76"
depth = "76"
height = "HEIGHT"
EXTRA
"""


def planned(part: str, *, plate: int = 16, height: int = 400, extra: str = "") -> Plan:
    text = JOB.replace("PART", part).replace("PLATE", str(plate)).replace("EXTRA", extra)
    return plan(read_job(text.replace("HEIGHT", str(height))))


def refusals(made: Plan) -> str:
    return " ".join(one.text for one in told(made) if one.severity is Severity.REFUSAL)


def codes(made: Plan) -> set[str]:
    return {one.code for one in made.findings}


def by_hits(angle: int, leg: int) -> str:
    return f'shape = ["{leg}", "up {angle} radius 32", "{leg}"]'


def test_the_wing_of_a_row_crosses_the_web_before_its_last_hit() -> None:
    """With 127 deg made by six hits, the leg made first leans over the nose.

    In the middle of hit 7 it leaves the arc of 35 mm where that has turned by 138 deg, at
    x = -35 sin 138 = -23 mm, and heads for the web at cos 42 deg: 17 mm on it is there.
    """
    made = planned(by_hits(170, 90))
    assert "hit 7 of 8: the left leg hits the web of the nose" in refusals(made)
    assert "no-order" in codes(made)


def test_a_row_whose_legs_do_not_lean_over_is_made_and_says_its_clearance() -> None:
    """At 90 deg in all no leg passes upright by more than the tilt of the bar."""
    short = planned(by_hits(90, 90))
    assert refusals(short) == ""
    assert short.steps[0].hits > 3
    assert short.steps[0].clearance is not None
    assert short.steps[0].clearance >= 1.25  # the set clearance less its tolerance
    assert short.steps[0].coming_off is not None
    assert short.steps[0].coming_off.verdict == "free"
    assert "order-not-searched" not in codes(short)


def test_a_leg_made_before_is_held_against_the_bed_at_every_hit() -> None:
    """With its end turned down, the leg hangs 160 mm below the shoulders' tops."""
    shape = 'shape = ["160", "down 90", "150", "up 90 radius 60", "150"]\norder = [1, 2]'
    assert refusals(planned(shape, height=400)) == ""
    assert "bed" in refusals(planned(shape, height=120))


def test_stacked_bars_are_held_against_the_plate() -> None:
    """At half of 110 deg a leg stands 120 mm high 84 mm out, where the plate is if it is wide."""
    shape = 'stacked = 2\nshape = ["100", "up 110", "LEG"]'
    assert "push plate" in refusals(planned(shape.replace("LEG", "350"), plate=240))
    made = planned(shape.replace("LEG", "90"), plate=240)
    assert refusals(made) == ""
    assert made.steps[0].clearance is not None
    assert made.steps[0].coming_off is not None


def stack(bars: int, x: float) -> tuple[Steps, StackedSteps]:
    """A bend of 90 deg in the middle of a stack, and a post with its near face at ``x`` [mm]."""
    post = Piece(
        name="post",
        side="shoulders",
        polygon=((x, -5.0), (x + 20.0, -5.0), (x + 20.0, 80.0), (x, 80.0)),
    )
    section = ToolSection(
        opening=200.0, shoulder_radius=20.0, nose_radius=20.0, pieces=(post,), daylight=50.0
    )
    one = PartGeometry(
        straights=(300.0, 300.0), angles=(math.pi / 2,), radii=(20.0,), thickness=10.0
    )
    settings = SearchSettings()
    return (
        Steps(section, thick_bar(one, bars), settings),
        StackedSteps(section, one, settings, bars),
    )


def test_the_outer_bar_of_a_stack_reaches_further_than_the_stack_as_one_bar() -> None:
    """Flat, the outermost of 4 bars of 10 mm is longer by 1.5 t phi a side than their middle.

    Each side lies 300 + (20 + 20) pi/4 = 331.4 mm long in the middle of the stack and
    300 + (20 + 35) pi/4 = 343.2 mm in the outermost bar; the post stands between the two.
    """
    thick, each = stack(4, 338.0)
    assert thick.clear(0, 0, 0)
    said = each.why_not(0, 0, 0)
    assert said is not None
    assert said.bar == 4
    assert isinstance(said.reason, Hits)
    assert said.reason.piece.name == "post"
    # Past both it is in nobody's way.
    thick, each = stack(4, 346.0)
    assert thick.clear(0, 0, 0)
    assert each.why_not(0, 0, 0) is None


@pytest.mark.parametrize("bars", [2, 3])
def test_bars_beneath_and_above_move_nothing_but_the_bar(bars: int) -> None:
    """The middle of the arc stands at one height for every bar: their steps keep one distance.

    A plate over the nose side is met by all bars within the angle that their thickness makes, and
    one high above by none.
    """
    _, each = stack(bars, 1000.0)
    assert each.why_not(0, 0, 0) is None
    corners = ((-250.0, 40.0), (250.0, 40.0), (250.0, 60.0), (-250.0, 60.0))
    plate = Piece(name="plate", side="nose", polygon=corners)
    one = each.part
    section = ToolSection(
        opening=200.0, shoulder_radius=20.0, nose_radius=20.0, pieces=(plate,), daylight=50.0
    )
    low = StackedSteps(section, one, SearchSettings(), bars)
    assert isinstance(low.why_not(0, 0, 0), InStack)
    lifted = tuple((x, y + 400.0) for x, y in plate.polygon)
    high = evolve(section, pieces=(evolve(plate, polygon=lifted),))
    assert StackedSteps(high, one, SearchSettings(), bars).why_not(0, 0, 0) is None


def test_a_stack_bent_both_ways_is_held_bar_by_bar_and_not_as_one_bar() -> None:
    """A leg that hangs from the first bend, and a lamp within it on either side.

    The bar at the shoulders lies round R + t in the second bend and round R in the first.  Laid in,
    half the flat of the second, the straight of 150 - 2 (R + t) and R lie between the middle and
    the inner face of its leg: 150 - R - 2 t + (R + 1.5 t) pi/4.  The other bar's is further out by
    (1 - pi/4) t, and the stack as one bar would be nearer by t pi/8.
    """
    lamp = '[[tooling.obstacle]]\nname = "lamp"\nside = "shoulders"\nbox = [{}]\n'
    lamps = (lamp.format(f'"{x}", "-90", "{x + 5}", "-60"') for x in (-140, 135))
    shape = 'stacked = 2\nshape = ["120", "down 90", "150", "up 90", "150"]\norder = [1, 2]'
    made = planned(shape, extra="".join(lamps))
    assert refusals(made) == ""
    t, radius = 6.0, made.steps[1].radii.wrap
    least = 150.0 - radius - 2.0 * t + (radius + 1.5 * t) * math.pi / 4.0 - 140.0
    assert least < 1.25 + t * math.pi / 8.0  # less than the stack as one bar would need
    assert made.steps[1].clearance == pytest.approx(least, abs=0.1)


def test_of_the_bars_of_a_stack_the_one_that_is_in_the_way_first_is_named() -> None:
    """Bar 4 reaches the post as it is placed; a plate over the nose is met by all later."""
    _, each = stack(4, 338.0)
    corners = ((-250.0, 120.0), (250.0, 120.0), (250.0, 140.0), (-250.0, 140.0))
    plate = Piece(name="plate", side="nose", polygon=corners)
    post = Piece(
        name="post",
        side="shoulders",
        polygon=((338.0, -5.0), (358.0, -5.0), (358.0, 80.0), (338.0, 80.0)),
    )
    section = ToolSection(
        opening=200.0, shoulder_radius=20.0, nose_radius=20.0, pieces=(plate, post), daylight=50.0
    )
    said = StackedSteps(section, each.part, SearchSettings(), 4).why_not(0, 0, 0)
    assert said is not None
    assert said.bar == 4
    assert isinstance(said.reason, Hits)
    assert said.reason.piece == post


@pytest.mark.long
def test_a_row_is_laid_in_for_every_hit_as_bent_by_then(monkeypatch: pytest.MonkeyPatch) -> None:
    """Straight the bar slides in through a slot 30 mm high and 170 mm long on either side.

    With a leg up it does not go through, and a wide plate above leaves no way in from over them.
    """
    held: list[RowPart] = []

    def kept(part: RowPart, *rest: Any, **more: Any) -> Ordered:
        held.append(part)
        return rows_in_order(part, *rest, **more)

    monkeypatch.setattr("strapwright.planning.job_order.rows_in_order", kept)
    wall = '[[tooling.obstacle]]\nname = "wall"\nside = "shoulders"\nbox = [{}]\n'
    walls = [
        wall.format(f'"{x}", "{low}", "{x + 170}", "{high}"')
        for x in (-335, 165)
        for low, high in ((-380, -10), (20, 600))
    ]
    planned(by_hits(90, 150), plate=324, extra="".join(walls))
    straight = held[0].opening.into(held[0].geometry, 1, (), 1)
    assert straight.verdict == "FREE"
    assert held[0].laid_in(0, 0, 0).verdict == "TRAPPED"
    planned(by_hits(90, 150), plate=324)
    assert held[1].laid_in(0, 0, 0).verdict == "FREE"
