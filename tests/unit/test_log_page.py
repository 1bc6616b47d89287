"""The log at the press as a browser sees it, without a network."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from test_web import PORT, Browser

from strapwright.pages.workshop import Workshop
from strapwright.service.demo import JOBS, NAMES
from strapwright.store import Store, open_store
from strapwright.web import create_app

JOB = (JOBS / f"{NAMES[0]}.toml").read_text("utf-8").replace("quantity = 12", "quantity = 2")
AT = datetime(2031, 5, 4, tzinfo=UTC)


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    with open_store(tmp_path_factory.mktemp("store")) as opened:
        yield opened


@pytest.fixture(scope="module")
def browser(store: Store) -> Browser:
    return Browser(create_app(Workshop(store), PORT))


def plain(text: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def test_a_batch_is_logged_bend_after_bend(store: Store, browser: Browser) -> None:
    job = store.create("job", "cleat strap", JOB, AT)
    here = f"/jobs/{job.id}/log"
    first = plain(browser.get(here).text)
    assert "Part 1 of 2 · bend 3" in first
    assert re.search(r"Stop at 0\.\d{3} in 0\.\d{3} to 0\.\d{3} in", first)
    assert re.search(r"Angle expected 45\.\d° 4\d\.\d to 4\d\.\d", first)

    assert re.search(
        r"Release all pressure before you measure\. Stop and check above \d+ psi", first
    )
    assert "Never go above the relief setting" in first

    # A bend that comes out short stays on the screen, with how much further.
    page = browser.post(here, data={"part": "1", "bend": "3", "angle": "43", "gauge": "660"})
    said = plain(page.text)
    assert "Kept: part 1, bend 3." in said
    assert "Part 1 of 2 · bend 3" in said
    assert re.search(r"Push further 0\.0\d{2} in to 0\.\d{3} in from first contact", said)
    travel = re.search(r'name="travel" value="([\d.]+)"', page.text)
    assert travel is not None

    # Then the next bend comes by itself.
    done = {"part": "1", "bend": "3", "angle": "45", "gauge": "665", "travel": travel[1]}
    said = plain(browser.post(here, data=done).text)
    assert "Part 1 of 2 · bend 2" in said

    # What cannot be is asked about; what was typed stays, and nothing is kept.
    page = browser.post(here, data={"part": "1", "bend": "2", "angle": "135", "gauge": "670"})
    assert "is that the angle between the legs?" in plain(page.text)
    assert 'name="angle" value="135"' in page.text
    assert len(store.log.lines()) == 2
    sure = {"part": "1", "bend": "2", "angle": "45", "gauge": "670", "sure": "yes"}
    said = plain(browser.post(here, data=sure).text)
    assert "Part 1 of 2 · bend 1" in said
    for part, bend in ((1, 1), (2, 3), (2, 2), (2, 1)):
        angle = "90.1" if bend == 1 else "45.1"
        data = {"part": str(part), "bend": str(bend), "angle": angle}
        said = plain(browser.post(here, data=data).text)
    assert "Every bend of every part is logged." in said
    assert browser.get(f"{here}.csv").text.count("\n") == 8

    # The other pages use what was learned, and say so.
    assert "7 logged pushes with this bar lot, press and tooling taught" in plain(
        browser.get(f"/jobs/{job.id}/bends").text
    )


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"part": "1", "bend": "1"}, "Nothing was read"),
        ({"part": "1", "bend": "1", "angle": "steep"}, "angle"),
        ({"part": "1", "bend": "1", "angle": '"><script>'}, "angle"),
    ],
)
def test_what_cannot_be_read_is_said_beside_the_form(
    typed: dict[str, str], says: str, store: Store, browser: Browser
) -> None:
    job = store.create("job", "other", JOB, AT)
    page = browser.post(f"/jobs/{job.id}/log", data=typed)
    assert page.status_code == 200
    assert '<p class="wrong-line" role="alert">' in page.text
    assert says in plain(page.text)
    assert "<script>alert" not in page.text
    assert '"><script>' not in page.text
    assert store.log.lines(job.id) == ()


def test_a_part_that_cannot_be_bent_has_no_log_screen(store: Store, browser: Browser) -> None:
    job = store.create("job", "bare", JOB[: JOB.index("[tooling]")], AT)
    for method in ("GET", "POST"):
        answer = browser.ask(method, f"/jobs/{job.id}/log", follow=False)
        assert answer.status_code in (303, 200)
        assert store.log.lines(job.id) == ()
    assert (
        browser.ask("GET", f"/jobs/{job.id}/log", follow=False)
        .headers["location"]
        .endswith(f"/jobs/{job.id}/bends")
    )
