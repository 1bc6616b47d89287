"""The log at the press as a browser sees it, without a network."""

from __future__ import annotations

import html
import math
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from test_web import PORT, Browser

from strapwright.errors import BendAt
from strapwright.pages import log_page
from strapwright.pages.page_statements import on_page
from strapwright.pages.played_bend import stage_of
from strapwright.pages.workshop import Workshop
from strapwright.planning.from_the_log.unknown_grade import grades_that_fit
from strapwright.planning.made_bend import JamsError
from strapwright.planning.plan import plan
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.shop_log.batch import batch_of
from strapwright.service.shop_log.batch_text import batch_sentences
from strapwright.service.shop_log.learned_jobs import learned_from, part_name
from strapwright.service.shop_log.logged_push import JobText, log_push
from strapwright.shop_files.reading_job import read_job
from strapwright.store import Store, open_store
from strapwright.web import create_app
from strapwright.wording.relief_words import push_limits
from strapwright.wording.shop_log.log_words import JAMS_BY_LOG
from strapwright.wording.shop_log.thing_words import name_words
from strapwright.wording.steps.gauge_words import ease_off_words

JOB = (JOBS / f"{NAMES[0]}.toml").read_text("utf-8").replace("quantity = 12", "quantity = 2")
AT = datetime(2031, 5, 4, tzinfo=UTC)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Of each test alone: what one logs teaches every job on the same press and tooling."""
    with open_store(tmp_path / "store") as opened:
        yield opened


@pytest.fixture
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
    assert re.search(r'<input id="angle"[^>]* autofocus>', page.text)
    said = plain(page.text)
    assert re.search(r"Kept: part 1, bend 3, stopped as shown at 0\.\d{3} in\.", said)
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
    # The enter key presses the first button of the form, which must not say that it is right.
    form = page.text[page.text.index(f'action="{here}"') :]
    assert "sure" not in form[form.index("<button") : form.index("</button>")]
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


def test_a_plan_is_made_again_when_the_bar_lot_of_another_job_that_taught_it_is_mended(
    store: Store,
) -> None:
    lot = 'format = 1\nunits = "inch"\n[lot]\nyield = "{} ksi"\n'
    kept = store.create("lot", "rack seven", lot.format(40), AT)
    text = JOB.replace("[part]", f'lot = "{kept.file}"\n[part]', 1)
    other = store.create("job", "other", text, AT)
    push = JobText(item=other.id, version=1, text=text)
    shop = Workshop(store)
    job = shop.open(store.create("job", "own", JOB, AT).id)
    assert shop.of(job) == shop.of(job)
    log_push(store, push, {"angle": "43"}, bend=2, at=AT, sure=True, ahead=False)
    before = shop.of(job)
    assert shop.of(job) == before
    store.save(kept.id, lot.format(60), 1, AT, "by its certificate")
    assert shop.of(job) != before


def test_pressure_and_limits_go_with_the_stop_by_what_was_read_last(store: Store) -> None:
    shop = Workshop(store)
    item = store.create("job", "hard bar", JOB.replace("fender", "hard"), AT)
    opened = shop.open(item.id)
    ordered = shop.order_plan(opened.text)  # kept from before the log
    for part in (1, 2):
        typed = {"part": f"{part}", "bend": "1", "angle": "88.5", "gauge": "880", "sure": "yes"}
        log_page.keep(shop, opened, typed, part, 1)
    now = log_page.turn(shop, opened, ordered, 2, 2)
    assert now is not None
    screen = log_page.screen(shop, opened, ordered, now)
    # By what is known of this very part, whose first bend was read too.
    known = learned_from(store, opened.text, ordered.job, part=part_name(item.id, 2))
    fresh = plan(ordered.job, learned=known)
    reader = on_page(ordered.job)
    (step,) = [one for one in fresh.steps if one.bend == 2]
    (before,) = [one for one in ordered.steps if one.bend == 2]
    assert step.gauge is not None
    assert before.gauge is not None
    assert step.gauge.ease_off != pytest.approx(before.gauge.ease_off, rel=0.02)
    assert ease_off_words(step.gauge, reader.figures) in screen.caution
    assert screen.limits == push_limits(step, reader.figures)


def test_the_page_posts_the_stop_that_it_shows(store: Store, browser: Browser) -> None:
    item = store.create("job", "two tabs", JOB, AT)
    here = f"/jobs/{item.id}/log"
    first = browser.get(here).text
    shown = re.search(r'name="stop" value="(\d+\.\d+)"', first)
    assert shown is not None
    # Another tab logs a hard bar meanwhile, so that the setting moves.
    browser.post(here, data={"part": "2", "bend": "2", "angle": "42.5", "sure": "yes"})
    moved = re.search(r'name="stop" value="(\d+\.\d+)"', browser.get(here).text)
    assert moved is not None
    assert abs(float(moved[1]) - float(shown[1])) > 0.1
    # By now 45 degrees at the old stop are unlikely, and asked about first.
    typed = {"part": "1", "bend": "3", "angle": "45", "stop": shown[1]}
    asked = browser.post(here, data=typed)
    assert "It is right: keep it" in asked.text
    assert [one for one in store.log.lines(item.id) if one.part == 1] == []
    browser.post(here, data=typed | {"sure": "yes"})
    (line,) = [one for one in store.log.lines(item.id) if one.part == 1]
    assert line.figures["travel"] == pytest.approx(float(shown[1]), abs=1e-5)


BESIDE = ("chart", "trial", "bar")


def test_the_pages_beside_the_log_say_what_the_commands_say(store: Store, browser: Browser) -> None:
    item = store.create("job", "beside", JOB, AT)
    here = f"/jobs/{item.id}/log"
    for where in BESIDE:
        assert f'href="{here}/{where}' in browser.get(here).text
    assert "No angle of this bend is in the log yet." in plain(
        browser.get(f"{here}/chart?bend=2").text
    )
    said = plain(browser.get(f"{here}/trial?bend=3").text)
    assert re.search(r"Push an off-cut of at least \d\.\d{3} in by 0\.\d{3} in", said)
    opened = JobText(item=item.id, version=1, text=JOB)
    for part, angle in enumerate((45.0, 46.8), start=1):
        log_push(store, opened, {"angle": f"{angle}"}, bend=2, at=AT, part=part, sure=True)
    text = browser.get(f"{here}/chart?bend=2").text
    said = plain(text)
    job = read_job(JOB)
    for sentence in batch_sentences(batch_of(store, opened, job, 2)):
        assert sentence in said
    assert "2 46.8° out of tolerance" in said
    assert text.count("<svg") == 2
    # Two parts of the same bend have said what a trial would.
    said = plain(browser.get(f"{here}/trial?bend=3").text)
    assert re.search(r"No trial is needed: .* within 0\.\d° already", said)
    assert "as part 3, a number that no part of this job has" in said
    log_push(store, opened, {"angle": "20"}, bend=3, at=AT, part=3, sure=True)
    again = plain(browser.get(f"{here}/trial?bend=3").text)
    assert "as part 4, a number that no part of this job has" in again
    assert browser.get(f"{here}/trial?bend=9").status_code == 422


def test_an_unknown_bar_has_its_odds_its_next_test_and_what_must_not_be_done(
    store: Store, browser: Browser
) -> None:
    item = store.create("job", "found bar", JOB.replace("fender", "found"), AT)
    here = f"/jobs/{item.id}/log/bar"
    said = plain(browser.get(f"{here}?magnet=yes&spark=bursts").text)
    found = grades_that_fit([], {"magnet": "yes", "spark": "bursts"}, 6.35)
    for name in found.odds.stated:
        assert re.search(rf"{re.escape(name)} \d+ %", said)
    assert "Next, bend an off-cut behind a shield and log it." in said
    assert "Do not weld it as mild steel until you know more" in said
    assert "Try a file first" in said
    hard = plain(browser.get(f"{here}?file=skates&magnet=yes").text)
    assert "Do not bend, weld or strike it." in hard
    assert "What it may be" not in hard
    # What is none of its results is not tried: the file comes first.
    assert "Try a file first" in plain(browser.get(f"{here}?file=x").text)
    assert "Try a file first" not in plain(browser.get(f"{here}?file=bites").text)
    # A log that no grade fits takes neither warning away.
    opened = JobText(item=item.id, version=1, text=JOB.replace("fender", "found"))
    typed = {"travel": "0.05", "angle": "80"}
    log_push(store, opened, typed, bend=2, at=AT, part=1, sure=True)
    refused = browser.get(here)
    if refused.status_code == 422:
        assert "Try a file first" in plain(refused.text)
    assert "Do not bend, weld or strike it." in plain(browser.get(f"{here}?file=skates").text)
    assert browser.get(f"{here}?magnet=%3Cscript%3E").status_code == 200


def test_lots_are_made_merged_split_and_retired_on_their_page(
    store: Store, browser: Browser
) -> None:
    def press(**typed: str) -> tuple[int, str]:
        answer = browser.post("/lots", data=typed)
        return answer.status_code, plain(answer.text)

    assert "rack 7 is kept. Choose below which job uses it." in press(do="new", name="rack 7")[1]
    press(do="new", name="rack 8")
    text = JOB.replace("format = 1\n", 'format = 1\nlot = "rack 7.toml"\n', 1)
    item = store.create("job", "lot strap", text, AT)
    opened = JobText(item=item.id, version=1, text=text)
    for part in (1, 2, 3):
        log_push(store, opened, {"angle": "45"}, bend=2, at=AT, part=part, sure=True)
    lines = [one.line for one in store.log.lines(item.id)]
    page = browser.get("/lots").text
    assert f'<a href="/jobs/{item.id}/log">lot strap</a>' in page
    assert f"log lines {lines[0]}-{lines[2]}" in plain(page)
    # In the units of the shop; the log itself tells things apart in mm.
    assert "nose 1/2 in, shoulders 3/8 in, opening 2-1/2 in" in plain(page)
    assert not re.search(r"\d mm\b", plain(page))
    flat = "bar of clip: S235, flat 6.00 x 50.00 mm"
    assert name_words(flat, "metric").endswith("6 x 50 mm")
    assert name_words("bar of clip: S235, flat 6.00 x 50.00 mm", "inch").endswith(
        "0.236 x 1.969 in"
    )
    assert name_words("rack 7.toml", "inch") == "rack 7.toml"
    status, said = press(do="split", lot="rack 7.toml", lines="nine", name="odd bar")
    assert status == 422
    assert "neither the number of a line" in said
    assert "has no name" in press(do="split", lot="rack 7.toml", lines=f"{lines[2]}", name=" ")[1]
    said = press(do="split", lot="rack 7.toml", lines=f"{lines[2]}", name="odd bar")[1]
    assert "1 line of the log went over to odd bar." in said
    assert store.log.lines(item.id)[2].lot == "odd bar.toml"
    assert (
        "2 lines of the log went over."
        in press(do="merge", lot="rack 7.toml", into="rack 8.toml")[1]
    )
    assert [one.lot for one in store.log.lines(item.id)][:2] == ["rack 8.toml"] * 2
    assert "odd bar is retired" in press(do="retire", lot="odd bar.toml")[1]
    assert press(do="retire", lot="nowhere.toml")[0] == 422
    assert press(do="")[0] == 422


def test_a_log_that_says_the_tooling_jams_shows_no_stop_and_says_so(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop = Workshop(store)
    item = store.create("job", "jams", JOB.replace("fender", "jams"), AT)
    opened = shop.open(item.id)
    made = shop.order_plan(opened.text)
    now = log_page.turn(shop, opened, made, 1, 2)
    assert now is not None
    curve = made.steps[0].curve

    def jams(*_: object) -> None:
        raise JamsError(BendAt(2), 0.8, curve)

    monkeypatch.setattr(log_page, "bend_now", jams)
    screen = log_page.screen(shop, opened, made, now)
    assert (screen.stop.value, screen.stop.between) == ("-", JAMS_BY_LOG)
    assert (screen.shown, screen.expected, screen.batch) == ("", (), ())


def test_a_bend_is_played_to_the_angles_that_the_log_taught(store: Store) -> None:
    shop = Workshop(store)
    item = store.create("job", "taught bar", JOB, AT)
    opened = shop.open(item.id)
    fresh = {one.bend: one for one in shop.plan(opened.text).steps}
    for part in (1, 2):
        typed = {"part": f"{part}", "bend": "1", "angle": "87.8", "sure": "yes"}
        log_page.keep(shop, opened, typed, part, 1)
    opened = shop.open(item.id)
    made = shop.plan(opened.text)
    for step in made.steps:
        taught, before = math.degrees(step.loaded_angle), fresh[step.bend].curve
        (act,) = stage_of(made, step).data["acts"]
        turns = [
            float(one.removesuffix("\N{DEGREE SIGN}")) for one in act["turn"][: act["free"] + 1]
        ]
        assert turns[act["stop"]] == pytest.approx(taught, abs=0.06)
        assert turns[-1] == pytest.approx(math.degrees(step.free_angle), abs=0.06)
        assert turns[: act["stop"] + 1] == sorted(turns[: act["stop"] + 1])
        # Drawn by the solver alone the bend would stand elsewhere at this travel.
        alone = np.interp(step.setting.travel, before.travel, before.loaded_angle)
        assert abs(math.degrees(alone) - taught) > 0.3
