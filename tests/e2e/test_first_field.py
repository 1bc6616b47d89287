"""The head of every page: one line on a phone, and the first field three tabs away."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver.common.keys import Keys

sys.path.append(str(Path(__file__).parent))

from browsing import JOB_PAGES, PHONE, SHOP_PAGES, Page, browser, resize, served

pytestmark = pytest.mark.browser
SIDE = (844, 390)  # a phone on its side
OTHER_JOB_PAGES = ("strength", "propose", "making", "money", "log/trial", "log/bar", "log/chart")
OTHER_SHOP_PAGES = ("/rack", "/crib", "/rates", "/cut", "/week", "/lots")
ANSWERS = ("/making", "/propose", "/making/change")  # what they ask for stands behind what they say
ONE_LINE = 60  # px; two lines of links take more than 80
# The first field that a person can type in or choose from, or what it is folded away behind.
FIRST = """
const fields = "main input:not([type=hidden]):not([type=file]), main select, main textarea";
const found = [...document.querySelectorAll(fields)].map((one) => {
  const folded = one.closest("details:not([open])");
  return folded ? folded.querySelector("summary") : one;
});
return found.find((one) => one.checkVisibility()) ?? null;
"""
HEAD = "return document.querySelector('header.top').getBoundingClientRect().height"
WIDE_LINKS = """
return [...document.querySelectorAll("header.top a, header.top button")]
  .filter((one) => one.checkVisibility())
  .filter((one) => { const box = one.getBoundingClientRect(); return box.right > innerWidth + 1; })
  .map((one) => one.textContent);
"""


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    with served(tmp_path_factory.mktemp("first") / "store") as server, browser(server) as made:
        yield made


@pytest.fixture(scope="module")
def paths(page: Page) -> list[str]:
    page.open("/")
    page.press("Open the example")
    root = page.path.removesuffix("/part")
    of_job = (*JOB_PAGES, *OTHER_JOB_PAGES)
    return [*(f"{root}/{one}" for one in of_job), *SHOP_PAGES, *OTHER_SHOP_PAGES]


@pytest.mark.long
def test_the_first_field_of_every_page_is_three_tabs_away(page: Page, paths: list[str]) -> None:
    with_fields, too_far = 0, []
    for path in paths:
        if path.endswith(ANSWERS) or "/bends/" in path:
            continue
        page.open(path)
        first = page.driver.execute_script(FIRST)
        if first is None:
            continue
        with_fields += 1
        if page.driver.switch_to.active_element == first:  # has the focus at once
            continue
        page.driver.execute_script("document.activeElement.blur()")
        reached = []
        for _ in range(3):
            page.driver.switch_to.active_element.send_keys(Keys.TAB)
            reached.append(page.driver.switch_to.active_element.get_attribute("outerHTML")[:120])
            if page.driver.switch_to.active_element == first:
                break
        else:
            too_far.append((path[-12:], first.get_attribute("id")))
    assert too_far == []
    assert with_fields >= 12


@pytest.mark.parametrize(
    ("size", "each"),
    [
        (PHONE, 5),
        pytest.param(PHONE, 1, marks=pytest.mark.long),
        pytest.param(SIDE, 1, marks=pytest.mark.long),
    ],
)
def test_the_header_is_one_line_on_a_phone(
    page: Page, paths: list[str], size: tuple[int, int], each: int
) -> None:
    resize(page, size)
    for path in paths[::each]:
        page.open(path)
        assert page.driver.execute_script(HEAD) <= ONE_LINE, path
        assert page.driver.execute_script(WIDE_LINKS) == [], path


def test_the_pages_of_a_job_are_behind_one_button_on_a_phone(page: Page, paths: list[str]) -> None:
    resize(page, PHONE)
    page.open(paths[0])
    assert not page.find("#ways").is_displayed()
    page.find(".here").click()
    links = [one.text for one in page.driver.find_elements("css selector", "#ways a")]
    assert links == ["Part", "Bar", "Press", "Tooling", "Bends", "Print", "Log", "History"]
    page.press("Press")
    assert page.path.endswith("/press")
    assert page.find(".here").text.endswith("Press")
