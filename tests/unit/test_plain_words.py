"""One word for one thing: nothing that a person reads uses a word that was retired for another."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from source_trees import parsed

from strapwright.planning.plan import plan
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.reader import at_command
from strapwright.wording.telling import tell_all

pytestmark = pytest.mark.usefixtures("trees_are_kept")

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "strapwright"
DEMO = SOURCE / "service" / "demo_jobs"
MOST_WORDS = 25  # in a sentence of a note

# Retired -> what is said in its place.
RETIRED = {
    r"under (the )?ram\b": "under load",
    r"\b(let|letting|lets) go\b": "released, after release",
    r"\blet(s|ting)? off\b": "back off, release all pressure",
    r"\bease off\b": "stop and check above",
    r"\b(from|at) touch\b(?!-off)": "first contact",
    r"\bstands? at\b": "measures",
    r"\bopens? to\b": "after release",
    r"\bnot proven\b": "not checked",
    r"\bstate (the|it|its|your|a|an|what)\b": "enter",
    r"\bas (stated|it stands|told)\b": "as entered, as it is, as shown",
    r"\bmends?\b": "fix, change",
    r"\b(a tooling|toolings)\b": "tooling",
    r"\bflip": "turn over",
    r"\bend for end\b": "swap ends",
    r"\blaid in\b|\blay (the bar|it) in\b": "place",
    r"\brow of hits\b": "series of hits",
    r"\bbring (it )?in\b": "import",
    r"\btake (a backup|out)\b": "back up, remove",
    r"\banew\b": "again",
    r"\bfell out\b": "was ruled out",
    r"\bgives up\b": "drawback",
    r"\bgood to know\b": "Note",
    r"\bwatch out\b": "Warning",
    r"(?<!tool )\bcrib (is|has)\b": "tool crib",
    r"\d deg\b|\} deg\b": "°",
    r"\boff the middle\b": "off centre",
    r"\bend \S+ to the left\b": "on the left",
    r"\bwhere left out\b": "default: ...",
    r"(\d|\}) off(?=,|:|$)": "qty",
    r"\boffcuts?\b": "off-cut",
    r"(\d|\})%(?!\})": "a space before %",
}
# Of labels that are one word, which elsewhere may be a key or a value of the data.
RETIRED_LABELS = {
    "touch": "first contact",
    "toolings": "tooling",
    "locked": "trapped",
    "crib": "tool crib",
    "passes": "thickness clamped",
    "called": "name",
    "apart": "spacing",
}
LABELS = {"word", "label", "title", "hint", "help", "group"}
# Values of the code and of the data for other programs, and what a person may type.
VALUES = {"locked on", "too close to call", "at touch", "NO START"}


def texts_of(path: Path) -> Iterator[tuple[int, str]]:
    """What a file says to a person, line by line; what is worked out stands as ``{}``."""
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".py":
        yield from strings_of(parsed(text))
    elif path.suffix == ".js":
        bare = re.sub(r"/\*.*?\*/|(?m:(?<!:)//.*$)", "", text, flags=re.DOTALL)
        for line, one in enumerate(bare.splitlines(), start=1):
            for said in re.findall(r"\"([^\"]*)\"|`([^`]*)`", one):
                yield line, "".join(said)
    else:
        bare = re.sub(r"\{#.*?#\}|(?m:^\s*//.*$)", "", text, flags=re.DOTALL)
        for line, one in enumerate(bare.splitlines(), start=1):
            yield line, one


def strings_of(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Every text of a module but for its docstrings."""
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    skipped: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            skipped.add(id(node.value))
        if isinstance(node, documented) and not is_command(node):
            continue
        if isinstance(node, ast.FunctionDef):
            yield node.lineno, ast.get_docstring(node) or ""
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            skipped |= {id(one) for one in node.values}
            yield (
                node.lineno,
                "".join(str(getattr(one, "value", "{}")) if isinstance(one, ast.Constant) else "{}"
                        for one in node.values),
            )  # fmt: skip
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in skipped
            and " " in node.value  # a single word is a key or a value of the data
            and node.value not in VALUES
        ):
            yield node.lineno, node.value


def labels_of(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """One-word labels of a module: of ticks, fields and drawings."""
    for node in ast.walk(tree):
        if isinstance(node, ast.keyword) and node.arg in LABELS:
            found: ast.expr = node.value
        elif (
            isinstance(node, ast.Tuple)
            and len(node.elts) == 3  # a row of words on a drawing: text, size, how it is drawn
            and str(getattr(node.elts[-1], "value", "")).endswith("label")
        ):
            found = node.elts[0]
        else:
            continue
        if isinstance(found, ast.Constant) and isinstance(found.value, str):
            yield found.lineno, found.value


def is_command(node: ast.AST) -> bool:
    """Whether the docstring of a function is the help of a command."""
    return isinstance(node, ast.FunctionDef) and any(
        ".command" in ast.unparse(one) for one in node.decorator_list
    )


def retired_in(text: str) -> list[str]:
    """Which retired words stand in a text."""
    return [f"{found[0]!r}: say {better}" for words, better in RETIRED.items()
            if (found := re.search(words, text, re.IGNORECASE))]  # fmt: skip


def test_nothing_that_a_person_reads_uses_a_retired_word() -> None:
    paths = [
        path
        for kind in ("*.py", "*.html", "*.js", "*.typ")
        for path in sorted(SOURCE.rglob(kind))
        if "quantities" not in path.parts
    ]
    assert len(paths) > 400
    found = [
        f"{path.relative_to(SOURCE)}:{line}: {one}"
        for path in paths
        for line, text in texts_of(path)
        for one in retired_in(without_sizes(path, text))
    ]
    assert found == []


def without_sizes(path: Path, text: str) -> str:
    """Leave out percentages that say how large something is drawn."""
    if path.suffix == ".typ":
        return re.sub(r"\b\d+%", "", text)
    return re.sub(r"^\$\{[^}]*\}%$", "", text) if path.suffix == ".js" else text


def test_no_label_of_one_word_is_retired() -> None:
    labels = [
        (path, line, label)
        for path in sorted(SOURCE.rglob("*.py"))
        for line, label in labels_of(parsed(path.read_text(encoding="utf-8")))
    ]
    assert len(labels) > 300
    assert [one for one in labels if one[2].lower() in RETIRED_LABELS] == []


@pytest.mark.parametrize(
    "line", ['Tick(at=0, word="touch")', 'rows = [("touch", frame.body, "label")]']
)
def test_a_label_of_one_word_is_seen(line: str) -> None:
    assert [label for _, label in labels_of(parsed(line))] == ["touch"]


@pytest.mark.parametrize(
    "text",
    [
        "It stands at 84°, let off and read again.",
        "State the tooling first.",
        "bends to {} deg",
        "12 off, flat",
        "Not proven",
        "State what is missing.",
        "Cut it from an offcut.",
        "at {}% of the limit",
    ],
)
def test_a_retired_word_is_seen(text: str) -> None:
    assert retired_in(text)


@pytest.mark.parametrize("file", sorted(DEMO.glob("*.toml")), ids=lambda one: one.stem)
def test_no_sentence_of_a_note_is_long_and_an_inch_job_reads_inches(file: Path) -> None:
    """Measured on the notes, warnings and refusals that the demonstration really has."""
    job = read_job(file.read_text(encoding="utf-8"))
    other = {"inch": r"\d mm\b", "metric": r"\d in\b"}[job.units]
    for one in tell_all(plan(job).findings, at_command(job)):
        for sentence in re.split(r"(?<=[.!?])\s+", one.sentence):
            assert len(sentence.split()) <= MOST_WORDS, f"{one.code}: {sentence}"
        assert not re.search(other, one.sentence), one.sentence
        assert retired_in(one.sentence) == []
