"""What a person meets while typing: presets to type over, and pages that stay under the pointer."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from selenium.webdriver.common.keys import Keys

sys.path += [str(Path(__file__).parent), str(Path(__file__).parent.parent / "unit")]

from browsing import PHONE, WIDE, Server, browser, served
from test_remedies import HOOK

from strapwright.store import import_one, open_store

pytestmark = pytest.mark.browser


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    with served(tmp_path / "store") as made:
        yield made


def test_what_is_typed_after_a_click_takes_the_place_of_a_preset(server: Server) -> None:
    with browser(server) as page:
        page.open("/")
        page.press("Open the example")
        field = page.field("part.shape[1]")
        field.click()
        field.send_keys("7")
        assert field.get_attribute("value") == "7"
        field.click()  # once more sets the caret
        field.send_keys(Keys.END, "-1/2")
        assert field.get_attribute("value") == "7-1/2"


@pytest.mark.parametrize("size", [pytest.param(WIDE, marks=pytest.mark.long), PHONE])
def test_an_added_bend_waits_for_its_angle_in_sight(server: Server, size: tuple[int, int]) -> None:
    with browser(server, size) as page:
        page.open("/")
        page.press("Open the example")
        page.press("Add a bend and a leg")
        added = page.field("part.shape[8]")
        page.until(lambda: page.driver.switch_to.active_element.id == added.id)
        box = page.driver.execute_script(
            "const box = arguments[0].getBoundingClientRect(), drawing ="
            " document.querySelector('.drawing').getBoundingClientRect();"
            " return [box.top, box.bottom, drawing.bottom]",
            added,
        )
        assert box[1] < size[1]
        assert box[0] > (box[2] if size == PHONE else 0)  # the drawing lies on top there
        added.click()  # it is marked as a whole already, and stays so
        added.send_keys("30", Keys.TAB)
        assert added.get_attribute("value") == "30"
        page.until(lambda: page.says("included 150°"))


def test_the_first_click_on_a_button_counts_though_a_field_is_left_by_it(server: Server) -> None:
    with browser(server) as page:
        page.open("/new")
        page.type("part.name", "cleat")
        page.type("bar.thickness", "1/4")
        page.press("Next")
        assert page.field("bar.width").get_attribute("aria-invalid") == "true"
        assert page.says("write for example 1-1/2 in or 38 mm")
        page.type("bar.width", "1")
        page.press("Next")
        assert page.path.endswith("/part")


def test_a_link_to_a_folded_bend_opens_it(tmp_path: Path) -> None:
    with open_store(tmp_path / "hook") as store:
        job = import_one(store, "hook.toml", HOOK.encode(), datetime.now(UTC)).id
    with served(tmp_path / "hook") as server, browser(server, script=False) as page:
        page.open(f"/jobs/{job}/bends")
        shut = page.find("details.fold:not([open]) .unfolds").get_attribute("id")
        assert shut
        page.open(f"/jobs/{job}/bends#{shut}")
        page.until(lambda: page.find(f"details.fold:has(#{shut})").get_attribute("open"))
        box = page.driver.execute_script(
            "return document.querySelector(arguments[0]).getBoundingClientRect().top",
            f"details.fold:has(#{shut}) > summary",
        )
        assert 0 <= box < WIDE[1]
