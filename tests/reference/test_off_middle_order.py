"""A nose off the middle in the search for an order, against wings laid out here as polygons.

Nothing of the search is used for the truth: each wing is the tangent from the arc under the nose to
its own shoulder, found by halving, with both arcs about one centre.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from attrs import evolve
from order_referee import tooling
from shapely.geometry import LineString, Polygon, box

from strapwright.bending.off_middle.two_legs import uneven_for_free_angle
from strapwright.motion.refused_bends import clash_of, reason_at
from strapwright.ordering.off_middle_steps import OffMiddleSteps
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import Hits
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_text import plan_to_text
from strapwright.shop_files.reading_job import read_job

THICK, RADIUS, LEG = 5.0, 9.5, 300.0
OFF = 2.0
PART = PartGeometry(
    straights=(LEG, LEG), angles=(math.radians(70.0),), radii=(RADIUS,), thickness=THICK
)
SETTINGS = SearchSettings(springback=(math.radians(2.0),))
RHO = RADIUS + 0.5 * THICK
HALF, SHOULDER = 31.5, 6.0
TOUCH = RHO + 0.5 * THICK  # height of the arc's centre over the tops with the bar flat


def root(miss: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function passes 0, by halving."""
    for _ in range(80):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if miss(middle) > 0.0 else (middle, high)
    return 0.5 * (low + high)


def turned(height: float, apart: float) -> float:
    """Slope of the tangent from the arc's centre, so far above the tops, to one shoulder [rad]."""

    def above(slope: float) -> float:
        # From the foot of the arc along the leg; square to it the shoulder's centre lies this far.
        dx, dy = apart - RHO * math.sin(slope), -SHOULDER - height + RHO * math.cos(slope)
        off = -dx * math.sin(slope) + dy * math.cos(slope)
        return -off - (SHOULDER + 0.5 * THICK)

    return root(above, 0.0, 1.2)


def right_wing(off: float) -> Polygon:
    """The right leg at the end of the stroke, seen from the middle of the shoulders."""
    total = PART.angles[0] + SETTINGS.springback[0]
    depth = root(
        lambda down: turned(TOUCH - down, HALF - off) + turned(TOUCH - down, HALF + off) - total,
        0.0,
        40.0,
    )
    height = TOUCH - depth
    slope = turned(height, HALF - off)
    # Set by the shoulders, the bend comes off its mark by as much.
    long = LEG + 0.5 * PART.allowances[0] - off - RHO * slope
    x, y = off + RHO * math.sin(slope), height - RHO * math.cos(slope)
    tip = x + long * math.cos(slope), y + long * math.sin(slope)
    return LineString([(x, y), tip]).buffer(0.5 * THICK, cap_style="flat")


def lamp_over(wing: Polygon, gap: float) -> Piece:
    """Something that stands with the shoulders, its lower right corner over the tip of a leg."""
    x, y = max(wing.exterior.coords, key=lambda corner: corner[1])
    corners = box(x - 25.0, y + gap, x, y + gap + 20.0).exterior.coords[:4]
    return Piece(name="lamp", side="shoulders", polygon=tuple((a, b) for a, b in corners))


def lamp_shape(piece: Piece) -> Polygon:
    return Polygon(piece.polygon)


@pytest.mark.parametrize("off", [-3.0, -OFF, 0.5, OFF, 3.0])
def test_how_near_a_leg_comes_is_that_of_the_polygons(off: float) -> None:
    lamp = lamp_over(right_wing(off), 4.0)
    steps = OffMiddleSteps(tooling((lamp,)), PART, SETTINGS, off)
    had, piece = steps.nearest(0, 0, 0)
    assert piece == lamp
    assert had == pytest.approx(right_wing(off).distance(lamp_shape(lamp)), abs=0.06)


def test_what_passes_in_the_middle_and_on_one_side_hits_on_the_other() -> None:
    lamp = lamp_over(right_wing(OFF), 0.0)
    section = tooling((lamp,))
    assert right_wing(0.0).distance(lamp_shape(lamp)) > 2.0  # the polygons say so too
    assert right_wing(-OFF).distance(lamp_shape(lamp)) > 4.0
    assert Steps(section, PART, SETTINGS).clear(0, 0, 0)
    assert OffMiddleSteps(section, PART, SETTINGS, -OFF).in_the_way(0, 0, 0) is None
    hit = OffMiddleSteps(section, PART, SETTINGS, OFF).in_the_way(0, 0, 0)
    assert isinstance(hit, Hits)
    assert (hit.piece, hit.wing, hit.phase, hit.off_middle) == (lamp, "right", "stroke", OFF)
    assert math.degrees(hit.angle) == pytest.approx(72.0, abs=1.5)
    # And mirrored, tooling and nose.
    mirrored = evolve(lamp, polygon=tuple((-x, y) for x, y in reversed(lamp.polygon)))
    other = OffMiddleSteps(tooling((mirrored,)), PART, SETTINGS, -OFF).in_the_way(0, 0, 0)
    assert isinstance(other, Hits)
    assert (other.wing, other.off_middle) == ("left", -OFF)
    assert other.angle == pytest.approx(hit.angle, abs=1e-9)


JOB = """
format = 1
units = "metric"
[part]
name = "rail bracket"
bar = "flat 5 x 40"
material = "S235JR"
measured = "inside"
shape = ["300", "up 70", "300"]
[press]
bore = "63"
[tooling.nose]
radius = "9.5"
offset = "{off}"
[tooling.shoulders]
radius = "6"
opening = "63"
depth = "70"
[tooling.members]
off_centre = "0"
[[tooling.obstacle]]
name = "lamp"
side = "shoulders"
box = [{box}]
"""


def planned(off: float, sign: float) -> Plan:
    x, y = max(right_wing(OFF).exterior.coords, key=lambda corner: corner[1])
    left, right = sorted((sign * (x - 25.0), sign * x))
    sides = ", ".join(f'"{v:.1f}"' for v in (left, y - 1.0, right, y + 20.0))
    return plan(read_job(JOB.format(off=off, box=sides)))


def codes(made: Plan) -> set[str]:
    return {one.code for one in made.findings}


def test_the_plan_refuses_what_hits_off_the_middle_and_says_to_which_side() -> None:
    for sign, side in ((1.0, "right"), (-1.0, "left")):
        assert "no-order" not in codes(planned(0.0, sign))
        refused = planned(OFF, sign)
        assert "no-order" in codes(refused)
        told = " ".join(plan_to_text(refused).split())
        assert f"the {side} leg hits the lamp at" in told
        assert f"with the nose 2.0 mm off centre to the {side}" in told
        # Drawn in the middle nothing would be seen to clash.
        (step,) = refused.steps
        assert clash_of(refused, step) is None
        assert reason_at(refused, step) is not None


def test_a_plan_says_how_near_the_leg_comes_off_the_middle() -> None:
    # 0.2 mm to either side still passes; the clearance told is that of the nearer side.
    even, off = planned(0.0, 1.0), planned(0.2, 1.0)
    assert codes(off) & {"no-order", "clearance-off-middle"} == set()
    (middle,), (beside,) = even.steps, off.steps
    assert middle.clearance is not None
    assert beside.clearance is not None
    assert beside.clearance < middle.clearance - 0.2


@pytest.mark.parametrize("angle", [30.0, 60.0, 85.0])
def test_the_legs_turn_about_as_the_bar_does(angle: float) -> None:
    """The search draws straight legs; the solver's are curved, and turn the middle less or more."""
    job = read_job(JOB.format(off=OFF, box='"900", "900", "910", "910"'))
    assert job.tooling is not None
    setup = bend_setup(job, known_bar(job), job.tooling)
    bend = uneven_for_free_angle(setup, OFF, math.radians(angle))
    assert bend is not None
    part = evolve(PART, angles=(bend.loaded_angle,))
    steps = OffMiddleSteps(tooling(), part, SearchSettings(), OFF)
    left, right = steps.stroke_at(0, 0).phi_end, steps.stroke_at(0, 1).phi_end
    assert left + right == pytest.approx(bend.loaded_angle)
    assert right - left == pytest.approx(bend.near_slope - bend.far_slope, rel=0.35)
