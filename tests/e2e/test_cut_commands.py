"""Cut plans as a person runs them: what is printed, written, put on the rack and refused."""

from __future__ import annotations

import csv
import json
import re
import time
from pathlib import Path

import pytest

from strapwright.cli.main import main
from strapwright.cutting.shop_cuts import CutPiece, cut_section, sources_for
from strapwright.quantities import read_length
from strapwright.service.cut_jobs import CutOrder
from strapwright.service.demo import JOBS
from strapwright.service.rack_after_cut import rack_text_after
from strapwright.shop.bar import Bar
from strapwright.shop.rack import Rack, Stock
from strapwright.shop_files.reading_rack import read_rack

RACK = """\
# the rack by the door
format = 1
units = "inch"

[[stock]]
name = "flat by the door"  # bent at one end
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
count = 2
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    for name in ("fender-hanger", "hat-stand-off"):
        (tmp_path / f"{name}.toml").write_text((JOBS / f"{name}.toml").read_text("utf-8"), "utf-8")
    (tmp_path / "rack.toml").write_text(RACK, "utf-8")
    return tmp_path


def answer(capsys: pytest.CaptureFixture[str], *words: str, code: int = 0) -> str:
    assert main(list(words)) == code
    said = capsys.readouterr()
    if code == 2:
        assert said.out == ""
        assert said.err.count("\n") == 1
        return said.err
    return said.out


def test_blanks_are_cut_from_the_rack_and_it_is_kept_up_to_date(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rack, job, out = shop / "rack.toml", shop / "fender-hanger.toml", shop / "out"
    words = ("cut", str(job), str(shop / "hat-stand-off.toml"), "--rack", str(rack))
    said = answer(capsys, *words, "--out", str(out))
    assert "12 pieces from 2 bars: 2 from the rack. Nothing has to be bought." in said
    assert "40 pieces from 3 bars: 3 to buy. No plan buys fewer." in said
    assert "The rack names no supplier's bar of this size; 240 in is assumed." in said
    with (out / "cuts.csv").open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert len(rows) == 52
    assert {path.name for path in out.iterdir()} == {
        "cuts.csv",
        *(f"bars-{number}.{look}.svg" for number in (1, 2) for look in ("dark", "light")),
    }  # fmt: skip
    # Positions on the tape: four blanks and three kerfs of 0.055 in behind the squared end.
    blank = float(rows[0]["length mm"])
    assert float(rows[3]["ends at mm"]) == pytest.approx(4 * blank + 3 * 0.055 * 25.4, abs=0.002)
    # A blank is cut as the sheet reads it, in sixty-fourths.
    assert blank / 25.4 * 64 == pytest.approx(round(blank / 25.4 * 64), abs=0.01)

    mark = json.loads(answer(capsys, *words, "--json"))["mark"]
    assert f"The mark of this plan is {mark}." in said
    wrong = answer(capsys, *words, "--confirm", "0" * 8, code=2)
    assert "look at the new plan first" in wrong
    assert rack.read_text("utf-8") == RACK
    data = json.loads(answer(capsys, *words, "--json", "--confirm", mark))
    kept = [bar for one in data["sections"] for bar in one["bars"] if bar["kept"]]
    assert [bar["label"] for bar in kept] == ["off-cut 1", "off-cut 2"]
    after = rack.read_text("utf-8")
    assert "# the rack by the door" in after
    assert "flat by the door" not in after
    assert "count = 1" in after
    assert after.count("off-cut ") == 2
    left = kept[0]["offcut_mm"] / 25.4
    shelved = re.findall(r'length = "(36[^"]*)"', after)
    (put_back,) = (float(read_length(one, "length")) / 25.4 for one in shelved)
    assert put_back == pytest.approx(left // 0.125 * 0.125)  # in whole eighths
    # It cannot be booked twice.
    assert "look at the new plan first" in answer(capsys, *words, "--confirm", mark, code=2)
    assert rack.read_text("utf-8") == after
    # What is on the rack now is used next time; then it is put back as it was.
    again = json.loads(answer(capsys, "cut", str(job), "--rack", str(rack), "--json"))
    assert {bar["from"] for bar in again["sections"][0]["bars"]} == {"off-cut 1", "flat top shelf"}
    # What was typed since is not lost.
    rack.write_text(after + "# typed since\n", "utf-8")
    said = answer(capsys, "cut", "--rack", str(rack), "--undo", code=2)
    assert "the rack file was changed since the cut" in said
    assert rack.read_text("utf-8") == after + "# typed since\n"
    rack.write_text(after, "utf-8")
    assert "as it was before" in answer(capsys, "cut", "--rack", str(rack), "--undo")
    assert rack.read_text("utf-8") == RACK
    assert "no confirmed cut" in answer(capsys, "cut", "--rack", str(rack), "--undo", code=2)


def test_a_plan_that_takes_one_of_several_like_bars_is_booked_once(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rack, job = shop / "rack.toml", shop / "fender-hanger.toml"
    # Each leaves less than is kept, so that only the count on the rack tells before from after.
    rack.write_text(
        RACK.replace("count = 2", "count = 9").replace('"144"', '"61-1/2"').replace(
            'origin = "off-cut"', ""
        ),
        "utf-8",
    )  # fmt: skip
    words = ("cut", str(job), "--rack", str(rack), "--json")
    mark = json.loads(answer(capsys, *words))["mark"]
    assert json.loads(answer(capsys, *words, "--confirm", mark))["mark"] == mark
    after = rack.read_text("utf-8")
    assert "off-cut" not in after
    assert "look at the new plan first" in answer(capsys, *words, "--confirm", mark, code=2)
    assert rack.read_text("utf-8") == after


def test_the_off_cut_of_a_tooling_round_keeps_the_metal_of_its_bar() -> None:
    end = Stock(
        name="shaft end", kind="shaft", thickness=25.4, width=25.4, length=900.0, count=1,
        material="1045 hot rolled", price=0.0, origin="rack",
    )  # fmt: skip
    nose = Bar(section="round", thickness=25.4, width=25.4)
    cuts = cut_section(  # the job names no steel, only its class
        nose, "medium carbon steel", [CutPiece(name="nose", length=300.0, quantity=1)],
        sources_for(nose, "medium carbon steel", Rack(stock=(end,)), 6000.0),
        kerf=1.4, squaring=3.0, least_offcut=300.0, clock=time.perf_counter,
    )  # fmt: skip
    order = CutOrder(
        jobs=("hanger",), units="metric", reading="mm", sections=(cuts,), assumed_kerf=False
    )
    text = (
        'format = 1\nunits = "metric"\n[[stock]]\nname = "shaft end"\nkind = "shaft"\n'
        'size = "25.4"\nlength = "900"\nmaterial = "1045 hot rolled"\n'
    )
    (left,) = read_rack(rack_text_after(text, order) or "").stock
    assert (left.name, left.material, left.origin) == ("off-cut 1", "1045 hot rolled", "off-cut")
    assert left.length == 595.0  # 900 - 3 - 300 - 1.4, in whole steps of 5


def test_tooling_is_cut_with_the_blanks(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data = json.loads(
        answer(capsys, "cut", str(shop / "fender-hanger.toml"), "--tooling", "--json")
    )
    names = {piece["name"] for one in data["sections"] for piece in one["pieces"]}
    assert "fender hanger" in names
    assert "fender hanger: push plate" in names
    assert any("shaft" in name or "shoulder" in name for name in names)
    assert all(one["proven"] for one in data["sections"])


@pytest.mark.parametrize(
    ("stated", "racked", "serves"),
    [
        # No steel is named: a nose shaft is of medium carbon steel, and any such will do.
        ("", "1045 ground shaft", True),
        ("", "1045 hot rolled", True),
        ("", "1018 cold drawn", False),  # low carbon
        ("", "hardened shaft", False),  # not to be turned or cut to length by saw
        ("", "unknown steel", False),
        # A steel is named: its strength was counted on, so that one alone will do.
        ("1045 ground shaft", "1045 ground shaft", True),
        ("1045 ground shaft", "1045 hot rolled", False),
    ],
)
def test_a_round_of_the_tooling_is_cut_from_the_rack_by_its_metal(
    stated: str, racked: str, serves: bool
) -> None:
    end = Stock(
        name="shaft end", kind="shaft", thickness=25.4, width=25.4, length=600.0, count=1,
        material=racked, price=0.0, origin="rack",
    )  # fmt: skip
    nose = Bar(section="round", thickness=25.4, width=25.4)
    found = sources_for(nose, stated or "medium carbon steel", Rack(stock=(end,)), 6096.0)
    assert ("shaft end" in {one.name for one in found}) is serves


def test_what_cannot_be_cut_is_refused_in_one_sentence(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = shop / "fender-hanger.toml"
    rates, rack = shop / "rates.toml", shop / "rack.toml"
    said = answer(capsys, "cut", str(job), str(job), code=2)
    assert "two jobs have this name" in said
    long = shop / "long.toml"
    long.write_text(
        job.read_text("utf-8").replace('shape = ["5",', 'shape = ["300",').replace(
            "fender hanger", "long one"
        ),
        "utf-8",
    )  # fmt: skip
    said = answer(capsys, "cut", str(long), code=2)
    assert said.startswith("long one: the piece is ")
    assert "more than any bar gives" in said
    rates.write_text('format = 1\nunits = "inch"\n[cutting]\nkerf = "-0.1"\n', "utf-8")
    assert "the kerf is negative" in answer(capsys, "cut", str(job), "--rates", str(rates), code=2)
    assert "--rack" in answer(capsys, "cut", str(job), "--confirm", "0" * 8, code=2)
    assert "no job is named" in answer(capsys, "cut", code=2)
    assert "--seconds" in answer(capsys, "cut", str(job), "--seconds", "0", code=2)
    assert rack.read_text("utf-8") == RACK


def test_a_plan_says_which_bars_its_blanks_come_from(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ("plan", str(shop / "fender-hanger.toml"))
    said = answer(capsys, *words, "--rack", str(shop / "rack.toml"))
    assert "Saw from: flat 1/4 x 2 in: 4 from bar 1 (61-1/2 in, off-cut from the rack" in said
    assert "8 from bar 2 (144 in, bar from the rack 'flat top shelf')." in said
    assert "Saw from" not in answer(capsys, *words)
