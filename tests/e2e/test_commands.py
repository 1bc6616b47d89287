"""Whole commands as a person runs them: what they print, write and refuse."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from strapwright.catalog import find_material
from strapwright.cli.main import main
from strapwright.service.demo import JOBS, NAMES

DOCS = Path(__file__).parents[2] / "docs"
FENDER = (JOBS / "fender-hanger.toml").read_text(encoding="utf-8")
COMMANDS = ("plan", "check", "stroke", "more", "force", "materials", "angles", "new", "demo")
COMMANDS += ("holes", "fit", "tap", "drill", "batch", "study", "serve", "backup", "restore")
STROKE = (
    "stroke",
    *("--bar", "flat 1/4 x 2"),
    *("--material", "A36"),
    *("--opening", "2-1/2"),
    *("--nose-radius", "1/2"),
    *("--shoulder-radius", "3/8"),
    *("--units", "inch"),
)


def changed(old: str, new: str) -> str:
    assert old in FENDER
    return FENDER.replace(old, new)


BAD_JOBS = {
    "no unit where none is stated": (changed('units = "inch"\n', ""), "unit"),
    "two fraction bars": (changed("1/4 x 2", "1/4 x 1 1/2/3"), "1/2/3"),
    "negative thickness": (changed("1/4 x 2", "-1/4 x 2"), "thickness"),
    "zero thickness": (changed("1/4 x 2", "0 x 2"), "thickness"),
    "leg shorter than its setback": (changed('"up 90", "3-1/2"', '"up 90", "3/8"'), "leg"),
    "nose wider than the gap": (changed('shaft = "1"', 'shaft = "3"'), "nose"),
    "angle of 0": (changed("up 45", "up 0"), "angle"),
    "unknown material": (changed("A36 hot rolled", "B36 lukewarm"), "B36 lukewarm"),
    "unknown key": (changed("quantity", "quantitty"), "quantity"),
    "unknown bend": (changed("up 45", "sideways 45"), "up"),
    "hole off the bar": (changed('diameter = "9/16"', 'diameter = "2-1/4"'), "hole"),
    "no toml": ("[part\n", "TOML"),
    "shop file that is not there": (
        FENDER.partition("[press]")[0].replace("[part]", 'press = "mine.toml"\n[part]'),
        "mine.toml",
    ),
}
BAD_FILES = {
    "empty": (b"", "empty"),
    "blank": (b" \n\n", "empty"),
    "binary": (b"\x00\x01\x02" * 50, "binary"),
    "ten megabytes": (b"# long\n" * 1_500_000, "MB"),
    "not UTF-8": ("name = 'Hängelasche'".encode("latin-1"), "UTF-8"),
}

EXAMPLES = DOCS / "examples"


def refused(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    """Run a command that must be refused; return its one sentence."""
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert err.endswith((".\n", "?\n"))
    assert "Traceback" not in err
    assert len(err) < 500
    return err


@pytest.mark.parametrize("name", BAD_JOBS)
def test_a_bad_job_is_one_sentence_and_writes_nothing(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text, words = BAD_JOBS[name]
    job, out = tmp_path / "job.toml", tmp_path / "out"
    job.write_text(text, encoding="utf-8")
    sentence = refused(["plan", str(job), "--out", str(out), "--json"], capsys)
    assert words in sentence
    assert list(tmp_path.iterdir()) == [job]


@pytest.mark.parametrize("name", BAD_FILES)
def test_a_bad_file_is_one_sentence_and_writes_nothing(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content, words = BAD_FILES[name]
    job, out = tmp_path / "job.toml", tmp_path / "out"
    job.write_bytes(content)
    assert words in refused(["plan", str(job), "--out", str(out)], capsys)
    assert list(tmp_path.iterdir()) == [job]


def test_a_missing_file_and_a_folder_are_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "there is no such job file" in refused(["plan", str(tmp_path / "none")], capsys)
    assert "it is a folder" in refused(["plan", str(tmp_path)], capsys)


@pytest.mark.parametrize("place", ["taken", "taken/below"])
def test_an_output_folder_that_cannot_be_written(
    place: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "taken").write_text("a file in the way", encoding="utf-8")
    job = str(JOBS / "fender-hanger.toml")
    sentence = refused(["plan", job, "--out", str(tmp_path / place)], capsys)
    assert "cannot be written" in sentence
    assert (tmp_path / "taken").read_text(encoding="utf-8") == "a file in the way"


@pytest.mark.parametrize(
    ("extra", "words"),
    [
        (["--angle", "0"], "angle"),
        (["--angle", "-5"], "angle"),
        (["--angle", "179"], "under load, which leaves"),
        (["--angle", "90", "--travel", "1"], "keep one"),
        (["--travel", "9"], "jams"),
        (["--material", "unobtainium"], "unobtainium"),
        (["--bar", "flat 1/4 x 1 1/2/3"], "--bar"),
        (["--bar", "flat 0 x 2"], "thickness"),
        (["--opening", "1/2"], "shoulder"),
        (["--friction", "2"], "friction"),
        (["--bore", "0"], "bore"),
        (["--units", "furlong"], "furlong"),
    ],
)
def test_a_bad_flag_is_one_sentence(
    extra: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert words in refused([*STROKE, *extra], capsys)


def test_a_flag_without_a_unit_is_refused_where_none_is_stated(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert "unit" in refused(["force", "--bore", "4", "--pressure", "2500 psi"], capsys)


@pytest.mark.parametrize("arguments", [["flatten"], ["force", "--blore", "4 in"], ["more"]])
def test_an_unknown_word_is_one_sentence(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)


def test_stroke_arrays_agree_and_hit_the_angle(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*STROKE, "--angle", "90", "--bore", "3-1/2", "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    names = ("travel_mm", "force_N", "gauge_MPa", "loaded_angle_deg", "free_angle_deg")
    assert len({len(data[name]) for name in names}) == 1
    assert data["converged"] is True
    assert data["target"]["free_angle_deg"] == pytest.approx(90.0, abs=1e-3)
    assert data["target"]["loaded_angle_deg"] > 90.0
    # 95 % of the pressure on the piston arrives: p = F / (0.95 A), A of a 3-1/2 in bore.
    area = 9.6211 * 645.16
    expected = data["target"]["force_N"] / (0.95 * area)
    assert data["target"]["gauge_MPa"] == pytest.approx(expected, rel=1e-4)


def test_stroke_without_bore_has_no_gauge_and_travel_goes_back(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main([*STROKE, "--angle", "60", "--json"]) == 0
    first = json.loads(capsys.readouterr().out)
    assert first["gauge_MPa"] is None
    assert first["target"]["gauge_MPa"] is None
    assert main([*STROKE, "--travel", f"{first['target']['travel_mm']:.9f} mm", "--json"]) == 0
    back = json.loads(capsys.readouterr().out)
    assert back["target"]["free_angle_deg"] == pytest.approx(60.0, abs=1e-3)


def test_springback_stands_beside_the_classical_ratio(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main([*STROKE, "--angle", "90"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    found = re.search(
        r"The textbook formula gives ([\d.]+)° of springback, ours ([\d.]+)°\. (.+)\.",
        said,
    )
    assert found is not None
    classical, ours = map(float, found.groups()[:2])
    under_ram = re.search(r"Under load ([\d.]+)°", said)
    assert under_ram is not None
    assert ours == pytest.approx(float(under_ram[1]) - 90.0, abs=0.11)
    # Kalpakjian and Schmid: x = R Y/(E t), the arc opens by (R + t/2)/(R_f + t/2).
    metal = find_material("A36", "")
    x = 12.7 * metal.yield_typical / (metal.modulus * 6.35)
    free = 12.7 / (4 * x**3 - 3 * x + 1)
    opens = (90.0 + ours) * (1 - (12.7 + 3.175) / (free + 3.175))
    assert classical == pytest.approx(opens, abs=0.06)
    assert "curved legs" in found[3]
    assert "hardening" in found[3]
    assert main([*STROKE[:2], "round 1/2", *STROKE[3:], "--angle", "90"]) == 0
    assert "classical" not in capsys.readouterr().out


def test_force_says_the_textbook_figure(capsys: pytest.CaptureFixture[str]) -> None:
    # Common practice, no source: 4 in at 2,500 psi is 31,416 lbf, 15.7 US tons.
    assert main(["force", "--bore", "4 in", "--pressure", "2500 psi"]) == 0
    out = capsys.readouterr().out
    assert "31416 lbf" in out
    assert "15.7 tons (US)" in out


def test_force_converts_back(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["force", "--bore", "4 in", "--force", "31416 lbf", "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["pressure_MPa"] / 0.00689475729 == pytest.approx(2500, abs=0.1)


def test_new_writes_a_job_that_plans_and_never_overwrites(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for units in ("inch", "metric"):
        job = tmp_path / f"{units}.toml"
        assert main(["new", str(job), "--units", units]) == 0
        assert main(["plan", str(job)]) in {0, 3}
        capsys.readouterr()
        before = job.read_bytes()
        assert "nothing was written" in refused(["new", str(job)], capsys)
        assert job.read_bytes() == before


@pytest.mark.long
def test_demo_writes_whole_plans(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "demo"
    assert main(["demo", "--out", str(out)]) == 0
    said = capsys.readouterr().out
    assert "fender hanger, qty 12" in said
    schema = json.loads((DOCS / "plan.schema.json").read_text(encoding="utf-8"))
    assert sorted(folder.name for folder in out.iterdir()) == sorted(NAMES)
    for name in NAMES:
        folder = out / name
        data = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator(schema).validate(data)
        assert (folder / "sheet.pdf").read_bytes().startswith(b"%PDF-")
        assert (folder / "job.toml").read_bytes() == (JOBS / f"{name}.toml").read_bytes()
        for bend in range(1, len(data["steps"]) + 1):
            for pose in ("rest", "stroke", "released", "curve"):
                for theme in ("dark", "light"):
                    drawing = (folder / f"bend-{bend}-{pose}.{theme}.svg").read_bytes()
                    assert b"<svg" in drawing[:200]
        # Whole files only: nothing of the writing is left behind.
        assert not [one for one in folder.iterdir() if one.name.startswith(".")]


def test_the_words_say_what_the_json_says(capsys: pytest.CaptureFixture[str]) -> None:
    job = str(JOBS / "fender-hanger.toml")
    assert main(["plan", job, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert main(["plan", job]) == 0
    out = capsys.readouterr().out
    assert max(len(line) for line in out.splitlines()) <= 88
    heads = [int(one) for one in re.findall(r"^\d\. Bend (\d)", out, re.MULTILINE)]
    assert heads == [step["bend"] for step in data["steps"]] == [3, 2, 1]
    psi = 0.006894757293168361  # MPa
    blocks = out.split("\n\n")
    for step in data["steps"]:
        # Bends that are set alike are set in one block before the first of them.
        block = next(
            one
            for one in blocks
            if "Travel " in one
            and re.match(rf".*[Bb]ends? .*\b{step['bend']}\b", one.split("\n")[0])
        )
        push, gauge, limit = (
            float(re.findall(words, " ".join(block.split()))[0])
            for words in (
                r"Travel ([\d.]+) in from first contact",
                r"Gauge ([\d.]+) psi",
                r"check above (\d+) psi",
            )
        )
        band = step["bands"]["gauge_MPa"]
        # Rounding costs at most a tenth of the band.
        value = step["gauge_MPa"]["value"]
        assert abs(gauge * psi - value) <= (band["high"] - band["low"]) / 10 + 1e-9
        # A setting is never rounded by its band, only to a thousandth of an inch.
        assert abs(push * 25.4 - step["travel_mm"]) <= 0.0127 + 1e-9
        # The pressure to let off at is never rounded up.
        assert limit * psi <= step["gauge_MPa"]["ease_off"]
    for finding in data["findings"]:
        # What tips is said where the bar is placed, once.
        tips = finding["code"] == "tips-before-touch"
        assert (f"[{finding['code']}]" in out) is not tips
    assert "tips to the" in out
    for caution in data["cautions"]:
        assert caution in " ".join(out.split())


def test_a_refusal_is_printed_and_written_with_exit_code_3(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(changed('relief = "2000 psi"', 'relief = "60 psi"'), encoding="utf-8")
    assert main(["plan", str(job), "--out", str(tmp_path / "out")]) == 3
    assert "[press-too-weak]" in capsys.readouterr().out
    data = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    assert "refusal" in {finding["severity"] for finding in data["findings"]}


def test_plan_as_json_is_what_out_writes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = str(JOBS / "dock-ladder-bracket.toml")
    assert main(["plan", job, "--json", "--out", str(tmp_path / "out")]) == 0
    said = capsys.readouterr().out
    assert (tmp_path / "out" / "plan.json").read_text(encoding="utf-8") == said
    data = json.loads(said)
    for step in data["steps"]:
        wanted = step["wanted_angle_deg"]
        assert step["free_angle_deg"] == pytest.approx(wanted, abs=1e-3)
        assert step["bands"]["free_angle_deg"]["low"] < wanted
        assert step["bands"]["free_angle_deg"]["high"] > wanted
        assert step["gauge_MPa"]["low"] < step["gauge_MPa"]["value"] < step["gauge_MPa"]["high"]


def test_more_is_the_difference_of_two_strokes(capsys: pytest.CaptureFixture[str]) -> None:
    # Property: from 84 to 87 and from 87 to 90 is as far as from 84 to 90.
    job = str(JOBS / "dock-ladder-bracket.toml")

    def extra(stands: str, wanted: str) -> float:
        words = ["more", job, "--bend", "1", "--stands", stands, "--wanted", wanted, "--json"]
        assert main(words) == 0
        return float(json.loads(capsys.readouterr().out)["extra_mm"])

    assert extra("84", "87") + extra("87", "90") == pytest.approx(extra("84", "90"), rel=0.02)


@pytest.mark.parametrize(
    ("bend", "stands", "words"),
    [
        ("9", "84", "give a number from 1 to 2"),
        ("1", "120", "is not advised"),
        ("1", "eighty", "--stands"),
    ],
)
def test_more_refuses_in_one_sentence(
    bend: str, stands: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    job = str(JOBS / "dock-ladder-bracket.toml")
    assert words in refused(["more", job, "--bend", bend, "--stands", stands], capsys)


def run(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "strapwright", *arguments],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **environment},
    )


def test_help_names_every_command_and_exit_code_without_loading_the_solver() -> None:
    script = (
        "import sys; from strapwright.cli.main import main; code = main(['--help']); heavy = "
        "{'numba', 'numpy', 'scipy', 'shapely', 'typst', 'tomlkit'} & set(sys.modules); "
        "sys.exit(str(heavy) if heavy or code else 0)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    commands = (DOCS / "commands.md").read_text(encoding="utf-8")
    for name in COMMANDS:
        assert f"\n  {name} " in done.stdout
        assert f"## `strapwright {name} " in commands
    for code in ("0 done", "2 the input", "3 done"):
        assert code in " ".join(done.stdout.split())


def test_force_waits_for_no_compiler() -> None:
    script = (
        "import sys; from strapwright.cli.main import main; code = main(['force', '--bore', '4 "
        "in', '--pressure', '2500 psi', '--json']); heavy = {'numba', 'scipy', 'shapely', 'typst'} "
        "& set(sys.modules); sys.exit(str(heavy) if heavy or code else 0)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


def test_every_flag_is_documented() -> None:
    commands = (DOCS / "commands.md").read_text(encoding="utf-8")
    for name in COMMANDS:
        help_text = run(name, "--help").stdout
        flags = set(re.findall(r"--[a-z][a-z-]+", help_text)) - {"--help"}
        assert flags
        for flag in flags:
            assert flag in commands, f"{name} {flag}"


def test_a_cache_that_cannot_be_written_is_said_in_one_line(tmp_path: Path) -> None:
    blocked = tmp_path / "cache"
    blocked.write_text("a file where the cache should be", encoding="utf-8")
    done = run(
        "force",
        "--bore",
        "4 in",
        "--pressure",
        "1 MPa",
        XDG_CACHE_HOME=str(blocked),
        NUMBA_CACHE_DIR="",
    )
    assert done.returncode == 0
    assert done.stderr.count("\n") == 1
    assert "cannot be written" in done.stderr


def test_a_reader_that_leaves_early_is_no_error() -> None:
    done = subprocess.run(
        ["sh", "-c", f"{sys.executable} -m strapwright --help | head -n 1; echo ${{PIPESTATUS}}"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert "Traceback" not in done.stderr
    assert "Usage" in done.stdout


def test_a_plan_that_ran_out_of_its_time_does_not_end_like_one_that_holds(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whether the ring is locked on was not decided: exit code 3, in text and JSON."""
    job = str(EXAMPLES / "winch-drum-ring.toml")
    assert main(["check", job]) == 0
    monkeypatch.setattr("strapwright.service.plan_files.within", lambda *_: lambda: False)
    capsys.readouterr()
    assert main(["plan", job]) == 3
    assert "not checked: the time ran out" in capsys.readouterr().out
    assert main(["check", job, "--json"]) == 3
    found = {
        one["code"]: one["severity"] for one in json.loads(capsys.readouterr().out)["findings"]
    }
    assert found["coming-off-no-time"] == "warning"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device that is always full")
@pytest.mark.parametrize("words", [["force", "--bore", "4 in"], ["materials", "--json"]])
def test_a_full_disk_is_one_sentence(words: list[str]) -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "strapwright", *words],
            stdout=full, stderr=subprocess.PIPE, text=True, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr == "There is no room left to write the answer; free some and ask again.\n"
