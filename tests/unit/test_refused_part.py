"""A refused part never looks like a job: banner on every page, no figure to stop at, the clash."""

from __future__ import annotations

import html
import math
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon
from test_remedies import GRIPPED, HOOK
from test_web import PORT, Browser

from page_texts import page_texts
from strapwright.drawing import PHONE, WIDE
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.errors import InputError
from strapwright.motion.clash_pose import clash_pose
from strapwright.motion.refused_bends import clash_of, has_no_stop
from strapwright.ordering.refusal_values import Hits, Refusal
from strapwright.pages.page_statements import on_page
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.service.further_push import push_further
from strapwright.service.plan_files import plan_job
from strapwright.sheets.setup_sheet import setup_sheet
from strapwright.sheets.template_sheet import template_pdf
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store
from strapwright.web import create_app
from strapwright.wording.refusal_words import refusal_clause

# The right wing meets the edge of a wide push plate on its way up.
JOB = """\
format = 1
units = "inch"

[part]
name = "cleat strap"
bar = "flat 1/4 x 2"
material = "A36 hot rolled"
shape = ["12", "up 90", "12"]

[press]
bore = "3-1/2"
relief = "2000 psi"
daylight = "20"

[tooling]
plate = { width = "12", thick = "3/4" }
nose = { shaft = "1", reach = "4", web = { thick = "1/2", height = "3" }, span = "3" }
shoulders = { radius = "3/8", opening = "2-1/2", height = "8", outer_edge = "2" }
"""
FIGURES = re.compile(r"\b(psi|from first contact|Stop block|stop block|let off)\b")


@pytest.fixture(scope="module")
def refused() -> Plan:
    return plan(read_job(JOB))


@pytest.fixture(scope="module")
def sound() -> Plan:
    return plan(read_job(JOB.replace('width = "12"', 'width = "2-1/2"')))


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


def test_the_plan_on_the_command_begins_with_the_refusal_and_gives_nothing_to_stop_at(
    refused: Plan, sound: Plan
) -> None:
    text = plan_to_text(refused)
    assert text.startswith("REFUSED: No order of its bends makes this part on this tooling; bend 1")
    assert "hits the push plate" in text.partition("\n\n")[0].replace("\n", " ")
    step = text[text.index("1. Bend 1") : text.index("Cannot be made as entered\n")]
    assert not FIGURES.search(step), step
    assert "No travel, block or gauge" in step.replace("\n" + 13 * " ", " ")
    assert "Cut the blank to" in text
    assert FIGURES.search(plan_to_text(sound))
    assert "REFUSED" not in plan_to_text(sound)


def test_the_data_says_at_the_top_that_it_is_refused(refused: Plan, sound: Plan) -> None:
    data = plan_to_data(refused)
    assert list(data)[:3] == ["format", "refused", "headline"]
    assert data["refused"] is True
    assert "push plate" in data["headline"]
    (step,) = data["steps"]
    assert step["no_stop"] is True
    assert "push plate" in step["clash"]
    data = plan_to_data(sound)
    assert (data["refused"], data["headline"]) == (False, "")
    assert [(one["no_stop"], one["clash"]) for one in data["steps"]] == [(False, "")]


def test_every_page_of_the_sheet_carries_the_banner_and_no_figure_to_stop_at(
    refused: Plan, sound: Plan
) -> None:
    for pdf in (setup_sheet(refused), template_pdf(refused)):
        pages = page_texts(pdf)
        assert pages
        for page in pages:
            assert "REFUSED" in page
            assert "push plate" in page
    sheet = page_texts(setup_sheet(refused))[-1]
    assert "Bend 1" in sheet
    for words in (
        "Stop block",
        "Set the relief valve to",
        "on the pressure gauge",
        "back off and measure",
    ):
        assert words not in sheet
    whole = page_texts(setup_sheet(sound))
    assert "back off and measure" in whole[-1]
    assert not any("REFUSED" in page for page in whole)


def test_the_reasons_are_folded_a_bend_at_a_time_and_none_is_lost(shop: Workshop) -> None:
    job = shop.store.create("job", "wall hook", HOOK, datetime.now(UTC), "begun").id
    made = shop.plan(HOOK)
    assert len(made.steps) > 1
    page = html.unescape(Browser(create_app(shop, PORT)).get(f"/jobs/{job}/bends").text)
    folds = re.findall(r"<details class=\"more fold\"( open)?>(.*?)</details>", page, re.DOTALL)
    assert [bool(opened) for opened, _ in folds].count(True) == 1
    assert len(folds) == len(made.steps)
    figures = on_page(made.job).figures
    (no_order,) = [one for one in made.findings if one.code == "no-order"]
    for refusal in no_order.several(Refusal, "refusals"):
        clause = refusal_clause(refusal, figures)
        where = [text for _, text in folds if clause[1:] in text]
        assert len(where) == 1, clause
        assert f"Bend {refusal.stage.bend}," in where[0]


@pytest.mark.long
def test_no_link_leads_to_the_page_it_stands_on_or_nowhere(shop: Workshop) -> None:
    client = Browser(create_app(shop, PORT))
    for name, text in (("wall hook", HOOK), ("gripped strap", GRIPPED)):
        job = shop.store.create("job", name, text, datetime.now(UTC), "begun").id
        root = f"/jobs/{job}"
        assert f'<a href="{root}/bends">Look at the bends</a>' in client.get(f"{root}/part").text
        # Its place in the row of pages, and a search that is looked at again, are no such link.
        order = client.get(f"{root}/bends").text
        order = re.sub(
            r'<nav.*?</nav>|<p class="lead".*?</p>|<section class="searching".*?</section>',
            "", order, flags=re.DOTALL,
        )  # fmt: skip
        assert f'href="{root}/bends"' not in order
        bends = range(1, 1 + len(shop.plan(text).job.part.bends))
        for bend in bends:
            assert client.get(f"{root}/bends/{bend}").status_code == 200, (name, bend)
            assert order.count(f'id="bend-{bend}"') == 1
    # A bend that jams has no page of its own, only its reasons.
    jams = client.get(f"{root}/bends/2", follow=False)
    assert jams.headers["location"] == f"{root}/bends#bend-2"


def test_every_page_of_the_job_carries_the_banner_and_no_figure_to_stop_at(
    shop: Workshop,
) -> None:
    job = shop.store.create("job", "cleat strap", JOB, datetime.now(UTC), "begun").id
    client = Browser(create_app(shop, PORT))
    for name in ("part", "bar", "press", "tooling", "bends", "bends/1", "print", "history"):
        text = client.get(f"/jobs/{job}/{name}").text
        banner = re.search(r'<p class="banner">.*?</p>', text, re.DOTALL)
        assert banner is not None, name
        assert "hits the push plate" in html.unescape(banner[0]), name
        assert "from first contact" not in text, name
        assert "At full stroke" not in text, name
    order = html.unescape(client.get(f"/jobs/{job}/bends").text)
    assert order.count("hits the push plate at") == 4  # banner, both pictures, and its fold
    assert re.findall(r"<details[^>]*>", order) == ['<details class="more fold" open>']
    bend = client.get(f"/jobs/{job}/bends/1").text
    assert bend.count("is hit") == 2  # wide, and on a phone
    assert "hatched" in bend
    assert "data-ram" not in bend
    assert client.get(f"/jobs/{job}/bends/1/frames.json").status_code == 404
    more = client.get(f"/jobs/{job}/bends/1/more.json?stands=80").json()
    assert more["further"] == ""
    assert more["wrong"].startswith("No travel")
    whole = client.get(f"/jobs/{job}/bends/whole", follow=False)
    assert whole.headers["location"].endswith("/bends")


def test_a_refused_bend_is_not_pushed_further(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(JOB, encoding="utf-8")
    with pytest.raises(InputError, match="cannot be made as entered"):
        push_further(plan_job(file), 1, stands="80", wanted=None, pushed=None)


def gap(found: Plan, refusal: Refusal) -> float:
    """From the skin of the bar to what it is said to hit, at the pose that is drawn [mm]."""
    at = clash_pose(found, found.steps[0], refusal)
    line = LineString(np.column_stack((at.pose.x, at.pose.y)))
    lift = [at.pose.nose_y if one.side == "nose" else 0.0 for one in at.pieces]
    shapes = [
        Polygon([(x, y + up) for x, y in one.polygon])
        for one, up in zip(at.pieces, lift, strict=True)
    ]
    half = 0.5 * found.job.part.bar.thickness
    return min(one.distance(line) for one in shapes) - half


def test_the_clash_is_drawn_where_bar_and_piece_meet(refused: Plan, sound: Plan) -> None:
    step = refused.steps[0]
    clash = clash_of(refused, step)
    assert clash is not None
    assert isinstance(clash.reason, Hits)
    assert clash.reason.phase == "stroke"
    # The search bends even arcs, the picture shows the solver's bar: they meet within a
    # millimetre or two, where at the end of the stroke the bar stands deep in the plate.
    assert abs(gap(refused, clash)) < 2.0
    assert math.degrees(clash.reason.angle) < math.degrees(step.loaded_angle) - 5.0
    assert has_no_stop(refused, step)
    assert not has_no_stop(sound, sound.steps[0])
    words = [getattr(one, "text", "") for one in clash_scene(refused, step).shapes]
    assert "is hit" in words
    assert words.count("push plate") == 1
    assert sum(getattr(one, "role", "") == "hatch" for one in clash_scene(refused, step).shapes) > 5


def test_what_is_hit_is_named_once() -> None:
    # The legs of a box close on the nose, so that no order makes it.
    shape = '["5", "up 90", "3", "up 90", "4", "up 90", "5"]'
    found = plan(read_job(JOB.replace('["12", "up 90", "12"]', shape)))
    step = next(one for one in found.steps if clash_of(found, one) is not None)
    hit = clash_of(found, step)
    assert hit is not None
    assert isinstance(hit.reason, Hits)
    for frame in (WIDE, PHONE):
        scene = clash_scene(found, step, frame)
        words = [getattr(one, "text", "") for one in scene.shapes]
        assert words.count(hit.reason.piece.name) == 1, words


def test_a_piece_that_comes_down_on_the_bar_is_drawn_where_it_first_meets_it() -> None:
    # A bracket that hangs from the push plate meets the bar before the nose does.
    job = JOB.replace('width = "12"', 'width = "2-1/2"') + (
        '\n[[tooling.obstacle]]\nname = "bracket"\nside = "nose"\n'
        'box = ["60 mm", "-80 mm", "90 mm", "40 mm"]\n'
    )
    found = plan(read_job(job))
    refusal = clash_of(found, found.steps[0])
    assert refusal is not None
    assert isinstance(refusal.reason, Hits)
    assert refusal.reason.phase == "closing"
    at = clash_pose(found, found.steps[0], refusal)
    # The straight bar's top is a thickness above the shoulders; the bracket reaches 80 mm below
    # the nose's centre.
    assert at.pose.nose_y == pytest.approx(found.job.part.bar.thickness + 80.0, abs=0.01)
    assert [one.name for one in at.pieces] == ["bracket"]
