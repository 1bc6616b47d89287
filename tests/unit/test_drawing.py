"""Drawings: geometry, room for words, and files that are the same every time."""

import itertools
import math
import re
from typing import get_args
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from plan_fixture import (
    INCH,
    NOSE,
    R_MID,
    SHOULDERS,
    T,
    fender_hanger,
    long_plan,
    make_plan,
    mid_line,
    straights,
    walk,
)

from strapwright.blank.blank_values import Mark
from strapwright.drawing import (
    PAPER,
    PHONE,
    WIDE,
    Frame,
    Scene,
    bend_scene,
    blank_scene,
    curve_scene,
    part_scene,
    to_svg,
)
from strapwright.drawing.bend_drawing import Pose
from strapwright.drawing.blank_breaks import broken_map
from strapwright.drawing.blank_drawing import _windows
from strapwright.drawing.blank_strip import spread
from strapwright.drawing.leg_lines import find_legs
from strapwright.drawing.part_space import _crossings, projected
from strapwright.errors import InputError
from strapwright.pages.fields.part_picture import FRAMES as FRAMES_WITH_HANDLES
from strapwright.pages.fields.part_picture import Size, part_picture, sketch
from strapwright.planning.plan_values import Plan
from strapwright.scene.bar_outline import bar_outline, thinned, within
from strapwright.scene.boxes import Box, text_box
from strapwright.scene.lettering import as_fractions, text_width
from strapwright.scene.primitives import Arc, Circle, Line, Path, Point, Role, Text
from strapwright.scene.themes import PALETTES, Theme, style_of
from strapwright.service.demo import JOBS
from strapwright.service.load_job import load_job
from strapwright.shop.part import Bend, Closing, Closure
from strapwright.shop.tooling import Nose, Tooling

SVG = "{http://www.w3.org/2000/svg}"
FRAMES = {"wide": WIDE, "phone": PHONE, "paper": PAPER}
POSES: tuple[Pose, ...] = get_args(Pose)
THEMES: tuple[Theme, ...] = get_args(Theme)


def scenes_of(plan: Plan, frame: Frame) -> dict[str, Scene]:
    scenes = {"part": part_scene(plan, frame), "blank": blank_scene(plan, frame)}
    for step in plan.steps:
        scenes[f"curve {step.order}"] = curve_scene(plan, step, frame)
        for pose in POSES:
            scenes[f"bend {step.order} {pose}"] = bend_scene(plan, step, pose, frame)
    return scenes


@pytest.fixture(scope="module", params=FRAMES)
def scenes(request: pytest.FixtureRequest) -> dict[str, Scene]:
    return scenes_of(make_plan(), FRAMES[request.param])


def words_in(scene: Scene) -> list[Text]:
    return [shape for shape in scene.shapes if isinstance(shape, Text)]


def corners(scene: Scene) -> list[Point]:
    points: list[Point] = []
    for shape in scene.shapes:
        if isinstance(shape, Path):
            points += shape.points
        elif isinstance(shape, Line):
            points += (shape.start, shape.end)
        elif isinstance(shape, Circle):
            x, y, r = *shape.centre, shape.radius
            points += ((x - r, y - r), (x + r, y + r))
        elif isinstance(shape, Arc):
            x, y, r = *shape.centre, shape.radius
            ends = (shape.start, shape.end)
            points += ((x + r * math.cos(a), y + r * math.sin(a)) for a in ends)
        else:
            box = text_box(shape, scene.scale)
            points += ((box.left, box.bottom), (box.right, box.top))
    return points


def shared(one: Box, other: Box) -> float:
    wide = min(one.right, other.right) - max(one.left, other.left)
    high = min(one.top, other.top) - max(one.bottom, other.bottom)
    return max(wide, 0.0) * max(high, 0.0)


def overlapping(scene: Scene) -> list[tuple[str, str]]:
    # Two square px are a corner of air, not a letter.
    boxed = [(text.text, text_box(text, scene.scale)) for text in words_in(scene)]
    return [
        (one, other)
        for (one, a), (other, b) in itertools.combinations(boxed, 2)
        if shared(a, b) * scene.scale**2 > 2.0
    ]


def area(polygon: tuple[Point, ...]) -> float:
    x, y = np.array(polygon).T
    return abs(float(x @ np.roll(y, 1) - y @ np.roll(x, 1))) / 2


@given(
    turns=st.lists(st.floats(-2.0, 2.0), min_size=1, max_size=4),
    radius=st.floats(4.0, 40.0),
    thickness=st.floats(1.0, 7.0),
)
def test_outline_holds_thickness_times_length(
    turns: list[float], radius: float, thickness: float
) -> None:
    # Pappus: a band about a mid-line holds thickness times length, however it turns.
    pieces = [(20.0, 0.0)]
    for turn in turns:
        pieces += [(radius * abs(turn) + 1e-3, turn), (100.0, 0.0)]
    line = walk((0.0, 0.0), 0.0, pieces)
    wanted = thickness * float(np.hypot(*np.diff(np.array(line), axis=0).T).sum())
    # The shoelace area counts turns; legs that cross only add where both run the same way round.
    assert area(bar_outline(line, thickness)) == pytest.approx(wanted, rel=5e-3)


def test_thinned_line_stays_within_its_tolerance() -> None:
    fine = walk((0.0, 0.0), 0.0, [(50.0, 0.0), (30.0, 1.2), (40.0, 0.0)], step=1e-3)
    few = thinned(fine, 0.05)
    assert len(few) < len(fine) / 20
    for x, y in fine[::37]:
        chords = itertools.pairwise(few)
        assert min(distance((float(x), float(y)), a, b) for a, b in chords) <= 0.05 + 1e-9


def distance(point: Point, start: np.ndarray, end: np.ndarray) -> float:
    along = end - start
    share = np.clip((np.array(point) - start) @ along / (along @ along), 0.0, 1.0)
    return float(np.hypot(*(start + share * along - point)))


def test_cutting_a_line_to_a_window_cuts_only_what_leaves_it() -> None:
    line = np.array([[-100.0, 5.0], [0.0, 0.0], [30.0, 0.0], [30.0, 80.0]])
    kept, cut_left, cut_right = within(line, Box(-50.0, -10.0, 50.0, 60.0))
    assert (cut_left, cut_right) == (True, True)
    assert kept[0].tolist() == pytest.approx([-50.0, 2.5])
    assert kept[-1].tolist() == pytest.approx([30.0, 60.0])
    straight = np.array([[-145.0, 3.0], [113.0, 3.0]])
    kept, cut_left, cut_right = within(straight, Box(-120.0, -10.0, 100.0, 60.0))
    assert (cut_left, cut_right) == (True, True)
    assert kept[:, 0].tolist() == pytest.approx([-120.0, 0.0, 100.0])
    hanging = np.array([[-40.0, -90.0], [-40.0, 0.0], [40.0, 0.0]])
    kept, cut_left, cut_right = within(hanging, Box(-50.0, -60.0, 50.0, 60.0))
    assert (cut_left, cut_right) == (True, False)
    assert kept[0].tolist() == pytest.approx([-40.0, -60.0])
    whole, cut_left, cut_right = within(line, Box(-200.0, -10.0, 200.0, 200.0))
    assert (cut_left, cut_right) == (False, False)
    assert whole.tolist() == line.tolist()


@pytest.mark.parametrize("measured", ["outside", "inside", "centre"])
def test_leg_dimensions_span_the_stated_legs(measured: str) -> None:
    part = evolve(fender_hanger(), measured=measured)
    spans = [leg.span[1] - leg.span[0] for leg in find_legs(part, mid_line(part))]
    assert spans == pytest.approx(part.legs, abs=1e-6)


def test_outside_leg_of_an_acute_bend_ends_at_its_farthest_point() -> None:
    # Past 90 deg the outer face turns back: straight, then mid-line radius plus half a thickness.
    angle = math.radians(130)
    part = evolve(
        fender_hanger(), legs=(300.0, 300.0), bends=(Bend(angle=angle, side=1),), holes=()
    )
    line = walk((0.0, 0.0), 0.0, [(200.0, 0.0), (R_MID * angle, angle), (150.0, 0.0)], step=5e-3)
    first, second = find_legs(part, line)
    reach = R_MID + T / 2
    assert first.span[1] - first.span[0] == pytest.approx(200.0 + reach, abs=1e-3)
    assert second.span[1] - second.span[0] == pytest.approx(150.0 + reach, abs=1e-3)


def test_everything_lies_inside_the_picture(scenes: dict[str, Scene]) -> None:
    for name, scene in scenes.items():
        left, bottom, right, top = scene.bounds
        air = 1e-6 / scene.scale
        outside = [
            (x, y)
            for x, y in corners(scene)
            if not (left - air <= x <= right + air and bottom - air <= y <= top + air)
        ]
        assert outside == [], name


def test_words_do_not_overlap(scenes: dict[str, Scene]) -> None:
    assert {name: found for name, scene in scenes.items() if (found := overlapping(scene))} == {}


@pytest.mark.parametrize(("size", "ring"), [("wide", 18.0), ("phone", 7.0)])
def test_no_word_is_under_a_handle(size: Size, ring: float) -> None:
    """The ring of a handle does not shrink with the drawing, so words leave it more room."""
    plan = sketch(load_job(JOBS / "fender-hanger.toml"))
    assert plan is not None
    bends = len(plan.job.part.bends)
    places = {f"leg {n}": f"l{n}" for n in range(1, bends + 2)}
    places |= {f"bend {n}": f"b{n}" for n in range(1, bends + 1)}
    handles = part_picture(plan, size, places).handles
    assert len(handles) == 2 * bends + 1
    scene = part_scene(plan, FRAMES_WITH_HANDLES[size])
    left, bottom, right, top = scene.bounds
    boxes = [(word.text, text_box(word, scene.scale)) for word in words_in(scene)]
    reach = ring / scene.scale
    for handle in handles:
        x, y = left + handle.x * (right - left), top - handle.y * (top - bottom)
        there = Box(left=x - reach, right=x + reach, bottom=y - reach, top=y + reach)
        assert [text for text, box in boxes if shared(box, there) > 0.0] == [], handle.field


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
@pytest.mark.parametrize("bends", [5, 12])
def test_crowded_blank_stays_readable(bends: int, frame: Frame) -> None:
    plan = long_plan(bends)
    scene = blank_scene(plan, frame)
    assert overlapping(scene) == []
    assert plan.blank is not None
    words = [text.text for text in words_in(scene)]
    for mark in plan.blank.marks:
        assert words.count(f"nose {mark.bend}") == 1
        assert words.count(f"sight {mark.bend}") == 1
    assert words.count("tangent") == 2 * bends


def test_type_is_never_small_and_the_turn_is_large(scenes: dict[str, Scene]) -> None:
    for name, scene in scenes.items():
        sizes = [text.size for text in words_in(scene)]
        assert min(sizes) >= 14.0, name
        if name.startswith(("bend", "blank")):
            assert max(sizes) >= 48.0, name


def test_poses_of_a_step_share_scale_and_place() -> None:
    plan = make_plan()
    pictures = [bend_scene(plan, plan.steps[0], pose) for pose in POSES]
    assert len({scene.scale for scene in pictures}) == 1
    assert len({scene.bounds[0] for scene in pictures}) == 1
    assert len({scene.bounds[3] for scene in pictures}) == 1


def test_bar_and_tooling_are_drawn_to_one_scale() -> None:
    plan = make_plan()
    scene = bend_scene(plan, plan.steps[0], "stroke")
    (nose,) = (s for s in scene.shapes if isinstance(s, Circle) and s.role == "nose")
    assert nose.radius == NOSE.radius
    assert nose.centre == (0.0, plan.steps[0].poses.stroke.nose_y)
    shoulders = [s for s in scene.shapes if isinstance(s, Path) and s.role == "shoulders"]
    tops = {point for piece in shoulders for point in piece.points if point[1] == 0.0}
    assert {(-SHOULDERS.opening / 2, 0.0), (SHOULDERS.opening / 2, 0.0)} <= tops


def test_nose_comes_from_below_where_the_press_pushes_up() -> None:
    plan = make_plan()
    assert plan.job.press is not None
    up = evolve(plan, job=evolve(plan.job, press=evolve(plan.job.press, axis="up")))
    over = bend_scene(plan, plan.steps[0], "rest")
    under = bend_scene(up, up.steps[0], "rest")
    (one,) = (s for s in over.shapes if isinstance(s, Circle))
    (other,) = (s for s in under.shapes if isinstance(s, Circle))
    assert one.centre[1] > 0
    assert other.centre == (one.centre[0], -one.centre[1])


def test_sparse_tooling_is_drawn_as_far_as_it_is_stated() -> None:
    plan = make_plan()
    bare = Tooling(nose=Nose(radius=8.0), shoulders=evolve(SHOULDERS, height=None, outer_edge=None))
    scene = bend_scene(evolve(plan, job=evolve(plan.job, tooling=bare)), plan.steps[0], "stroke")
    roles = {shape.role for shape in scene.shapes}
    assert {"nose", "shoulders"} <= roles
    assert not {"web", "plate"} & roles


def test_curve_without_a_gauge_shows_the_force_and_says_why() -> None:
    plan = make_plan("metric", gauge=False)
    scene = curve_scene(plan, plan.steps[0])
    words = [text.text for text in words_in(scene)]
    assert "force on the nose, kilonewtons" in words
    assert "add bore and relief" in scene.description
    assert not any("ease off" in word for word in words)


def test_curve_passes_through_stop_and_reading() -> None:
    plan = make_plan()
    step = plan.steps[0]
    scene = curve_scene(plan, step)
    (marker,) = (s for s in scene.shapes if isinstance(s, Circle) and s.role == "marker")
    (curve,) = (s for s in scene.shapes if isinstance(s, Path) and s.role == "curve")
    (stop,) = (s for s in scene.shapes if isinstance(s, Line) and s.role == "stop")
    (ease,) = (s for s in scene.shapes if isinstance(s, Line) and s.role == "caution")
    assert marker.centre == pytest.approx(curve.points[-1])
    assert stop.start[0] == pytest.approx(marker.centre[0])
    # One axis from its foot: the reading and the ease-off pressure stand in their ratio.
    assert step.gauge is not None
    rise = (ease.start[1] - stop.start[1]) / (marker.centre[1] - stop.start[1])
    assert rise == pytest.approx(step.gauge.ease_off / step.gauge.value)


@pytest.mark.parametrize("theme", THEMES)
def test_same_plan_gives_the_same_bytes_of_sound_xml(theme: Theme) -> None:
    one, other = (scenes_of(make_plan(), WIDE) for _ in range(2))
    for name, scene in one.items():
        text = to_svg(scene, theme)
        assert text == to_svg(other[name], theme), name
        root = ET.fromstring(text)  # noqa: S314  # our own text
        assert root.tag == f"{SVG}svg"
        assert root.get("role") == "img"
        assert root.findtext(f"{SVG}title") == scene.title
        assert root.findtext(f"{SVG}desc") == scene.description
        classes = {node.get("class") for node in root.iter() if node.get("class")}
        style = root.findtext(f"{SVG}style") or ""
        assert all(f".{role}{{" in style for role in classes if role and " " not in role), name


def test_numbers_in_a_file_are_finite_and_short() -> None:
    plan = make_plan()
    for scene in scenes_of(plan, WIDE).values():
        text = to_svg(scene, "dark")
        assert not re.search(r"nan|inf[^a-z]|\de[-+]?\d", text.split("</style>")[1].lower())
        # Words may carry thousandths of an inch; coordinates may not.
        assert not re.search(r"\.\d{3}", re.sub(r">[^<]*<", "><", text))


def test_hostile_name_stays_a_name() -> None:
    name = '</title><script>alert(1)</script> & "\x00\ud800'
    plan = make_plan(part=evolve(fender_hanger(), name=name))
    root = ET.fromstring(to_svg(part_scene(plan), "light"))  # noqa: S314  # our own text
    assert not list(root.iter(f"{SVG}script"))
    title = root.findtext(f"{SVG}title") or ""
    assert title.startswith('</title><script>alert(1)</script> & "\ufffd\ufffd')


def test_every_role_has_its_look_in_every_theme() -> None:
    for theme in THEMES:
        assert set(style_of(theme)) == set(get_args(Role))


def luminance(colour: str) -> float:
    # Relative luminance of sRGB, WCAG 2.2, "relative luminance".
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


@pytest.mark.parametrize("theme", THEMES)
def test_words_and_the_bar_stand_out(theme: Theme) -> None:
    # WCAG 2.2, 1.4.3: 4.5 : 1 for words; 1.4.11: 3 : 1 for what a drawing is read by.
    palette = PALETTES[theme]

    def contrast(colour: str, ground: str) -> float:
        low, high = sorted((luminance(colour), luminance(ground)))
        return (high + 0.05) / (low + 0.05)

    for colour in (palette.quiet, palette.ink, palette.warm):
        assert contrast(colour, palette.ground) >= 4.5
    assert contrast(palette.quiet, palette.tint) >= 4.5
    for colour in (palette.steel, palette.caution):
        assert contrast(colour, palette.ground) >= 3.0


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("1-1/2 in", "1\N{THIN SPACE}1\N{FRACTION SLASH}2 in"),
        ("9/64", "9\N{FRACTION SLASH}64"),
        ("6 in", "6 in"),
        ("-3/8 in", "-3\N{FRACTION SLASH}8 in"),
        ("157.7 mm", "157.7 mm"),
    ],
)
def test_fractions_are_set_as_fractions(typed: str, shown: str) -> None:
    assert as_fractions(typed) == shown


@given(
    st.lists(st.tuples(st.floats(-50, 1050), st.floats(5, 120)), max_size=14),
)
def test_words_spread_along_a_line_keep_order_and_distance(
    items: list[tuple[float, float]],
) -> None:
    wanted = sorted(items)
    places = spread(wanted, 1000.0)
    if sum(width for _, width in wanted) > 1000.0:
        assert places is None
        return
    assert places is not None
    edges = [(x - w / 2, x + w / 2) for x, (_, w) in zip(places, wanted, strict=True)]
    assert all(a[1] <= b[0] + 1e-6 for a, b in itertools.pairwise(edges))
    assert all(low >= -1e-6 and high <= 1000.0 + 1e-6 for low, high in edges)


def test_breaks_shorten_only_plain_stretches() -> None:
    strip = broken_map(1000.0, [100.0, 130.0, -20.0, 900.0], 150.0)
    assert strip.drawn(100.0) == pytest.approx(100.0)
    assert strip.drawn(130.0) == pytest.approx(130.0)
    assert strip.drawn(900.0) == pytest.approx(280.0)
    assert strip.length == pytest.approx(380.0)
    assert strip.breaks == pytest.approx((205.0,))


def test_arcs_turn_the_way_their_bulge_says() -> None:
    # A quarter turn counter-clockwise from (1, 0) to (0, 1) about the origin: radius 1, and with
    # y down on the page the sweep flag is 0.
    quarter = math.tan(math.pi / 8)
    path = Path(points=((1.0, 0.0), (0.0, 1.0)), bulges=(quarter, 0.0), role="shoulders")
    scene = Scene(
        title="t", description="d", bounds=(-2.0, -2.0, 2.0, 2.0), scale=10.0, shapes=(path,)
    )
    assert 'd="M30 20A10 10 0 0 0 20 10"' in to_svg(scene, "dark")
    back = evolve(path, bulges=(-quarter, 0.0))
    assert "A10 10 0 0 1 20 10" in to_svg(evolve(scene, shapes=(back,)), "dark")


def test_what_is_not_there_is_refused_with_its_remedy() -> None:
    plan = make_plan()
    with pytest.raises(InputError, match="there is no blank to draw; give an inside radius"):
        blank_scene(evolve(plan, blank=None))
    with pytest.raises(InputError, match="no tooling to draw a bend on; give the nose"):
        bend_scene(evolve(plan, job=evolve(plan.job, tooling=None)), plan.steps[0], "rest")


def test_width_estimate_grows_with_the_words() -> None:
    assert text_width("12", 20.0) == pytest.approx(2 * text_width("1", 20.0))
    assert text_width("1\N{FRACTION SLASH}2", 20.0) < text_width("1/22", 20.0)


def rolled_plan() -> Plan:
    """The hanger with a quarter turn before its second bend, in space by plain rotation."""
    plan = make_plan()
    part = evolve(plan.job.part, rolls=(0.0, math.radians(90), 0.0), holes=())
    flat = np.column_stack((plan.finished, np.zeros(len(plan.finished))))
    # All beyond the second leg turns a quarter about it: it stands upright at the first corner.
    corner = flat[flat[:, 1] > 3 * INCH][0]
    beyond = np.arange(len(flat)) >= int(np.flatnonzero(flat[:, 1] > 3 * INCH)[0])
    away = flat[beyond] - corner
    flat[beyond] = corner + np.column_stack((away[:, 2], away[:, 1], -away[:, 0]))
    return evolve(plan, job=evolve(plan.job, part=part), finished_3d=flat)


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
def test_rolled_part_is_seen_in_space_with_all_its_figures(frame: Frame) -> None:
    plan = rolled_plan()
    scene = part_scene(plan, frame)
    words = [text.text for text in words_in(scene)]
    assert "rolled 90° before bend 2, seen from above" in scene.description
    assert {"leg 1", "leg 2", "leg 3", "leg 4", "bend 1", "bend 2", "bend 3"} <= set(words)
    assert {"end 1", "end 2"} <= set(words)
    assert overlapping(scene) == []
    assert "seen from above" not in part_scene(make_plan()).description


def test_isometric_shortens_all_axes_alike() -> None:
    # ISO 5456-3, 5.2: axes 120 deg apart in the picture, each shortened by sqrt(2/3).
    axes = projected(np.eye(3))
    assert np.hypot(*axes.T) == pytest.approx([math.sqrt(2 / 3)] * 3)
    directions = np.degrees(np.arctan2(axes[:, 1], axes[:, 0])) % 360
    assert directions.tolist() == pytest.approx([330.0, 90.0, 210.0])


def test_where_a_bar_passes_in_front_of_itself() -> None:
    line = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [4.0, 10.0], [4.0, -5.0]])
    behind, front = np.zeros(5), np.array([0.0, 0.0, 0.0, 9.0, 9.0])
    (near_end,) = _crossings(line, front)
    assert near_end == pytest.approx(3.0 + 10 / 15)
    (near_start,) = _crossings(line, behind - front)
    assert near_start == pytest.approx(0.4)


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
@pytest.mark.parametrize("bends", [9, 12, 16])
def test_part_with_many_bends_carries_numbers_and_a_table(bends: int, frame: Frame) -> None:
    plan = long_plan(bends)
    scene = part_scene(plan, frame)
    words = [text.text for text in words_in(scene)]
    for number in range(1, bends + 2):
        assert words.count(str(number)) >= 2  # beside its leg and in the table
    turns = [word for word in words if re.fullmatch(r"(up|down) 30°", word)]
    assert len(turns) == bends
    assert sum(word.startswith("hole ") for word in words) == len(plan.job.part.holes)
    assert overlapping(scene) == []
    left, bottom, right, top = scene.bounds
    for x, y in corners(scene):
        assert left - 1e-6 <= x <= right + 1e-6
        assert bottom - 1e-6 <= y <= top + 1e-6


def test_a_hurried_drawing_begins_at_the_scale_that_is_shown() -> None:
    plan, frame = make_plan(), FRAMES_WITH_HANDLES["wide"]
    alone = part_scene(plan, frame, hurried=True)
    # At the scale it came to by itself it is the same; a larger one has to fit all the same.
    assert part_scene(plan, frame, hurried=True, near=alone.scale) == alone
    assert part_scene(plan, frame, hurried=True, near=1000.0) == alone
    smaller = part_scene(plan, frame, hurried=True, near=0.5 * alone.scale)
    assert smaller.scale == pytest.approx(0.5 * alone.scale)
    careful = part_scene(plan, frame)
    assert part_scene(plan, frame, near=0.5 * alone.scale) == careful


def test_a_part_that_finds_no_room_for_words_still_ends() -> None:
    # Legs of 1 mm between corners: no scale gives the words around the bar room on a phone.
    part = evolve(
        fender_hanger(),
        name="crimp",
        legs=(2000.0, *(14.0,) * 6, 14.0),
        bends=tuple(Bend(angle=math.radians(20), side=1 if i % 2 else -1) for i in range(7)),
        holes=(),
    )
    scene = part_scene(make_plan(part=part), PHONE)
    assert overlapping(scene) == []


def test_a_wide_bend_names_its_radius_at_its_arc() -> None:
    plan = make_plan()
    first, *others = plan.job.part.bends
    part = evolve(plan.job.part, bends=(evolve(first, radius=6 * INCH), *others))
    words = [t.text for t in words_in(part_scene(evolve(plan, job=evolve(plan.job, part=part))))]
    assert "bend 1, inside radius 6" in words


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("gap", "the ends are 1\N{FRACTION SLASH}8 apart"),
        ("weld gap", "the ends are 1\N{FRACTION SLASH}8 apart, for a weld"),
        ("overlap", "the ends overlap by 1\N{FRACTION SLASH}8"),
    ],
)
def test_a_closed_shape_says_how_its_ends_meet(kind: Closure, said: str) -> None:
    plan = make_plan()
    close = Closing(kind=kind, size=INCH / 8, absorb=1)
    part = evolve(plan.job.part, close=close)
    scene = part_scene(evolve(plan, job=evolve(plan.job, part=part)))
    assert said in scene.description
    assert said in " ".join(text.text for text in words_in(scene))


def test_a_bend_without_figures_is_the_picture_alone() -> None:
    plan = make_plan()
    frame = Frame(width=340.0, height=290.0)
    pictures = [bend_scene(plan, plan.steps[0], pose, frame, figures=False) for pose in POSES]
    assert len({(scene.scale, scene.bounds) for scene in pictures}) == 1
    for scene in pictures:
        left, bottom, right, top = scene.bounds
        assert (right - left) * scene.scale <= frame.width + 1e-6
        assert (top - bottom) * scene.scale <= frame.height + 1e-6
        assert not {"figure", "value"} & {shape.role for shape in scene.shapes}


@given(
    st.lists(st.floats(0.0, 1000.0), max_size=20).map(sorted),
    st.floats(80.0, 900.0),
)
def test_a_strip_is_carried_on_whole_and_not_at_a_mark(marks: list[float], line: float) -> None:
    windows = _windows(1000.0, line, marks, 3.0)
    assert windows[0][0] == 0.0
    assert windows[-1][1] == 1000.0
    for (_, end), (start, _) in itertools.pairwise(windows):
        assert end == start
        crowded = sum(end - 0.5 * line <= mark <= end + 0.5 * line for mark in marks)
        # With few marks about there is always room to end the line clear of them.
        if crowded * 6.0 < 0.4 * line:
            assert all(abs(mark - end) >= 3.0 - 1e-9 for mark in marks)
    assert all(end - start <= line * (1 + 1e-9) for start, end in windows)


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
@pytest.mark.parametrize("hits", [3, 12, 40])
def test_a_row_of_hits_names_its_zone_once_and_a_long_one_its_pitch(
    hits: int, frame: Frame
) -> None:
    plan = make_plan()
    assert plan.blank is not None
    first, *others = plan.blank.marks
    zone, pitch = 20.0 * hits, 20.0
    more = zone - (first.tangents[1] - first.tangents[0])
    row = tuple(
        Mark(
            bend=1,
            hit=hit + 1,
            nose=first.tangents[0] + (hit + 0.5) * pitch,
            sight=first.tangents[0] + (hit + 0.5) * pitch + 57.15,
            tangents=(first.tangents[0], first.tangents[0] + zone),
        )
        for hit in range(hits)
    )
    moved = (
        evolve(
            mark,
            nose=mark.nose + more,
            sight=mark.sight + more,
            tangents=(mark.tangents[0] + more, mark.tangents[1] + more),
        )
        for mark in others
    )
    blank = evolve(plan.blank, length=plan.blank.length + more, marks=(*row, *moved))
    scene = blank_scene(evolve(plan, blank=blank), frame)
    words = [text.text for text in words_in(scene)]
    assert overlapping(scene) == []
    assert words.count("tangent") == 2 * 3
    named = {word for word in words if re.fullmatch(r"nose 1\.\d+", word)}
    assert {"nose 1.1", "nose 1.2", f"nose 1.{hits}"} <= named
    assert sum(shape.role == "mark-on-bar" for shape in scene.shapes) == hits + 2
    if hits > 12:
        # 20 mm is 0.787 in.
        assert f"noses 1.1 to 1.{hits} each 0.787 in on" in " ".join(words)
    else:
        assert len(named) == hits


def test_a_sight_line_beyond_the_end_is_not_drawn() -> None:
    plan = make_plan()
    assert plan.blank is not None
    first, *others = plan.blank.marks
    off = evolve(first, sight=plan.blank.length + 1.0)
    scene = blank_scene(evolve(plan, blank=evolve(plan.blank, marks=(off, *others))))
    words = [text.text for text in words_in(scene)]
    assert "sight 1" not in words
    assert "sight 2" in words


def test_part_is_drawn_with_its_own_thickness() -> None:
    plan = make_plan()
    scene = part_scene(plan)
    (bar,) = (s for s in scene.shapes if isinstance(s, Path) and s.role == "bar")
    flat = sum(straights(plan.job.part)) + sum(R_MID * bend.angle for bend in plan.job.part.bends)
    assert area(bar.points) == pytest.approx(T * flat, rel=1e-3)
    assert max(x for x, _ in bar.points) < 20 * INCH
