"""The tooling is drawn beside its fields before anything can be planned, from the fields alone."""

from __future__ import annotations

import html
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from test_web import PORT, Browser

from strapwright.drawing.assembly_views.tooling_drawing import SizeWords, tooling_scene
from strapwright.pages.fields.tooling_picture import tooling_picture
from strapwright.pages.form import open_form
from strapwright.pages.workshop import Workshop
from strapwright.scene.primitives import Circle, Line, Text
from strapwright.scene.primitives import Path as Outline
from strapwright.shop.tooling import Nose, Shoulders
from strapwright.store import open_store
from strapwright.web import create_app

WHOLE = (Path(__file__).parents[2] / "docs/examples/shelf-bracket.toml").read_text("utf-8")
BARE = WHOLE.partition("[tooling]")[0]
WORDS = SizeWords(nose=("nose", "1 in"), radius=("round", ""), opening=("opening", "2-1/2 in"))


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


@pytest.mark.parametrize("below", [False, True])
def test_sizes_are_drawn_as_they_are(below: bool) -> None:
    nose, shoulders = Nose(radius=12.7), Shoulders(radius=9.525, opening=63.5, height=100.0)
    scene = tooling_scene(nose, shoulders, WORDS, thickness=6.35, below=below)
    (circle,) = [one for one in scene.shapes if isinstance(one, Circle)]
    up = -1.0 if below else 1.0
    # At first contact the nose rests on the bar, and the bar on the tops of the shoulders.
    assert circle.radius == 12.7
    assert circle.centre == (0.0, pytest.approx(up * (6.35 + 12.7)))
    (bar,) = [one for one in scene.shapes if isinstance(one, Outline) and one.role == "bar"]
    assert sorted({y for _, y in bar.points}) == pytest.approx(sorted([0.0, up * 6.35]))
    # The dimension of the opening runs from centre to centre.
    marks = [one.start[0] for one in scene.shapes if isinstance(one, Line)
             and one.role == "extension"]  # fmt: skip
    assert sorted(marks) == pytest.approx([-31.75, 31.75])
    said = [one.text for one in scene.shapes if isinstance(one, Text)]
    assert sorted(said) == ["1 in", "nose", "opening 2-1/2 in", "round"]
    left, low, right, high = scene.bounds
    for one in scene.shapes:
        if isinstance(one, Outline):
            assert all(left <= x <= right and low <= y <= high for x, y in one.points)


def test_a_size_that_is_not_entered_is_an_example_without_a_figure() -> None:
    typed = {"tooling.nose.shaft": "1-1/2", "tooling.shoulders.opening": "4 or so"}
    drawn = tooling_picture(open_form(BARE, "tooling", typed), 6.35)
    assert drawn is not None
    wide, phone, said = drawn
    for one in (wide, phone):
        assert "1-1/2 in" in html.unescape(one)
        assert "3/8 in" not in html.unescape(one)
    assert said.endswith("an example size: shoulder radius and opening.")
    # A nose that does not pass is no picture: 3 in between rounds 1-3/4 in apart.
    assert tooling_picture(open_form(BARE, "tooling", {"tooling.nose.shaft": "3"}), 6.35) is None


def test_the_page_of_the_tooling_has_a_picture_with_and_without_a_plan(shop: Workshop) -> None:
    client = Browser(create_app(shop, PORT))
    for text, title in ((BARE, "The tooling at first contact"), (WHOLE, "bend 1")):
        job = shop.store.create("job", "bracket", text, datetime.now(UTC), "begun").id
        page = client.get(f"/jobs/{job}/tooling").text
        assert page.count('<div class="picture on-') == 2, title
        assert title in page
    job = shop.store.create("job", "bracket", BARE, datetime.now(UTC), "begun").id
    told = client.post(
        f"/live/{job}/tooling/rest", data={"base": "1", "tooling.nose.shaft": "1-1/4"}
    ).json()
    assert "1-1/4 in" in html.unescape(told["pieces"]["numbers"])
