"""Figures in the units of a device: shown and typed in them, while the job keeps its own."""

from __future__ import annotations

import html
import math
import re
from collections.abc import Iterator
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_remedies import BRACKET
from test_web import PORT, Browser

from strapwright.errors import InputError
from strapwright.pages.sharing.own_view import kept_view, read_view, seen_job
from strapwright.pages.workshop import Workshop
from strapwright.service.demo import JOBS
from strapwright.service.shop_log.typed_readings import read_typed, with_units
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store
from strapwright.web import create_app
from strapwright.wording.figures import figures_for

INCH, METRIC = "fender-hanger", "dock-ladder-bracket"
# A figure with a unit of one system: "3.5 in", "410 psi", the second part of a set fraction.
UNITS = {
    "inch": re.compile(r"[\d\u2044] ?(in|psi|lbf|lb|ft)\b"),
    "metric": re.compile(r"\d ?(mm|bar|kN|kg|m)\b"),
}
NAMED = re.compile(r"Figures are shown in .*? The job and its sheets are in .*?\.")
PSI = 0.006894757293168361  # MPa; one lbf (4.4482216152605 N) on one square inch


def text_of(name: str) -> str:
    return (JOBS / f"{name}.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    with open_store(tmp_path_factory.mktemp("own view") / "store") as store:
        yield Workshop(store)


@pytest.fixture
def client(shop: Workshop) -> Browser:
    return Browser(create_app(shop, PORT))


def begun(client: Browser, name: str) -> str:
    """Keep a job of the demonstration and return its address."""
    answer = client.post(
        "/bring", files={"file": (f"{name}.toml", text_of(name).encode())}, follow=False
    )
    return str(answer.headers["location"]).removesuffix("/part")


def said(page: str) -> str:
    """The words of a page, without the note that names both unit systems."""
    body = page[page.index("<main") : page.index("</main>")]
    words = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", body)).split())
    return NAMED.sub("", words)


@pytest.mark.parametrize(
    ("name", "own", "theirs"),
    [
        (INCH, "inch", "metric"),
        pytest.param(METRIC, "metric", "inch", marks=pytest.mark.long),
    ],
)
def test_pages_at_the_press_speak_the_units_of_the_device_alone(
    client: Browser, shop: Workshop, name: str, own: str, theirs: str
) -> None:
    root, made = begun(client, name), shop.plan(text_of(name))
    bend = made.steps[0].bend
    pages = [f"{root}/{one}" for one in ("bends", f"bends/{bend}", "bends/whole", "log")]
    before = [said(client.get(path).text) for path in pages]
    assert all(UNITS[own].search(words) and not UNITS[theirs].search(words) for words in before)
    client.post("/settings/mine", data={"units": theirs})
    after = [client.get(path).text for path in pages]
    for page in after:
        assert NAMED.search(page)
        words = said(page)
        assert UNITS[theirs].search(words)
        assert UNITS[own].findall(words) == []
    # The stop of the plan itself, by the definition of the inch.
    travel = made.steps[0].setting.travel
    shown = f"{travel:.2f} mm" if theirs == "metric" else f"{travel / 25.4:.3f} in"
    assert shown in said(after[1])
    # What plays the bend and what answers a reading say the same units.
    frames = client.get(f"{root}/bends/{bend}/frames.json").text
    assert UNITS[own].search(frames) is None
    more = client.get(f"{root}/bends/{bend}/more.json?stands=20").json()["further"]
    assert UNITS[theirs].search(more)
    assert UNITS[own].search(more) is None


@pytest.mark.parametrize(
    ("name", "own", "theirs"),
    [
        (INCH, "inch", "metric"),
        pytest.param(METRIC, "metric", "inch", marks=pytest.mark.long),
    ],
)
def test_pages_beside_the_log_speak_the_units_of_the_device_too(
    client: Browser, name: str, own: str, theirs: str
) -> None:
    root = begun(client, name)
    typed = {"part": "1", "bend": "1", "angle": "88", "units": own, "sure": "yes"}
    client.post(f"{root}/log", data=typed)
    pages = [f"{root}/log/{one}" for one in ("trial", "learned", "chart", "bar", "lines")]
    before = [said(client.get(path).text) for path in pages]
    assert all(UNITS[own].search(words) for words in before[:2])
    client.post("/settings/mine", data={"units": theirs})
    for path, was in zip(pages, before, strict=True):
        page = client.get(path).text
        assert NAMED.search(page)
        words = said(page)
        assert UNITS[own].findall(words) == [], path
        assert bool(UNITS[theirs].search(words)) == bool(UNITS[own].search(was)), path


def test_a_refused_part_is_refused_in_the_units_of_the_device_too(client: Browser) -> None:
    answer = client.post("/bring", files={"file": ("b.toml", BRACKET.encode())}, follow=False)
    root = answer.headers["location"].removesuffix("/part")
    client.post("/settings/mine", data={"units": "metric"})
    for path in (f"{root}/bends", f"{root}/bends/1"):
        words = said(client.get(path).text)
        assert "of straight bar" in words
        assert UNITS["metric"].search(words)
        assert UNITS["inch"].findall(words) == []
    # Where it is entered it is refused in the job's own.
    assert UNITS["inch"].search(said(client.get(f"{root}/tooling").text))


def test_job_file_sheets_and_pages_of_fields_stay_as_they_are(client: Browser) -> None:
    root = begun(client, INCH)
    paths = [
        f"{root}/{one}" for one in ("part", "press", "print", "files/job.toml", "files/plan.json")
    ]
    before = [client.get(path).content for path in paths]
    client.post("/settings/mine", data={"units": "metric", "lengths": "decimals"})
    assert [client.get(path).content for path in paths] == before


def test_lengths_on_the_bar_are_read_as_the_device_chose_and_settings_stay_decimal() -> None:
    inch, metric = read_job(text_of(INCH)), read_job(text_of(METRIC))
    quarter = 25.4 * 1.25
    shown = {
        (units, lengths): figures_for(seen_job(job, read_view(units, lengths))).on_bar(quarter)
        for job in (inch,)
        for units in ("", "inch", "metric")
        for lengths in ("", "fractions", "decimals")
    }
    assert shown == {
        ("", ""): "1-1/4 in", ("", "fractions"): "1-1/4 in", ("", "decimals"): "1.250 in",
        ("inch", ""): "1-1/4 in", ("inch", "fractions"): "1-1/4 in",
        ("inch", "decimals"): "1.250 in",
        ("metric", ""): "31.8 mm", ("metric", "fractions"): "31.8 mm",
        ("metric", "decimals"): "31.8 mm",
    }  # fmt: skip
    assert figures_for(seen_job(metric, read_view("inch", ""))).on_bar(quarter) == "1-1/4 in"
    assert figures_for(seen_job(metric, read_view("", "fractions"))).on_bar(quarter) == "31.8 mm"
    assert seen_job(inch, read_view("inch", "")) is inch
    for text in ("", "x", "inch", "mm.bar", ".", "metric.x", "a" * 5000):
        view = kept_view(text)
        assert view.units == {"inch": "inch", "metric.x": "metric"}.get(text)
        assert view.lengths is None
    assert kept_view(read_view("metric", "decimals").text) == read_view("metric", "decimals")


def test_a_reading_is_taken_in_the_units_that_it_was_asked_in(
    client: Browser, shop: Workshop
) -> None:
    root = begun(client, INCH)
    job = root.rpartition("/")[2]
    client.post("/settings/mine", data={"units": "metric"})
    page = client.get(f"{root}/log").text
    assert 'name="units" value="metric"' in page
    assert ">bar<" in page
    # Asked in bar and mm; by the time it comes in the device was set to inches.
    client.post("/settings/mine", data={"units": "inch"})
    typed = {
        "part": "1",
        "bend": "1",
        "angle": "88,5",
        "gauge": "28,5",
        "radius": "13",
        "sure": "yes",
    }
    legs = {"legs": "127,5; ; 1 in; 50.8"}
    count = len(shop.read(text_of(INCH)).part.legs)
    legs["legs"] = "; ".join(["127,5", "1 in", "", "50.8"][:count])
    kept = client.post(f"{root}/log", data={**typed, **legs, "units": "metric"}, follow=False)
    assert kept.status_code == 303, said(kept.text)
    (entry,) = shop.store.log.lines(job)
    assert entry.figures["gauge"] == pytest.approx(2.85)  # MPa; 28.5 bar of 0.1 MPa
    assert entry.figures["radius"] == pytest.approx(13.0)
    assert entry.figures["free"] == pytest.approx(math.radians(88.5))
    assert entry.figures["leg 1"] == pytest.approx(127.5)
    assert entry.figures["leg 2"] == pytest.approx(25.4)
    assert entry.typed["gauge"] == "28.5 bar"
    # The same number typed on a device of the job's own units is psi.
    again = {**typed, "gauge": "413", "angle": "88.5", "radius": "1/2", "part": "2"}
    assert (
        client.post(f"{root}/log", data={**again, "units": "inch"}, follow=False).status_code == 303
    )
    second = shop.store.log.lines(job)[1]
    assert second.figures["gauge"] == pytest.approx(413 * PSI)
    assert second.figures["radius"] == pytest.approx(12.7)
    # Lines are told by their figures on a device of other units, else as typed.
    assert "gauge 28.5 bar" in said(client.get(f"{root}/log").text)
    client.post("/settings/mine", data={"units": "metric"})
    words = said(client.get(f"{root}/log").text)
    assert "gauge 28.5 bar" in words
    assert "radius 12.70 mm" in words
    assert UNITS["inch"].search(words) is None


def test_a_reading_that_is_asked_about_stays_in_the_units_it_was_typed_in(
    client: Browser, shop: Workshop
) -> None:
    """Asked in bar, doubted, and by then the device shows inches: it is still bar that is kept."""
    root = begun(client, INCH)
    job = root.rpartition("/")[2]
    client.post("/settings/mine", data={"units": "inch"})
    typed = {"part": "1", "bend": "1", "angle": "20", "gauge": "28", "units": "metric"}
    asked = client.post(f"{root}/log", data=typed).text
    assert "It is right: keep it" in asked
    assert 'name="units" value="metric"' in asked
    assert ">bar<" in asked
    assert UNITS["inch"].findall(said(asked)) == []
    client.post(f"{root}/log", data={**typed, "sure": "yes"})
    (entry,) = shop.store.log.lines(job)
    assert entry.figures["gauge"] == pytest.approx(2.8)
    # What is wrong with a figure is said in those units too, and nothing is kept.
    wrong = client.post(f"{root}/log", data={**typed, "gauge": "2,8,0", "part": "2"}).text
    assert 'name="units" value="metric"' in wrong
    assert len(shop.store.log.lines(job)) == 1


def fields_of(page: str) -> dict[str, str]:
    """What a form sends when nothing is typed into it: its fields, hidden ones too."""
    found = re.findall(r'<input (?:type="hidden" |id="[^"]*" )name="([^"]*)" value="([^"]*)"', page)
    return {name: html.unescape(text) for name, text in found} | {"counted": "yes"}


@pytest.mark.parametrize(
    ("name", "theirs", "radius", "mm"),
    [(INCH, "metric", "13", 13.0), (METRIC, "inch", "1/2", 12.7)],
)
def test_a_correction_is_read_in_the_units_that_its_form_was_shown_in(
    client: Browser, shop: Workshop, name: str, theirs: str, radius: str, mm: float
) -> None:
    root = begun(client, name)
    job, own = root.rpartition("/")[2], shop.read(text_of(name)).units
    legs = len(shop.read(text_of(name)).part.legs)
    first = {"inch": {"gauge": "400", "radius": "0.6"}, "metric": {"gauge": "30", "radius": "15"}}
    sizes = "; ".join(["", *["5" if own == "inch" else "120"] * (legs - 1)])
    typed = {"part": "1", "bend": "1", "angle": "88", "legs": sizes, "sure": "yes", **first[own]}
    client.post(f"{root}/log", data={**typed, "units": own})
    (entry,) = shop.store.log.lines(job)
    client.post("/settings/mine", data={"units": theirs})
    page = client.get(f"{root}/log/lines?line={entry.line}").text
    assert NAMED.search(page)
    # The note beside the fields names both units that it is about; it is no figure.
    assert UNITS[own].findall(said(page)) == []
    form = fields_of(page)
    assert form["units"] == theirs
    assert UNITS[theirs].search(form["radius"])
    # By the time it comes in the device was set back, with other lengths: nothing was typed yet.
    client.post("/settings/mine", data={"units": own, "lengths": "decimals"})
    refused = client.post(f"{root}/log/lines", data=form)
    assert "Nothing is to be changed" in refused.text
    assert f'name="units" value="{theirs}"' in refused.text
    client.post(f"{root}/log/lines", data={**form, "radius": radius})
    (now,) = shop.store.log.lines(job)
    assert now.figures["radius"] == pytest.approx(mm)
    unchanged = {one: value for one, value in entry.figures.items() if one != "radius"}
    assert {one: now.figures[one] for one in unchanged} == unchanged
    # A form of a page without units is read in those of the job, as it was shown.
    plain = {"line": str(entry.line), "radius": first[own]["radius"], "counted": "yes"}
    client.post(f"{root}/log/lines", data=plain)
    (back,) = shop.store.log.lines(job)
    assert back.figures["radius"] == pytest.approx(entry.figures["radius"])


def test_a_new_part_and_quick_answers_begin_in_the_units_of_the_device(client: Browser) -> None:
    client.post("/settings/mine", data={"units": "metric", "look": "dark"})
    assert re.search(r'value="metric" checked', client.get("/new").text)
    bench = client.get("/bench").text
    assert bench.count('<option value="metric" selected>') == bench.count('<option value="metric"')
    assert 'data-look="dark"' in bench
    # What was asked stays as asked.
    asked = client.get("/bench", params={"ask": "drill", "size": "0.332", "units": "inch"}).text
    drill = asked[asked.index('id="drill"') :]
    assert '<option value="inch" selected>' in drill[: drill.index("</details>")]
    # So does one asked with bare numbers refused; one only opened has the units of the device.
    for asked_with, chosen in (({"units": ""}, ""), ({}, "metric")):
        page = client.get("/bench", params={"ask": "drill", "size": "8 mm", **asked_with}).text
        drill = page[page.index('id="drill"') :]
        assert f'<option value="{chosen}" selected>' in drill[: drill.index("</details>")]
    answer = client.post("/settings/mine", data={}, follow=False)
    forgotten = [one for one in answer.headers.get_list("set-cookie") if "Max-Age=0" in one]
    assert [one.partition("=")[0] for one in forgotten] == ["numbers", "look"]


NUMBERS = st.one_of(
    st.integers(1, 400).map(str),
    st.decimals("0.1", "400", places=2).map(str),
    st.tuples(st.integers(0, 9), st.sampled_from(("1/2", "3/8", "15/64"))).map(
        lambda one: f"{one[0]}-{one[1]}" if one[0] else one[1]
    ),
)


@given(NUMBERS, st.sampled_from(("inch", "metric")), st.sampled_from(("", " mm", " in")))
def test_a_named_unit_makes_any_job_read_what_was_meant(number: str, asked: str, unit: str) -> None:
    """By the definition of the inch (25.4 mm), the bar (0.1 MPa) and the pound by the inch."""
    value = sum((Fraction(one) for one in number.replace("-", " ").split()), Fraction(0))
    inch = unit == " in" or (not unit and asked == "inch")
    typed = {"travel": f"{number}{unit}", "gauge": str(max(1, round(float(value)))), "angle": "45"}
    named = with_units(typed, "inch" if asked == "inch" else "metric")
    mm = float(value * Fraction("25.4")) if inch else float(value)
    for name in (INCH, METRIC):
        try:
            figures = read_typed(named, read_job(text_of(name)))
        except InputError:  # more than a press of a small shop travels
            assert not 0.01 < mm < 1500
            continue
        assert figures["travel"] == pytest.approx(mm)
        pressure = int(typed["gauge"]) * (PSI if asked == "inch" else 0.1)
        assert figures["gauge"] == pytest.approx(pressure)


@pytest.mark.parametrize("typed", ["1,250", "two", "1'000", "3''", "--5", "1/0", "0x10", "٣"])
def test_what_cannot_be_read_in_the_units_asked_is_refused_or_means_one_thing(typed: str) -> None:
    meant = set()
    for name in (INCH, METRIC):
        try:
            named = with_units({"travel": typed}, "metric")
            meant.add(round(read_typed(named, read_job(text_of(name)))["travel"], 6))
        except InputError:
            meant.add(None)
    assert len(meant) == 1
