"""Bends played in a browser: on past the stroke until the part is off, or shown to be locked on."""

from __future__ import annotations

import re
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

sys.path.append(str(Path(__file__).parent))

from browsing import PHONE, Page, Server, browser, served

from strapwright.store import import_one, open_store

pytestmark = pytest.mark.browser
ROOT = Path(__file__).resolve().parents[2]
HANGER = ROOT / "src" / "strapwright" / "service" / "demo_jobs" / "fender-hanger.toml"
RING, SADDLE = (
    ROOT / "docs" / "examples" / f"{n}.toml" for n in ("winch-drum-ring", "pipe-saddle")
)


def wait_for_search(server: Server, item: str) -> None:
    """Wait for the end of the search beside the pages of a job, where one goes on."""
    address = f"{server.address.rstrip('/')}/jobs/{item}/bends/search/events"
    with urllib.request.urlopen(address, timeout=120) as events:  # noqa: S310 - its own server
        events.read()


@contextmanager
def bend_of(folder: Path, job: Path, bend: str, **how: bool | tuple[int, int]) -> Iterator[Page]:
    """Open a page beneath ``bends`` of a job file in a store of its own."""
    with open_store(folder / "store") as store:
        item = import_one(store, job.name, job.read_bytes(), datetime.now(UTC)).id
    with (
        served(folder / "store") as server,
        browser(server, **how) as page,  # type: ignore[arg-type]
    ):
        page.open(f"/jobs/{item}/bends/{bend}")
        wait_for_search(server, item)  # its end makes the page anew
        page.open(f"/jobs/{item}/bends/{bend}")
        if how.get("script", True):
            page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
        yield page
        assert page.complaints() == []


def height(page: Page, what: str) -> float:
    """How far down a moving thing stands, in mm of the picture."""
    moved = page.find(f"[data-{what}]").get_attribute("transform") or ""
    found = re.search(r"translate\(\S+ (\S+)\)", moved)
    return float(found[1]) if found else 0.0


def shown(page: Page, css: str) -> bool:
    return any(one.is_displayed() for one in page.driver.find_elements(By.CSS_SELECTOR, css))


@pytest.mark.long
def test_past_the_stroke_the_ram_opens_and_leaves_the_part(tmp_path: Path) -> None:
    with bend_of(tmp_path, HANGER, "1", watched=True) as page:
        slider = page.field("ram")
        page.asked()
        bar, down = page.find("[data-bar]").get_attribute("d"), height(page, "nose")
        slider.send_keys(Keys.END)
        assert page.find("[data-doing]").text == "off the nose"
        assert slider.get_attribute("aria-valuetext").startswith("off the nose, 90.0°")
        assert height(page, "nose") < down - 80  # mm; its hook stands higher than that
        assert page.find("[data-bar]").get_attribute("d") != bar  # it opened by its springback
        assert height(page, "part") == 0.0
        assert page.says("It stays on the shoulders, or drops off the nose onto them")
        assert page.asked() == set()


def test_the_ram_stays_where_it_stood_when_the_page_is_made_anew(tmp_path: Path) -> None:
    with bend_of(tmp_path, HANGER, "1") as page:
        page.field("ram").send_keys(Keys.HOME, *[Keys.ARROW_RIGHT] * 7)
        turn = page.find("[data-turn]").text
        page.driver.execute_script(
            "window.old = true;"
            "const { src } = document.querySelector('script[src$=\"follow.js\"]');"
            "import(src.replace('follow', 'remade')).then((made) => made.reload());"
        )
        page.until(lambda: not page.driver.execute_script("return window.old") and page.ready())
        page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
        assert page.field("ram").get_attribute("value") == "7"
        assert page.find("[data-turn]").text == turn != "0.0\N{DEGREE SIGN}"


def test_marker_on_the_curve_follows_the_ram(tmp_path: Path) -> None:
    with bend_of(tmp_path, HANGER, "1", watched=True) as page:
        slider = page.field("ram")
        page.asked()
        marker = "[data-curve=wide] .marker"

        def spot() -> tuple[float, float]:
            found = page.find(marker)
            return float(found.get_attribute("cx") or 0), float(found.get_attribute("cy") or 0)

        spots = [spot()]  # as the server drew it, at the stop
        for key in (*[Keys.ARROW_LEFT] * 10, *[Keys.ARROW_RIGHT] * 10):
            slider.send_keys(key)
            spots.append(spot())
        across = [x for x, _ in spots]
        assert across[:11] == sorted(across[:11], reverse=True)
        assert across[0] - across[10] > 30
        assert spots[20] == pytest.approx(spots[0], abs=0.06)
        assert page.asked() == set()


@pytest.mark.long
def test_locked_on_is_hatched_and_said(tmp_path: Path) -> None:
    with bend_of(tmp_path, RING, "4", dark=False, size=PHONE) as page:
        assert page.find("[data-held]").get_attribute("visibility") == "hidden"
        page.field("ram").send_keys(Keys.END)
        assert page.find("[data-doing]").text == "trapped on the nose"
        assert page.find("[data-held]").get_attribute("visibility") == "visible"
        assert shown(page, "[data-held] .hatched")
        assert "slide the nose out endways" in page.find(".how").text
        assert height(page, "nose") - height(page, "part") > 0  # it hangs on the nose


@pytest.mark.long
def test_play_runs_to_the_end_and_a_key_on_the_slider_stops_it(tmp_path: Path) -> None:
    with bend_of(tmp_path, HANGER, "whole") as page:
        slider, play = page.field("ram"), page.find("[data-play]")
        seen = set()

        def at_end() -> bool:
            seen.add(page.find("[data-bend]").text)
            return slider.get_property("value") == slider.get_property("max")

        slider.send_keys(Keys.HOME)
        play.send_keys(Keys.ENTER)
        page.until(at_end)
        assert seen == {"bend 1", "bend 2", "bend 3"}
        page.until(lambda: play.text == "Play")
        play.click()
        page.until(lambda: 2 < int(slider.get_property("value")) < 40)  # type: ignore[arg-type]
        slider.send_keys(Keys.HOME)
        assert play.text == "Play"
        assert slider.get_property("value") == "0"


@pytest.mark.long
def test_where_motion_is_not_wanted_play_goes_from_mark_to_mark(tmp_path: Path) -> None:
    with bend_of(tmp_path, HANGER, "1", calm=True) as page:
        slider = page.field("ram")
        slider.send_keys(Keys.HOME)
        page.find("[data-play]").click()
        seen = []

        def at_end() -> bool:
            seen.append(page.find("[data-doing]").text)
            return seen[-1] == "off the nose"

        page.until(at_end)
        assert set(seen) == {"first contact", "full stroke, under load", "released", "off the nose"}


@pytest.mark.long
def test_without_scripts_pictures_in_a_strip_tell_the_same(tmp_path: Path) -> None:
    with bend_of(tmp_path, RING, "4", script=False) as page:
        assert not shown(page, "[data-slider], [data-play]")
        said = [one.text for one in page.driver.find_elements(By.CSS_SELECTOR, ".strip li span")]
        assert [one.rsplit(" ", 1)[0] for one in said] == [
            "first contact",
            "full stroke, under load",
            "released",
            "the ram goes back and carries the part",
            "trapped on the nose",
        ]
        assert shown(page, ".strip li:last-child .hatched")
        assert not shown(page, ".strip li:first-child .hatched")


@pytest.mark.long
def test_a_row_is_played_through_every_hit(tmp_path: Path) -> None:
    with bend_of(tmp_path, SADDLE, "2") as page:
        # As an arrow key moves it, which other tests press.
        told = page.driver.execute_script(
            "const ram = document.getElementById('ram'), told = [];"
            "for (ram.value = 0; ; ram.stepUp()) {"
            "  ram.dispatchEvent(new Event('input', {bubbles: true}));"
            "  told.push([document.querySelector('[data-doing]').textContent.trim(),"
            "    document.querySelector('[data-bar]').getAttribute('d')]);"
            "  if (ram.value === ram.max) return told;"
            "}"
        )
        seen, bars = [doing for doing, _ in told], {bar for _, bar in told}
        hits = [one for one in seen if one.endswith("full stroke, under load")]
        assert hits == [f"hit {n} of 11, full stroke, under load" for n in range(1, 12)]
        assert len(bars) > 0.8 * len(seen)  # at touch it lies as it was let go, moved on
        assert page.find("[data-turn]").text.startswith("120")  # as the file states it
