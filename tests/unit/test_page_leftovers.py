"""No page says a key of a file, a flag of a command, a bare power or two systems of units."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from test_hostile_forms import DEVICES, JOB, SHOP
from test_remedies import BRACKET
from test_web import PORT, Browser

from strapwright.pages.workshop import Workshop
from strapwright.service.demo import JOBS
from strapwright.store import open_store
from strapwright.web import create_app

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
OF_A_FILE = {
    "a key with an underline": r"\b[a-z]+_[a-z_]+\b",
    "a key with what stands behind it": r"\b[a-z_]{3,} = [\"'\[{]",
    "a path of keys": r"\b(part|press|tooling|lot|bar|cutting|money|stock)(\[\d\])?\.[a-z]",
    "a table of a file": r"\[\[?(part|press|tooling|lot|cutting|money|stock)[].]",
    "a flag": r"(?<![\w-])--[a-z]",
    "a value of the code": r"\b(None(?! yet)|True|False|inf|nan)\b",
    "a power without its sign": r"\b(in|mm|cm)[234]\b|\bdeg\b",
}
# What a person may type to be read, a command to be run, and odds.
MAY_BE_SAID = re.compile(
    r"\d+ (in3|cm3|in2/min|mm2/min)\b|strapwright restore FILE --aside \.|\b\d+ in 100?\b"
)
UNITS = {
    "inch": re.compile(r"[\d\u2044\u00bd] ?(in|psi|ksi|lbf|lb|ft|gpm)(?![a-z])"),
    "metric": re.compile(r"\d ?(mm|bar|kN|kg|m|MPa|L/min)(?![a-z])"),
}
QUICK = (
    {"ask": "force", "bore": "4 in", "rod": "2 in", "pressure": "2500 psi", "flow": "2 gpm"},
    {"ask": "force", "bore": "100 mm", "force": "90 kN"},
    {"ask": "stroke", "bar": "flat 1/4 x 2 in", "material": "A36", "opening": "3 in",
     "bore": "4 in", "nose_radius": "3/4 in", "shoulder_radius": "1/2 in", "angle": "90"},
    {"ask": "fit", "size": "25 mm", "classes": "H7/g6"},
    {"ask": "tap", "thread": "3/8-16"},
    {"ask": "drill", "size": "8.5 mm"},
    {"ask": "materials"},
)  # fmt: skip


@pytest.fixture
def client(tmp_path: Path) -> Iterator[Browser]:
    with open_store(tmp_path / "store") as store:
        yield Browser(create_app(Workshop(store), PORT))


def brought(client: Browser, name: str, text: str) -> str:
    """Import a job and return its address."""
    answer = client.post("/bring", files={"file": (f"{name}.toml", text.encode())}, follow=False)
    return str(answer.headers["location"]).removesuffix("/part")


def said(page: str) -> str:
    """What is read on a page; the other unit beside a field is meant to be there."""
    body = page[page.index("<main") : page.index("</main>")]
    body = re.sub(r'(?s)<span class="other">.*?</span>|<select.*?</select>', " ", body)
    body = re.sub(r"(?s)<(script|style)\b.*?</\1>", " ", body)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", body)).split())


def leftovers(words: str) -> list[str]:
    """What of a file, a command or the code stands in the words of a page."""
    words = MAY_BE_SAID.sub("", words)
    return [
        f"{what}: {words[max(0, found.start() - 40) : found.end() + 30]!r}"
        for what, pattern in OF_A_FILE.items()
        if (found := re.search(pattern, words))
    ]


def pages_of(client: Browser, root: str) -> dict[str, str]:
    return {
        name: client.get(f"{root}/{name}").text for name in (*JOB, "making/change", "log/lines")
    }


@pytest.mark.parametrize(
    "text",
    [
        "Cut the part_name", 'Write lot = "rack 7.toml"', "see press.bore", "in [press]",
        "give --units", "12.566 in2", "turns 5 deg", "None",
    ],
)  # fmt: skip
def test_a_leftover_is_seen(text: str) -> None:
    assert leftovers(text)


@pytest.mark.parametrize(
    "name", ["fender-hanger", pytest.param("dock-ladder-bracket", marks=pytest.mark.long)]
)
def test_pages_of_a_job_name_fields_and_speak_its_units(client: Browser, name: str) -> None:
    text = (JOBS / f"{name}.toml").read_text("utf-8")
    own = "metric" if 'units = "metric"' in text else "inch"
    root = brought(client, name, text)
    typed = {"part": "1", "bend": "1", "angle": "88", "sure": "yes", "units": own}
    client.post(f"{root}/log", data=typed)
    found = {path: said(page) for path, page in pages_of(client, root).items()}
    assert {path: some for path, words in found.items() if (some := leftovers(words))} == {}
    (other,) = UNITS.keys() - {own}
    told = {path: MAY_BE_SAID.sub("", words) for path, words in found.items()}
    both = {path: UNITS[other].findall(words) for path, words in told.items()}
    assert {path: some for path, some in both.items() if some} == {}


@pytest.mark.long
def test_a_refused_part_and_wrong_entries_name_fields(client: Browser) -> None:
    root = brought(client, "deck bracket", BRACKET)
    found = {path: said(page) for path, page in pages_of(client, root).items()}
    wrong = {
        "part": {"part.shape[1]": "long", "part.quantity": "none"},
        "bar": {"bar.thickness": "thick"},
        "press": {"press.bore": "2.500 psi", "press.relief": "-3"},
        "tooling": {"tooling.nose.shaft": "9", "tooling.shoulders.opening": "x"},
        "log": {"part": "x", "bend": "1", "angle": "much"},
    }
    for path, typed in wrong.items():
        answer = client.post(f"{root}/{path}", data={"base": "1", **typed})
        found[f"{path}, wrong"] = said(answer.text)
    assert {path: some for path, words in found.items() if (some := leftovers(words))} == {}


def test_pages_of_the_shop_name_fields(client: Browser) -> None:
    rack = (EXAMPLES / "dock-rack.toml").read_bytes()
    client.post("/rack/bring", files={"file": ("rack.toml", rack)})
    client.post("/lots", data={"do": "new", "name": "spare"})
    found = {path: said(client.get(path).text) for path in (*SHOP, *DEVICES)}
    wrong = {
        "/rack": {"stock[1].size": "wide", "base": "1"},
        "/crib": {"crib.drills": "much", "crib.saw[1].kerf": "x"},
        "/rates": {"time.sawing": "fast", "money.labour": "-1"},
        "/lots": {"do": "split", "lot": "spare.toml", "lines": "nine", "name": "odd"},
        "/new": {"bar.thickness": "thick"},
    }
    for path, typed in wrong.items():
        found[f"{path}, wrong"] = said(client.post(path, data={"units": "inch", **typed}).text)
    assert {path: some for path, words in found.items() if (some := leftovers(words))} == {}


@pytest.mark.parametrize("asked", QUICK, ids=lambda one: one["ask"])
@pytest.mark.parametrize("own", ["", "inch", "metric"])
def test_a_quick_answer_has_one_system_of_units(
    client: Browser, asked: dict[str, str], own: str
) -> None:
    client.post("/settings/mine", data={"units": own})
    page = client.get("/bench", params=asked).text
    answer = html.unescape(re.findall(r"(?s)<pre class=.answer.*?>(.*?)</pre>", page)[0])
    typed = "metric" if any(" mm" in text for text in asked.values()) else "inch"
    shown = own or typed
    (other,) = UNITS.keys() - {shown}
    if asked["ask"] == "materials":  # what its sources say is said as they say it
        answer = "\n".join(line for line in answer.splitlines() if not line.startswith(" "))
    for name in asked.values():  # what was typed stays as typed
        answer = answer.replace(name, "")
    answer = re.sub(
        r"\b\d+(\.\d+)? mm\b(?= {2,}\d| drill|:)|M\d+\S*", "", answer
    )  # names of drills
    assert UNITS[shown].search(answer) or asked["ask"] == "materials"
    assert UNITS[other].findall(answer) == []
    assert leftovers(answer) == []


def test_the_rate_of_the_saw_is_typed_and_shown_in_the_units_of_its_file(client: Browser) -> None:
    client.post("/rates", data={"units": "inch", "time.sawing": "2", "base": "0"})
    page = client.get("/rates").text
    assert re.search(r'name="time.sawing" value="2 in²/min"', page)
    kept = client.get("/rates.toml").text
    assert 'sawing = "2 in²/min"' in kept
    # A file of before, whose number alone is mm2 a minute: 1290.32 mm2 are 2 in2.
    old = 'format = 1\nunits = "inch"\n[time]\nsawing = 1290.32\n'
    client.post("/rates/bring", files={"file": ("rates.toml", old.encode())})
    page = client.get("/rates").text
    assert re.search(r'name="time.sawing" value="2 in²/min"', page)
    client.post("/rates", data={"units": "inch", "time.sawing": "2 in²/min", "base": "2"})
    assert "sawing = 1290.32" in client.get("/rates.toml").text  # untouched
    said_of = client.post(
        "/rates", data={"units": "inch", "time.sawing": "0.0001", "base": "2"}
    ).text
    assert "0.0016 to 1550 in²" in html.unescape(said_of)


def test_a_job_takes_a_kept_lot_by_a_button(client: Browser) -> None:
    root = brought(client, "bracket of lot", (EXAMPLES / "shelf-bracket.toml").read_text("utf-8"))
    job = root.rpartition("/")[2]
    client.post("/lots", data={"do": "new", "name": "rack 9"})
    page = client.get("/lots").text
    assert f'<option value="{job}">' in page
    done = client.post("/lots", data={"do": "use", "lot": "rack 9.toml", "job": job})
    assert "uses this lot now" in done.text
    text = client.get(f"{root}/files/job.toml").text
    assert text.index('lot = "rack 9.toml"') < text.index("[part]")
    assert "used in shelf bracket ; nothing logged yet" in said(client.get("/lots").text)
    # A job with figures of a batch of its own keeps them, and is told where they stand.
    own = text.replace('lot = "rack 9.toml"', "").replace(
        "[part]", '[lot]\nyield = "40 ksi"\n[part]'
    )
    other = brought(client, "own batch", own).rpartition("/")[2]
    answer = client.post("/lots", data={"do": "use", "lot": "rack 9.toml", "job": other})
    assert answer.status_code == 422
    assert "figures of a batch of its own" in answer.text
    # A lot is one metal: what it taught of one would be wrong of another.
    metal = re.findall(r'material = "(.+?)"', text)[0]
    plain = text.replace('lot = "rack 9.toml"', "").replace(metal, "6061-T6")
    foreign = brought(client, "other metal", plain)
    answer = client.post(
        "/lots", data={"do": "use", "lot": "rack 9.toml", "job": foreign.rpartition("/")[2]}
    )
    assert answer.status_code == 422
    assert f"is of 6061-T6, and this lot is {metal} in other jobs" in html.unescape(answer.text)
    assert "rack 9" not in client.get(f"{foreign}/files/job.toml").text
    for typed in ({"lot": "nowhere.toml", "job": job}, {"lot": "rack 9.toml", "job": "0" * 32}):
        assert client.post("/lots", data={"do": "use", **typed}).status_code == 422
