"""A page that is never older than what is typed without a word; tabs that follow one another."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver.common.keys import Keys

sys.path.append(str(Path(__file__).parent))

from browsing import PHONE, WIDE, Page, browser, resize, served

pytestmark = pytest.mark.browser
LEG = "part.shape[1]"
# The next draft that is sent comes in after all the rest, as through a slow line.
HELD = """
const ours = window.fetch;
window.fetch = (where, how) => {
  if (!String(where).endsWith("/rest")) return ours(where, how);
  window.fetch = ours;
  return new Promise(() => { window.release = async () => {
    window.released = (await ours(where, { ...how, signal: undefined })).status;
  }; });
};
"""
# The answer with the next drawing comes in after all the rest.
HELD_ANSWER = """
const ours = window.fetch;
window.fetch = async (where, how) => {
  const answer = await ours(where, how);
  if (!String(where).endsWith("/drawing")) return answer;
  window.fetch = ours;
  await new Promise((done) => { window.release = done; });
  return answer;
};
"""
# How often a tab kept what is typed in it.
COUNTED = """
const set = Storage.prototype.setItem;
window.kept = 0;
Storage.prototype.setItem = function (...what) { window.kept += 1; set.apply(this, what); };
"""


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """One server and one browser for all of these."""
    with served(tmp_path_factory.mktemp("following") / "store") as server, browser(server) as made:
        yield made


def job(page: Page) -> str:
    """Begin a part of its own and open it; return its address."""
    page.open("/new")
    for name, text in {"part.name": "cleat", "bar.thickness": "1/4", "bar.width": "1"}.items():
        page.type(name, text)
    page.press("Next")
    for name, text in {LEG: "5", "part.shape[2]": "90", "part.shape[3]": "4" + Keys.TAB}.items():
        page.type(name, text)
    page.until(lambda: version(page) > 1 and bench(page, "words") == "careful")
    return page.path


def bench(page: Page, what: str) -> str:
    return page.find("[data-live]").get_attribute(f"data-{what}") or ""


def version(page: Page) -> int:
    return int(page.find("[data-version-word]").text)


def all_saved(page: Page, before: int) -> bool:
    """Whether a later version holds all that was typed: the browser forgets what it kept of it."""
    kept = page.driver.execute_script("return localStorage.getItem('typed ' + location.pathname)")
    return kept is None and version(page) > before


@pytest.mark.long
def test_the_drawing_of_another_width_is_asked_for_anew(page: Page) -> None:
    job(page)
    page.type(LEG, "7-1/8")
    page.until(lambda: bench(page, "words") == "careful")
    resize(page, PHONE)
    try:
        phone = "return document.querySelector('[data-size=phone]').textContent"
        page.until(lambda: "7 1\u20448" in page.driver.execute_script(phone).replace("\u2009", " "))
        assert bench(page, "age") == ""
        assert page.find(".handle[aria-label^='Leg 1']").is_displayed()
    finally:
        resize(page, WIDE)


@pytest.mark.long
def test_a_server_that_stands_still_is_told_with_the_values_that_are_shown(page: Page) -> None:
    job(page)
    before = version(page)
    assert page.server.process is not None
    page.server.process.send_signal(signal.SIGSTOP)
    try:
        page.type(LEG, "6" + Keys.TAB)
        page.until(lambda: page.says("This still shows Leg 1: 5."))
        assert bench(page, "age") == "old"
        page.until(lambda: page.says("No answer from the server"))  # after five seconds
        page.type("part.shape[3]", "4-1/2" + Keys.TAB)
    finally:
        page.server.process.send_signal(signal.SIGCONT)
    page.until(lambda: bench(page, "state") == "fresh" and page.says("114.3 mm"))
    assert bench(page, "age") == ""
    page.until(lambda: version(page) > before)  # saving goes on, though one was lost
    page.driver.refresh()
    assert page.field(LEG).get_attribute("value") == "6"
    assert page.field("part.shape[3]").get_attribute("value") == "4-1/2"
    assert not page.driver.find_elements("css selector", ".elsewhere")


def test_a_draft_that_comes_late_neither_stands_against_its_own_browser_nor_undoes_it(
    page: Page,
) -> None:
    where, before = job(page), version(page)
    page.driver.execute_script(HELD)
    page.type(LEG, "6")
    page.until(lambda: page.driver.execute_script("return typeof window.release") == "function")
    page.type(LEG, "8")
    page.type("part.shape[3]", "5")  # leaves the field, which saves it
    page.until(lambda: version(page) == before + 1)
    page.until(lambda: page.says("127 mm"))
    page.driver.execute_script("window.release()")
    page.until(lambda: page.driver.execute_script("return window.released") == 200)
    page.open("/")
    page.open(where)
    assert page.field(LEG).get_attribute("value") == "8"
    assert page.field("part.shape[3]").get_attribute("value") == "5"
    assert not page.driver.find_elements("css selector", ".elsewhere")


@pytest.mark.long
def test_an_answer_from_before_a_saving_does_not_take_its_version_back(page: Page) -> None:
    job(page)
    before = version(page)
    page.driver.execute_script(HELD_ANSWER)
    page.type(LEG, "6")
    page.until(lambda: page.driver.execute_script("return typeof window.release") == "function")
    page.field(LEG).send_keys(Keys.TAB)
    page.until(lambda: version(page) == before + 1)
    page.driver.execute_script("window.release()")
    page.until(lambda: bench(page, "words") == "careful")
    assert version(page) == before + 1
    assert page.find("[data-version]").get_attribute("value") == str(before + 1)


@pytest.mark.long
def test_two_tabs_of_one_job_follow_each_other_and_never_stand_against_each_other(
    page: Page,
) -> None:
    where, before = job(page), version(page)
    page.driver.execute_script(COUNTED)
    first = page.driver.current_window_handle
    page.driver.switch_to.new_window("tab")
    second = page.driver.current_window_handle
    page.open(where)
    page.type(LEG, "6")
    page.driver.switch_to.window(first)
    page.until(lambda: page.field(LEG).get_attribute("value") == "6")
    page.until(lambda: page.says("152.4 mm"))
    page.driver.switch_to.window(second)
    page.type("part.shape[3]", "3-1/2" + Keys.TAB)
    page.until(lambda: all_saved(page, before))
    saved = version(page)
    page.driver.switch_to.window(first)
    page.until(lambda: version(page) == saved)
    assert page.field("part.shape[3]").get_attribute("value") == "3-1/2"
    # What it heard is kept where it was typed; kept here, it would outlast its saving there.
    assert page.driver.execute_script("return window.kept") == 0
    page.type("part.shape[2]", "60" + Keys.TAB)  # on top of what the other tab saved
    page.until(lambda: all_saved(page, saved))
    assert not page.driver.find_elements("css selector", ".elsewhere")
    page.driver.switch_to.window(second)
    page.until(lambda: page.field("part.shape[2]").get_attribute("value") == "60")
    page.press("Add a bend and a leg")
    page.driver.switch_to.window(first)
    page.until(lambda: page.driver.find_elements("id", "part.shape[5]"))
    assert page.field("part.shape[3]").get_attribute("value") == "3-1/2"
    page.driver.switch_to.window(second)
    page.driver.close()
    page.driver.switch_to.window(first)
    assert page.complaints() == []


@pytest.mark.long
def test_readings_typed_on_the_log_stay_when_another_tab_saves(page: Page) -> None:
    page.open("/")
    page.press("Open the example: a dock fender hanger")
    root = page.path.removesuffix("/part")
    page.open(f"{root}/log")
    page.type("angle", "88.5" + Keys.TAB)
    page.type("gauge", "410")
    # The hands go back to the press: nothing on the page is being typed in.
    page.driver.execute_script("document.activeElement.blur(); window.same = true;")
    first = page.driver.current_window_handle
    page.driver.switch_to.new_window("tab")
    page.open(f"{root}/part")
    before = version(page)
    page.type("part.quantity", "7" + Keys.TAB)
    page.until(lambda: all_saved(page, before))
    page.driver.close()
    page.driver.switch_to.window(first)
    page.until(lambda: page.says("This job was changed elsewhere"))
    assert page.driver.execute_script("return window.same") is True
    assert page.field("angle").get_attribute("value") == "88.5"
    assert page.field("gauge").get_attribute("value") == "410"
    assert page.complaints() == []


def test_readings_outlive_a_server_that_is_away(page: Page) -> None:
    """Typed at the press; the phone sleeps, the server is gone and comes back: no digit is lost."""
    page.open("/")
    page.press("Open the example: a dock fender hanger")
    address = f"{page.path.removesuffix('/part')}/log"
    page.open(address)
    page.type("angle", "87.25")
    page.server.kill()
    page.driver.get("about:blank")
    page.server.start()
    page.open(address)
    assert page.field("angle").get_attribute("value") == "87.25"
    page.press("Keep, next bend")
    if page.driver.find_elements("name", "sure"):  # far from what is expected: asked about
        page.press("It is right")
    page.until(lambda: page.says("Kept"))
    assert page.field("angle").get_attribute("value") == ""
    # The phone drops the page that told so and asks for it again: the next reading is kept too.
    page.type("angle", "44.5")
    page.driver.refresh()
    assert page.field("angle").get_attribute("value") == "44.5"


def test_what_a_person_folded_out_stays_so_when_figures_are_set_anew(page: Page) -> None:
    job(page)
    notes = ".results .notes"
    page.until(lambda: page.driver.find_elements("css selector", notes))
    page.find(f"{notes} summary").click()
    shown = f"document.querySelector({notes!r}).old"
    page.driver.execute_script(f"{shown} = true")
    page.type(LEG, "6" + Keys.TAB)
    page.until(lambda: not page.driver.execute_script(f"return {shown}"))
    assert page.find(f"{notes} li").is_displayed()


@pytest.mark.long
def test_what_a_person_folded_out_stays_so_when_another_tab_makes_the_page_anew(
    page: Page,
) -> None:
    page.open("/")
    page.press("Open the example: a dock fender hanger")
    root = page.path.removesuffix("/part")
    page.driver.execute_script("localStorage.clear()")  # what another test left typed there
    page.open(f"{root}/log")
    page.driver.execute_script("window.old = true")
    page.find("details.more > summary").click()
    first = page.driver.current_window_handle
    page.driver.switch_to.new_window("tab")
    page.open(f"{root}/part")
    page.type("part.quantity", "9" + Keys.TAB)
    page.driver.switch_to.window(first)
    page.until(lambda: not page.driver.execute_script("return window.old") and page.ready())
    assert page.field("travel").is_displayed()
