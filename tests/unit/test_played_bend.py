"""Bends as they are played: rows, stacks, and the part coming off or staying on."""

from __future__ import annotations

import math
import re
from pathlib import Path

import numpy as np
import pytest
from shapely.geometry import LineString, Point
from test_plan_order import BOX, planned

from strapwright.bending.bend_values import Floats
from strapwright.drawing import curve_scene, moving_bend, to_svg
from strapwright.motion.bend_frames import ONE_BEND, STROKE, Frame, frames_of
from strapwright.motion.off_frames import OffFrame, off_frames, placed
from strapwright.pages.played_bend import CURVES, Stage, stage_of, whole_stage
from strapwright.pages.sharing.own_view import OwnView
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store
from strapwright.web.played_bend_view import stills, ticks

EXAMPLES = Path(__file__).resolve().parents[2] / "docs" / "examples"
RADIUS, HALF = 9.0, 3.0  # of the nose and half the bar, as test_plan_order states them


@pytest.fixture(scope="module")
def box() -> Plan:
    """A box open at one corner, see ``test_plan_order``."""
    return planned("90", *BOX, "90", reach=260, web=3)


@pytest.fixture(scope="module")
def held() -> Plan:
    """The same with a gap that nothing passes, its order stated; it cannot be made so."""
    return planned("95", *BOX, "95", reach=260, web=3, order="order = [1, 3, 2]")


@pytest.fixture(scope="module")
def saddle() -> Plan:
    return plan(read_job((EXAMPLES / "pipe-saddle.toml").read_text(encoding="utf-8")))


def coming(made: Plan, step: Step) -> tuple[Frame, tuple[OffFrame, ...]]:
    let_go = frames_of(made, step)[-1]
    view = moving_bend(made, step).view
    return let_go, off_frames(made, step, let_go, view.top, ONE_BEND.coming_off)


def length(line: Floats) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def test_a_part_that_drops_lies_still_while_the_nose_leaves_it(box: Plan) -> None:
    let_go, off = coming(box, box.steps[-1])
    assert box.steps[-1].poses.released.nose_y == pytest.approx(let_go.nose, abs=0.2)
    assert {one.shift for one in off} == {(0.0, 0.0)}
    noses = [let_go.nose, *(one.nose for one in off)]
    assert noses == sorted(noses)
    for nose in noses:
        # An even arc stands for the solver's bend in the search, so a little is allowed.
        assert LineString(let_go.line).distance(LineString([(0, nose), (0, nose + 242)])) > HALF
        assert np.hypot(*(let_go.line - (0.0, nose)).T).min() > RADIUS + HALF - 0.3
    assert noses[-1] - RADIUS > let_go.line[:, 1].max()
    assert off[-1].doing == "off the nose"
    assert noses[-1] == pytest.approx(215.0)  # over the shoulder tops: bar, nose, daylight
    assert off[0].doing == "the ram goes back, the part stays on the shoulders"


def test_under_a_press_that_pushes_up_the_part_rides_until_the_shoulders_are_away(
    box: Plan,
) -> None:
    made = planned("90", *BOX, "90", reach=260, web=3, axis='axis = "up"')
    let_go, off = coming(made, made.steps[-1])
    riding = [one for one in off if one.doing.startswith("the ram goes back")]
    assert len(riding) > 3
    for one in riding:
        assert one.nose - let_go.nose == pytest.approx(one.shift[1])
    for one in off[len(riding) - 1 :]:
        line = placed(let_go.line, one, let_go)
        assert line[:, 1].min() - HALF > -one.sunk  # shoulder tops, sunk by so much
        bar = LineString(line).buffer(HALF, cap_style="flat")
        assert bar.distance(Point(0.0, one.nose)) > RADIUS - 0.3
    # Above the shoulder tops, which sink: bar, nose and 200 mm of daylight.
    assert riding[-1].nose + riding[-1].sunk == pytest.approx(215.0, abs=0.1)
    gone = LineString(placed(let_go.line, off[-1], let_go))
    assert gone.distance(Point(0.0, off[-1].nose)) > RADIUS + 12.0
    assert gone.bounds[1] - HALF > -off[-1].sunk - 90.0  # and above the bed
    assert stage_of(box, box.steps[-1]).data["view"] != stage_of(made, made.steps[-1]).data["view"]


@pytest.mark.long
def test_a_part_that_is_locked_on_stays_on_the_nose_and_what_holds_it_is_hatched(
    held: Plan,
) -> None:
    step = held.steps[-1]
    assert step.coming_off is not None
    assert step.coming_off.verdict == "locked on"
    let_go, off = coming(held, step)
    assert off[-1].doing == "trapped on the nose"
    for one in off:
        assert one.nose - let_go.nose == pytest.approx(one.shift[1])
        assert one.shift[0] == one.turn == 0.0
    stage = stage_of(held, step)
    assert 'class="hatched"' in stage.held
    assert 'class="hatch"' in stage.held
    (act,) = stage.data["acts"]
    assert act["locked"]
    assert [one.held for one in stills(stage)] == [False, False, False, True, True]
    assert ticks(stage)[-1].word == "trapped"


def test_a_bend_that_comes_free_has_nothing_hatched(box: Plan) -> None:
    stage = stage_of(box, box.steps[-1])
    assert stage.held == ""
    assert not any(one.held for one in stills(stage))


def test_every_list_of_a_bend_has_an_entry_for_each_picture(box: Plan, saddle: Plan) -> None:
    for made in (box, saddle):
        for step in made.steps:
            (act,) = stage_of(made, step).data["acts"]
            for name in ("part", "seen", "nose", "sunk", "ends", "turn", "travel", "load", "doing"):
                assert len(act[name]) == act["count"], name
            bent = act["free"] + 1
            assert len(act["bar"]) == bent
            assert [len(act["marker"][name]) for name in CURVES] == [bent] * len(CURVES)


def test_the_marker_runs_along_the_drawn_curve_to_its_stop(box: Plan) -> None:
    step = box.steps[0]
    (act,) = stage_of(box, step).data["acts"]
    for name, sheet in CURVES.items():
        svg = to_svg(curve_scene(box, step, sheet))
        (marker,) = re.findall(r'class="marker" cx="([\d.]+)" cy="([\d.]+)"', svg)
        spots = act["marker"][name]
        assert spots[act["stop"]] == pytest.approx([float(one) for one in marker], abs=0.06)
        (drawn,) = re.findall(r'class="curve" d="M([^"]+)"', svg)
        curve = LineString([tuple(map(float, one.split())) for one in drawn.split("L")])
        for spot in spots[: act["stop"] + 1]:
            assert curve.buffer(1.5).covers(LineString([spot, spot]).centroid)
        let_go = spots[act["free"]]
        assert let_go[0] < spots[act["stop"]][0]  # it went back
        assert let_go[1] == pytest.approx(spots[0][1], abs=0.1)  # and carries nothing


def test_a_row_is_played_hit_by_hit(saddle: Plan) -> None:
    step = next(one for one in saddle.steps if one.hits > 2)
    frames = frames_of(saddle, step)
    full = [frame for frame in frames if frame.doing.endswith(STROKE)]
    free = [frame for frame in frames if frame.doing.endswith("released")]
    assert len(full) == len(free) == step.hits
    for number, frame in enumerate(free, start=1):
        assert frame.angle == pytest.approx(number * step.wanted)
        assert frame.force == 0.0
    assert free[-1].angle == pytest.approx(math.radians(120.0))  # as the file states it
    assert {round(frame.travel, 9) for frame in full} == {round(step.setting.travel, 9)}
    # The bar is as long in every picture, and the middle hit is the one that the plan drew.
    assert saddle.blank is not None
    for frame in frames:
        assert length(frame.line) == pytest.approx(saddle.blank.length, rel=0.01)
    middle = full[step.hits // 2]
    np.testing.assert_allclose(middle.line[:, 1], step.poses.stroke.y, atol=1e-3)
    assert [tick.word for tick in ticks(stage_of(saddle, step))][:2] == [
        "hit\N{NO-BREAK SPACE}1",
        "hit\N{NO-BREAK SPACE}6",
    ]


def test_bars_of_a_stack_are_all_played_one_thickness_apart() -> None:
    text = (EXAMPLES / "cleat-bracket.toml").read_text(encoding="utf-8")
    text = text.replace("[part]\n", "[part]\nstacked = 3\n")
    text = text.replace("1/4 x 1-1/2", "1/8 x 1-1/2")
    job = text.split("[tooling", 1)[0] + (
        '[tooling.nose]\nshaft = "1"\nreach = "6"\n'
        '[tooling.shoulders]\nradius = "3/8"\nopening = "2-1/2"\nheight = "5"\n'
    )
    made = plan(read_job(job))
    step = made.steps[0]
    frames = frames_of(made, step)
    for frame, name in ((frames[0], "rest"), (frames[54], "stroke"), (frames[-1], "released")):
        assert frame.nose == pytest.approx(step.poses.of(name).nose_y, abs=0.2)
    (act,) = stage_of(made, step).data["acts"]
    for path in (act["bar"][0], act["bar"][act["stop"]]):
        first, *others = (
            LineString([tuple(map(float, one.split())) for one in bar.split("L")])
            for bar in path.split("M")[1:]
        )
        assert len(others) == 2
        for number, bar in enumerate(others, start=1):
            assert first.distance(bar) == pytest.approx(number * 3.175, abs=0.12)


def test_the_whole_part_is_its_bends_in_their_order(box: Plan) -> None:
    stage: Stage = whole_stage(box)
    acts = stage.data["acts"]
    assert [act["bend"] for act in acts] == [step.bend for step in box.steps]
    marks = ticks(stage)
    assert [mark.at for mark in marks[:2]] == [0, acts[0]["count"]]
    assert marks[-1].at == sum(act["count"] for act in acts) - 1
    assert [(one.bend, one.doing) for one in stills(stage)][-1] == (
        acts[-1]["bend"],
        "off the nose",
    )


def test_a_bend_is_played_as_its_page_shows_it_once_a_search_has_found_another_plan(
    box: Plan, held: Plan, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    known = [box]
    with open_store(tmp_path / "store") as store:
        shop = Workshop(store)
        monkeypatch.setattr(shop, "plan", lambda _: known[0])
        first = shop.stage("text", None, OwnView())
        assert shop.stage("text", None, OwnView()) is first
        known[0] = held
        played = shop.stage("text", None, OwnView())
        assert played.data == whole_stage(held).data
        assert first.data == whole_stage(box).data != played.data
