"""What commands do beside logging, on pages: correct a line, change the tooling, take all files."""

from __future__ import annotations

import html
import io
import math
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from test_web import PORT, Browser

from page_texts import page_texts
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan_values import Plan
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.plan_files import plan_files
from strapwright.service.shop_log.log_commands import known_in
from strapwright.service.shop_log.log_text import known_words
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store
from strapwright.web import create_app, downloads


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    with open_store(tmp_path_factory.mktemp("lines") / "store") as store:
        yield Workshop(store)


@pytest.fixture(scope="module")
def client(shop: Workshop) -> Browser:
    return Browser(create_app(shop, PORT))


@pytest.fixture(scope="module")
def root(client: Browser) -> str:
    return str(client.post("/demo", follow=False).headers["location"]).removesuffix("/part")


def alert(page: str) -> str:
    return html.unescape(re.findall(r'role="alert">(.*?)</p>', page)[0])


def test_a_line_is_corrected_left_out_and_counted_again_and_nothing_is_lost(
    client: Browser, shop: Workshop, root: str
) -> None:
    job = root.rpartition("/")[2]
    typed = {"part": "1", "bend": "1", "angle": "88", "gauge": "410", "sure": "yes"}
    client.post(f"{root}/log", data=typed)
    (entry,) = shop.store.log.lines(job)
    line = str(entry.line)
    # An angle is told with its sign, and stands in its field as it was typed.
    assert "1: part 1, bend 1: angle 88°, gauge 410" in client.get(f"{root}/log").text
    assert "angle 88°" in client.get(f"{root}/log/lines").text
    form = client.get(f"{root}/log/lines?line={line}").text
    assert re.search(r'name="angle" value="88"', form)
    assert "inches and psi" in form
    said = {"line": line, "angle": "85", "gauge": "410", "counted": "yes"}
    said["why"] = "read upside down"
    # A figure that cannot be is asked about as a new reading is; what was asked once is answered.
    asked = client.post(f"{root}/log/lines", data={**said, "angle": "8.5"})
    assert asked.status_code == 200
    assert 'name="sure" value="yes"' in asked.text
    assert 'name="angle" value="8.5"' in asked.text
    assert len(shop.store.log.states(entry.line)) == 1
    plain = client.post(f"{root}/log/lines", data={**said, "angle": "88", "note": "warm"}).text
    assert "was corrected" in plain
    page = client.post(f"{root}/log/lines", data={**said, "sure": "yes"}).text
    assert "was corrected" in page
    assert "read upside down" in page
    now, _, before = shop.store.log.states(entry.line)
    assert now.figures["free"] == pytest.approx(math.radians(85))
    assert now.figures["gauge"] == before.figures["gauge"]  # not read again
    assert before.figures["free"] == pytest.approx(math.radians(88))
    client.post(f"{root}/log/lines", data={**said, "counted": "no"})
    assert shop.store.log.lines(job)[0].counted is False
    assert "not counted" in client.get(f"{root}/log/lines").text
    client.post(f"{root}/log/lines", data={**said, "counted": "yes"})
    assert shop.store.log.lines(job)[0].counted is True
    for wrong, words in (
        ({**said, "angle": "eighty"}, "Angle"),
        (said, "nothing is to be changed"),
        ({**said, "line": "99", "angle": "80"}, "no such line"),
    ):
        refused = client.post(f"{root}/log/lines", data=wrong)
        assert refused.status_code == 422
        assert alert(refused.text)
        assert words.casefold() in alert(refused.text).casefold() or words == "Angle"
    assert len(shop.store.log.states(entry.line)) == 5
    # A line of another job is not reached from here.
    other = client.post(f"{root}/copy", follow=False).headers["location"].removesuffix("/part")
    refused = client.post(f"{other}/log/lines", data={**said, "angle": "70"})
    assert refused.status_code == 422
    assert "another job" in alert(refused.text)
    assert client.get(f"{other}/log/lines?line={line}").text.count('name="angle"') == 0


def test_all_files_of_a_plan_are_those_that_the_command_writes(
    client: Browser, root: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    written: dict[str, bytes] = {}

    def as_by_the_command(made: Plan, bars: str = "") -> dict[str, bytes]:
        written.update(plan_files(made, bars))
        return written

    monkeypatch.setattr(downloads, "plan_files", as_by_the_command)
    raw = client.get(f"{root}/files/plan.zip").content
    with zipfile.ZipFile(io.BytesIO(raw)) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    assert files == written
    assert {"blank.dxf", "sheet.pdf", "plan.json", "part.light.svg"} < set(files)
    assert files["plan.json"] == client.get(f"{root}/files/plan.json").content


def test_the_press_is_changed_from_one_tooling_to_another_by_a_card(
    client: Browser, root: str
) -> None:
    text = (JOBS / f"{NAMES[1]}.toml").read_bytes()
    other = client.post("/bring", files={"file": ("other.toml", text)}, follow=False)
    before = other.headers["location"].split("/")[2]
    page = client.get(f"{root}/making/change", params={"before": before})
    assert page.status_code == 200
    words = html.unescape(re.sub(r"<[^>]+>", " ", page.text))
    assert "Comes off" in words
    assert "Goes on" in words
    raw = client.get(f"{root}/making/change.pdf", params={"before": before}).content
    text_of = " ".join(page_texts(raw))
    assert "Check" in text_of
    assert client.get(f"{root}/making/change", params={"before": "0" * 32}).status_code == 404
    assert client.get(f"{root}/making/change.pdf", params={"before": "../x"}).status_code == 404


def test_what_was_learned_stands_on_a_page_with_the_lines_that_moved_it(
    tmp_path: Path,
) -> None:
    with open_store(tmp_path / "store") as store:
        _learned_page(Workshop(store))


def _learned_page(shop: Workshop) -> None:
    client = Browser(create_app(shop, PORT))
    at = str(client.post("/demo", follow=False).headers["location"]).removesuffix("/part")
    job = at.rpartition("/")[2]
    for part, (angle, gauge) in enumerate(((88, 410), (87, 405)), start=1):
        typed = {"part": str(part), "bend": "1", "angle": f"{angle}", "gauge": f"{gauge}"}
        client.post(f"{at}/log", data={**typed, "sure": "yes"})
    first, second = (one.line for one in shop.store.log.lines(job))
    page = html.unescape(client.get(f"{at}/log/learned").text)
    assert f'href="{at}/log/learned" aria-current="page"' in page
    text = shop.store.text_of(job)
    known = known_in(shop.store, text, read_job(text, beside=shop.store.beside(text)))
    words = known_words(known)
    assert {one.thing for one in words} == {"bar lot", "press", "tooling"}
    for one in words:
        row = page[page.index(f'<th scope="row">{one.name}</th>') :].split("</tr>")[0]
        assert f'<td>{one.now}</td><td data-of="before the log">{one.before}</td>' in row
    assert f'href="{at}/log/lines?line={second}">line {second} (part 2, bend 1): ' in page
    assert f"line {first} (part 1, bend 1): " in page
    assert "Bend 1: " in page


def test_learned_without_a_line_says_so_and_leads_to_the_log(tmp_path: Path) -> None:
    with open_store(tmp_path / "store") as store:
        fresh = Browser(create_app(Workshop(store), PORT))
        at = str(fresh.post("/demo", follow=False).headers["location"]).removesuffix("/part")
        page = fresh.get(f"{at}/log/learned").text
    assert "says nothing yet" in page
    assert f'href="{at}/log">Log a bend' in page
    assert "<table" not in page
