"""Findings are facts, their words stand in one place, and nothing reads a sentence back."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import get_args

import pytest
import test_job_file_refusals
import test_shape_and_limits_refusals
from attrs import evolve
from source_trees import parsed
from telling import told

from strapwright.errors import InputError, in_file, key_of, table_of
from strapwright.findings import (
    BendAt,
    Choice,
    Count,
    Fact,
    Finding,
    HoleAt,
    KeyAt,
    Length,
    Name,
    Severity,
    by_severity,
)
from strapwright.pages.page_statements import on_page, refused, said
from strapwright.pages.page_statements import told as told_on_page
from strapwright.planning.plan import plan
from strapwright.report.plan_text import plan_to_text
from strapwright.sheets.bend_data import bend_data
from strapwright.shop.member_names import BOLTS, WELDS, MemberName
from strapwright.shop.members import Holds
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.finding_words import WORDS
from strapwright.wording.member_words import MEMBER_NAMES
from strapwright.wording.reader import at_command, in_units, on_paper
from strapwright.wording.steps.gauge_words import ease_off_figure
from strapwright.wording.steps.step_words import free_figure
from strapwright.wording.steps.stop_words import block_figure, travel_figure
from strapwright.wording.telling import tell, tell_all

pytestmark = pytest.mark.usefixtures("trees_are_kept")

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "strapwright"
JOB = (ROOT / "src/strapwright/service/demo_jobs/fender-hanger.toml").read_text(encoding="utf-8")


def made_in_source() -> Iterator[tuple[set[str], ast.Call]]:
    """Each call that makes a finding, with its code or the two that it chooses from."""
    for path in sorted(SOURCE.rglob("*.py")):
        for node in ast.walk(parsed(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "Finding":
                (code,) = (one.value for one in node.keywords if one.arg == "code")
                yield literal_codes(code), node


def literal_codes(value: ast.expr) -> set[str]:
    if isinstance(value, ast.IfExp):
        return literal_codes(value.body) | literal_codes(value.orelse)
    assert isinstance(value, ast.Constant), ast.unparse(value)
    return {str(value.value)}


def test_every_code_has_words_and_words_have_their_code() -> None:
    assert {code for codes, _ in made_in_source() for code in codes} == set(WORDS)


def test_no_fact_is_a_sentence() -> None:
    """A fact is a quantity, a name that somebody gave, or a literal that picks a way to put it."""
    for codes, call in made_in_source():
        for node in ast.walk(call):
            if isinstance(node, ast.JoinedStr):  # key paths alone are put together
                assert ast.unparse(node).startswith(("f'press.", "f'part.", "f'{_KEY}.")), codes
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                assert len(node.value.split()) <= 3, (codes, node.value)


# Rooms of the core that give back values; what they refuse with is an error, which is a sentence.
VALUES = ("strength/fixing", "proposing")


def sentences_in(source: str) -> Iterator[str]:
    """Texts of more than a few words, and texts put together, but for docstrings and errors."""
    tree = parsed(source)
    told = {
        id(node)
        for call in ast.walk(tree)
        if isinstance(call, ast.Raise)
        or (isinstance(call, ast.Call) and ast.unparse(call.func).endswith("Error"))
        for node in ast.walk(call)
    }
    told |= {id(one.value) for one in ast.walk(tree) if isinstance(one, ast.Expr)}
    for node in ast.walk(tree):
        if id(node) in told:
            continue
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            if len(node.value.split()) > 3:
                yield f"{node.lineno}: {node.value}"
        elif isinstance(node, ast.JoinedStr) and any(
            isinstance(one, ast.Constant) and len(str(one.value).split()) > 2 for one in node.values
        ):
            yield f"{node.lineno}: {ast.unparse(node)}"


def test_fixes_and_proposals_are_values() -> None:
    paths = [path for room in VALUES for path in sorted((SOURCE / room).glob("*.py"))]
    assert len(paths) > 12
    found = [
        f"{path.relative_to(SOURCE)}:{place}"
        for path in paths
        for place in sentences_in(path.read_text(encoding="utf-8"))
    ]
    assert found == []


@pytest.mark.parametrize(
    "line",
    [
        'yield "Back the shoulders along their whole length"',
        'text = f"{nose}: {radius:.1f} mm where it asks"',
    ],
)
def test_the_walk_sees_a_sentence_that_is_built(line: str) -> None:
    assert list(sentences_in(f"def made():\n    {line}"))


@cache
def told_facts(code: str) -> frozenset[str]:
    """Names of the facts that the words of a code ask for."""
    words = WORDS[code]
    module = parsed((SOURCE.parent / f"{words.__module__.replace('.', '/')}.py").read_text("utf-8"))
    functions = {one.name: one for one in module.body if isinstance(one, ast.FunctionDef)}
    found: set[str] = set()
    todo, done = [words.__name__], set()
    while todo:
        name = todo.pop()
        done.add(name)
        for node in ast.walk(functions[name]):
            if isinstance(node, ast.Name) and node.id in functions and node.id not in done:
                todo.append(node.id)
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.add(node.value)
    return frozenset(found)


def test_every_fact_given_is_told() -> None:
    for codes, call in made_in_source():
        told_of = frozenset[str]().union(*(told_facts(code) for code in codes))
        given = [one.value for one in call.keywords if one.arg == "facts"]
        keys = {
            str(key.value)
            for one in given
            for node in ast.walk(one)
            if isinstance(node, ast.Dict)
            for key in node.keys
            if isinstance(key, ast.Constant)
        }
        assert keys <= told_of, f"{codes}: {keys - told_of} is never told"


# What sets words for a reader, and must not choose them.
SETTING = ("report", "sheets", "pages", "web", "service", "cli", "drawing")
VERDICT = "too close to call"  # a value of planning, with words of its own
# Where a string begins with them, they are of a bend or its findings.
SHORT = {"from first contact", "Under load", "Warning", "Note", "Stop block", "it sits on the"}


def written_out(source: str) -> Iterator[tuple[int, str]]:
    """Every string of a module with its line, docstrings left out."""
    tree = parsed(source)
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef)
    docs = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.lineno, node.value


@cache
def words_of_a_bend() -> frozenset[str]:
    """Pieces of the sentences that tell of a bend, as the modules that hold them write them."""
    wording = SOURCE / "wording"
    own = ("blank", "relief", "caution", "severity", "refused")
    modules = [*(wording / "steps").glob("*.py"), *(wording / f"{one}_words.py" for one in own)]
    pieces = {
        piece.strip(" .,;:")
        for path in modules
        for _, piece in written_out(path.read_text(encoding="utf-8"))
    }
    return frozenset(one for one in pieces if len(one.split()) >= 4) - {VERDICT}


def told_again(source: str) -> Iterator[str]:
    """Places where a module has words of a bend for itself."""
    for line, text in written_out(source):
        begins = text.strip(" .,;:")
        found = {one for one in words_of_a_bend() if one in text}
        found |= {one for one in SHORT if begins.startswith(one)}
        for piece in sorted(found):
            yield f"{line}: {piece}"


def test_nobody_else_tells_of_a_bend() -> None:
    found = [
        f"{path.relative_to(SOURCE)}:{place}"
        for package in SETTING
        for path in sorted((SOURCE / package).rglob("*.py"))
        for place in told_again(path.read_text(encoding="utf-8"))
    ]
    assert found == []


@pytest.mark.parametrize(
    "line",
    [
        'row = f"{travel} from first contact, {between}"',
        'row = f"{height} high, on the {stands}, it sits on the {meets}"',
        'said = f"Stop and check above {pressure} on the gauge."',
        'word = {"warning": "Warning"}',
    ],
)
def test_the_walk_sees_words_of_a_bend(line: str) -> None:
    assert list(told_again(line))


WRITTEN = {"text", "remedy", "problem", "sentence", "note"}
READS = {
    "startswith", "endswith", "removeprefix", "removesuffix", "partition", "rpartition", "split",
    "replace", "find", "index", "count", "match", "fullmatch", "search", "sub", "findall",
    "finditer",
}  # fmt: skip
# What a person typed, and files, are read for what they say; lettering is set piece by piece.
TYPED = {"quantities", "shop_files", "store", "scene"}


WORDING = "strapwright.wording"


@cache
def told_by_functions() -> frozenset[str]:
    """Functions of the words that give a sentence or a clause."""
    return frozenset(
        one.name
        for path in (SOURCE / "wording").rglob("*_words.py")
        for one in parsed(path.read_text(encoding="utf-8")).body
        if isinstance(one, ast.FunctionDef)
        and not one.name.startswith("_")
        and one.returns is not None
        and ast.unparse(one.returns) == "str"
    )


def read_sentences(source: str) -> Iterator[str]:
    """Places where the program looks into words that it made itself."""
    tree = parsed(source)
    tellers = {
        name.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(WORDING)
        for name in node.names
        if name.name in told_by_functions()
    }
    for function in (one for one in ast.walk(tree) if isinstance(one, ast.FunctionDef)):
        words = set(tellers)
        for node in ast.walk(function):
            if isinstance(node, ast.Assign) and written(node.value, words):
                words |= {one.id for one in node.targets if isinstance(one, ast.Name)}
        for node in ast.walk(function):
            if isinstance(node, ast.Compare) and any(
                isinstance(op, ast.In | ast.NotIn | ast.Eq | ast.NotEq)
                and (written(left, words) or written(right, words))
                for left, op, right in zip(
                    [node.left, *node.comparators], node.ops, node.comparators, strict=False
                )
            ):
                yield f"{node.lineno}: {ast.unparse(node)}"
            if isinstance(node, ast.Match) and written(node.subject, words):
                yield f"{node.lineno}: match {ast.unparse(node.subject)}"
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                asked = [node.func.value, *node.args]
                if node.func.attr in READS and any(written(one, words) for one in asked):
                    yield f"{node.lineno}: {ast.unparse(node)}"


def written(node: ast.AST, words: set[str]) -> bool:
    """Whether an expression is a sentence of a finding, a refusal or a note, or holds one."""
    if isinstance(node, ast.JoinedStr):
        return any(
            written(one.value, words) for one in node.values if isinstance(one, ast.FormattedValue)
        )
    if isinstance(node, ast.Call):
        return isinstance(node.func, ast.Name) and node.func.id in words
    if isinstance(node, ast.Attribute):
        return node.attr in WRITTEN
    return isinstance(node, ast.Name) and node.id in words


def test_nothing_reads_a_sentence() -> None:
    found = [
        f"{path.relative_to(SOURCE)}:{place}"
        for path in sorted(SOURCE.rglob("*.py"))
        if path.relative_to(SOURCE).parts[0] not in TYPED
        for place in dict.fromkeys(read_sentences(path.read_text(encoding="utf-8")))
    ]
    assert found == []


@pytest.mark.parametrize(
    "line",
    [
        'hard = "sharper" in finding.text',
        'late = finding.remedy.startswith("Push")',
        'number = re.search("[0-9]+", version.note)',
        'said = f"{one.text} {one.remedy}"\nlow = pattern.sub("", said)',
        "same = [one for one in fixes if one.text == asked]",
        "other = asked != finding.sentence",
        "known = note.text in told",
        'match lack.text:\n    case "the press is too weak":\n        pass',
    ],
)
def test_the_walk_sees_a_sentence_that_is_read(line: str) -> None:
    function = "def looks():\n    " + line.replace("\n", "\n    ")
    assert list(read_sentences(function))


def test_the_walk_sees_words_that_are_compared() -> None:
    read = "from strapwright.wording.fix_words import fix_order\n"
    read += (
        "def chosen(fixes):\n    return [one for one in fixes if fix_order(one, 'inch') == asked]"
    )
    assert list(read_sentences(read))


def weak(bend: int) -> Finding:
    facts: dict[str, Fact | tuple[Fact, ...]] = {"reason": Choice("short leg")}
    return Finding(
        code="model-weak-spot", severity=Severity.NOTE, about=(BendAt(bend),), facts=facts
    )


def test_bends_of_which_the_same_is_true_are_named_together() -> None:
    far = Finding(code="past-proven-angle", severity=Severity.WARNING, about=(BendAt(3),))
    notes = by_severity([weak(4), weak(1), weak(2)])
    (one,) = tell_all(notes, in_units("metric"))
    assert one.where == "bends 1, 2 and 4"
    assert one.about == (BendAt(1), BendAt(2), BendAt(4))
    assert by_severity([weak(1), far])[0] == far


def test_lengths_that_read_alike_are_told_once() -> None:
    def short(bend: int, by: float) -> Finding:
        return Finding(
            code="stop-unreachable",
            severity=Severity.WARNING,
            about=(BendAt(bend),),
            facts={"short": Length(by)},
        )

    alike = tell_all([short(1, 4.0), short(2, 4.0 + 1e-9)], in_units("metric"))
    assert [one.where for one in alike] == ["bends 1 and 2"]
    apart = tell_all([short(1, 4.0), short(2, 5.0)], in_units("metric"))
    assert [one.where for one in apart] == ["bend 1", "bend 2"]


def test_each_medium_names_keys_and_holes_its_own_way() -> None:
    job = read_job(JOB)
    unknown = Finding(code="nose-reach-unknown", severity=Severity.NOTE, about=(BendAt(2),))
    assert "Enter tooling.nose.reach," in tell(unknown, at_command(job)).remedy
    page = tell(unknown, on_page(job))
    assert "tooling.nose" not in page.sentence
    assert said(page).link == "bends/2"
    hole = Finding(
        code="hole-near-bend",
        severity=Severity.NOTE,
        about=(HoleAt(1),),
        facts={
            "bend": Count(2),
            "away": Length(4.0),
            "kind": Choice("hole"),
            "near": Count(2),
        },
    )
    assert tell(hole, at_command(job)).where == "part.hole[1]"
    assert tell(hole, on_paper(job)).where == "hole 1"
    assert said(tell(hole, on_page(job))).place == "Hole 1"


def test_a_name_is_told_as_it_was_given() -> None:
    met = Finding(
        code="halves-collide",
        severity=Severity.REFUSAL,
        about=(KeyAt("tooling"),),
        facts={"moving": Name("press.bore 20 mm"), "still": Name("[lot] bedside pipe")},
    )
    job = read_job(JOB)
    text = tell(met, on_page(job)).text
    assert text == ("On its way to full stroke the press.bore 20 mm hits the [lot] bedside pipe.")


def test_a_fact_of_another_kind_is_refused() -> None:
    wrong = Finding(
        code="stop-unreachable",
        severity=Severity.WARNING,
        about=(BendAt(1),),
        facts={"short": Count(4)},
    )
    with pytest.raises(TypeError, match=r"stop-unreachable: short is Count\(value=4\)"):
        tell(wrong, in_units("metric"))


def test_a_plan_is_told_in_both_systems() -> None:
    made = plan(read_job(JOB))
    assert {one.code for one in told(made)} == {one.code for one in made.findings}


def test_an_error_of_a_bend_leads_to_its_page() -> None:
    error = InputError(BendAt(2), "a row of hits is made with one bar", "leave the radius out")
    assert error.where == "bend 2"
    assert (refused(error).place, refused(error).link) == ("Bend 2", "bends/2")
    hole = InputError(HoleAt(3), "it breaks out of the bar", "move it")
    assert str(hole).startswith("part.hole[3]: ")
    assert (refused(hole).place, refused(hole).link) == ("Hole 3", "part#part.hole[3].distance")


def test_an_error_names_its_keys_as_each_reader_calls_them() -> None:
    error = InputError(
        "press",
        f"{key_of('press.relief')} is above {table_of('tooling')}",
        f"enter {key_of('press.bore')} or {key_of('part.at_once_more')}",
        value="press.bore",
    )
    assert error.sentence == (
        "press 'press.bore': press.relief is above [tooling]; enter press.bore or "
        "part.at_once_more."
    )
    page = refused(error).text
    assert page.endswith(
        " is above the tooling; enter “Bore” or part.at_once_more in the job file."
    )
    assert "press.relief" not in page
    assert error.speaks_of_file
    assert not InputError("press", f"{key_of('press.bore')} is 0", "give a size").speaks_of_file
    assert InputError("press", "this is missing", in_file('write bore = "3"')).speaks_of_file


def test_every_member_has_a_name() -> None:
    assert set(MEMBER_NAMES) == set(get_args(MemberName))
    assert set(WELDS) == set(BOLTS) == set(get_args(Holds))
    assert len(set(MEMBER_NAMES.values())) == len(MEMBER_NAMES)


def test_a_bend_has_the_same_figures_in_every_medium() -> None:
    """Labels are each medium's own; where to stop and when to look are not."""
    job = read_job(JOB)
    made = plan(job)
    text = " ".join(plan_to_text(made).split())
    for index, step in enumerate(made.steps):
        travel, height = travel_figure(step, on_page(job)), block_figure(step, on_page(job))
        assert step.gauge is not None
        stop = ease_off_figure(step.gauge, on_page(job))
        paper = bend_data(made, index)
        assert [one["main"] for one in paper["settings"]][:1] == [travel.value]
        assert paper["gauge"]["ease_off"] == stop.value
        assert f"Travel {travel.value} from first contact ({travel.between})" in text
        assert height.value not in text
        assert f"stop and check above {stop.value}" in text


def test_no_angle_is_promised_past_bottoming() -> None:
    job = read_job(JOB)
    step = plan(job).steps[0]
    late = evolve(step, bottoming_travel=0.9 * step.setting.travel)
    for reader in (at_command(job), on_paper(job), on_page(job)):
        shown = free_figure(step, reader).value
        assert shown.endswith("°")
        said = free_figure(late, reader)
        assert shown not in said.banded
        assert "predicted" in said.banded


@pytest.mark.parametrize("refused_in", [test_job_file_refusals, test_shape_and_limits_refusals])
def test_a_page_never_tells_what_to_write_into_a_file(refused_in: ModuleType) -> None:
    told_here = 0
    for old, new, whole in refused_in.REFUSED:
        # These a page cannot come to: it writes every key and table by its name, and one of two.
        if any(word in whole for word in ("unknown key", "single value", "are given", "from_end ")):
            continue
        with pytest.raises(InputError) as caught:
            read_job(refused_in.changed(old, new))
        on_the_page = told_on_page(caught.value)
        assert not re.search(r"\w = |\[[a-z]+\]|[a-z]_[a-z]", on_the_page), on_the_page
        told_here += on_the_page != caught.value.told(str, str)
    assert told_here > 5
