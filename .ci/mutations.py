"""Change one sign, factor or comparison of strength or making, and see that a test fails.

``.venv/bin/python .ci/mutations.py [--seed 13] [--count 40]``: draws so many changes from all that
can be made, half in each package, runs for each the test files that reach its module, the nearest
first, until one fails, and exits with 1 where one survives or a run proves nothing: it broke, ran
out of time, or the test that failed fails without the change too.  No file is touched: the tests
import the changed text from beside.
Takes some minutes, so it is no part of ``start.py test``.
"""

from __future__ import annotations

import argparse
import ast
import copy
import hashlib
import os
import re
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src"
PACKAGES = ("strength", "making")
TESTS = ("published", "property", "unit")
SLOW = ("proposing", "web", "plan", "search", "store", "every_line", "compiler", "architecture")
MOST_FILES = 14  # run in one go, those that reach a module soonest before the others
NEAREST = 3  # run before all others
DEEPEST = 4  # imports between a test and the module
SLACK = 1e-4  # a term as small as that stands for rounding
LONGEST = 240.0  # s, for the tests of one change; more on a machine that is busy

_SWAPPED: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.Lt: ast.Gt, ast.Gt: ast.Lt, ast.LtE: ast.GtE, ast.GtE: ast.LtE,
}  # fmt: skip


class Change(NamedTuple):
    """One change of a module: the place of the node in a walk of its tree, and what it does.

    ``name`` stays the same while other functions of the package change.
    """

    path: Path
    place: int
    line: int
    what: str
    name: str


def module_of(path: Path) -> str:
    """Dotted name of a source file."""
    return ".".join(path.relative_to(SOURCE).with_suffix("").parts)


def changes_of(path: Path) -> Iterator[Change]:
    """Every change that can be made in a module."""
    text = path.read_text(encoding="utf-8")
    tree, lines = ast.parse(text), text.splitlines()
    spared, seen = _spared(tree), Counter[str]()
    inside = {
        below: top.name
        for top in ast.walk(tree)
        if isinstance(top, ast.FunctionDef)
        for below in ast.walk(top)
    }
    for place, node in enumerate(ast.walk(tree)):
        what = None if node in spared else _what(node)
        line = getattr(node, "lineno", 0)
        # A tolerance that only rounding needs changes nothing that can be seen.
        if what is None or "numerical" in lines[line - 1]:
            continue
        name = f"{module_of(path)} {inside.get(node, '')} {ast.unparse(node)} {what}"
        seen[name] += 1
        yield Change(path, place, line, what, f"{name} {seen[name]}")


def _spared(tree: ast.Module) -> set[ast.AST]:
    """Nodes that decide no figure: annotations, texts, what is raised, places in a sequence."""
    roots: list[ast.AST] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Raise | ast.JoinedStr):
            roots.append(node)
        elif isinstance(node, ast.Subscript):
            roots.append(node.slice)
        elif isinstance(node, ast.keyword) and node.arg in {"apart", "step"}:
            roots.append(node.value)  # how far a picture is pulled apart
        elif isinstance(node, ast.Call) and getattr(node.func, "id", "") == "ring":
            roots += node.args[2:]  # how many corners a round of a picture has
        elif isinstance(node, ast.BinOp) and _tolerance(node.right):
            roots.append(node.right)
        elif isinstance(node, ast.AnnAssign | ast.arg) and node.annotation is not None:
            roots.append(node.annotation)
        elif isinstance(node, ast.FunctionDef) and node.returns is not None:
            roots.append(node.returns)
    slack = {node for node in ast.walk(tree)
             if isinstance(node, ast.BinOp) and _tolerance(node.right)}  # fmt: skip
    return {below for root in roots for below in ast.walk(root)} | slack


def _tolerance(node: ast.expr) -> bool:
    """Whether a term is only there for rounding, so that its sign changes nothing seen."""
    if isinstance(node, ast.Constant):
        return isinstance(node.value, float) and abs(node.value) < SLACK
    return isinstance(node, ast.Name) and node.id == "_SAME"


def _what(node: ast.AST) -> str | None:
    """What a change of a node does, or ``None`` where it has none."""
    if isinstance(node, ast.BinOp) and type(node.op) in _SWAPPED and not _text(node):
        return f"{type(node.op).__name__} to {_SWAPPED[type(node.op)].__name__}"
    if isinstance(node, ast.Compare) and len(node.ops) == 1 and type(node.ops[0]) in _SWAPPED:
        return f"{type(node.ops[0]).__name__} to {_SWAPPED[type(node.ops[0])].__name__}"
    if isinstance(node, ast.Constant) and type(node.value) in (int, float) and node.value:
        return f"{node.value} to {_other(node.value)}"
    if isinstance(node, ast.Call) and getattr(node.func, "id", "") in {"min", "max"}:
        return f"{getattr(node.func, 'id', '')} to the other"
    return None


def _text(node: ast.BinOp) -> bool:
    """Whether an operator may join texts or sequences, which no sign is for."""
    return any(
        isinstance(one, ast.JoinedStr | ast.List | ast.Tuple | ast.ListComp)
        or (isinstance(one, ast.Constant) and isinstance(one.value, str))
        for one in ast.walk(node)
    )


def _other(value: float) -> float:
    """A figure that is not the same: a whole one more, else a tenth more."""
    return value + 1 if isinstance(value, int) else round(1.1 * value, 12)


def changed(change: Change) -> str:
    """Return the text of a module with a change made."""
    tree = copy.deepcopy(ast.parse(change.path.read_text(encoding="utf-8")))
    node = next(one for place, one in enumerate(ast.walk(tree)) if place == change.place)
    match node:
        case ast.BinOp():
            node.op = _SWAPPED[type(node.op)]()  # type: ignore[assignment]
        case ast.Compare():
            node.ops = [_SWAPPED[type(node.ops[0])]()]  # type: ignore[list-item]
        case ast.Constant(value=int() | float() as value):
            node.value = _other(value)
        case ast.Call(func=ast.Name() as name):
            name.id = {"min": "max", "max": "min"}[name.id]
    return ast.unparse(ast.fix_missing_locations(tree))


@cache
def imports_of(path: Path) -> frozenset[str]:
    """Dotted names of what a file imports."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{one.name}" for one in node.names)}
        elif isinstance(node, ast.Import):
            found |= {one.name for one in node.names}
    return frozenset(found)


@cache
def modules() -> dict[str, Path]:
    """Every file of the package, and the helpers of the tests, by its name."""
    found = {module_of(path): path for path in SOURCE.rglob("*.py") if path.stem != "__init__"}
    return found | {path.stem: path for path in (ROOT / "tests").glob("*.py")}


def depth(test: Path, module: str) -> int:
    """How many imports lie between a test and a module; more than the deepest where too many."""
    seen: set[str] = set()
    level = {name for name in imports_of(test) if name in modules()}
    for deep in range(1, DEEPEST + 1):
        if module in level:
            return deep
        seen |= level
        level = {
            name for one in level for name in imports_of(modules()[one]) if name in modules()
        } - seen
    return DEEPEST + 1


def tests_for(module: str) -> list[Path]:
    """The test files that reach a module, soonest first, and sums by hand before the far ones."""
    files = [path for room in TESTS for path in (ROOT / "tests" / room).glob("test_*.py")]
    files = [path for path in files if not any(word in path.stem for word in SLOW)]
    reached = [(depth(path, module), path.stat().st_size, path) for path in files]
    found = [path for deep, _, path in sorted(reached) if deep <= DEEPEST]
    by_hand = [path for path in found if path.stem.endswith("_by_hand")]
    return list(dict.fromkeys((*found[:MOST_FILES], *by_hand, *found)))


class Verdict(NamedTuple):
    """What a run says of a change.

    ``kind`` is ``caught``, ``SURVIVES`` or ``NOT PROVEN``; ``why`` is the test that failed, or what
    went wrong with the run.
    """

    kind: str
    why: str = ""


def verdict(code: int, output: str) -> Verdict:
    """Judge a run of pytest by its exit code and what it printed.

    Only a test that ran and failed has caught something: 2 to 5 are a run that broke off, as on an
    import or in collecting, an error of pytest or of its arguments, and a run without tests.
    """
    if code == 0:
        return Verdict("SURVIVES")
    failed = re.search(r"^(?:FAILED|ERROR) (\S+::.+?)(?: - .*)?$", output, re.MULTILINE)
    if code == 1 and failed is not None:
        return Verdict("caught", failed[1])
    return Verdict("NOT PROVEN", f"pytest ended with {code} and no test had failed")


def _pytest(tests: Sequence[str], room: dict[str, str], longest: float) -> Verdict:
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-rfE", "-p", "no:cacheprovider",
               "--no-header", *(("-p", "mutant_plugin") if "MUTANT_MODULE" in room else ()),
               *tests]  # fmt: skip
    try:
        done = subprocess.run(
            command, cwd=ROOT, env=os.environ | room, capture_output=True, check=False,
            timeout=longest, text=True,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return Verdict("NOT PROVEN", f"not done within {longest:.0f} s")
    return verdict(done.returncode, done.stdout)


def judged(change: Change, folder: Path, longest: float = LONGEST) -> Verdict:
    """Run the tests of a change; a test that fails has caught it where it passes without it."""
    module, source = module_of(change.path), folder / change.path.name
    source.write_text(changed(change), encoding="utf-8")
    files = tests_for(module)
    if not files:
        return Verdict("SURVIVES", "no test reaches its module")
    room = {"PYTHONPATH": os.pathsep.join((str(SOURCE), str(ROOT / ".ci")))}
    with_it = {**room, "MUTANT_MODULE": module, "MUTANT_SOURCE": str(source)}
    # Most changes fail the tests next to them, and the rest need not even be collected then.
    found = Verdict("SURVIVES")
    for first, last in pairwise((0, NEAREST, *range(MOST_FILES, len(files), MOST_FILES), None)):
        some = files[first:last]
        if some and found.kind == "SURVIVES":
            found = _pytest([str(path) for path in some], with_it, longest)
    if found.kind == "caught" and _pytest([found.why], room, longest).kind != "SURVIVES":
        return Verdict("NOT PROVEN", f"{found.why} does not pass without the change either")
    return found


def drawn(seed: int, count: int, packages: Sequence[str]) -> list[Change]:
    """So many changes, as many in each package, whatever module they are in.

    Each change has a lot of its own by its name, so that a change elsewhere draws no others.
    """
    found: list[Change] = []
    for package in packages:
        paths = sorted((SOURCE / "strapwright" / package).rglob("*.py"))
        every = [one for path in paths for one in changes_of(path)]
        lots = sorted(every, key=lambda one: hashlib.sha256(f"{seed} {one.name}".encode()).digest())
        found += lots[: count // len(PACKAGES)]
    return found


def main() -> int:
    """Make the changes one after the other; return 0 where a test caught every one."""
    asked = argparse.ArgumentParser(description="Change the sums and see that a test fails.")
    asked.add_argument("--seed", type=int, default=13)
    asked.add_argument("--count", type=int, default=40)
    asked.add_argument("--only", choices=PACKAGES, help="half of them, those of one package")
    asked.add_argument("--longest", type=float, default=LONGEST, help="seconds for one change")
    given = asked.parse_args()
    os.nice(10)
    packages = PACKAGES if given.only is None else (given.only,)
    changes = drawn(given.seed, given.count, packages)
    found = Counter[str]()
    with tempfile.TemporaryDirectory() as folder:
        for number, change in enumerate(changes, start=1):
            kind, why = judged(change, Path(folder), given.longest)
            found[kind] += 1
            where = f"{change.path.relative_to(SOURCE)}:{change.line}"
            print(f"{number:3} {kind}: {where}, {change.what}{why and f' ({why})'}", flush=True)
    print(f"{found['SURVIVES']} of {len(changes)} survive, {found['NOT PROVEN']} not proven.")
    return 0 if found["caught"] == len(changes) else 1


if __name__ == "__main__":
    raise SystemExit(main())
