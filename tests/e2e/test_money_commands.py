"""Quote, payback and week as a person runs them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from strapwright.cli.main import main
from strapwright.service.demo import JOBS

RATES = """\
format = 1
units = "inch"
[money]
currency = "NOK"
labour = 450
tax = 0.25
[[price]]
price = 12
by = "kg"
[[outside]]
name = "hot-dip galvanizing"
part = 24
lot = 350
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    due = {"fender-hanger": "2026-12-04", "hat-stand-off": "2026-12-01"}
    for name, day in due.items():
        text = (JOBS / f"{name}.toml").read_text("utf-8")
        text = text.replace("quantity =", f'due = "{day}"\nquantity =')
        (tmp_path / f"{name}.toml").write_text(text, "utf-8")
    (tmp_path / "rates.toml").write_text(RATES, "utf-8")
    return tmp_path


def answer(capsys: pytest.CaptureFixture[str], *words: str, code: int = 0) -> str:
    assert main(list(words)) == code
    said = capsys.readouterr()
    if code == 2:
        assert said.out == ""
        assert said.err.count("\n") == 1
        return said.err
    return said.out


def test_a_quote_has_costs_for_the_shop_and_prices_for_the_customer(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, rates, sheet = shop / "fender-hanger.toml", shop / "rates.toml", shop / "quote.pdf"
    words = ("quote", str(job), "--rates", str(rates))
    data = json.loads(
        answer(capsys, *words, "--json", "--for", "Harbour office", "--out", str(sheet))
    )
    assert [lot["quantity"] for lot in data["lots"]] == [1, 5, 10, 50]
    each = [lot["each"] for lot in data["lots"]]
    assert each == sorted(each, reverse=True)
    works = {one["work"]: one for one in data["hours"]["works"]}
    assert works["drill"]["part_min"] == pytest.approx(9.0)  # three holes
    assert works["set up"]["lot_min"] == pytest.approx(35.0)  # the tooling, and three bends
    # Metal: blank and one kerf of 0.055 in of a 1/4 x 2 bar at 7.85, three parts in a hundred lost.
    cut = json.loads(answer(capsys, "cut", str(job), "--json"))
    blank = cut["sections"][0]["pieces"][0]["length_mm"]
    metal = (blank + 0.055 * 25.4) * 6.35 * 50.8 * 7.85e-6 * 12
    assert data["lots"][0]["material"] == pytest.approx(metal / 0.97, rel=1e-4)
    with pdfplumber.open(sheet) as pdf:
        text = pdf.pages[0].extract_text()
    assert "Harbour office" in text
    assert "hot-dip galvanizing" in text
    for lot in data["lots"]:
        assert f"NOK {lot['each']:.2f}" in text
        assert f"NOK {lot['total']:.2f}" in text
    # The customer sees no cost, margin or hour of the shop.
    for word in ("margin", "Labour", "labour", "Metal", "scrap", "hour", "kerf", "springback"):
        assert word not in text
    said = answer(capsys, *words, "--quantities", "3, 7")
    assert "Your cost of 7 parts:" in said
    assert "Your cost of 1 part:" in answer(capsys, *words, "--quantities", "1")
    assert "Setting up the press" in said


def test_a_payback_counts_hours_metal_scrap_and_setup(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, rates = shop / "fender-hanger.toml", shop / "rates.toml"
    words = ("payback", str(job), "--rates", str(rates), "--json", "--minutes", "25")
    plain = json.loads(answer(capsys, *words))
    assert plain["low"] < plain["count"]
    assert plain["high"] is None or plain["high"] > plain["count"]
    assert plain["tooling"] > 450  # more than one hour of making
    worse = json.loads(answer(capsys, *words, "--setup", "30", "--scrap", "0.1"))
    assert worse["count"] < plain["count"]
    free = json.loads(answer(capsys, *words, "--tooling-cost", "100"))
    assert free["tooling"] == 100
    out = shop / "chart"
    said = answer(
        capsys, "payback", str(job), "--rates", str(rates), "--bought", "10", "--out", str(out)
    )
    assert "It never pays for itself" in said
    assert {path.name for path in out.iterdir()} == {"payback.dark.svg", "payback.light.svg"}


def test_a_week_says_what_to_move(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    jobs = (str(shop / "fender-hanger.toml"), str(shop / "hat-stand-off.toml"))
    words = ("week", *jobs, "--rates", str(shop / "rates.toml"), "--from", "2026-11-30")
    said = answer(capsys, *words, "--out", str(shop / "days"), code=3)
    assert "Move rub rail stand-off: the hours before the due date are not enough." in said
    assert "days late" in said or "day late" in said
    assert (shop / "days" / "week.light.svg").is_file()
    (shop / "rates.toml").write_text(RATES + "[hours]\na_day = 16\n", "utf-8")
    data = json.loads(answer(capsys, *words, "--json"))
    assert all(one["fits"] for one in data["jobs"])


def test_a_week_counts_parts_that_are_lost_and_says_what_it_leaves_out(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rates, dated, undated = shop / "rates.toml", shop / "dated.toml", shop / "undated.toml"
    text = (shop / "fender-hanger.toml").read_text("utf-8").split("[press]")[0]
    text = text.replace("[[part.hole]]", 'assumed_radius = "1/2"\n[[part.hole]]', 1)
    dated.write_text(text.replace("fender hanger", "cleat"), "utf-8")
    plain = (JOBS / "fender-hanger.toml").read_text("utf-8").split("[press]")[0]
    undated.write_text(plain.replace("fender hanger", "stern hook"), "utf-8")
    words = ("week", str(dated), str(undated), "--rates", str(rates), "--from", "2026-11-30")

    def hours(scrap: str) -> float:
        rates.write_text(RATES.replace("tax =", f"scrap = {scrap}\ntax ="), "utf-8")
        return float(json.loads(answer(capsys, *words, "--json"))["jobs"][0]["hours"])

    # Half of the parts lost: twelve more are made for twelve, each with its minutes.
    quoted = json.loads(answer(capsys, "quote", str(dated), "--rates", str(rates), "--json"))
    assert hours("0.5") - hours("0") == pytest.approx(12 * quoted["hours"]["part_min"] / 60)
    said = answer(capsys, *words)
    assert "Without a due date, so not in this plan, is: stern hook." in said
    assert "Bending is left out, because no tooling is entered: cleat." in said
    refused = answer(
        capsys, "quote", str(dated), "--rates", str(rates), "--out", str(shop / "q.pdf"), code=2
    )
    assert "enter the tooling before you hand the quote over" in refused
    assert not (shop / "q.pdf").exists()
    rates.write_text(RATES.replace("tax =", "scrap = 1\ntax ="), "utf-8")
    assert "every part is lost" in answer(capsys, *words, code=2)


def test_what_cannot_be_priced_is_refused_in_one_sentence(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, rates = str(shop / "fender-hanger.toml"), str(shop / "rates.toml")
    assert "labour = 45" in answer(capsys, "quote", job, code=2)
    bare = shop / "bare.toml"
    bare.write_text("format = 1\n[money]\nlabour = 450\n", "utf-8")
    said = answer(capsys, "quote", job, "--rates", str(bare), code=2)
    assert "no price of A36 hot rolled is entered" in said
    bare.write_text("format = 1\n[money]\nlabour = 0\n", "utf-8")
    assert "the labour is 0" in answer(capsys, "quote", job, "--rates", str(bare), code=2)
    words = ("--rates", rates)
    assert "quantities" in answer(capsys, "quote", job, *words, "--quantities", "1,x", code=2)
    assert "quantities" in answer(capsys, "quote", job, *words, "--quantities", "0", code=2)
    assert "today's way is not clear" in answer(capsys, "payback", job, *words, code=2)
    said = answer(capsys, "payback", job, *words, "--minutes", "20", "--scrap", "1", code=2)
    assert "scrap" in said
    said = answer(capsys, "week", job, "--from", "2026-12-05", code=2)
    assert said.startswith("fender hanger: its due date is in the past")
    assert "there is no such day" in answer(capsys, "week", job, "--from", "soon", code=2)
    text = (shop / "fender-hanger.toml").read_text("utf-8")
    (shop / "fender-hanger.toml").write_text(text.replace("2026-12-04", "2026-02-30"), "utf-8")
    said = answer(capsys, "week", job, code=2)
    assert "part.due" in said
    assert "there is no such day" in said
    no_due = str(JOBS / "fender-hanger.toml")
    assert "no job has a due date" in answer(capsys, "week", no_due, code=2)


@pytest.mark.long
def test_the_log_says_how_long_laying_in_takes_and_is_used_where_asked(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, rates, store = shop / "fender-hanger.toml", shop / "rates.toml", shop / "store"

    def timed(minutes: str, code: int = 0) -> str:
        words = ("--bend", "1", "--angle", "88", "--sure", "--minutes", minutes)
        return answer(capsys, "log", "add", str(job), *words, "--store", str(store), code=code)

    def quoted(*words: str) -> dict[str, Any]:
        ways = ("--rates", str(rates), "--store", str(store), "--json", *words)
        return dict(json.loads(answer(capsys, "quote", str(job), *ways)))

    assert "minutes" in timed("soon", code=2)
    for minutes in ("2", "1.1", "0.9", "9"):
        timed(minutes)
    few = answer(
        capsys,
        "quote",
        str(job),
        "--rates",
        str(rates),
        "--store",
        str(store),
        "--from-log",
        code=2,
    )
    assert "4 timed bends" in few
    timed("1.4")
    stated, logged = quoted(), quoted("--from-log")
    # In order 0.9, 1.1, 1.4, 2, 9: the middle is 1.4, where the mean would be 2.88.
    shown = {"timed_bends": 5, "log_min": 1.4, "rate_min": 0.5}
    assert stated["laying_in"] == {**shown, "from_log": False}
    assert logged["laying_in"] == {**shown, "from_log": True}
    part = [one["hours"]["part_min"] for one in (stated, logged)]
    assert part[1] - part[0] == pytest.approx(3 * (1.4 - 0.5))  # three bends
    week = ("week", str(job), "--from", "2026-11-23", "--store", str(store))
    assert "shows 1.40 min (middle of 5 bends), the rates say 0.50 min" in answer(capsys, *week)
    # A line left out is not used.
    answer(
        capsys, "log", "correct", str(job), "--line", "5", "--leave-out", "--why", "stopped",
        "--store", str(store),
    )  # fmt: skip
    assert quoted()["laying_in"]["log_min"] is None
    assert quoted()["laying_in"]["timed_bends"] == 4
