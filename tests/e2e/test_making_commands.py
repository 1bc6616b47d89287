"""Making as a person runs it: what is written, printed, and refused."""

from __future__ import annotations

import json
import re
from pathlib import Path

import ezdxf
import pdfplumber
import pytest

from strapwright.cli.main import main
from strapwright.service.demo import JOBS

DOCS = Path(__file__).parents[2] / "docs"
FENDER = JOBS / "fender-hanger.toml"
PLATE: str = re.findall(r"```toml\n(.*?)```", (DOCS / "making.md").read_text("utf-8"), re.DOTALL)[0]


@pytest.fixture
def plate(tmp_path: Path) -> Path:
    path = tmp_path / "plate.toml"
    path.write_text(PLATE, encoding="utf-8")
    return path


def answer(capsys: pytest.CaptureFixture[str], *words: str, code: int = 0) -> str:
    assert main(list(words)) == code
    said = capsys.readouterr()
    if code:
        assert said.out == ""
        assert said.err.count("\n") == 1
        assert "Traceback" not in said.err
        return said.err
    assert said.err == ""
    return said.out


def test_tooling_is_made_into_a_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "making"
    said = answer(capsys, "tooling", "make", str(FENDER), "--out", str(out))
    assert "push plate, qty 1: 5 in x 3-1/2 in, 3/4 in thick" in said
    data = json.loads((out / "making.json").read_text("utf-8"))
    names = [one["name"] for one in data["plates"]]
    assert names[:2] == ["push plate", "nose carrier"]
    files = {one.name for one in out.iterdir()}
    assert {"making.pdf", "making.txt", "making.json"} <= files
    assert len(files) == 3 + 3 * (len(names) + len(("together", "apart")))
    # The DXF holds the places that table and JSON say, in inches from the datum corner.
    for number, one in enumerate(data["plates"], start=1):
        path = next(out.glob(f"{number}-*.dxf"))
        points = ezdxf.readfile(path).modelspace().query("POINT")  # type: ignore[attr-defined]
        found = sorted((abs(p.dxf.location.x), abs(p.dxf.location.y)) for p in points)
        wanted = sorted((hole["x_mm"] / 25.4, hole["y_mm"] / 25.4) for hole in one["holes"])
        assert len(found) == len(wanted)
        for at, place in zip(found, wanted, strict=True):
            assert at == pytest.approx(place, abs=0.001 / 25.4)
    with pdfplumber.open(out / "making.pdf") as pdf:
        text = "\n".join(page.extract_text() for page in pdf.pages)
        assert (pdf.pages[0].width, pdf.pages[0].height) == (612, 792)  # letter for inches
    rows = re.findall(r"^([A-Z]\d) (\d+\.\d{3}) (\d+\.\d{3}) ", text, re.MULTILINE)
    holes = [one for plate in data["plates"] for one in plate["holes"]]
    assert [row[0] for row in rows] == [one["label"] for one in holes]
    for row, one in zip(rows, holes, strict=True):
        at = (one["x_mm"] / 25.4, one["y_mm"] / 25.4)
        assert (float(row[1]), float(row[2])) == pytest.approx(at, abs=5.1e-4)
    for name in names:
        assert name[0].upper() + name[1:] in text
    assert "Not entered: how the push plate is fixed to the ram." in text.replace("\n", " ")


def test_hole_table_of_a_plate_file(plate: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = answer(capsys, "holes", str(plate))
    rows = re.findall(r"^  ([A-Z]\d) +(\S+) +(\S+) +(\S+) +(\S+) ", said, re.MULTILINE)
    assert rows == [
        ("A1", "1.000", "1.000", "1.100", "1.100"),
        ("B1", "3.000", "1.750", "3.100", "1.850"),
        ("C1", "5.000", "1.000", "5.100", "1.100"),
    ]
    assert "A1: centre drill, 9/64 drill, 25/64 drill, 5/8 in end mill" in said
    assert "seat dia 5/8 in x 1/4 in" in said
    assert "1 in reamer" in said
    assert "C1: centre drill, #7 drill, 1/4-20 tap (75 % of thread)" in said
    other = answer(capsys, "holes", str(plate), "--corner", "upper right", "--tip", "10 mm")
    assert re.search(r"A1 +5\.000 +2\.500 +5\.197 +2\.697 ", other)  # 6 - 1, 3.5 - 1, 5 mm
    data = json.loads(answer(capsys, "holes", str(plate), "--json"))
    assert data["plates"][0]["holes"][2]["thread"] == "1/4-20"
    assert data["plates"][0]["possible"] is True


def test_own_crib_is_used_and_ways_round_are_told(
    plate: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    crib = tmp_path / "crib.toml"
    crib.write_text(
        'format = 1\nunits = "inch"\n[crib]\ndrills = ["fractional 1/8 to 3/8 by 1/64"]\n',
        encoding="utf-8",
    )
    said = answer(capsys, "holes", str(plate), "--crib", str(crib))
    assert "No tool crib entered" not in said
    assert "buy a 1/4-20 tap" in said
    assert "sleeve: bore it out to" in said
    only = answer(capsys, "drill", "0.3", "--units", "inch", "--crib", str(crib))
    assert only.splitlines()[1:] == [
        "fraction  19/64     0.2969 in, 7.541 mm, 0.0031 in, 0.079 mm under"
    ]


def test_bench_sums(capsys: pytest.CaptureFixture[str]) -> None:
    # ISO 286: 25 H7/g6 has 0.007 to 0.041 mm.
    assert "0.007 mm to 0.041 mm (clearance fit)" in answer(capsys, "fit", "25", "H7/g6")
    data = json.loads(answer(capsys, "fit", "25", "H7/g6", "--json"))
    assert data["clearance_mm"] == pytest.approx({"least": 0.007, "most": 0.041})
    assert "transition" in answer(capsys, "fit", "--hole", "25 to 25.02 mm", "--shaft", "25.01 mm")
    # 3/8-16 with 5/16: (0.375 - 0.3125) 16 / 1.299 = 77.0 %.
    data = json.loads(answer(capsys, "tap", "3/8-16", "--drill", "5/16", "--json"))
    assert data["percent"] == pytest.approx(77.0, abs=0.05)
    assert "5/16 drill: 77.0 %" in answer(capsys, "tap", "3/8-16")
    assert "too tight" in answer(capsys, "tap", "3/8-16", "--drill", "7.75 mm")
    near = json.loads(answer(capsys, "drill", "Q", "--json"))["nearest"]
    assert [one["name"] for one in near] == ["21/64", "#1", "Q", "8.4 mm"]


def changed(old: str, new: str) -> str:
    assert old in PLATE
    return PLATE.replace(old, new, 1)


BAD_PLATES = {
    "hole larger than its plate": (changed('diameter = "1"', 'diameter = "4"'), "larger than its"),
    "too near an edge": (changed('x = "1"', 'x = "1/4"'), "too near an edge"),
    "unknown thread": (changed("1/4-20", "1/4-21"), "no unified or metric thread"),
    "unknown bolt": (changed('bolt = "3/8"', 'bolt = "3/7"'), "no clearance hole for this bolt"),
    "unknown fit": (changed('"H7"', '"Q7"'), "tolerance class"),
    "class of a shaft": (changed('"H7"', '"g6"'), "class of a shaft"),
    "two kinds": (changed('bolt = "3/8"', 'bolt = "3/8"\ndiameter = "1/2"'), "one of diameter"),
    "unknown key": (changed("thickness", "thicknes"), "unknown key"),
    "unknown steel": (changed("1045 hot rolled", "cheese"), "no such steel"),
    "no plate": ('format = 1\nunits = "inch"\nplate = 3\n', "single value"),
    "too deep": (changed('depth = "3/8"', 'depth = "1/2"'), "deep in a plate"),
    "seat at the edge": (changed('diameter = "5/8"', 'diameter = "1-31/32"'), "too near an edge"),
    "seat through": (changed('depth = "1/4"', 'depth = "1/2"'), "the seat is"),
    "seat in the hole": (changed('diameter = "5/8"', 'diameter = "3/8"'), "not wider than"),
    "no thickness": (changed('thickness = "1/2"\n', ""), "missing"),
}


@pytest.mark.parametrize("name", BAD_PLATES)
def test_bad_plate_is_refused_in_one_sentence(
    name: str, plate: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text, words = BAD_PLATES[name]
    plate.write_text(text, encoding="utf-8")
    assert words in answer(capsys, "holes", str(plate), "--out", str(plate.parent / "out"), code=2)
    assert not (plate.parent / "out").exists()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("fit", "25", "H7"), "not a hole and a shaft class"),
        (("fit", "25"), "neither a size with its classes nor one hole and a shaft"),
        (("fit", "600 mm", "H7/g6"), "not in the table of limits"),
        (("fit", "--hole", "25 mm"), "neither"),
        (("tap", "3/8-17"), "no unified or metric thread"),
        (("tap", "3/8-16", "--drill", "3/8"), "leaves no thread"),
        (("tap", "3/8-16", "--percent", "5"), "out of range"),
        (("drill", "0.3"), "the unit is missing"),
        (("drill", "banana"), "no number"),
        (("tooling", "make", "nowhere.toml"), "there is no such"),
    ],
)
def test_bad_words_are_refused_in_one_sentence(
    words: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said in answer(capsys, *words, code=2)


def test_empty_crib_and_a_job_without_tooling(
    plate: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    crib = tmp_path / "crib.toml"
    crib.write_text("format = 1\n[crib]\n", encoding="utf-8")
    assert "the tool crib is empty" in answer(
        capsys, "holes", str(plate), "--crib", str(crib), code=2
    )
    saws = '[[crib.saw]]\nname = "band saw"\nkerf = "1 mm"\n'
    crib.write_text(f"format = 1\n[crib]\n{saws}", encoding="utf-8")
    assert "the tool crib is empty" in answer(
        capsys, "holes", str(plate), "--crib", str(crib), code=2
    )
    job = tmp_path / "job.toml"
    job.write_text(FENDER.read_text("utf-8").partition("[tooling]")[0], encoding="utf-8")
    said = answer(capsys, "tooling", "make", str(job), code=2)
    assert "there is no tooling to make" in said


def test_flags_of_making_are_documented(capsys: pytest.CaptureFixture[str]) -> None:
    commands = (DOCS / "commands.md").read_text(encoding="utf-8")
    head = next(one for one in commands.splitlines() if one.startswith("## `strapwright tooling m"))
    flags = set(re.findall(r"--[a-z]+", answer(capsys, "tooling", "make", "--help"))) - {"--help"}
    assert flags == set(re.findall(r"--[a-z]+", head))
