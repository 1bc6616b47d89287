"""Two devices at one job: a browser at this machine, and a phone that came in over the network."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import httpx
import pytest

sys.path.append(str(Path(__file__).parent))

from browsing import Page, browser
from network_serving import shared

TAB = "1" * 32


class Own:
    """What a browser is opened at."""

    def __init__(self, address: str) -> None:
        self.address = address


class Both:
    """A browser at this machine, a phone with a pass, and the job that both look at."""

    def __init__(self, page: Page, phone: httpx.Client, job: str) -> None:
        self.page, self.phone, self.job = page, phone, job

    def looks(self, *, left: bool = False) -> None:
        """The phone looks at the job, or has left it."""
        path = f"/live/{self.job}/now?tab={TAB}{'&left=1' if left else ''}"
        self.phone.get(path).raise_for_status()

    def mark(self) -> None:
        self.page.driver.execute_script("window.same = true")

    def is_same(self) -> bool:
        return self.page.driver.execute_script("return window.same === true") is True


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Both]:
    with shared(tmp_path_factory.mktemp("two") / "store") as (_, own, link):
        origin = link.partition("/join")[0]
        headers = {"origin": origin, "user-agent": "Mozilla/5.0 (Android 15; Mobile)"}
        phone = httpx.Client(base_url=origin, headers=headers, trust_env=False, timeout=120)
        with closing(phone), browser(Own(own)) as page:  # type: ignore[arg-type]
            phone.get(link)
            job = phone.post("/demo").headers["location"].split("/")[2]
            yield Both(page, phone, job)


def who(page: Page) -> str:
    return str(
        page.driver.execute_script("return document.querySelector('[data-who]').textContent")
    )


@pytest.mark.long
def test_a_phone_is_seen_to_come_and_to_go_and_sees_the_machine(both: Both) -> None:
    page = both.page
    page.open(f"/jobs/{both.job}/bends/1")
    both.looks()
    page.until(lambda: "phone (Android)" in who(page))
    assert page.find("[data-who]").is_displayed()
    others = both.phone.get(f"/live/{both.job}/now?tab={TAB}").json()["others"]
    assert others == "Also looking: the shop's computer."
    both.looks(left=True)
    page.until(lambda: who(page) == "")
    assert not page.find("[data-who]").is_displayed()
    page.open("/")
    page.until(lambda: both.phone.get(f"/live/{both.job}/now?tab={TAB}").json()["others"] == "")
    both.looks(left=True)


@pytest.mark.long
def test_the_step_at_the_press_follows_what_the_phone_changes(both: Both) -> None:
    page = both.page
    page.open(f"/jobs/{both.job}/bends/1")
    travel = page.find("[data-travel]").text
    both.mark()
    form = {"base": "1", "shape.count": "7", "part.shape[2]": "70"}
    assert both.phone.post(f"/jobs/{both.job}/part", data=form).status_code == 303
    page.until(lambda: not both.is_same())
    page.until(lambda: page.find("[data-travel]").text != travel)
    # A reading of the other device changes what is known of the next part, so the step is new too.
    both.mark()
    typed = {"part": "1", "bend": "1", "angle": "71", "sure": "yes"}
    assert both.phone.post(f"/jobs/{both.job}/log", data=typed).status_code == 303
    page.until(lambda: not both.is_same())
    assert page.complaints() == []


# A browser without a screen keeps none on; what a page asks of one that has is seen by this.
ASKED = """
window.asked = 0;
Object.defineProperty(navigator, "wakeLock", { value: { request: async () => {
  window.asked += 1;
  window.lock = Object.assign(new EventTarget(), { released: false });
  return window.lock;
} } });
"""


def test_the_screen_stays_on_at_the_press_and_again_after_the_phone_slept(both: Both) -> None:
    page = both.page

    def run(words: str) -> object:
        return page.driver.execute_script(words)

    named = page.driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": ASKED})
    try:
        for path in ("bends/1", "log"):
            page.open(f"/jobs/{both.job}/{path}")
            page.until(lambda: run("return asked") == 1)
            run("lock.released = true; lock.dispatchEvent(new Event('release'))")
            run("document.dispatchEvent(new Event('visibilitychange'))")
            page.until(lambda: run("return asked") == 2)
        page.open(f"/jobs/{both.job}/part")  # no page of the press
        page.until(lambda: page.find(".bench").get_attribute("data-words") == "careful")
        assert run("return asked") == 0
    finally:
        page.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", named)


def test_what_is_typed_at_the_press_stays_while_the_phone_logs(both: Both) -> None:
    page = both.page
    page.open(f"/jobs/{both.job}/log")
    page.type("angle", "70.25")
    both.mark()
    typed = {"part": "9", "bend": "1", "angle": "70.5", "sure": "yes"}
    assert both.phone.post(f"/jobs/{both.job}/log", data=typed).status_code == 303
    page.until(lambda: page.says("This job was changed elsewhere"))
    assert both.is_same()
    assert page.field("angle").get_attribute("value") == "70.25"
