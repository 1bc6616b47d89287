"""Paper and lists from the command line: template, blank as DXF, check, materials, angles."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import ezdxf
import jsonschema
import pytest
from pypdf import PdfReader

from strapwright.catalog import find_material
from strapwright.cli.main import main
from strapwright.service.demo import JOBS

SCHEMA = json.loads(
    (Path(__file__).parents[2] / "docs" / "plan.schema.json").read_text(encoding="utf-8")
)
FENDER = JOBS / "fender-hanger.toml"


def refused(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert "Traceback" not in err
    return err


def test_plan_writes_template_and_blank(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(FENDER), "--out", str(tmp_path), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    text = "".join(page.extract_text() for page in PdfReader(tmp_path / "template.pdf").pages)
    for step in data["steps"]:
        assert f"{round(step['loaded_angle_deg'], 1):g}°" in text
        assert re.search(rf"bends? [0-9, and]*{step['bend']}[0-9, and]* (under load|let go)", text)
    document = ezdxf.read(  # type: ignore[attr-defined]
        io.StringIO((tmp_path / "blank.dxf").read_text(encoding="utf-8"))
    )
    drawn = sorted(line.dxf.start.x * 25.4 for line in document.query('*[layer=="BEND-MIDDLE"]'))
    marks = sorted(mark["nose_mm"] for mark in data["blank"]["marks"])
    assert drawn == pytest.approx(marks, abs=1e-3)


def test_check_says_the_findings_of_the_plan(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    text = FENDER.read_text(encoding="utf-8").replace('relief = "2000 psi"', 'relief = "60 psi"')
    job.write_text(text, encoding="utf-8")
    assert main(["check", str(job), "--json"]) == 3
    checked = json.loads(capsys.readouterr().out)
    assert main(["plan", str(job), "--json"]) == 3
    planned = json.loads(capsys.readouterr().out)
    assert checked["findings"] == planned["findings"]
    assert set(checked) == {"format", "part", "findings"}
    rule = {**SCHEMA["properties"]["findings"], "$defs": SCHEMA["$defs"]}
    jsonschema.Draft202012Validator(rule).validate(checked["findings"])
    assert main(["check", str(job)]) == 3
    out = capsys.readouterr().out
    assert out.startswith("Cannot be made as entered\n")
    for finding in planned["findings"]:
        assert f"[{finding['code']}]" in out
    assert list(tmp_path.iterdir()) == [job]
    assert "there is no such job file" in refused(["check", str(tmp_path / "none")], capsys)


def test_materials_list_the_catalog(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["materials", "--json"]) == 0
    listed = json.loads(capsys.readouterr().out)["materials"]
    assert main(["materials"]) == 0
    out = capsys.readouterr().out
    assert max(len(line) for line in out.splitlines()) <= 88
    for one in listed:
        assert one["name"] in out
        for name in (one["name"], *one["aliases"]):
            assert find_material(name, "material").name == one["name"]
        band = one["yield_MPa"]
        assert band["low"] < band["value"] < band["high"]
        # Symmetric in the logarithm, as a spread of the logarithm is.
        assert band["low"] * band["high"] == pytest.approx(band["value"] ** 2)
    a36 = next(one for one in listed if one["name"] == "A36 hot rolled")
    assert a36["yield_minimum_MPa"] == pytest.approx(250, abs=2)  # ASTM A36: 36 ksi
    # ASTM A6, table X4.2: 1.5 thicknesses up to 20 mm, bend line across the rolling direction.
    assert a36["smallest_radius"]["over_thickness"] == pytest.approx(1.5)
    assert a36["smallest_radius"]["grade"] == "standard"


def test_angles_writes_gauges(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "new" / "gauges.pdf"
    words = ["angles", "90", "92.6 deg", "90", "--out", str(out), "--paper", "a4", "--json"]
    assert main(words) == 0
    said = json.loads(capsys.readouterr().out)
    assert said["angles_deg"] == [90.0, 92.6]
    reader = PdfReader(out)
    assert float(reader.pages[0].mediabox.width) == pytest.approx(210 / 25.4 * 72, abs=0.1)
    text = reader.pages[0].extract_text()
    assert "92.6°" in text
    assert "included 87.4°" in text
    assert list(out.parent.iterdir()) == [out]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["0"], "from 1 to 175 degrees"),
        (["90", "180"], "angle 2 '180'"),
        (["ninety"], "angle 1"),
        (["3 in"], "angle 1"),
        (["90"] * 101, "at most 100"),
    ],
)
def test_angles_that_cannot_be_cut_are_refused(
    words: list[str], sentence: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said = refused(["angles", *words, "--out", str(tmp_path / "g.pdf")], capsys)
    assert sentence in said
    assert list(tmp_path.iterdir()) == []


def test_angles_do_not_take_the_place_of_something_else(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text("format = 1\n", encoding="utf-8")
    assert "ends in .pdf" in refused(["angles", "90", "--out", str(job)], capsys)
    assert job.read_text(encoding="utf-8") == "format = 1\n"
    folder = tmp_path / "folder.pdf"
    folder.mkdir()
    assert "it is a folder" in refused(["angles", "90", "--out", str(folder)], capsys)
    assert "cannot be written" in refused(["angles", "90", "--out", str(job / "g.pdf")], capsys)
    assert "--out" in refused(["angles", "90"], capsys)
    assert refused(["angles", "--out", "g.pdf"], capsys)
