"""A new part takes press and tooling from the job last worked on, and no figure changes by it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from test_web import NEW, PORT, Browser

from strapwright.pages.workshop import Workshop
from strapwright.quantities import Units, read_length
from strapwright.service.stated_units import with_units
from strapwright.shop.keys import Key, keys_of
from strapwright.shop.members import SEVERAL, SINGLE, Members
from strapwright.shop_files.known_keys import TABLES
from strapwright.shop_files.quantity_fields import KINDS
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store
from strapwright.web import create_app

PART = """\
format = 1
units = "{units}"

[part]
name = "fender hanger"
bar = "{bar}"
material = "A36 hot rolled"
shape = {shape}
"""
INCH_PART = PART.format(units="inch", bar="flat 1/4 x 2", shape='["6", "up 90", "3-1/2"]')
METRIC_PART = PART.format(units="metric", bar="flat 6 x 50", shape='["150", "up 90", "90"]')
INCH_SHOP = """
[press]
bore = "3-1/2"
rod = 1.75
relief = 2000
hand_pump = { volume = "0.5", strokes_per_minute = 30 }
give = { travel = "1/64", at = "2000" }
columns = { apart = 10, width = "1-1/2" }

[tooling]
plate = { width = "6", thick = "3/4" }
nose = { shaft = "1", web = { thick = "1/2", height = "3" } }
shoulders = { radius = "3/8", opening = 2.5, depth = "1-3/4 in" }
members = { off_centre = "1/8", push_plate = { thickness = "3/4", material = "A36" } }

[[tooling.rod]]
out = "4"
diameter = "3/4"

[[tooling.obstacle]]
name = "stop"
box = ["8", "0", 9, "2"]
along = [-1, "1"]
"""
METRIC_SHOP = """
[press]
bore = 90
relief = "138"
pump = "13"

[tooling]
nose = { shaft = "25", web = { thick = 12, height = "76" } }
shoulders = { radius = "10", opening = "63" }
members = { push_plate = { thickness = "20", material = "A36" } }
"""


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


def kept(shop: Workshop, text: str) -> str:
    return shop.store.create("job", "dock cleat", text, datetime.now(UTC), "begun").id


def begun(client: Browser, **more: str) -> str:
    answer = client.post("/new", data={**NEW, **more}, follow=False)
    assert answer.status_code == 303
    return answer.headers["location"].removesuffix("/part").removeprefix("/jobs/")


METRIC_NEW = {"units": "metric", "bar.thickness": "6", "bar.width": "50"}


@pytest.mark.parametrize(
    ("latest", "more"),
    [(INCH_PART + INCH_SHOP, METRIC_NEW), (METRIC_PART + METRIC_SHOP, {})],
    ids=["inch to metric", "metric to inch"],
)
def test_press_and_tooling_of_the_latest_job_mean_the_same_in_a_part_of_the_other_system(
    shop: Workshop, latest: str, more: dict[str, str]
) -> None:
    kept(shop, latest)
    job = begun(Browser(create_app(shop, PORT)), **more)
    shape = 'shape = ["150", "up 90", "90"]\n' if more else 'shape = ["6", "up 90", "3-1/2"]\n'
    text = shop.open(job).text.replace("[part]\n", f"[part]\n{shape}")
    before, now = read_job(latest), read_job(text)
    assert now.units != before.units
    assert now.press == before.press
    assert now.tooling == before.tooling


def bare(key: Key, units: Units) -> str:
    return key.example(units).partition(" ")[0]


MADE = {
    **{
        path: made
        for path, made in TABLES.items()
        if path.partition(".")[0] in ("press", "tooling")
    },
    "tooling.members": Members,
    **{f"tooling.members.{name}": made for name, made in {**SINGLE, **SEVERAL}.items()},
}


@pytest.mark.parametrize("units", ["inch", "metric"])
@pytest.mark.parametrize("path", MADE)
def test_every_quantity_of_press_and_tooling_gets_the_unit_it_was_meant_in(
    path: str, units: Units
) -> None:
    seen = 0
    for key in keys_of(MADE[path]).values():
        if key.kind not in KINDS or not key.example(units):
            continue
        kind = KINDS[key.kind]
        typed = bare(key, units)
        steps = (*path.split("."), *key.name.split("."))
        number = float(typed) if key.kind == "per minute" else typed  # it is typed without quotes
        tables: Any = number
        for step in reversed(steps):
            tables = {step: tables}
        found: Any = with_units(tables, units)
        for step in steps:
            found = found[step]
        assert kind.read(found, "", None) == kind.read(number, "", units), (path, key.name, found)
        seen += 1
    assert seen or path == "tooling.obstacle"  # has lists alone, see the test above


def test_an_unfinished_table_a_shop_file_and_stated_units_stay_as_they_were_typed() -> None:
    tables = {
        "press": "press.toml",
        "tooling": {
            "nose": {"shaft": "25 mm", "held": "both ends", "drawable": True},
            "shoulders": {"opening": "about two"},
        },
    }
    assert with_units(tables, "inch") == tables
    assert with_units({"tooling": {"nose": {"shaft": "1"}}}, None) == {
        "tooling": {"nose": {"shaft": "1"}}
    }


def test_a_figure_that_takes_no_unit_behind_it_is_written_in_the_unit_inside() -> None:
    tiny = 1e-05  # a TOML float that prints with an exponent
    found = with_units({"press": {"give": {"travel": tiny}}}, "inch")
    assert float(read_length(found["press"]["give"]["travel"], "")) == pytest.approx(25.4 * tiny)


def test_the_pages_say_whose_press_and_tooling_it_is_until_they_are_changed(
    shop: Workshop,
) -> None:
    kept(shop, INCH_PART + INCH_SHOP)
    client = Browser(create_app(shop, PORT))
    assert "those of dock cleat" in client.get("/new").text
    job = begun(client, **METRIC_NEW)
    for page in ("part", "press", "tooling"):
        text = client.get(f"/jobs/{job}/{page}").text
        assert "Press and tooling are those of dock cleat." in text, page
    changed = shop.open(job).text.replace('rod = "1.75 in"', 'rod = "45 mm"')
    assert changed != shop.open(job).text
    shop.save(job, changed, 1, "press", "someone")
    assert "Tooling is that of dock cleat." in client.get(f"/jobs/{job}/tooling").text
    client.post(f"/jobs/{job}/tooling", data={"base": "2", "do": "drop-taken-over"})
    left = shop.open(job).text
    assert "[tooling" not in left
    assert 'rod = "45 mm"' in left
    assert "dock cleat" not in client.get(f"/jobs/{job}/tooling").text


def test_a_part_may_begin_with_no_press_and_no_tooling(shop: Workshop) -> None:
    kept(shop, INCH_PART + INCH_SHOP)
    client = Browser(create_app(shop, PORT))
    job = begun(client, shop="none")
    assert "[press]" not in shop.open(job).text
    assert "dock cleat" not in client.get(f"/jobs/{job}/press").text
