"""Ways of making a part in a real browser: typed, planned, on paper, reopened, and typed wrong."""

from __future__ import annotations

import sys
import urllib.request
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from selenium.webdriver.support.ui import Select

sys.path.append(str(Path(__file__).parent))

from browsing import Page, Server, browser, served

from page_texts import page_texts
from strapwright.store import import_one, open_store

pytestmark = pytest.mark.browser
JOB = """\
format = 1
units = "inch"
[part]
name = "hatch keeper"
bar = "flat 3/16 x 1-1/4"
material = "A36 hot rolled"
shape = ["5", "up 90", "5"]
[press]
bore = "3-3/4"
relief = "2200 psi"
[tooling]
nose = { shaft = "3/4", web = { thick = "1/2", height = "6" } }
shoulders = { radius = "3/8", opening = "2-1/4", depth = "2-1/2", height = "4" }
"""
# Field -> what is typed, or chosen where it begins with =.
PART = {
    "part.shape[2].radius": "",
    "part.finish.bend[1]": "50",
    "part.hole[1].distance": "1-1/2",
    "part.hole[1].length": "1-1/4",
    "part.hole[1].open": "=far edge",
    "part.tolerance.class": "=m",
    "part.tolerance.takes": "=1",
    "part.limit.leg[2]": "1/64",
    "part.limit.bend[2]": "0.5",
    "part.trim.end_2": "1/2",
    "handling.turn_over": "0.75",
    "handling.change_tooling": "7",
}
TWIST = {"part.shape[3]": "5", "part.shape[4]": "90 over 3", "part.shape[5]": "5"}
OTHER = {
    "part.other_tooling[1].name": "narrow die",
    "part.other_tooling[1].bends": "2",
    "part.other_tooling[1].nose.shaft": "5/8",
    "part.other_tooling[1].nose.web.thick": "3/8",
    "part.other_tooling[1].nose.web.height": "6",
    "part.other_tooling[1].rating": "4 tons (US)",
    "tooling.mark_error": "1/64",
}
# Page -> field -> what cannot be meant there, and a piece of what is said beneath it.
WRONG = {
    "part": {
        "part.shape[4]": ("45 over 3", "nly a quarter twist is worked out here; give 90 or -90"),
        "part.finish.bend[1]": ("90", "give less than 90"),
        "part.hole[1].length": ("long", "write for example"),
        "part.limit.leg[2]": ("a hair", "write for example"),
        "part.limit.bend[2]": ("180", "give an angle above 0"),
        "part.trim.end_2": ("some", "write for example"),
        "handling.turn_over": ("quick", "for example 0.5"),
    },
    "tooling": {
        "part.other_tooling[1].bends": ("3", "must name bends from 1 to 1"),
        "part.other_tooling[1].nose.shaft": ("thin", "write for example"),
    },
}


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[tuple[Server, str]]:
    with open_store(tmp_path / "store") as store:
        job = import_one(store, "keeper.toml", JOB.encode(), datetime.now(UTC)).id
    with served(tmp_path / "store") as server:
        yield server, f"/jobs/{job}"


def unfold(page: Page) -> None:
    page.driver.execute_script(
        "for (const one of document.querySelectorAll('main details')) one.open = true"
    )


def fill(page: Page, said: dict[str, str]) -> None:
    unfold(page)
    for name, text in said.items():
        if text.startswith("="):
            Select(page.field(name)).select_by_value(text[1:])
        elif text:
            page.type(name, text)


def shows(page: Page, said: dict[str, str]) -> dict[str, str | None]:
    return {name: page.field(name).get_attribute("value") for name in said}


def wants(said: dict[str, str]) -> dict[str, str]:
    return {name: text.removeprefix("=") for name, text in said.items()}


def wrong(page: Page, name: str) -> str:
    return page.find(f"[data-field='{name}'] .wrong").text


def printed(server: Server, path: str) -> str:
    with urllib.request.urlopen(server.address.rstrip("/") + path) as answer:  # noqa: S310  our own
        raw = answer.read()
    return " ".join(" ".join(page.split()) for page in page_texts(raw))


@pytest.mark.long
def test_ways_are_typed_and_plan_paper_and_another_browser_follow(kept: tuple[Server, str]) -> None:
    server, root = kept
    with browser(server) as page:
        page.open(f"{root}/part")
        unfold(page)
        page.press("Add a quarter twist in the last leg")
        fill(page, TWIST)
        page.press("Add a bend and a leg")
        page.press("Add a hole")
        fill(page, PART)
        page.press("Save")
        page.open(f"{root}/tooling")
        page.press("Add other tooling")
        fill(page, OTHER)
        page.press("Save")
        page.open(f"{root}/bends")
        for words in (
            "after a change to narrow die",
            "Close bend 1 from 50\N{DEGREE SIGN} to 90\N{DEGREE SIGN} in the vise",
            "Twist leg 2 a quarter turn",
            "Saw end 2 to length",
        ):
            assert page.says(words), words
        page.open(f"{root}/bends/1")
        assert page.says("the rest up to 90\N{DEGREE SIGN} at the bench, on the main tooling")
        page.open(f"{root}/bends/2")
        assert page.says("Change the tooling to narrow die: nose radius 5\N{FRACTION SLASH}16 in")
        assert page.complaints() == []
    with browser(server) as page:  # that has seen none of it
        page.open(f"{root}/part")
        assert shows(page, PART | TWIST) == wants(PART | TWIST)
        assert page.says("notch") or page.field("part.hole[1].length").is_displayed()
        page.open(f"{root}/tooling")
        assert shows(page, OTHER) == OTHER
    paper = printed(server, f"{root}/files/sheet.pdf")
    for words in ("narrow die", "Close bend 1", "Twist leg 2", "Saw end 2 to length", "saw line"):
        assert words in paper, words
    limits = printed(server, f"{root}/files/inspection.pdf")
    # 1/64 in of a leg of 10 in, and 0.5 degrees of 90, rounded inwards.
    for words in ("9.985", "10.015", "89.50", "90.50"):
        assert words in limits, words


def each_is_told(page: Page, root: str, where: str) -> None:
    """Type what cannot be meant into one field after the other of a page."""
    entries = WRONG[where]
    page.open(f"{root}/{where}")
    for name, (text, said) in entries.items():
        unfold(page)
        before = page.field(name).get_attribute("value")
        page.type(name, text)
        page.until(lambda name=name, said=said: said in wrong(page, name))
        assert wrong(page, name).count(". ") == 0  # one sentence
        if name == next(reversed(entries)):
            page.press("Save")  # is refused, and what was typed stands there again
            assert page.field(name).get_attribute("value") == text
            assert page.field(name).is_displayed()  # though it stands in a fold
            assert said in wrong(page, name)
        page.type(name, before or " ")
        page.until(lambda name=name: wrong(page, name) == "")


def test_each_wrong_entry_of_other_tooling_is_told_beneath_its_field(
    kept: tuple[Server, str],
) -> None:
    server, root = kept
    with browser(server) as page:
        page.open(f"{root}/tooling")
        page.press("Add other tooling")
        each_is_told(page, root, "tooling")


@pytest.mark.long
def test_each_wrong_entry_of_the_part_is_told_beneath_its_field_and_nothing_is_lost(
    kept: tuple[Server, str],
) -> None:
    server, root = kept
    with browser(server) as page:
        page.open(f"{root}/part")
        unfold(page)
        page.press("Add a quarter twist in the last leg")
        page.press("Add a bend and a leg")
        page.press("Add a hole")
        fill(page, {**TWIST, "part.finish.bend[1]": "50"})
        page.press("Save")
        each_is_told(page, root, "part")
        page.open(f"{root}/part")
        meant = {**TWIST, "part.finish.bend[1]": "50"}
        assert shows(page, meant) == meant
