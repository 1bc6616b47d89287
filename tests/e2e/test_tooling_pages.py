"""Tooling and making in a real browser: a member mended, a die found on the rack, made."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import ezdxf
import pytest
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

sys.path.append(str(Path(__file__).parent))

from browsing import (
    PHONE,
    Page,
    Server,
    browser,
    nothing_is_in_the_way,
    served,
    wait_for_file,
)

pytestmark = pytest.mark.browser
EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
DIE = Path(__file__).parents[1] / "unit" / "data" / "thin-cheek-die.toml"
BRACKET = EXAMPLES / "cleat-bracket.toml"
RACK = EXAMPLES / "dock-rack.toml"
# A rack of one steel in many sizes, so that a search takes long enough to be looked at.
MANY = 'format = 1\nunits = "inch"\n' + "".join(
    f'[[stock]]\nkind = "{kind}"\nsize = "{n}/16{wide}"\nlength = 40\nmaterial = "A36"\n'
    for n in range(6, 34)
    for kind, wide in (("shaft", ""), ("plate", " x 8"))
)


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    with served(tmp_path / "store") as made:
        yield made


def bring(page: Page, file: Path, where: str = "/") -> str:
    """Bring a file in; return the path of the job that came of it."""
    page.open(where)
    page.field("file").send_keys(str(file))
    page.press("Import")
    return page.path.removesuffix("/part")


def found(page: Page, css: str) -> list[str]:
    return [one.text for one in page.driver.find_elements(By.CSS_SELECTOR, css)]


def percent(text: str) -> float:
    return float(text.removesuffix(" %"))


def version(page: Page) -> int:
    return int(page.find("[data-version-word]").text)


def test_weakest_member_stands_first_and_its_button_mends_it(server: Server) -> None:
    with browser(server) as page:
        root = bring(page, DIE)
        page.open(f"{root}/strength")
        shares = [percent(one) for one in found(page, ".members > li .percent")]
        assert shares == sorted(shares, reverse=True)
        assert shares[0] > 100 > shares[1]
        assert found(page, ".members > li.over .name strong") == ["die body"]
        assert page.says("A planning estimate, not a certification")
        demand, capacity = found(page, ".members > li.over .figures .value")
        asked, allowed = (float(one.removesuffix(" ksi")) for one in (demand, capacity))
        assert 100 * asked / allowed == pytest.approx(shares[0], abs=0.7)
        page.find(".members .why summary").click()
        sums = page.find(".members .why").text
        assert "H h/W" in sums
        assert "AISC 360 D2 and H1, first yield" in sums
        before = version(page)
        page.press("Make the die body's cheek")
        assert page.driver.find_elements(By.CSS_SELECTOR, ".members > li.over") == []
        assert percent(found(page, ".members .percent")[0]) <= 100
        assert version(page) == before + 1
        assert page.says("MAX FORCE")
        page.press("Undo")
        assert page.path.endswith("/strength")
        assert found(page, ".members > li.over .name strong") == ["die body"]
        assert page.complaints() == []


@pytest.mark.long
def test_member_typed_on_the_page_counts_at_once_and_a_slip_stands_beneath_it(
    server: Server,
) -> None:
    with browser(server) as page:
        root = bring(page, DIE)
        page.open(f"{root}/strength#tooling.members.body.cheek")
        cheek = "tooling.members.body.cheek"
        page.until(lambda: page.field(cheek).is_displayed())  # the address opens its member
        page.type("tooling.members.body.floor", "1-1/4")  # it bends with its cheeks
        page.type(cheek, "1-1/4")
        page.until(lambda: not page.driver.find_elements(By.CSS_SELECTOR, ".members > li.over"))
        assert page.find(f"[data-field='{cheek}'] .other").text == "31.75 mm"
        page.type(cheek, "1 inhc")
        page.until(lambda: page.find(f"[data-field='{cheek}'] .wrong").text != "")
        assert page.find(f"[data-field='{cheek}'] .wrong").text.count(".") == 1
        page.field(cheek).send_keys(Keys.TAB)
        page.open(f"{root}/strength")
        page.until(lambda: page.field(cheek).get_attribute("value") == "1 inhc")
        page.until(lambda: page.field(cheek).is_displayed())  # what is wrong is not folded away


@pytest.mark.long
def test_nose_that_fits_no_carrier_is_one_sentence_at_the_carrier(server: Server) -> None:
    with browser(server, script=False) as page:
        root = bring(page, DIE)
        page.open(f"{root}/strength#tooling.members.carriers.width")
        page.type("tooling.members.carriers.width", "3/4")
        page.press("Save and check")
        wrong = [one for one in found(page, ".field .wrong") if one]
        assert len(wrong) == 1
        assert "fits no hole in a carrier this wide" in wrong[0]
        assert page.field("tooling.members.carriers.width").get_attribute("value") == "3/4"


@pytest.mark.long
def test_tooling_from_the_rack_with_a_reload_on_the_way_taken_into_the_job(
    server: Server, tmp_path: Path
) -> None:
    many = tmp_path / "rack.toml"
    many.write_text(MANY, encoding="utf-8")
    with browser(server) as page:
        root = bring(page, BRACKET)
        page.open(f"{root}/part")
        page.until(lambda: page.driver.find_elements(By.CSS_SELECTOR, ".results .notes summary"))
        page.find(".results .notes summary").click()
        page.press("find tooling from the rack")
        page.press("Find tooling")
        assert "The rack is empty" in page.find("[role=alert]").text
        bring(page, many, "/rack")
        page.open(f"{root}/propose")
        page.press("Find tooling")
        page.until(lambda: percent(page.find("[data-percent]").text) > 0)
        page.open(f"{root}/part")  # the server answers meanwhile
        page.open(f"{root}/propose")
        assert page.find("progress").get_attribute("value")
        page.press("Stop the search")
        assert page.says("You stopped it")
        bring(page, RACK, "/rack")
        page.open(f"{root}/propose")
        page.press("Find tooling")
        page.driver.refresh()
        page.until(lambda: page.driver.find_elements(By.CSS_SELECTOR, ".offers article"))
        costs = [float(one.removeprefix("cost ")) for one in found(page, ".offers .cost strong")]
        assert len(costs) == 3
        assert costs == sorted(costs)
        assert page.says("Why others were ruled out")
        page.press("Use this tooling")
        assert page.path.endswith("/strength")
        assert version(page) == 2
        assert page.driver.find_elements(By.CSS_SELECTOR, ".members > li.over") == []
        page.open(f"{root}/propose")  # found again, and still from the same part, press and rack
        assert [
            float(one.removeprefix("cost ")) for one in found(page, ".offers .cost strong")
        ] == costs
        assert not page.says("has changed since this search")


@pytest.mark.long
def test_search_stopped_with_the_server_is_told_and_without_scripts_it_is_found(
    server: Server, tmp_path: Path
) -> None:
    many = tmp_path / "rack.toml"
    many.write_text(MANY, encoding="utf-8")
    with browser(server, PHONE, script=False) as page:
        root = bring(page, BRACKET)
        bring(page, many, "/rack")
        page.open(f"{root}/propose")
        page.press("Find tooling")
        assert page.says("Getting ready") or page.says("Trying every shaft")
        server.kill()
        server.start()
        page.open(f"{root}/propose")
        assert page.says("The server stopped during the search")
        bring(page, RACK, "/rack")
        page.open(f"{root}/propose")
        page.press("Find tooling")
        page.until(lambda: page.says("Drawbacks"))  # the page asks anew by itself
        assert len(found(page, ".offers article")) == 3


@pytest.mark.long
def test_hole_table_of_the_page_is_that_of_the_drawing(server: Server, tmp_path: Path) -> None:
    saves = tmp_path / "saved"
    saves.mkdir()
    with browser(server, saves_to=saves) as page:
        root = bring(page, DIE)
        page.open(f"{root}/making")
        (piece,) = page.driver.find_elements(By.XPATH, "//section[h2[.='floor']]")
        cells = [
            [float(one.text) for one in piece.find_elements(By.CSS_SELECTOR, f"[data-{axis}]")]
            for axis in "xy"
        ]
        table = sorted(zip(*cells, strict=True))
        assert len(table) == 4
        piece.find_element(By.CSS_SELECTOR, "a[href$='.dxf']").click()
        drawing = wait_for_file(saves, "floor.dxf")
        points = ezdxf.readfile(drawing).modelspace().query("POINT")  # type: ignore[attr-defined]
        drawn = sorted((abs(one.dxf.location.x), abs(one.dxf.location.y)) for one in points)
        assert len(drawn) == len(table)
        for shown, there in zip(table, drawn, strict=True):
            assert shown == pytest.approx(there, abs=0.0006)  # the table has thousandths
        page.find("a[href$='making.pdf']").click()
        assert wait_for_file(saves, "making.pdf").read_bytes().startswith(b"%PDF-")


@pytest.mark.long
def test_crib_without_a_reamer_tells_the_ways_round(server: Server) -> None:
    with browser(server, script=False) as page:
        root = bring(page, DIE)
        page.open("/crib")
        page.press("Save")
        assert page.says("The tool crib is empty")
        page.type("crib.drills", "fractional 1/16 to 1/2 by 1/64")
        page.press("Save")
        page.open(f"{root}/making")
        assert page.says("No cutter for")
        assert "nose carrier, A1" in found(page, ".said .warning strong")
        page.open("/crib")
        page.type("crib.drills", "fractional 1/2 to 1/16 by 1/64")
        page.press("Save")
        assert "does not rise" in page.find(".is-wrong .wrong").text
        page.open(f"{root}/making")
        assert page.find(".said .refusal").text.count(".") == 1


@pytest.mark.long
def test_keyboard_alone_mends_the_weakest_member(server: Server) -> None:
    with browser(server) as page:
        root = bring(page, DIE)
        page.open(f"{root}/strength")
        for _ in range(40):
            page.driver.switch_to.active_element.send_keys(Keys.TAB)
            if page.driver.switch_to.active_element.text.startswith("Make the die body's cheek"):
                break
        before = page.find("html")
        page.driver.switch_to.active_element.send_keys(Keys.ENTER)
        page.until(lambda: page.find("html").id != before.id and page.ready())
        assert page.driver.find_elements(By.CSS_SELECTOR, ".members > li.over") == []


@pytest.mark.long
def test_nothing_is_in_the_way_on_pages_about_tooling(server: Server) -> None:
    with browser(server) as page:
        root = bring(page, BRACKET)
        bring(page, RACK, "/rack")
        page.open(f"{root}/propose")
        page.press("Find tooling")
        page.until(lambda: page.driver.find_elements(By.CSS_SELECTOR, ".offers article"))
        nothing_is_in_the_way(page, [f"{root}/propose"], unfolded=True)
        root = bring(page, DIE)
        paths = (f"{root}/strength", f"{root}/making", "/rack", "/crib")
        nothing_is_in_the_way(page, paths, unfolded=True)
