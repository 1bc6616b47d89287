"""``strapwright tooling`` as a person runs it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from attrs import evolve

from strapwright.cli.main import main
from strapwright.planning.checked_tooling import Checked
from strapwright.planning.member_loads import assess, bench_of
from strapwright.planning.plan import plan
from strapwright.service.check_tooling import check_tooling
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Assessment
from strapwright.wording.fix_words import fix_order

DOCS = Path(__file__).parents[2] / "docs"
DEMO = Path(__file__).parents[1] / "unit" / "data" / "thin-cheek-die.toml"
TEXT = DEMO.read_text(encoding="utf-8")
THICKER = 'cheek = "5/8", floor = "1"', 'cheek = "1", floor = "1-1/4"'


@pytest.fixture(scope="module")
def demo() -> Checked:
    return check_tooling(DEMO)


def test_one_member_of_the_demo_fails_at_relief_and_the_change_proposed_mends_it(
    demo: Checked,
) -> None:
    found = demo.assessment
    failing = [check for check in found.checks if not check.holds]
    assert failing
    assert {check.member for check in failing} == {"die body"}
    assert {check.load_case for check in failing} == {"relief", "relief off centre"}
    assert found.unchecked == ()
    (fix,) = found.fixes
    assert fix.member == "die body"
    mended = assess(evolve(demo.bench, tooling=fix.tooling), "inch")
    assert mended.holds
    assert mended.findings == ()
    assert mended.rating is not None
    assert found.rating is not None
    assert mended.rating > found.rating
    # The other way told: less relief.
    assert found.relief_to_set is not None
    assert demo.bench.press is not None
    assert found.relief_to_set < (demo.bench.press.relief or 0)


def test_words_say_weakest_first_what_mends_it_and_that_it_is_an_estimate(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["tooling", "check", str(DEMO)]) == 3
    out = " ".join(capsys.readouterr().out.split())
    weakest = out.index("Members, the weakest first - die body")
    assert weakest < out.index("How to fix it") < out.index("Proof load, behind a shield")
    assert "planning estimate, not a certification" in out
    assert "Make the die body's cheek" in out
    assert "does not hold" in out
    lines = out.count(": F ")
    assert main(["tooling", "check", str(DEMO), "--all"]) == 3
    assert " ".join(capsys.readouterr().out.split()).count(": F ") > lines


def test_data_holds_every_check_and_what_follows(
    demo: Checked, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["tooling", "check", str(DEMO), "--json"]) == 3
    data = json.loads(capsys.readouterr().out)
    assert len(data["checks"]) == len(demo.assessment.checks)
    ratios = [check["ratio"] for check in data["checks"]]
    assert ratios == sorted(ratios, reverse=True)
    for check in data["checks"]:
        assert check["ratio"] == pytest.approx(check["demand"] / check["capacity"])
        assert check["holds"] is (check["ratio"] <= 1)
        assert check["source"]
        assert check["grade"]
    assert [load["case"] for load in data["loads"]] == [
        "plan", "relief", "plan off centre", "relief off centre", "retract",
    ]  # fmt: skip
    page = (DOCS / "commands.md").read_text(encoding="utf-8")
    assert [key for key in data if key not in ("format", "part", "units", "estimate")
            and f"`{key}`" not in page] == []  # fmt: skip


def test_a_mended_die_holds_and_the_command_says_0(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(TEXT.replace(*THICKER), encoding="utf-8")
    assert main(["tooling", "check", str(job)]) == 0
    out = capsys.readouterr().out
    assert "Findings" not in out
    assert "MAX FORCE" in out


def test_sizes_come_from_the_rack_where_one_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rack = tmp_path / "rack.toml"
    rack.write_text(
        'format = 1\nunits = "inch"\n[[stock]]\nname = "hatch plate"\nkind = "plate"\n'
        'size = "1-1/8 x 6"\nlength = 20\n',
        encoding="utf-8",
    )
    assert main(["tooling", "check", str(DEMO), "--rack", str(rack)]) == 3
    out = " ".join(capsys.readouterr().out.split())
    assert re.search(r"cheek and floor 1\.1[23] in \(hatch plate\)", out)


RACK = DOCS / "examples" / "dock-rack.toml"


def with_long_nose(tmp_path: Path, relief: int) -> Path:
    job = tmp_path / "job.toml"
    text = TEXT.replace('between = "2-1/2"', 'between = "3-1/2"')
    job.write_text(text.replace('"800 psi"', f'"{relief} psi"'), encoding="utf-8")
    return job


def planned_again(checked: Checked, tooling: Tooling) -> Assessment:
    """Everything once more on a mended tooling, the bends too."""
    again = plan(evolve(checked.plan.job, tooling=tooling))
    return assess(bench_of([again], tooling, checked.bench.press), "inch")


def test_a_nose_too_long_is_shortened_or_made_thicker_from_the_rack(tmp_path: Path) -> None:
    checked = check_tooling(with_long_nose(tmp_path, 700), RACK)
    found = checked.assessment
    assert found.fixed
    *main_way, other = found.fixes
    assert sorted(one.member for one in main_way) == ["die body", "nose"]
    assert any("Move the carriers to" in fix_order(one, "inch") for one in main_way)
    assert planned_again(checked, main_way[-1].tooling).holds
    # The next shaft of the rack above 1 in, which bends to half of it inside.
    assert other.alternative
    assert "1.25 in (shaft 1-1/4)" in fix_order(other, "inch")
    assert "inside radius is then 0.625 in" in fix_order(other, "inch")
    assert other.tooling.members is not None
    assert other.tooling.members.nose is not None
    assert other.tooling.members.nose.material == "1018 cold drawn"
    thicker = planned_again(checked, other.tooling)
    assert thicker.holds
    assert other.ratio == pytest.approx(
        max(check.ratio for check in thicker.checks if check.member == "nose")
    )


def test_a_nose_that_no_shorter_span_mends_is_made_thicker(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = with_long_nose(tmp_path, 900)
    checked = check_tooling(job, RACK)
    assert not any(fix.alternative for fix in checked.assessment.fixes)
    assert checked.assessment.fixed
    assert planned_again(checked, checked.assessment.fixes[-1].tooling).holds
    assert main(["tooling", "check", str(job), "--rack", str(RACK)]) == 3
    out = " ".join(capsys.readouterr().out.split())
    assert "Make the nose 1.25 in (shaft 1-1/4), now 1.00 in" in out
    assert "With these changes every member that was checked holds." in out


def test_what_no_size_mends_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = with_long_nose(tmp_path, 3000)
    assert main(["tooling", "check", str(job), "--rack", str(RACK)]) == 3
    out = " ".join(capsys.readouterr().out.split())
    assert "Even with these changes some members are too weak" in out


def test_what_is_not_stated_is_listed_and_not_proven(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(TEXT.partition("[tooling.members]")[0], encoding="utf-8")
    assert main(["tooling", "check", str(job)]) == 0
    out = " ".join(capsys.readouterr().out.split())
    for member in ("nose", "carriers", "push plate", "shoulders", "die body", "piston rod", "frame",
                   "hose", "gauge", "coupling"):  # fmt: skip
        assert f"- {member}, " in out
    assert "not checked" in out
    assert "NOT RATED" in out
    assert "Proof load" not in out


HARD = TEXT.replace(
    'carriers = { material = "A36"', 'carriers = { material = "hardened shaft"'
).replace(*THICKER)


def test_a_weld_on_hardened_shaft_is_refused_with_another_way(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(HARD, encoding="utf-8")
    assert main(["tooling", "check", str(job), "--json"]) == 3
    codes = {one["code"]: one for one in json.loads(capsys.readouterr().out)["findings"]}
    refusal = codes["weld-on-hardened-shaft"]
    assert "brittle" in refusal["text"]
    assert "clamp" in refusal["remedy"]
    assert "bolted" in refusal["remedy"]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("[tooling", "[toolings", "did you mean"),
        ('width = "2"', 'width = "1"', "fits no hole in a carrier"),
        ('length = "1-3/4"', 'length = "1/2"', "cannot reach"),
        ('grade = "8"', 'grade = "9"', "no such grade"),
        ('cheek = "5/8"', 'cheek = "0"', "is 0"),
    ],
)
def test_bad_input_is_one_sentence(
    old: str, new: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert old in TEXT
    job = tmp_path / "job.toml"
    job.write_text(TEXT.replace(old, new), encoding="utf-8")
    assert main(["tooling", "check", str(job)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert said in err


def test_no_tooling_and_no_rack_are_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(TEXT.partition("[tooling.nose]")[0], encoding="utf-8")
    assert main(["tooling", "check", str(job)]) == 2
    assert "nothing to check" in capsys.readouterr().err
    assert main(["tooling", "check", str(DEMO), "--rack", str(tmp_path / "none.toml")]) == 2
    assert "there is no such rack file" in capsys.readouterr().err


def test_every_command_and_flag_is_documented(capsys: pytest.CaptureFixture[str]) -> None:
    page = (DOCS / "commands.md").read_text(encoding="utf-8")
    assert main(["tooling", "--help"]) == 0
    listed = re.findall(r"(?m)^  ([a-z]+)  ", capsys.readouterr().out.partition("Commands")[2])
    assert "check" in listed
    for name in listed:
        assert main(["tooling", name, "--help"]) == 0
        section = page.partition(f"## `strapwright tooling {name} ")[2].partition("\n## ")[0]
        assert section
        flags = set(re.findall(r"--[a-z][a-z-]+", capsys.readouterr().out)) - {"--help"}
        assert flags
        assert flags == set(re.findall(r"--[a-z][a-z-]+", section))


PROPOSE = [
    "tooling",
    "propose",
    str(DOCS / "examples" / "cleat-bracket.toml"),
    "--rack",
    str(DOCS / "examples" / "dock-rack.toml"),
]


@pytest.mark.long
def test_a_proposal_in_words_and_data(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(PROPOSE) == 0
    out = capsys.readouterr().out
    assert "planning estimate" in out
    for number in (1, 2, 3):
        assert f"\n{number}. Nose " in out
    assert "cut push plate" in out
    assert "Why others were ruled out" in out
    assert main([*PROPOSE, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert len(data["proposals"]) == 3
    for one in data["proposals"]:
        assert all(check["holds"] for check in one["checks"])
        assert one["worst_ratio"] <= 1
        assert {cut["use"] for cut in one["cuts"]} >= {"nose", "left cheek", "push plate"}


def test_a_rack_that_gives_nothing_says_the_nearest_and_3(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rack = tmp_path / "rack.toml"
    rack.write_text(
        'format = 1\nunits = "inch"\n[[stock]]\nkind = "shaft"\nsize = "1"\nlength = 20\n'
        '[[stock]]\nkind = "plate"\nsize = "1/8 x 6"\nlength = 20\n',
        encoding="utf-8",
    )
    assert main([*PROPOSE[:3], "--rack", str(rack)]) == 3
    assert "Nothing on the rack works. Closest" in capsys.readouterr().out


BRACKET = str(DOCS / "examples" / "cleat-bracket.toml")
HOLE = """\
format = 1
units = "inch"
[plate]
name = "foot"
width = "3"
height = "2"
thickness = "1/2"
[[plate.hole]]
x = "1-1/2"
y = "1"
diameter = "2-1/4"
"""


@pytest.mark.parametrize(
    ("words", "text", "said"),
    [
        (("tooling", "propose", BRACKET), "", "no rack is named"),
        (("tooling", "propose", BRACKET, "--rack", "FILE"), None, "there is no such rack file"),
        (
            ("tooling", "propose", BRACKET, "--rack", "FILE"),
            'format = 1\nunits = "inch"\n',
            "nothing lies on the rack",
        ),
        (
            ("tooling", "propose", BRACKET, "--rack", str(RACK), "--crib", "FILE"),
            "format = 1\n[crib]\n",
            "the tool crib is empty",
        ),
        (("tooling", "make", str(DEMO), "--crib", "FILE"), "format = 1\n[crib]\n", "is empty"),
        (("holes", "FILE"), HOLE, "larger than its plate"),
        (
            ("tooling", "check", "FILE"),
            TEXT.replace('grip = "3/4"', 'grip = "2"', 1),
            "the bolt cannot reach its thread",
        ),
        (
            ("tooling", "check", "FILE"),
            TEXT.replace('thickness = "3/4", width = "2"', 'thickness = "3/4", width = "3/4"'),
            "fits no hole in a carrier",
        ),
    ],
)
def test_each_thing_that_cannot_be_is_one_sentence(
    words: tuple[str, ...],
    text: str | None,
    said: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    path = tmp_path / "file.toml"
    if text is not None:
        path.write_text(text, encoding="utf-8")
    assert main([str(path) if word == "FILE" else word for word in words]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert err.count("\n") == 1
    assert "Traceback" not in err
