"""The hold in words: the pose rebuilt from them is the pose that is drawn, on every press."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon
from test_plan_order import job_text

from strapwright.bending.bend_values import Floats
from strapwright.drawing import bend_scene, part_scene
from strapwright.midline.pose_values import Zone
from strapwright.pages.played_bend import stage_of
from strapwright.planning.bar_hold import Hold
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.boxes import text_box
from strapwright.scene.frame import Frame
from strapwright.scene.primitives import Circle, Line, Path, Scene, Text
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.figures import figures_for
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.way_off_words import way_off_words

LOW = Frame(width=340.0, height=224.0, body=20.0)  # as a setup sheet has it
THICK, RADIUS = 6.0, 9.0  # as the job states them
# What a person does who reads these words.  As the part is drawn end 1 is on the left and its top
# face looks up: 1 keeps that, -1 turns it round.
FACE_AND_END = {
    "top face towards the nose, end 1 on the left": (1, 1),
    "top face towards the nose, end 2 on the left": (1, -1),
    "bottom face towards the nose, end 1 on the left": (-1, 1),
    "bottom face towards the nose, end 2 on the left": (-1, -1),
}
# Where the picture has the nose: above the bar or below it.
NOSE = {
    "The nose is above the bar, so that face is up.": 1,
    "The nose is below the bar, so that face is down.": -1,
    # From above, whoever faces the nose has it before him: at the top of the picture.
    "The nose is beside the bar. The drawing is seen from above: left is to your left when you "
    "face the nose.": 1,
}
# What is moved comes from the side away from where it is pushed to; of the two halves the lower
# one is what a bar falls on.
PRESSES = {
    ("nose", "down"): (1, "shoulders"),
    ("shoulders", "down"): (-1, "nose"),
    ("nose", "up"): (-1, "nose"),
    ("shoulders", "up"): (1, "shoulders"),
    ("nose", "level"): (1, "nothing"),
    ("shoulders", "level"): (1, "nothing"),
}
# Over the right shoulder, so that the long end of the bar has to be on the left.
POST = '[[tooling.obstacle]]\nname = "post"\nside = "shoulders"\nbox = ["120", "25", "160", "60"]'


def made_on(ram_side: str, axis: str) -> Plan:
    text = job_text(
        "70", "up 90", "130", "down 60", "90", reach=200, extra=POST, axis=f'axis = "{axis}"'
    )
    return plan(read_job(text.replace("[tooling]\n", f'[tooling]\nram_side = "{ram_side}"\n')))


@pytest.fixture(scope="module", params=PRESSES, ids="-".join)
def pressed(request: pytest.FixtureRequest) -> tuple[Plan, int, str]:
    """A part with a bend up, end 2 left, and one down, end 1 left; nose side; what is below."""
    return (made_on(*request.param), *PRESSES[request.param])


def as_drawn(length: float, zones: list[Zone], middle: float) -> tuple[Floats, int, float]:
    """Walk along the bar as drawn: its points, which of them is ``middle``, the heading there."""
    pieces: list[tuple[float, float]] = []
    at = 0.0
    for zone in sorted(zones, key=lambda one: one.begin):
        pieces.append((zone.begin - at, 0.0))
        pieces += zip(zone.lengths.tolist(), zone.curvatures.tolist(), strict=True)
        at = zone.end
    pieces.append((length - at, 0.0))
    # Flat and bent lengths of a zone differ, so its middle is counted in bent lengths.
    own = next((one for one in zones if one.begin < middle < one.end), None)
    target = middle
    for zone in zones:
        if zone.end <= middle:
            target += float(zone.lengths.sum()) - (zone.end - zone.begin)
    if own is not None:
        target += 0.5 * float(own.lengths.sum()) - (middle - own.begin)
    x = y = heading = gone = 0.0
    points, found, way = [(0.0, 0.0)], 0, 0.0
    for long, curvature in pieces:
        count = max(1, math.ceil(long / 0.02))  # 0.1 deg at most
        for _ in range(count):
            step = long / count
            heading += 0.5 * step * curvature
            x, y = x + step * math.cos(heading), y + step * math.sin(heading)
            heading += 0.5 * step * curvature
            gone += step
            points.append((x, y))
            if gone <= target:
                found, way = len(points) - 1, heading
    return np.array(points), found, way


def rebuilt(made: Plan, step: Step, *, bent: bool) -> tuple[Floats, int]:
    """Mid-line from end 1 to end 2 and the face that is named, from the words and nothing else."""
    assert made.blank is not None
    face, end = FACE_AND_END[hold_words.laid(made, step)]
    nose = NOSE[hold_words.where_nose_is(step.hold)]
    done = [made.zones[one.bend - 1] for one in made.steps if one.order < step.order + bent]
    middle = made.blank.marks_of(step.bend)[0].nose
    points, at, heading = as_drawn(made.blank.length, done, middle)
    points = points - points[at]
    c, s = math.cos(heading), math.sin(heading)
    flat = points @ np.array([[c, -s], [s, c]])  # the bend's middle lies level
    return flat * (end, face * nose), face


def offset(line: Floats, by: float) -> LineString:
    return LineString(line).offset_curve(by)


def drawn_bar(scene: Scene) -> Polygon:
    (bar,) = (one for one in scene.shapes if isinstance(one, Path) and one.role == "bar")
    return Polygon(bar.points)


def strokes(scene: Scene) -> list[Line]:
    return [one for one in scene.shapes if isinstance(one, Line) and one.role == "face-edge"]


def test_the_pose_rebuilt_from_the_words_is_the_pose_drawn(pressed: tuple[Plan, int, str]) -> None:
    made, up, _ = pressed
    said = {hold_words.laid(made, step) for step in made.steps}
    assert said == {
        "top face towards the nose, end 2 on the left",
        "bottom face towards the nose, end 1 on the left",
    }
    for step in made.steps:
        for bent, name in ((False, "rest"), (True, "released")):
            line, face = rebuilt(made, step, bent=bent)
            scene = bend_scene(made, step, name)  # type: ignore[arg-type]
            (nose,) = (one for one in scene.shapes if isinstance(one, Circle))
            line[:, 1] += nose.centre[1] - up * (RADIUS + 0.5 * THICK)
            drawn, bar = drawn_bar(scene), LineString(line).buffer(0.5 * THICK, cap_style="flat")
            # A long bar is cut short where the picture ends.
            assert drawn.difference(bar.buffer(0.4)).is_empty, (step.bend, name)
            assert drawn.area > 0.5 * bar.area
            # The nose is where the words say, against the face that they name.
            assert up * (nose.centre[1] - bar.centroid.y) > 0.0 or bent
            named = offset(line, face * 0.5 * THICK * _hand(line, face, up))
            other = offset(line, -face * 0.5 * THICK * _hand(line, face, up))
            assert named.distance(Point(nose.centre)) < other.distance(Point(nose.centre))
            found = strokes(scene)
            assert len(found) > 10
            for stroke in found:
                assert named.distance(Point(stroke.start)) < 0.3
                assert named.distance(Point(stroke.end)) < other.distance(Point(stroke.end)) + 1.5
            _check_ends(scene, line)


def _hand(line: Floats, face: int, up: int) -> int:
    """Side of the top face as the bar now runs: turned round both ways it is where it was."""
    mirrored = (line[-1, 0] < line[0, 0]) != (face * up < 0)
    return -1 if mirrored else 1


def _check_ends(scene: Scene, line: Floats) -> None:
    at = {one.text: one.at[0] for one in scene.shapes if isinstance(one, Text)}
    assert (at["end 1"] < at["end 2"]) == (line[0, 0] < line[-1, 0])


@pytest.mark.parametrize("figures", [True, False])
def test_no_word_is_cut_off_where_an_end_stands_up(*, figures: bool) -> None:
    """With the nose below, a made leg stands up beside the shoulders as far as the picture goes."""
    text = job_text("100", "up 60", "90", "down 60", "100", reach=150, axis='axis = "up"')
    made = plan(read_job(text))
    for step in made.steps:
        for name in ("rest", "stroke", "released"):
            scene = bend_scene(made, step, name, LOW, figures=figures)  # type: ignore[arg-type]
            _, bottom, _, top = scene.bounds
            for word in (one for one in scene.shapes if isinstance(one, Text)):
                box = text_box(word, scene.scale)
                assert bottom <= box.bottom, (step.bend, name, word.text)
                assert box.top <= top, (step.bend, name, word.text)


def test_what_is_below_carries_the_bar_and_its_weight_decides(
    pressed: tuple[Plan, int, str],
) -> None:
    made, _, below = pressed
    show = figures_for(made.job)
    for step in made.steps:
        assert step.hold.carried_by == below
        line, _ = rebuilt(made, step, bent=False)
        out = LineString(line).centroid.x
        assert step.hold.weight == pytest.approx(out, abs=0.2)
        words = hold_words.carried(step.hold, show)
        assert {
            "shoulders": "on the shoulders",
            "nose": "on the nose",
            "nothing": "Nothing carries the bar",
        }[below] in words
        assert ("rides" in words) == (step.hold.ram_side == below)
        side = "right" if out > 0.0 else "left"
        # Tops of the shoulders are 28 mm out; on a round nose nothing but the middle carries.
        room = {"shoulders": 28.0, "nose": 0.5, "nothing": math.inf}[below]
        assert (f"tips to the {side}" in words) == (abs(out) > room)
        assert ("the ends swing down" in words) == (below == "nose")


LEAVING = {
    ("nose", "down"): "drops off the nose onto them, as the nose goes up",
    ("shoulders", "down"): "It stays on the nose as the shoulders go up",
    ("nose", "up"): "It goes down with the nose",
    ("shoulders", "up"): "drops off the nose onto them, as the shoulders go down",
    ("nose", "level"): "Nothing carries it once the ram goes back",
    ("shoulders", "level"): "Nothing carries it once the ram goes back",
}


@pytest.mark.parametrize("press", PRESSES, ids="-".join)
def test_how_the_part_leaves_follows_gravity(press: tuple[str, str]) -> None:
    text = job_text("120", "up 90", "150", reach=200, axis=f'axis = "{press[1]}"')
    made = plan(read_job(text.replace("[tooling]\n", f'[tooling]\nram_side = "{press[0]}"\n')))
    (step,) = made.steps
    words = way_off_words(step)
    for other, said in LEAVING.items():
        assert (said in words) == (said == LEAVING[press]), other
    by_hand = "Lift it straight off by hand." if PRESSES[press][1] == "nose" else ""
    assert by_hand in words
    # Under a nose that is below, the longer leg of 150 hangs on the right.
    assert ("heavier to the right: hold that end" in words) == bool(by_hand)


def test_a_stand_that_stays_is_offered_only_where_the_bar_stays() -> None:
    """What the ram lifts leaves a stand behind; legs that swing down meet one."""
    show = figures_for(made_on("nose", "down").job)

    def words(nose: str, ram_side: str) -> str:
        hold = Hold(
            face="top", end_left=1, nose=nose, ram_side=ram_side, weight=90.0, support=28.0,  # type: ignore[arg-type]
        )  # fmt: skip
        return hold_words.carried(hold, show)

    assert "stand" in words("above", "nose")
    for nose, ram_side in (("above", "shoulders"), ("below", "nose"), ("below", "shoulders")):
        said = words(nose, ram_side)
        assert "stand" not in said
        assert "old the right end, hands outside nose and shoulders" in said
        assert "hands off at first contact" in said


def test_the_bar_that_is_played_is_hatched_towards_the_nose(
    pressed: tuple[Plan, int, str],
) -> None:
    made, up, _ = pressed
    for step in made.steps:
        (act,) = stage_of(made, step).data["acts"]
        assert len(act["edge"]) == len(act["bar"])
        for edge, bar in ((act["edge"][k], act["bar"][k]) for k in (0, act["stop"], -1)):
            (x, y), line = _middle(edge), LineString(_points(bar))
            off = line.interpolate(line.project(Point(x, y)))
            assert math.dist((off.x, off.y), (x, y)) == pytest.approx(0.32 * THICK, abs=0.5)
            assert (y < off.y) == (up > 0)  # down the page y grows


def _points(path: str) -> list[tuple[float, float]]:
    pairs = [one.split() for one in path.lstrip("M").split("L")]
    return [(float(x), float(y)) for x, y in pairs]


def _middle(path: str) -> tuple[float, float]:
    line = LineString(_points(path))
    cross = line.intersection(LineString([(0.0, -500.0), (0.0, 500.0)]))
    return cross.x, cross.y


def test_the_part_is_hatched_on_the_inside_of_every_bend() -> None:
    made = made_on("shoulders", "down")
    scene = part_scene(made)
    line = LineString(made.finished)
    top, bottom = line.offset_curve(0.5 * THICK), line.offset_curve(-0.5 * THICK)
    runs: list[list[Line]] = [[]]
    found = strokes(scene)
    for before, after in pairwise([found[0], *found]):
        if math.dist(before.start, after.start) > 4 * THICK:
            runs.append([])
        runs[-1].append(after)
    assert len(runs) == 2
    for run, face, back in zip(runs, (top, bottom), (bottom, top), strict=True):
        for stroke in run:
            assert face.distance(Point(stroke.start)) < 0.3
            assert back.distance(Point(stroke.start)) > 0.8 * THICK
