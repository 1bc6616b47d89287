"""What would make a refused part on the page of its bends: shown once found, taken by a button."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from time import sleep

import pytest
from test_remedies import BRACKET, GRIPPED
from test_web import PORT, Browser

from strapwright.findings import Severity
from strapwright.pages import workshop
from strapwright.pages.long_work import seeking
from strapwright.pages.workshop import Workshop
from strapwright.store import open_store
from strapwright.web import create_app


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Workshop]:
    monkeypatch.setattr(seeking, "REMEDY_SECONDS", 600.0)  # what is found hangs on no clock
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


def shown(client: Browser, root: str) -> str:
    """Return the page of the bends once the search beside it has ended."""
    for _ in range(1200):
        text = unescape(client.get(root).text)
        if "Stop looking" not in text and "Still searching" not in text:
            return text
        client.get(f"{root}/search/events")  # ends with the search: no page is drawn meanwhile
        sleep(0.1)
    raise AssertionError("the search did not end")


def test_a_button_puts_what_makes_the_part_into_its_job(shop: Workshop) -> None:
    client = Browser(create_app(shop, PORT))
    client.post("/bring", files={"file": ("bracket.toml", BRACKET.encode())})
    (item,) = shop.recent()
    root = f"/jobs/{item.id}/bends"
    before = shown(client, root)
    assert "Cannot be made" in before
    assert "Set the shoulders to an opening of" in before
    assert "Try " not in before  # no advice that nobody tried
    base = str(shop.open(item.id).version)
    (opening,) = (one for one in before.splitlines() if "Set the shoulders to" in one)
    number = opening.split('value="remedy:')[1][0]
    client.post(root, data={"base": base, "do": f"remedy:{number}"})
    job = shop.open(item.id)
    made = shop.plan(job.text)
    assert not [one for one in made.findings if one.severity == Severity.REFUSAL]
    # Only the opening and what moves with it changed; the rest stands as it was typed.
    kept = [line for line in BRACKET.splitlines() if line not in job.text.splitlines()]
    assert {line.split(" =")[0] for line in kept} == {"opening", "outer_edge"}
    assert "How to make it possible" not in shown(client, root)


def test_a_button_leaves_an_end_leg_longer_and_the_page_says_to_saw_it(shop: Workshop) -> None:
    client = Browser(create_app(shop, PORT))
    client.post("/bring", files={"file": ("bracket.toml", BRACKET.encode())})
    (item,) = shop.recent()
    root = f"/jobs/{item.id}/bends"
    (offer,) = (one for one in shown(client, root).splitlines() if "saw it to length" in one)
    number = offer.split('value="remedy:')[1][0]
    base = str(shop.open(item.id).version)
    client.post(root, data={"base": base, "do": f"remedy:{number}"})
    text = shop.open(item.id).text
    assert "[part.trim]" in text or "trim = {" in text
    assert '"1 1/4"]' in text  # the finished leg stays as it was typed
    page = shown(client, root)
    assert "Cannot be made" not in page
    assert "Saw end 2 to length." in page
    assert "saw line at end 2" in unescape(client.get(f"/jobs/{item.id}/part").text)


@pytest.mark.long
def test_a_bend_finished_off_the_tooling_has_its_button_and_one_gone_is_told(
    shop: Workshop,
) -> None:
    client = Browser(create_app(shop, PORT))
    client.post("/bring", files={"file": ("strap.toml", GRIPPED.encode())})
    (item,) = shop.recent()
    root = f"/jobs/{item.id}/bends"
    text = shown(client, root)
    line = next(one for one in text.splitlines() if "and finish it in the vise" in one)
    assert "<button" in line
    # The bend that can be made stands there; moving it would leave the other without a place.
    assert 'id="bend-1"' in text
    assert 'value="later:2"' not in text
    base = str(shop.open(item.id).version)
    client.post(root, data={"base": base, "do": "later:1"})
    assert shop.open(item.id).text == GRIPPED
    gone = client.post(root, data={"base": base, "do": "remedy:9"})
    assert "no longer there" in gone.text
    assert shop.open(item.id).text == GRIPPED


def test_looking_tells_how_far_it_is_and_is_stopped_and_begun_again(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[subprocess.Popen[bytes]] = []

    def start() -> subprocess.Popen[bytes]:
        words = "import sys, time; sys.stdin.buffer.read(1); time.sleep(600)"
        begun.append(
            subprocess.Popen(
                [sys.executable, "-c", words], stdin=subprocess.PIPE, stdout=subprocess.PIPE
            )
        )
        return begun[-1]

    monkeypatch.setattr(shop.seeking._searching, "_start", start)
    monkeypatch.setattr(seeking, "first_look", lambda: lambda: False)
    client = Browser(create_app(shop, PORT))
    client.post("/bring", files={"file": ("bracket.toml", BRACKET.encode())})
    (item,) = shop.recent()
    root = f"/jobs/{item.id}/bends"
    text = client.get(root).text
    assert f'data-search="{root}/search/events"' in text
    assert "Stop looking" in client.get(root).text  # whoever comes to the page finds it
    for _ in range(1200):
        if "of at most 10 min" in text:
            break
        sleep(0.05)
        text = client.get(root).text
    assert "of at most 10 min" in text
    text = client.post(root, data={"do": "look-no-more"}).text
    assert begun[0].wait(60) != 0
    assert "You stopped the search" in text
    assert "Stop looking" not in client.get(root).text
    told = client.get(f"{root}/search/events").text
    assert '"state": "ended"' in told
    assert "Stop looking" in client.post(root, data={"do": "look-again"}).text
    client.post(root, data={"do": "look-no-more"})
    assert all(one.wait(60) != 0 for one in begun)


def test_what_takes_longer_than_a_first_look_is_found_in_a_process(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(seeking, "first_look", lambda: lambda: False)
    client = Browser(create_app(shop, PORT))
    client.post("/bring", files={"file": ("bracket.toml", BRACKET.encode())})
    (item,) = shop.recent()
    root = f"/jobs/{item.id}/bends"
    assert "Stop looking" in client.get(root).text
    assert "How to make it possible" in shown(client, root)


# What starts work beside the pages -> the page it is found again on, and the button that stops it.
BESIDE = {
    "running_searches.py": ("propose.html", "Stop the search"),
    "searching_on.py": ("bends.html", "Stop the search"),
}


def test_every_work_beside_the_pages_is_shown_with_its_progress_and_a_button_to_stop_it() -> None:
    package = Path(workshop.__file__).parents[1]
    begun = {
        path.name
        for room in ("pages", "web")
        for path in (package / room).rglob("*.py")
        if re.search(r"threading\.Thread\(|Popen\(|Executor\(|Process\(", path.read_text("utf-8"))
    } - {"search_worker.py", "order_worker.py"}  # which are that work
    assert begun == set(BESIDE)
    for page, button in (*BESIDE.values(), ("bends.html", "Stop looking")):
        template = (package / "web" / "templates" / page).read_text("utf-8")
        assert re.search(rf'\{{\{{ working\([^}}]*"{button}"', template), page
