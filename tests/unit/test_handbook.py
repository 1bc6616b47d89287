"""The handbook cannot drift from the code."""

from __future__ import annotations

import importlib
import importlib.util
import json
import re
import sys
from pathlib import Path

import pytest

from strapwright.bending.solver_model import FITTED
from strapwright.shop_files.known_keys import KNOWN, TABLES
from strapwright.shop_files.rates.reading_rates import RATE_LISTS, RATE_TABLES

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path += [str(ROOT / "validation"), str(ROOT / "docs")]

import make_architecture  # noqa: E402  # scripts, not a package
import make_key_tables  # noqa: E402  # scripts, not a package

import stroke_cases  # noqa: E402

DOCS = ROOT / "docs"


@pytest.mark.parametrize("table", sorted(KNOWN))
def test_every_key_of_a_job_file_is_described(table: str) -> None:
    page = (DOCS / "job-file.md").read_text(encoding="utf-8")
    missing = [
        key
        for key in KNOWN[table]
        if f"`{key}`" not in page
        and f"[{key}]" not in page
        and f"`[part.{key}]`" not in page
        and f"part.{key}]]" not in page
    ]
    assert missing == []


def test_the_tables_of_keys_are_as_the_code_states_them() -> None:
    page = (DOCS / "job-file.md").read_text(encoding="utf-8")
    told = set(re.findall(r"<!-- keys of ([a-z_.]+) -->", page))
    # The three plates that stay on the press have the same keys, and one table.
    assert told == set(TABLES) - {"press.bed_plate", "press.bed"}
    assert TABLES["press.bed_plate"] is TABLES["press.bed"] is TABLES["press.push_plate"]
    rates = (DOCS / "money.md").read_text(encoding="utf-8")
    assert set(re.findall(r"<!-- keys of ([a-z_.]+) -->", rates)) == {*RATE_TABLES, *RATE_LISTS}
    for one in (page, rates):
        assert make_key_tables.fresh(one) == one, "run python docs/make_key_tables.py"


def test_every_case_is_on_the_validation_page() -> None:
    page = (DOCS / "validation.md").read_text(encoding="utf-8")
    cases = {(p.parent.name, p.stem) for p in (ROOT / "validation" / "cases").rglob("*.json")}
    assert cases
    shown = {
        tuple(cell.strip() for cell in line.split("|")[1:3])
        for line in page.splitlines()
        if line.startswith("| ")
    }
    assert cases <= shown


def test_no_case_on_the_validation_page_fails() -> None:
    page = (DOCS / "validation.md").read_text(encoding="utf-8")
    assert ", 0 fail" in page.splitlines()[-1]


def test_every_stroke_stands_beside_its_reference() -> None:
    page = (DOCS / "validation-strokes.md").read_text(encoding="utf-8")
    names = sorted(p.stem for p in (ROOT / "validation" / "cases" / "stroke").glob("*.json"))
    assert re.findall("(?m)^## (.+)$", page) == names
    for name in names:
        for theme in ("light", "dark"):
            assert f"pictures/strokes/{name}.{theme}.svg" in page


def test_truths_on_the_strokes_page_are_those_of_the_cases() -> None:
    page = (DOCS / "validation-strokes.md").read_text(encoding="utf-8")
    for path in (ROOT / "validation" / "cases" / "stroke").glob("*.json"):
        final = json.loads(path.read_text(encoding="utf-8"))["final"]
        section = page.split(f"\n## {path.stem}\n")[1].split("\n## ")[0]
        for name, truth in (
            ("angle under load at the end", final["loaded_angle_deg"]),
            ("angle after release", final["free_angle_deg"]),
        ):
            row = next(line for line in section.splitlines() if line.startswith(f"| {name} |"))
            ours, said, apart = (float(c.strip("° ")) for c in row.split("|")[2:5])
            assert said == pytest.approx(truth, abs=0.0051)
            assert ours - said == pytest.approx(apart, abs=0.011)


def test_the_strokes_page_is_as_the_solver_is_now() -> None:
    """One case solved anew; the others are held by the case runner."""
    page = (DOCS / "validation-strokes.md").read_text(encoding="utf-8")
    case = json.loads((ROOT / "validation/cases/stroke/A.json").read_text(encoding="utf-8"))
    found = stroke_cases.run(case)["figures"]
    section = page.split("\n## A\n")[1].split("\n## ")[0]
    assert f"mean force {found['force_mean_rel']:.1%}" in section
    assert f"angle {found['angle_rms_deg']:.2f}° rms" in section


@pytest.mark.parametrize("page", sorted(DOCS.glob("*.md")), ids=lambda page: page.stem)
def test_every_picture_of_a_page_is_there(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    shown = re.findall(r"\{image\} (\S+)|!\[[^]]*\]\(([^)]+)\)", text)
    assert [name for pair in shown for name in pair if name and not (DOCS / name).is_file()] == []


def test_constants_on_the_theory_page_are_those_of_the_solver() -> None:
    page = (DOCS / "theory.md").read_text(encoding="utf-8")
    rows = {
        cells[1].strip(): cells[2]
        for cells in (line.split("|") for line in page.splitlines() if line.startswith("| "))
    }
    for effect, constants in {
        "curvature cannot change": (FITTED.zone, FITTED.offset),
        "the load is spread": (FITTED.rounding,),
        "the bend thins": (FITTED.thinning,),
        "plastic shear and squeeze": (
            FITTED.squeeze,
            FITTED.squeeze_slope,
        ),
        "the same in a narrow bar": (
            FITTED.squeeze_narrow,
            FITTED.narrow_slope,
            FITTED.narrow_loss,
            FITTED.narrow_turn,
        ),
        "a round rod dents": (
            FITTED.dent,
            FITTED.narrow_turn,
        ),
        "a short leg": (FITTED.short_leg,),
        "the moment drop": (FITTED.drop,),
        "friction under the nose": (
            FITTED.grip,
            FITTED.flank_gap,
        ),
        "the push on the flanks": (FITTED.spread,),
        "the wrap flattens": (FITTED.sag_back,),
        "the tip holds": (
            FITTED.cling_fade,
            FITTED.cling_power,
            FITTED.hinge,
            FITTED.hinge_rise,
            FITTED.hinge_offset,
            FITTED.letting,
            FITTED.letting_by,
        ),
    }.items():
        (said,) = (words for name, words in rows.items() if name.startswith(effect))
        printed = [float(number) for number in re.findall(r"(?<![\w.])\d+\.\d+", said)]
        for constant in constants:
            assert any(abs(one - constant) <= 0.006 * constant for one in printed), (effect, said)


def test_every_printed_table_is_named_with_the_tests_that_read_it() -> None:
    page = (DOCS / "sources.md").read_text(encoding="utf-8")
    named = {
        cells[1].strip(" `"): re.findall(r"`(test_\w+)`", cells[4])
        for cells in (line.split("|") for line in page.splitlines() if line.startswith("| `"))
    }
    folder = ROOT / "tests" / "published"
    assert sorted(named) == sorted(file.stem for file in (folder / "data").glob("*.csv"))
    for table, tests in named.items():
        assert tests, table
        for test in tests:
            text = (folder / f"{test}.py").read_text(encoding="utf-8")
            # Some put the name together from its parts.
            missing = [part for part in table.removeprefix("shop_").split("_") if part not in text]
            assert missing == [], (table, test)


def test_every_page_is_in_the_contents() -> None:
    contents = (DOCS / "index.md").read_text(encoding="utf-8")
    assert {p.stem for p in DOCS.glob("*.md")} - {"index"} <= set(contents.split())


PAGES_ABOUT_THE_CODE = ("architecture.md", "contributing.md")
PACKAGES = {
    path.stem
    for path in (ROOT / "src" / "strapwright").iterdir()
    if path.stem[0] != "_" and path.suffix in ("", ".py")
}


def found(dotted: str) -> object:
    """What a dotted name below the package means: a module, or something defined in one."""
    name = "strapwright"
    value: object = importlib.import_module(name)
    for part in dotted.split("."):
        longer = f"{name}.{part}"
        # Only a package holds modules.
        if hasattr(value, "__path__") and importlib.util.find_spec(longer) is not None:
            name, value = longer, importlib.import_module(longer)
        else:
            value = getattr(value, part)
            # What a module only imports is not computed there.
            assert getattr(value, "__module__", name) == name, f"{dotted} is defined elsewhere"
    return value


def computed() -> list[tuple[str, str, str]]:
    page = (DOCS / "architecture.md").read_text(encoding="utf-8")
    table = page.split("## Where is it computed")[1].split("\n## ")[0]
    return re.findall(r"(?m)^\| ([^|`]+) \| `([a-z0-9_.]+)` \| `(\w+)` \|$", table)


def test_the_table_of_what_is_computed_where_is_whole() -> None:
    page = (DOCS / "architecture.md").read_text(encoding="utf-8")
    table = page.split("## Where is it computed")[1].split("\n## ")[0]
    rows = [line for line in table.splitlines() if line.startswith("| ")][1:]
    assert len(computed()) == len(rows) > 40
    assert len({(module, name) for _, module, name in computed()}) == len(rows)


@pytest.mark.parametrize(("what", "module", "name"), computed())
def test_what_is_said_to_be_computed_there_is(what: str, module: str, name: str) -> None:
    assert callable(found(f"{module}.{name}")), what


def test_names_of_modules_on_the_pages_about_the_code_are_right() -> None:
    names = {
        name
        for page in PAGES_ABOUT_THE_CODE
        for name in re.findall(r"`([a-z_]+(?:\.\w+)+)`", (DOCS / page).read_text(encoding="utf-8"))
        if name.split(".")[0] in PACKAGES
    }
    assert len(names) > 60
    for name in names:
        found(name)


def test_files_named_on_the_pages_about_the_code_are_there() -> None:
    for page in PAGES_ABOUT_THE_CODE:
        text = (DOCS / page).read_text(encoding="utf-8")
        for name in re.findall(r"(?:docs|tests|\.ci|validation|benchmarks)/[\w./-]*\w", text):
            assert (ROOT / name).exists(), name


def test_the_picture_of_the_layers_is_that_of_the_contracts() -> None:
    drawn = make_architecture.pictures()
    assert drawn
    for name, text in drawn.items():
        assert (DOCS / "pictures" / name).read_text(encoding="utf-8") == text, (
            "draw it anew: python docs/make_architecture.py"
        )
        for package in PACKAGES:
            assert f">{package}</text>" in text


def test_every_contract_is_on_the_page_about_the_code() -> None:
    page = (DOCS / "architecture.md").read_text(encoding="utf-8")
    for contract in make_architecture.contracts():
        if contract["type"] != "protected":
            assert f"| {contract['name']} |" in page
        else:
            assert " is known to " in contract["name"]
