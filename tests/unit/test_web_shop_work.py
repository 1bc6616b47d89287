"""Cut plan, week, price and rates as pages: what they say, write and refuse."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from test_web import HOSTILE, PORT, Browser

from page_texts import page_texts
from strapwright.pages.shelves import kept
from strapwright.pages.workshop import Workshop
from strapwright.service.demo import JOBS
from strapwright.shop_files.reading_rack import read_rack
from strapwright.store import open_store
from strapwright.web import create_app

RACK = """\
format = 1
units = "inch"
[[stock]]
name = "flat by the door"
kind = "flat"
size = "1/4 x 2"
length = "61-1/2"
material = "A36"
origin = "off-cut"
[[stock]]
name = "flat top shelf"
kind = "flat"
size = "1/4 x 2"
length = "144"
material = "A36"
"""
RATES = 'format = 1\nunits = "inch"\n[money]\nlabour = 45\n[[price]]\nprice = 1.1\nby = "lb"\n'


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


@pytest.fixture
def client(shop: Workshop) -> Browser:
    return Browser(create_app(shop, PORT))


def hanger(due: str = "") -> str:
    text = (JOBS / "fender-hanger.toml").read_text("utf-8")
    return text.replace("quantity =", f'due = "{due}"\nquantity =') if due else text


def bare_hanger() -> str:
    """Of a part whose tooling is not entered yet."""
    text = hanger().split("[press]")[0]
    return text.replace("[[part.hole]]", 'assumed_radius = "1/2"\n[[part.hole]]', 1)


def brought(client: Browser, text: str) -> str:
    answer = client.post("/bring", files={"file": ("hanger.toml", text.encode())}, follow=False)
    assert answer.status_code == 303, answer.text
    return re.findall(r"[0-9a-f]{32}", answer.headers["location"])[0]


def shelf(client: Browser, name: str, text: str) -> None:
    answer = client.post(f"/{name}/bring", files={"file": (f"{name}.toml", text.encode())})
    assert answer.status_code == 200, answer.text


def test_a_cut_is_confirmed_and_taken_back(client: Browser, shop: Workshop) -> None:
    job = brought(client, hanger())
    shelf(client, "rack", RACK)
    assert "Make the cut plan" in client.get("/cut").text
    page = client.get(f"/cut?job={job}").text
    assert "12 pieces from 2 bars: 2 from the rack. Nothing has to be bought." in page
    assert "Write on the off-cuts" in page
    # Eight blanks off the bar of 144 in, its end squared by 3 mm: what is left, in whole eighths.
    table = client.get(f"/cut.csv?job={job}").text
    assert table.count("fender hanger") == 12
    blank = float(next(csv.DictReader(io.StringIO(table)))["length mm"])
    left = 144 - (3 + 8 * (blank + 1.4)) / 25.4
    assert 36.125 <= left < 36.25
    assert '<li class="note">off-cut 1: 36\u20091\u20448 in</li>' in page
    assert "Saw from" not in sheet_of(client, job)

    before = kept(shop, "rack")
    words = {"jobs": job, "base": str(before.version), "mark": mark_on(page)}
    other = client.post("/cut/sawn", data=words | {"mark": "0" * 8})
    assert other.status_code == 422
    assert "look at the new plan first" in other.text
    assert kept(shop, "rack").version == before.version
    assert client.post("/cut/sawn", data=words).status_code == 200
    after = kept(shop, "rack")
    assert after.version == before.version + 1
    assert "flat by the door" not in after.text
    assert "off-cut 1" in after.text
    # A second press of the button finds another rack and changes nothing.
    again = client.post("/cut/sawn", data=words)
    assert again.status_code == 422
    assert "the rack has changed since this plan was made" in again.text.lower()
    assert kept(shop, "rack").version == after.version
    # Print page and sheet say which bars.
    assert "4 from bar 1" in client.get(f"/jobs/{job}/print").text
    said = " ".join(sheet_of(client, job).split())
    assert "Saw from: flat" in said
    assert "'flat top shelf'" in said
    assert client.post("/cut/undo", data={"version": str(after.version)}).status_code == 200
    assert kept(shop, "rack").text == before.text
    # The blanks are not sawn any more.
    assert "4 from bar 1" not in client.get(f"/jobs/{job}/print").text
    assert "Saw from" not in sheet_of(client, job)


def test_the_bars_of_a_job_are_shown_for_the_version_that_was_sawn(
    client: Browser, shop: Workshop
) -> None:
    job = brought(client, hanger())
    shelf(client, "rack", RACK)
    sawn(client, job, shop)
    assert "4 from bar 1" in client.get(f"/jobs/{job}/print").text
    there = shop.open(job)
    shop.save(job, there.text.replace("quantity = 12", "quantity = 13"), 1, "", "somebody")
    assert shop.open(job).version == 2
    assert "4 from bar 1" not in client.get(f"/jobs/{job}/print").text


def test_a_rack_that_is_used_up_is_kept_empty_and_filled_again(
    client: Browser, shop: Workshop
) -> None:
    job = brought(client, hanger())
    # Both bars leave a piece that is too short to keep.
    shelf(client, "rates", RATES + '[cutting]\nleast_offcut = "100"\n')
    shelf(client, "rack", RACK)
    page = sawn(client, job, shop)
    assert "The rack is up to date" in page
    assert "Undo: put the rack back" in page
    there = kept(shop, "rack")
    assert there.version == 2
    assert read_rack(there.text).stock == ()
    assert client.get("/rack").status_code == 200
    # Off-cuts of bars that are bought go onto the empty rack.
    shelf(client, "rates", RATES)
    sawn(client, job, shop)
    assert {one.origin for one in read_rack(kept(shop, "rack").text).stock} == {"off-cut"}


def test_where_nothing_on_the_rack_changes_there_is_nothing_to_undo(
    client: Browser, shop: Workshop
) -> None:
    job = brought(client, hanger())
    shelf(client, "rates", RATES + '[cutting]\nleast_offcut = "230"\n')
    shelf(client, "rack", RACK.replace("A36", "1045 hot rolled"))
    shelf(client, "rack", RACK.replace("A36", "1018 cold drawn"))  # typed by hand
    before = kept(shop, "rack")
    page = sawn(client, job, shop)
    assert "Nothing on the rack changed" in page
    assert "Undo: put the rack back" not in page
    assert kept(shop, "rack") == before
    # What was typed by hand is not taken back, whatever is sent.
    said = client.post("/cut/undo", data={"version": str(before.version)})
    assert said.status_code == 422
    assert "no cut made this version of the rack" in said.text.lower()
    assert kept(shop, "rack") == before
    for number in ("7", str(before.version)):
        assert "Undo: put" not in client.get("/cut", params={"sawn": number}).text


def sawn(client: Browser, job: str, shop: Workshop) -> str:
    mark = mark_on(client.get(f"/cut?job={job}").text)
    base = str(kept(shop, "rack").version)
    answer = client.post("/cut/sawn", data={"jobs": job, "base": base, "mark": mark})
    assert answer.status_code == 200, answer.text
    return answer.text


def mark_on(page: str) -> str:
    return re.findall(r'name="mark" value="([0-9a-f]{8})"', page)[0]


def sheet_of(client: Browser, job: str) -> str:
    raw = client.get(f"/jobs/{job}/files/sheet.pdf").content
    return "\n".join(page_texts(raw))


def test_the_cut_page_refuses_in_words(client: Browser) -> None:
    job = brought(client, hanger())
    other = brought(client, hanger() + "# again\n")
    said = client.get(f"/cut?job={job}&job={other}")
    assert said.status_code == 422
    assert "wo jobs have this name" in said.text
    assert client.get(f"/cut?job={'0' * 32}").status_code == 404
    assert client.get("/cut.csv").status_code == 400
    assert client.post("/cut/undo", data={"version": "1"}).status_code == 422
    assert HOSTILE not in client.get("/cut", params={"job": HOSTILE, "sawn": HOSTILE}).text


def test_a_price_needs_rates_and_then_has_a_sheet(client: Browser) -> None:
    job = brought(client, hanger())
    bare = client.get(f"/jobs/{job}/money")
    assert bare.status_code == 200
    assert "Enter your rates" in bare.text
    assert "enter \N{LEFT DOUBLE QUOTATION MARK}An hour of work" in bare.text
    assert not re.search(r"labour|\[money\]|rates file", bare.text)
    shelf(client, "rates", RATES)
    asked = {"quantities": "2, 20", "customer": HOSTILE, "minutes": "25", "scrap": "0.1"}
    page = client.get(f"/jobs/{job}/money", params=asked).text
    assert "It has paid for itself after" in page
    assert "Your cost of 20 parts" in page
    assert HOSTILE not in page
    sheet = client.get(f"/jobs/{job}/money/quote.pdf", params={"customer": "Harbour office"})
    text = page_texts(sheet.content)[0]
    assert "Harbour office" in text
    assert "No tax is added" in text
    for wrong, said in (
        ({"minutes": "-3"}, 'id="minutes-wrong">This is no number above 0'),
        ({"setup": "3"}, 'id="minutes-wrong">Enter how long one part takes by hand'),
        ({"minutes": "25", "lot": "2.5"}, 'id="lot-wrong">2.5 is no whole number of parts'),
        ({"quantities": "a"}, 'id="quantities-wrong">This is not a list of whole numbers'),
    ):
        answer = client.get(f"/jobs/{job}/money", params=wrong)
        assert answer.status_code == 200
        assert said in answer.text
        assert "Enter your rates" not in answer.text  # what is wrong stands beneath its field


def test_no_quote_is_handed_over_without_its_bending(client: Browser) -> None:
    job = brought(client, bare_hanger())
    shelf(client, "rates", RATES)
    page = client.get(f"/jobs/{job}/money").text
    assert "Bending is left out: enter the tooling first." in page
    assert "quote.pdf" not in page
    refused = client.get(f"/jobs/{job}/money/quote.pdf")
    assert refused.status_code == 400
    assert "bending is not in these prices" in refused.text.lower()


def test_rates_are_typed_and_refused_where_they_cannot_be(client: Browser, shop: Workshop) -> None:
    client.post("/rates", data={
        "units": "inch", "money.labour": "60", "cutting.kerf": "1/16", "price[1].price": "2",
        "price[1].by": "kg", "base": "0",
    })  # fmt: skip
    there = kept(shop, "rates")
    assert "labour = 60" in there.text.replace('"60"', "60")
    assert "[[price]]" in there.text
    said = client.post("/rates", data={"units": "inch", "money.labour": "0", "base": "1"})
    assert "the labour is 0" in said.text.lower()
    # An entry that is cleared goes.
    client.post("/rates", data={
        "units": "inch", "money.labour": "60", "price[1].price": "", "price[1].by": "",
        "base": str(kept(shop, "rates").version),
    })  # fmt: skip
    assert "[[price]]" not in kept(shop, "rates").text


def test_the_week_shows_what_is_due(client: Browser) -> None:
    assert "No job has a due date to come" in client.get("/week").text
    soon = (datetime.now(UTC) + timedelta(days=30)).date().isoformat()
    brought(client, hanger(soon))
    brought(client, hanger("2020-01-02").replace("fender hanger", "old one"))
    page = client.get("/week").text
    assert "Every job is finished by its due date." in page
    assert soon in page
    assert "its due date 2020-01-02 is in the past" in page
    # Beside thirty later ones the job is still there, and those without a date are named.
    for number in range(31):
        brought(client, bare_hanger().replace("fender hanger", f"cleat {number}"))
    page = client.get("/week").text
    assert soon in page
    (named,) = re.findall(r"Without a due date, so not in this plan, are: (.*)\.</p>", page)
    assert len(re.findall(r"cleat \d+", named)) == 6
    assert named.endswith(" and 25 more")
