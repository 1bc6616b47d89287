"""Pictures of what the bar is held against and of the part coming off the nose."""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve
from plan_fixture import make_plan
from shapely.geometry import LineString, Point, Polygon
from test_drawing import FRAMES, corners, overlapping, shared, words_in
from test_plan_order import BOX, job_text, planned

from strapwright.drawing import Frame, Scene, bend_scene, off_scene
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.drawing.surrounding import apart
from strapwright.errors import InputError
from strapwright.motion.off_places import moved, off_lines
from strapwright.ordering.order_values import Piece
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.scene.boxes import Box, text_box
from strapwright.scene.hatching import clipped, hatch
from strapwright.scene.primitives import Circle, Line, Path
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.steps.way_off_words import way_off_words

RODS = '[[tooling.rod]]\nout = "90"\nalong = "40"\ndiameter = "20"\n'
POST = (
    '[[tooling.obstacle]]\nname = "stop post"\nside = "shoulders"\nbox = ["60", "-80", "75", "-30"]'
)


@pytest.fixture(scope="module")
def box() -> Plan:
    """A box open at one corner, see ``test_plan_order``."""
    return planned("90", *BOX, "90", reach=260, web=3, extra=RODS + POST)


@pytest.fixture(scope="module")
def held() -> Plan:
    """The same with a gap that the nose does not pass."""
    return planned("95", *BOX, "95", reach=260, web=3, draw=True)


@pytest.fixture(scope="module")
def riding() -> Plan:
    """The box on a press that pushes up: it goes along with the nose."""
    return planned("90", *BOX, "90", reach=260, web=3, axis='axis = "up"')


def roles(scene: Scene) -> set[str]:
    return {shape.role for shape in scene.shapes}


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
def test_words_keep_apart_and_everything_stays_in_the_picture(box: Plan, frame: Frame) -> None:
    for step in box.steps:
        for scene in (bend_scene(box, step, "stroke", frame), off_scene(box, step, frame)):
            assert overlapping(scene) == []
            left, bottom, right, top = scene.bounds
            px = 1.0 / scene.scale
            for x, y in corners(scene):
                assert left - px <= x <= right + px
                assert bottom - px <= y <= top + px


def test_the_nearest_piece_alone_is_hatched_with_its_distance_rounded_down(box: Plan) -> None:
    step = box.steps[-1]
    assert step.clearance is not None
    scene = bend_scene(box, step, "stroke")
    assert {"hatch", "hatched", "clearance"} <= roles(scene)
    said = [text.text for text in words_in(scene)]
    assert f"{math.floor(10 * step.clearance) / 10:.1f} mm at least" in said
    assert step.nearest is not None
    assert step.nearest.name in said
    (outline,) = (one for one in scene.shapes if one.role == "hatched")
    assert isinstance(outline, Path)
    assert max(abs(x) for x, _ in outline.points) == pytest.approx(1.5)  # half the web of 3 mm
    for pose in ("rest", "released"):
        assert "hatch" not in roles(bend_scene(box, step, pose))


def test_what_nobody_stated_is_dashed_and_said_and_what_stands_aside_is_an_outline(
    box: Plan,
) -> None:
    scene = bend_scene(box, box.steps[0], "stroke")
    said = [text.text for text in words_in(scene)]
    assert "assumed" in roles(scene)  # how stout the carriers are
    assert "dashed: assumed" in said
    assert "beside" in roles(scene)  # guide rods 40 mm beside the bar
    assert "right guide rod" in said
    assert "stop post" in said
    assert "around" in roles(scene)  # the post stands in the plane of the bar


# No order makes it: its last leg ends on the shoulder.
SHORT_LEG = """format = 1
units = "inch"
[part]
bar = "flat 3/16 x 1-1/2"
material = "1018 hot rolled"
shape = ["8", "up 90", "6", "up 90", "1-1/4"]
[press]
bore = "3-3/4"
relief = "2200 psi"
stroke = "10"
daylight = "8"
bed_width = "16"
[tooling]
plate = {{ width = "{wide}", thick = "3/4" }}
nose = {{ shaft = "3/4", span = "2-1/2", web = {{ thick = "1/2", height = "{high}" }} }}
shoulders = {{ radius = "3/8", opening = "2-1/4", depth = "2-1/2", height = "4" }}
"""


@pytest.mark.parametrize(("wide", "high"), [("4", "1-1/2"), ("4", "3"), ("9", "3")])
def test_the_remark_on_what_is_assumed_never_lies_on_the_push_plate(wide: str, high: str) -> None:
    made = plan(read_job(SHORT_LEG.format(wide=wide, high=high)))
    for name, frame in {**FRAMES, "page": Frame(width=560.0, height=460.0, body=16.0)}.items():
        scene = clash_scene(made, made.steps[0], frame)
        (remark,) = [text for text in words_in(scene) if text.text == "dashed: assumed"]
        (plate,) = [one for one in scene.shapes if one.role == "plate"]
        assert isinstance(plate, Path)
        assert not shared(text_box(remark, scene.scale), around_points(plate)), name
        assert overlapping(scene) == [], name
        px = 1.0 / scene.scale
        assert all(scene.bounds[0] - px <= x <= scene.bounds[2] + px for x, _ in corners(scene))


def around_points(path: Path) -> Box:
    x, y = np.array(path.points).T
    return Box(float(x.min()), float(y.min()), float(x.max()), float(y.max()))


OPEN = 6.0 + 9.0 + 200.0  # of the nose's centre over the shoulder tops: bar, nose, daylight [mm]


def test_a_part_that_stays_lies_on_the_shoulders_below_the_nose_at_full_opening(box: Plan) -> None:
    step = box.steps[-1]
    assert box.job.tooling is not None
    shoulders = box.job.tooling.shoulders
    (line,) = off_lines(step, 9.0, 5)
    for side in (-1.0, 1.0):
        centre = Point(0.5 * side * shoulders.opening, -shoulders.radius - OPEN)
        assert LineString(line).distance(centre) == pytest.approx(shoulders.radius + 3.0, abs=0.2)
    scene = off_scene(box, step)
    nose = next(one for one in scene.shapes if isinstance(one, Circle) and one.role == "nose")
    assert nose.centre == (0.0, pytest.approx(OPEN))
    assert "shoulders" in roles(scene)
    assert not {"ghost", "hatch"} & roles(scene)
    assert way_off_words(step) in scene.description


def test_a_part_that_rides_is_drawn_on_the_nose_and_on_its_way_past_all_that_stands_there(
    riding: Plan,
) -> None:
    step = riding.steps[-1]
    first, *_, last = off_lines(step, 9.0, 5)
    assert np.hypot(*first.T).min() == pytest.approx(9.0 + 3.0, abs=0.2)
    assert abs(last[:, 0].mean() - first[:, 0].mean()) + abs(last[:, 1].mean()) > 50.0
    scene = off_scene(riding, step)
    assert sum(shape.role == "ghost" for shape in scene.shapes) == 4
    for line in off_lines(step, 9.0, 16)[1:]:
        # The search puts an even arc where the solver's bend stands, so a little is allowed.
        bar = LineString(line).buffer(3.0, cap_style="flat")
        assert bar.distance(Point(0.0, 0.0)) > 9.0 - 0.3


def test_a_bed_that_nobody_stated_is_seen_dashed_below_the_shoulders() -> None:
    text = job_text("120", "up 90", "120", reach=200).replace('height = "90"\n', "")
    made = plan(read_job(text))
    (bed,) = (max(y for _, y in one.polygon) for one in made.pieces if one.kind == "bed")
    for scene in (bend_scene(made, made.steps[0], "rest"), off_scene(made, made.steps[0])):
        level = [
            one.start[1]
            for one in scene.shapes
            if isinstance(one, Line) and one.role == "assumed" and one.start[1] == one.end[1]
        ]
        assert any(y == pytest.approx(bed) for y in level)


def test_how_far_out_a_shoulder_reaches_is_dashed_where_nobody_stated_it() -> None:
    text = job_text("120", "up 90", "120", reach=200)
    for edge, dashed in (('outer_edge = "45"\n', False), ("", True)):
        made = plan(read_job(text.replace('outer_edge = "45"\n', edge)))
        assert made.job.tooling is not None
        out = 0.5 * made.job.tooling.shoulders.opening + made.job.tooling.shoulders.radius + 25.0
        for scene in (bend_scene(made, made.steps[-1], "rest"), off_scene(made, made.steps[-1])):
            edges = [
                one.start[0]
                for one in scene.shapes
                if isinstance(one, Line) and one.role == "assumed" and one.start[0] == one.end[0]
            ]
            assert any(abs(x - out) < 0.1 for x in edges) == dashed


@pytest.mark.long
def test_a_part_that_is_locked_on_lies_on_the_nose_which_is_hatched(held: Plan) -> None:
    step = held.steps[-1]
    assert len(off_lines(step, 9.0, 5)) == 1
    scene = off_scene(held, step)
    assert {"hatch", "hatched"} <= roles(scene)
    assert "ghost" not in roles(scene)
    assert "trapped on the nose" in [text.text for text in words_in(scene)]


def test_under_a_press_that_pushes_up_the_picture_is_turned_over() -> None:
    shape = ("120", "up 90", "120")
    down = planned(*shape, reach=200)
    up = planned(*shape, reach=200, axis='axis = "up"')

    def nose(plan: Plan) -> Circle:
        scene = off_scene(plan, plan.steps[0])
        return next(one for one in scene.shapes if isinstance(one, Circle))

    def bar(plan: Plan) -> float:
        scene = off_scene(plan, plan.steps[0])
        path = next(one for one in scene.shapes if one.role == "bar")
        assert isinstance(path, Path)
        return sum(y for _, y in path.points) / len(path.points)

    assert bar(down) < nose(down).centre[1]
    assert bar(up) > nose(up).centre[1]


def test_without_tooling_or_search_there_is_nothing_to_draw(box: Plan) -> None:
    bare = evolve(box, job=evolve(box.job, tooling=None))
    with pytest.raises(InputError, match="no tooling to draw"):
        off_scene(bare, box.steps[0])
    plan = make_plan()
    with pytest.raises(InputError, match="is not checked"):
        off_scene(plan, plan.steps[0])


def test_a_part_is_turned_about_the_middle_of_the_nose_and_then_shifted() -> None:
    line = np.array([[1.0, 0.0], [0.0, 2.0]])
    np.testing.assert_allclose(
        moved(line, (10.0, 20.0, 0.0, math.radians(90.0))), [[10.0, 21.0], [8.0, 20.0]]
    )


def test_hatching_stays_within_its_outline_and_is_even() -> None:
    ell = np.array([(0, 0), (30, 0), (30, 10), (10, 10), (10, 40), (0, 40)], dtype=np.float64)
    shapes = hatch(ell, 2.0)
    lines = [one for one in shapes if isinstance(one, Line)]
    grown = Polygon(ell).buffer(1e-6)
    assert all(grown.covers(LineString([one.start, one.end])) for one in lines)
    # Lines 2 mm apart: their whole length times 2 mm is about the area, 600 mm2.
    assert sum(math.dist(one.start, one.end) for one in lines) * 2.0 == pytest.approx(600, rel=0.03)


def test_clipping_keeps_what_lies_in_the_window() -> None:
    triangle = np.array([(0.0, 0.0), (10.0, 0.0), (0.0, 10.0)])
    kept = clipped(triangle, Box(-1.0, -1.0, 5.0, 20.0))
    # By hand: the triangle of 50 mm2 loses a corner of 5 x 5 / 2.
    assert Polygon(kept).area == pytest.approx(37.5)
    assert len(clipped(triangle, Box(20.0, 20.0, 30.0, 30.0))) == 0


def test_the_distance_drawn_is_from_the_skin_of_the_bar_to_the_piece() -> None:
    post = Piece(
        name="post", side="shoulders", polygon=((20.0, 5.0), (30.0, 5.0), (30.0, 9.0), (20.0, 9.0))
    )
    line = np.array([(0.0, 0.0), (100.0, 0.0)])
    near = apart(line, 4.0, [post], 0.0)
    assert near is not None
    assert near.distance == pytest.approx(3.0)
    assert near.on_bar[1] == pytest.approx(2.0)
    assert near.on_piece[1] == pytest.approx(5.0)
