"""The pages in a real browser: from nothing to paper, on screen and phone, with what goes wrong."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select

sys.path.append(str(Path(__file__).parent))

from browsing import (
    JOB_PAGES,
    PHONE,
    SHOP_PAGES,
    Page,
    Server,
    browser,
    nothing_is_in_the_way,
    served,
    wait_for_file,
)

pytestmark = pytest.mark.browser
FIRST_LOOKED_AT = ("part", "bends/1")
TOOLING = {
    "tooling.nose.shaft": "1",
    "tooling.nose.web.thick": "1/2",
    "tooling.nose.web.height": "5",
    "tooling.shoulders.radius": "3/8",
    "tooling.shoulders.opening": "2-1/2",
    "tooling.shoulders.height": "4",
}
PRESS = {"press.bore": "3-1/2", "press.relief": "2000 psi"}


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    with served(tmp_path / "store") as made:
        yield made


def begin(page: Page, name: str = "gate latch") -> None:
    """From the empty start to the part page."""
    page.open("/")  # a store without a job asks for the first part at once
    page.type("part.name", name)
    page.type("bar.thickness", "1/4")
    page.type("bar.width", "2")
    page.press("Next: the part")


def shape(page: Page) -> None:
    page.type("part.shape[1]", "5")
    page.type("part.shape[2]", "90")
    page.type("part.shape[3]", "4")


def demo(page: Page) -> str:
    """Open the demonstration; return the path of its job."""
    page.open("/")
    page.press("Open the example: a dock fender hanger")
    return page.path.removesuffix("/part")


def version(page: Page) -> str:
    return page.find("[data-version-word]").text


def drawn(page: Page) -> bool:
    return bool(page.driver.find_elements(By.CSS_SELECTOR, ".picture svg path.bar"))


def test_new_part_from_nothing_to_changed_order_and_paper(server: Server, tmp_path: Path) -> None:
    saves = tmp_path / "saved"
    saves.mkdir()
    with browser(server, saves_to=saves) as page:
        begin(page)
        assert page.says("Enter the first leg")
        shape(page)
        page.until(lambda: drawn(page))
        page.press("Add a bend and a leg")
        page.type("part.shape[4]", "45")
        page.press("Next: press")
        for name, text in PRESS.items():
            page.type(name, text)
        page.press("Next: tooling")
        for name, text in TOOLING.items():
            page.type(name, text)
        page.press("Next: bends")
        first = page.find(".order li .step").text
        assert first.startswith("Bend ")
        page.press("move down")
        assert page.find(".order li .step").text != first
        assert page.says("You chose this order.")
        page.press("Next: print")
        page.find("a[href$='sheet.pdf']").click()
        assert wait_for_file(saves, "sheet.pdf").read_bytes().startswith(b"%PDF-")
        assert page.complaints() == []


@pytest.mark.long
def test_ram_follows_the_slider_without_asking_the_server(server: Server) -> None:
    with browser(server, watched=True) as page:
        root = demo(page)
        page.open(f"{root}/bends/1")
        page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
        stroke = page.find("[data-turn]").text
        page.asked()
        slider = page.field("ram")
        seen = set()
        for key in (Keys.HOME, *[Keys.ARROW_RIGHT] * 20):
            slider.send_keys(key)
            seen.add(page.find("path.hot").get_attribute("d"))
        assert len(seen) == 21
        slider.send_keys(Keys.HOME)
        assert page.find("[data-turn]").text == "0.0°"
        slider.send_keys(Keys.END)
        assert page.find("[data-doing]").text == "off the nose"
        assert page.find("[data-turn]").text not in (stroke, "0.0°")
        assert page.asked() == set()
        assert page.field("ram").id == slider.id


def test_typing_redraws_in_place_and_keeps_the_field(server: Server) -> None:
    with browser(server) as page:
        demo(page)
        field = page.field("part.shape[1]")
        # The first drawing may be made anew just then.
        before = page.until(lambda: page.find(".picture svg").get_attribute("outerHTML"))
        page.type("part.shape[1]", "7-1/2")
        page.until(lambda: page.find(".picture svg").get_attribute("outerHTML") != before)
        assert page.driver.switch_to.active_element.id == field.id
        assert field.get_attribute("value") == "7-1/2"
        page.until(lambda: page.says("190.5 mm"))


def test_wrong_field_is_told_beneath_it_and_the_last_drawing_stays_marked(server: Server) -> None:
    with browser(server) as page:
        demo(page)
        page.type("part.shape[1]", "5-")
        wrong = "[data-field='part.shape[1]'] .wrong"
        page.until(lambda: "write one value" in page.find(wrong).text)
        assert page.field("part.shape[1]").get_attribute("aria-invalid") == "true"
        assert drawn(page)
        assert page.says("The drawing shows the last valid version of the part.")
        field = page.field("part.shape[1]")
        field.send_keys("1/2")
        page.until(lambda: page.find(wrong).text == "")
        page.until(lambda: not page.says("last valid version of the part"))


@pytest.mark.long
def test_handle_moves_its_field_by_pointer_and_by_arrow_keys(server: Server) -> None:
    with browser(server) as page:
        demo(page)
        page.until(lambda: page.find(".bench").get_attribute("data-words") == "careful")
        handle = page.find(".handle[aria-label^='Leg 1']")
        ActionChains(page.driver).drag_and_drop_by_offset(handle, -60, 0).perform()
        page.until(lambda: page.field("part.shape[1]").get_attribute("value") != "5")
        dragged = page.field("part.shape[1]").get_attribute("value")
        page.find(".handle[aria-label^='Bend 1']").send_keys(Keys.ARROW_UP)
        assert page.field("part.shape[2]").get_attribute("value") == "91"
        page.until(lambda: version(page) == "3")
        page.press("Undo")
        assert page.field("part.shape[2]").get_attribute("value") == "90"
        assert page.field("part.shape[1]").get_attribute("value") == dragged


@pytest.mark.parametrize(
    "names",
    [
        FIRST_LOOKED_AT,
        pytest.param(
            tuple(one for one in (*SHOP_PAGES, *JOB_PAGES) if one not in FIRST_LOOKED_AT),
            marks=pytest.mark.long,
        ),
    ],
    ids=["some", "all others"],
)
def test_axe_finds_nothing_nothing_runs_out_of_the_page_and_targets_are_large(
    server: Server, names: tuple[str, ...]
) -> None:
    with browser(server) as page:
        root = demo(page)
        paths = [name if name.startswith("/") else f"{root}/{name}" for name in names]
        nothing_is_in_the_way(page, paths)


def test_phone_keeps_the_drawing_on_top_while_fields_scroll(server: Server) -> None:
    with browser(server, PHONE) as page:
        demo(page)
        page.until(lambda: drawn(page))
        page.type("part.quantity", "3")
        top = page.driver.execute_script(
            "return document.querySelector('.drawing').getBoundingClientRect().top"
        )
        assert -1 <= top < 60


@pytest.mark.long
def test_keyboard_alone_gets_from_nothing_to_a_bend(server: Server) -> None:
    with browser(server) as page:

        def keys(*pressed: str) -> None:
            for one in pressed:
                page.driver.switch_to.active_element.send_keys(one)

        def tab_to(words: str) -> int:
            for tabs in range(120):
                here = page.driver.switch_to.active_element
                if words in (here.get_attribute("id"), here.text.strip().split("\n")[0]):
                    return tabs
                keys(Keys.TAB)
            raise AssertionError(f"{words} is not reached by the keyboard")

        def enter() -> None:
            before = page.find("html")
            keys(Keys.ENTER)
            page.until(lambda: page.find("html").id != before.id and page.ready())

        page.open("/")
        for name, text in (("part.name", "hasp"), ("bar.thickness", "1/4"), ("bar.width", "1")):
            tab_to(name)
            keys(text)
        tab_to("Next: the part")
        enter()
        assert tab_to("part.shape[1]") <= 3
        for name, text in (("part.shape[1]", "3"), ("part.shape[2]", "60"), ("part.shape[3]", "3")):
            tab_to(name)
            keys(text)
        tab_to("Next: press")
        enter()
        tab_to("Next: tooling")
        enter()
        for name, text in TOOLING.items():
            tab_to(name)
            keys(text)
        tab_to("Next: bends")
        enter()
        tab_to("First bend")
        enter()
        tab_to("ram")
        page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
        keys(Keys.HOME)
        assert page.find("[data-doing]").text == "first contact"


@pytest.mark.long
def test_without_scripts_every_form_works(server: Server) -> None:
    with browser(server, script=False) as page:
        begin(page)
        shape(page)
        page.press("Save")
        assert drawn(page)
        page.type("part.shape[1]", "long")
        page.press("Save")
        assert "for example 1-1/2 in" in page.find(".is-wrong .wrong").text
        assert page.field("part.shape[1]").get_attribute("value") == "long"
        page.type("part.shape[1]", "6")
        page.press("Add a bend and a leg")
        page.type("part.shape[4]", "30")  # a part that some order makes
        page.press("Add a hole")
        page.press("Next: press")
        for name, text in PRESS.items():
            page.type(name, text)
        page.press("Next: tooling")
        for name, text in TOOLING.items():
            page.type(name, text)
        page.press("Next: bends")
        page.press("move down")
        page.press("Use the best order found")
        page.press("First bend")
        assert page.find("path.hot").is_displayed()
        page.type("stands", "25")
        page.press("Work it out")
        assert "further than last time" in page.find(".answer").text


def test_server_killed_in_the_middle_of_an_edit_loses_nothing(server: Server) -> None:
    with browser(server) as page:
        root = demo(page)
        page.type("part.shape[1]", "6")
        page.until(lambda: page.says("152.4 mm"))
        server.kill()
        page.type("part.shape[3]", "4-1/4")
        page.until(lambda: page.says("No answer from the server"))
        assert page.find("[data-live]").get_attribute("data-state") == "lost"
        assert page.field("part.shape[3]").get_attribute("value") == "4-1/4"
        server.start()
        page.until(lambda: page.find("[data-live]").get_attribute("data-state") == "fresh")
        page.until(lambda: page.says("107.95 mm") or page.says("108 mm"))
        page.open(f"{root}/bar")
        page.open(f"{root}/part")
        assert page.field("part.shape[3]").get_attribute("value") == "4-1/4"
        assert page.field("part.shape[1]").get_attribute("value") == "6"


@pytest.mark.long
def test_page_left_while_the_server_was_down_finds_what_was_typed(server: Server) -> None:
    with browser(server) as page:
        root = demo(page)
        page.until(lambda: drawn(page))
        server.kill()
        page.type("part.shape[1]", "8-3/8")
        page.until(lambda: page.says("No answer from the server"))
        server.start()
        page.open(f"{root}/part")
        page.until(lambda: page.field("part.shape[1]").get_attribute("value") == "8-3/8")


@pytest.mark.long
def test_two_browsers_on_one_job_the_later_save_is_told(server: Server) -> None:
    with browser(server) as first, browser(server) as second:
        root = demo(first)
        second.open(f"{root}/part")
        first.type("part.shape[1]", "6")
        first.type("part.name", "fender hanger")
        first.until(lambda: version(first) == "2")
        second.type("part.shape[1]", "7" + Keys.TAB)
        second.until(lambda: second.says("Someone saved this job while you were typing"))
        assert second.field("part.shape[1]").get_attribute("value") == "7"
        first.open(f"{root}/part")
        assert first.field("part.shape[1]").get_attribute("value") == "6"
        second.press("Save mine as a new version")
        first.open(f"{root}/part")
        assert first.field("part.shape[1]").get_attribute("value") == "7"
        assert len(first.driver.find_elements(By.CSS_SELECTOR, ".elsewhere")) == 0


@pytest.mark.long
def test_no_request_leaves_the_server(server: Server) -> None:
    with browser(server, watched=True) as page:
        root = demo(page)
        names = JOB_PAGES
        for name in names:
            page.open(f"{root}/{name}")
        asked = {one for one in page.asked() if not one.startswith(("data:", "chrome:", "about:"))}
        assert len(asked) > len(names)
        assert [one for one in asked if not one.startswith(server.address)] == []
        assert page.complaints() == []


@pytest.mark.long
def test_press_setup_fills_in_the_pump_from_a_timed_stroke(server: Server) -> None:
    with browser(server) as page:
        begin(page)
        shape(page)
        page.press("Next: press")
        Select(page.field("press.axis")).select_by_value("level")
        for name, text in {**PRESS, "timed.distance": "4", "timed.seconds": "10"}.items():
            page.type(name, text)
        page.press("Save")
        # pi/4 x 3.5^2 x 4 in3 in 10 s is 230.9 in3 a minute, and a gallon has 231.
        assert page.field("press.pump").get_attribute("value") == "1 gpm"
