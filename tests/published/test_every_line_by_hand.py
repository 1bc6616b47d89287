"""Each line that ``tooling check --all`` can print has its hand calculation; none is forgotten."""

from __future__ import annotations

import ast
import itertools
from collections.abc import Callable, Iterator
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any

import hand_bench
import strapwright.strength
from specimen_dies import Line, every_check, line_of, lines_run

HERE = Path(__file__).resolve().parent
STRENGTH = Path(strapwright.strength.__file__).parent
PAGE = HERE.parents[1] / "docs" / "hand-sums.md"
MAKERS = {"Check", "checked", "bending", "shear", "bearing", "direct", "combined"}


def each_way(test: Callable[..., None]) -> Iterator[dict[str, Any]]:
    """The arguments of every run of a test, as its parametrize marks give them."""
    axes = []
    for mark in getattr(test, "pytestmark", ()):
        names, values = mark.args
        several = not isinstance(names, str) or "," in names
        keys = [one.strip() for one in names.split(",")] if isinstance(names, str) else names
        axes.append([dict(zip(keys, one if several else (one,), strict=True)) for one in values])
    for each in itertools.product(*axes):
        yield {key: value for one in each for key, value in one.items()}


def loaded(path: Path) -> ModuleType:
    """A file of tests as a module."""
    spec = spec_from_file_location(path.stem, path)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def by_hand() -> dict[Line, str]:
    """Line -> the first test that holds it against a hand calculation, each test having passed."""
    held: dict[Line, str] = {}
    for path in sorted(HERE.glob("test_*_by_hand.py")):
        if path == Path(__file__):
            continue
        module = loaded(path)
        for name, test in vars(module).items():
            if not name.startswith("test_") or test.__module__ != path.stem:
                continue
            hand_bench.READ.clear()
            for given in each_way(test):
                test(**given)
            for check in hand_bench.READ:
                held.setdefault(line_of(check), f"{path.stem.removeprefix('test_')}: "
                                f"{name.removeprefix('test_').replace('_', ' ')}")  # fmt: skip
    return held


def four_dies() -> str:
    """Rows of the four dies: what is asked of each member, by hand and by the code."""
    dies = loaded(HERE / "test_four_dies_by_hand.py")
    return "".join(
        f"| {one.die} | {one.member} | {one.what} | {one.case} | {one.value:,.6g} "
        f"| {dies.of_code(one):,.5g} |\n"
        for one in dies.SUMS
    )


def page(held: dict[Line, str]) -> str:
    """The tables of the handbook."""
    rows = "".join(
        "| " + " | ".join((*line_of(check)[:2], f"`{check.formula.replace('|', chr(92) + '|')}`",
                           check.source, held.get(line_of(check), "none"))) + " |\n"
        for check in every_check()
    )  # fmt: skip
    return f"""# Sums held by hand

Every line that `strapwright tooling check --all` can print, and the hand calculation that holds it:
a file of `tests/published` and the test in it. A test fails where a line has none, and where this
page is not as `PYTHONPATH=tests python tests/published/test_every_line_by_hand.py` writes it.

| member | check | asked of it | source | hand calculation |
|---|---|---|---|---|
{rows}
## Four dies, member by member

At relief, as `tests/published/data/hand_dies` states them: a strap on welded cheeks, a hook on
bolted ones, cheeks tied by side plates with a nose between guide rods, and a nose on a welded web.
Psi, lbf, lbf/in and inches; of the tied die MPa, N and mm. The two columns agree within 0.05 %. The
cheeks of strap and hook do not hold at relief: this is about the sums, not about the dies.

| die | member | check | load | by hand | by the code |
|---|---|---|---|---|---|
{four_dies()}"""


def test_every_line_has_its_hand_calculation() -> None:
    held = by_hand()
    lines = {line_of(check) for check in every_check()}
    assert lines - held.keys() == set()
    assert page(held) == PAGE.read_text(encoding="utf-8")


def test_the_list_leaves_out_no_place_that_makes_a_check() -> None:
    """Whatever makes a check has run for some die of the list."""
    _, ran = lines_run(STRENGTH)
    silent = []
    for path in sorted(STRENGTH.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            span = set(range(node.lineno, (node.end_lineno or node.lineno) + 1))
            if name in MAKERS and not span & ran.get(str(path), set()):
                silent.append(f"{path.name}:{node.lineno}")
    assert silent == []


if __name__ == "__main__":
    PAGE.write_text(page(by_hand()), encoding="utf-8")
