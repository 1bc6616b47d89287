"""Where the tables come from: every source is named, known, graded, and shown as a person reads it.

Held are the catalog's own tables, the copies beside these tests, and the page of sources.
"""

from __future__ import annotations

import ast
import csv
import json
import re
import sys
import tomllib
from importlib import resources
from pathlib import Path

import pytest

from strapwright.catalog import materials, smallest_radius
from strapwright.catalog.cutting_speeds import METALS, cutting_speed, reaming_stock
from strapwright.catalog.sources import NAMED, NOT_RECORDED, in_words, sources
from strapwright.catalog.steels import steels
from strapwright.catalog.welding import weldability

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.append(str(ROOT / "docs"))

import make_sources  # noqa: E402  # a script, not a package

CATALOG = Path(str(resources.files("strapwright.catalog").joinpath("data")))
TABLES = sorted(CATALOG.glob("*.csv")) + sorted((Path(__file__).parent / "data").glob("*.csv"))
# Best first.
GRADES = ("standard", "handbook", "data sheet", "common practice", "from memory")
HOW = {"source", "source_status", "how", "status"}

# How a table was come by is nobody's business at the press; what it is worth is its grade.
SEARCHED = re.compile(
    r"""
    search | fetch | snippet | retriev | download | scrap(ed|ing) | look(ed)?[ -]ups?\b
    | \b(could|can)\ ?not\ (be\ )?(access|open|read|reach|find) | \bfound\b | not\ listed
    | https?: | www\. | \.(com|org|net|edu|gov|io)\b
    | \bweb\ ?(page|site)s?\b | \b(internet|online|forum)\b
    | \bpages?\b(?!\ \d) | public\ (copy|page|question|answer|repository|source|code)
    | flattened | encoded | \blegible\b | in\ the\ copy | public\ copy | \bS\d\d[a-e]?\b | \bbrief\b
    """,
    re.IGNORECASE | re.VERBOSE,
)


def head(table: Path) -> str:
    """What stands above the columns."""
    lines = table.read_text("utf-8").splitlines()
    return " ".join(one[2:] for one in lines if one.startswith("# "))


def rows(table: Path) -> list[dict[str, str]]:
    lines = table.read_text("utf-8").splitlines()
    return list(csv.DictReader(one for one in lines if not one.startswith("# ")))


def named_by_the_catalog() -> dict[str, str]:
    """Text of each line of sources of the metals -> grade."""
    table = tomllib.loads((CATALOG / "materials.toml").read_text("utf-8"))
    return dict(table["sources"].values())


@pytest.mark.parametrize("table", TABLES, ids=lambda one: one.stem)
def test_every_table_names_sources_that_are_known(table: Path) -> None:
    said = head(table)
    assert "Sources: " in said, "the head ends with 'Sources: ...'"
    found = rows(table)
    assert found
    named = NAMED.findall(said.split("Sources: ")[1])
    # Columns beside whose rows the head need name none of its own.
    columns = HOW & set(found[0])
    for number, row in enumerate(found, 1):
        assert None not in row, (number, row)
        assert None not in row.values(), (number, row)
        for column in columns:
            assert row[column].strip(), (number, column, "is blank")
        named += [key for cell in row.values() for key in NAMED.findall(cell)]
        for column in columns & {"source", "source_status"}:
            assert NAMED.search(row[column]), (number, row[column], "names no source")
    assert named, "neither head nor rows name a source"
    assert set(named) <= set(sources())


def test_every_line_of_the_metals_names_sources_that_are_known() -> None:
    for text in named_by_the_catalog():
        ids = NAMED.findall(text)
        assert ids, text
        assert set(ids) <= set(sources()), text


def test_no_value_is_graded_above_its_source() -> None:
    graded = list(named_by_the_catalog().items())
    for name in ("tool_steels", "weld_chemistry"):
        graded += [(row["source"], row["grade"]) for row in rows(CATALOG / f"{name}.csv")]
    assert len(graded) > 50
    for text, grade in graded:
        best = min(GRADES.index(sources()[key].grade) for key in NAMED.findall(text))
        assert GRADES.index(grade) >= best, text


def test_no_source_is_blank_or_idle() -> None:
    texts = [one.read_text("utf-8") for one in TABLES] + list(named_by_the_catalog())
    used = {key for text in texts for key in NAMED.findall(text)}
    used |= {key for one in sources().values() for key in one.reprints}
    assert used == set(sources())
    for key, one in sources().items():
        assert all(text.strip() for text in (one.title, one.edition, one.publisher)), key
        assert one.title != NOT_RECORDED, key
        assert one.grade in (*GRADES, "computed"), key
    # Two that read alike could not be told apart.
    assert len({one.words for one in sources().values()}) == len(sources())


def provenance() -> dict[str, str]:
    """Every text of the project that says where something comes from."""
    texts = {f"{one.parent.parent.name}/{one.name}": one.read_text("utf-8") for one in TABLES}
    for name in ("sources.toml", "materials.toml"):
        texts[name] = (CATALOG / name).read_text("utf-8")
    texts["sources.md"] = (ROOT / "docs" / "sources.md").read_text("utf-8")
    for test in sorted(Path(__file__).parent.glob("test_*.py")):
        if test.name != Path(__file__).name:
            texts[test.name] = ast.get_docstring(ast.parse(test.read_text("utf-8"))) or ""
    for case in sorted((ROOT / "validation" / "cases").rglob("*.json")):
        texts[f"{case.parent.name}/{case.name}"] = json.loads(case.read_text("utf-8")).get(
            "source", ""
        )
    return texts


def test_nothing_says_how_a_table_was_looked_for() -> None:
    texts = provenance()
    assert len(texts) > 120
    told = {
        name: sorted({match[0] for match in SEARCHED.finditer(text)})
        for name, text in texts.items()
        if SEARCHED.search(text)
    }
    assert told == {}


@pytest.mark.parametrize(
    "note",
    [
        "found in about seven look-ups",
        "university course page quoting a 1989 design textbook",
        "read in public copy",
        "columns read from flattened text",
        "see example.org/table",
        "reported in a forum case",
        "could not be accessed",
        "as in S47b",
    ],
)
def test_notes_of_a_search_are_known_as_such(note: str) -> None:
    assert SEARCHED.search(note)


def test_the_page_lists_every_source() -> None:
    page = (ROOT / "docs" / "sources.md").read_text("utf-8")
    assert page.endswith(make_sources.section()), "run python docs/make_sources.py"


def test_a_person_reads_title_and_edition() -> None:
    assert in_words("{callister}, p. 199") == (
        "Callister, Fundamentals of Materials Science and Engineering, 2nd ed., p. 199"
    )
    # No edition is made up.
    assert in_words("{shigley}, table A-20") == "Shigley, Mechanical Engineering Design, table A-20"
    with pytest.raises(KeyError, match="no-such-book"):
        in_words("{no-such-book}, p. 1")


def test_what_the_catalog_says_to_a_person_holds_no_id() -> None:
    said = [known.source for metal in materials() for known in metal.sources.values()]
    said += [smallest_radius(metal, 6.0)[1] for metal in materials()]
    for metal in METALS:
        for operation in ("drilling", "reaming", "end milling", "tapping", "countersinking"):
            said.append(cutting_speed(operation, metal, "w").source)
    for diameter in (3.0, 12.0, 40.0):
        said += [reaming_stock(diameter, "hand").source, reaming_stock(diameter, "machine").source]
    for steel in steels():
        said += [steel.source, weldability(steel).source]
    assert len(said) > 250
    titles = {one.title for one in sources().values()}
    for text in said:
        assert "{" not in text
        assert "}" not in text
        known = any(title in text for title in titles)
        assert known or text == "composition not known", text
