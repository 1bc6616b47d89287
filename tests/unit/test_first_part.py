"""The first part of the handbook: one screen of text, two sides of paper, one way to stop."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from functools import cache
from html import unescape
from pathlib import Path

import pytest
from test_web import PORT, Browser

from page_texts import page_texts
from strapwright.pages.plan_page import bend_marks
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_text import plan_to_text
from strapwright.scene.lettering import as_fractions
from strapwright.sheets.bend_data import bend_data
from strapwright.sheets.setup_sheet import setup_sheet
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store
from strapwright.web import create_app

ROOT = Path(__file__).resolve().parents[2]
JOB = (ROOT / "docs" / "examples" / "shelf-bracket.toml").read_text(encoding="utf-8")
CHAPTER = " ".join((ROOT / "docs" / "first-part.md").read_text(encoding="utf-8").split())
SCREEN = 52  # lines, and words of it: 702 before, with 70 lines
WORDS = 500


@cache
def planned(stop: str = "", old: str = "", new: str = "") -> Plan:
    key = f'axis = "down"\nstop = "{stop}"' if stop else 'axis = "down"'
    return plan(read_job(JOB.replace('axis = "down"', key).replace(old, new)))


def test_a_bracket_is_one_screen_of_text() -> None:
    text = plan_to_text(planned())
    assert len(text.splitlines()) <= SCREEN
    assert len(text.split()) <= WORDS
    assert "textbook" not in text
    assert "Handling" not in text
    more = plan_to_text(planned(), details=True)
    assert "Springback compared with the textbook formula" in more
    assert re.search(r"Force +\d+ lbf", more)
    assert set(text.split()) <= set(more.split())


def test_the_chapter_has_the_figures_of_the_plan() -> None:
    text = " ".join(plan_to_text(planned()).split())
    for said in (
        r"Cut the blank to (\S+ in)",
        r"bend 1: nose (\S+ in)",
        r"Set the relief valve to (\d+ psi)",
        r"push ([\d.]+ in), back off",
        r"\(expect ([\d.]+°)\)",
        r"Under load ([\d.]+°)",
        r"Released ([\d.]+°)",
        r"Radius (\S+ in) inside",
    ):
        (figure,) = re.findall(said, text)
        assert figure in CHAPTER, said


@pytest.mark.parametrize(
    ("stop", "shown", "hidden"),
    [
        ("in stages", "In stages", ("Block", "Distance")),
        ("on a block", "Block", ("In stages", "Distance")),
        ("by eye", "Distance", ("In stages", "Block")),
    ],
)
def test_the_ram_is_stopped_one_way(stop: str, shown: str, hidden: tuple[str, ...]) -> None:
    made = planned(stop)
    text = plan_to_text(made)
    assert f"   {shown} " in text
    assert not [one for one in hidden if f"   {one} " in text]
    assert made.steps[0].stop == bend_data(made, 0)["stop_by"] == stop
    # Too fast to stop by eye is said only to who stops by eye.
    assert ("[too-fast-to-stop]" in text) == (stop == "by eye")


def test_a_block_that_is_not_known_leaves_the_stages() -> None:
    made = planned("on a block", old=', height = "4"')
    assert made.steps[0].setting.block is None
    assert made.steps[0].stop == "in stages"
    assert "No stop block height: the shoulder height is missing." in " ".join(
        plan_to_text(made).split()
    )


def test_the_sheet_has_two_sides_and_says_the_relief_first_and_once() -> None:
    pages = page_texts(setup_sheet(planned()))
    assert len(pages) == 2
    bend = " ".join(pages[-1].split())
    assert bend.count("Set the relief valve to") == 1
    assert bend.index("Set the relief valve to") < bend.index("Place the bar")
    assert bend.index("Hands out from between") < bend.index("Look up the angle")
    assert "Stop block" not in bend
    assert "Inside radius by radius gauge" in bend


def test_bends_that_are_set_alike_are_set_once() -> None:
    stand_off = ROOT / "src/strapwright/service/demo_jobs/hat-stand-off.toml"
    text = plan_to_text(plan(read_job(stand_off.read_text(encoding="utf-8"))))
    assert "The same for bends 1, 2, 3 and 4" in text
    assert text.count("   Gauge ") == 1
    assert text.count("   Position ") == 4


def test_bends_that_are_set_alike_are_set_once_on_the_page(tmp_path: Path) -> None:
    stand_off = ROOT / "src/strapwright/service/demo_jobs/hat-stand-off.toml"
    text = stand_off.read_text(encoding="utf-8")
    made = plan(read_job(text))
    with open_store(tmp_path / "store") as store:
        shop = Workshop(store)
        job = store.create("job", "hat", text, datetime.now(UTC), "begun").id
        page = unescape(Browser(create_app(shop, PORT)).get(f"/jobs/{job}/bends").text)
    assert page.count("<strong>Bends 1, 2, 3, 4</strong>") == 1
    assert page.count("under load, travel") == 1
    lines = page[page.index('<ol class="order">') :].split("<li id=")[1:]
    assert len(lines) == len(made.steps) == 4
    for line, step in zip(lines, made.steps, strict=True):
        for label, value in bend_marks(made, step):
            assert label in line
            assert as_fractions(value) in line
