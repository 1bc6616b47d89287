"""How the source gives its figures: by name where they are many, a unit's size in one place."""

from __future__ import annotations

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest
from source_trees import parsed

from strapwright.quantities import inside_units

pytestmark = pytest.mark.usefixtures("trees_are_kept")

SOURCE = Path(__file__).resolve().parents[2] / "src" / "strapwright"
MOST_BY_POSITION = 6


@pytest.fixture(scope="module", name="trees")
def _trees() -> dict[str, ast.Module]:
    return {
        str(path.relative_to(SOURCE)): parsed(path.read_text(encoding="utf-8"))
        for path in sorted(SOURCE.rglob("*.py"))
        if "migrations" not in path.parts  # written in the words of the migration tool
    }


def name_of(called: ast.expr) -> str:
    return getattr(called, "id", getattr(called, "attr", ""))


def taking_any_number(trees: dict[str, ast.Module]) -> set[str]:
    """Functions that take any number of values of one kind, whose names would say nothing."""
    return {
        node.name
        for tree in trees.values()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef) and node.args.vararg is not None
    }


def long_calls(trees: dict[str, ast.Module], free: set[str]) -> Iterator[str]:
    for path, tree in trees.items():
        for node in ast.walk(tree):
            if (
                isinstance(node, ast.Call)
                and len(node.args) > MOST_BY_POSITION
                and name_of(node.func) not in free
            ):
                yield f"{path}:{node.lineno} {name_of(node.func)}"


def test_no_call_passes_more_than_six_by_position(trees: dict[str, ast.Module]) -> None:
    assert list(long_calls(trees, taking_any_number(trees))) == []


def test_a_call_with_seven_by_position_is_found() -> None:
    text = "def f(a, b, c, d, e, f, g): ...\ndef h(*all): ...\nf(1, 2, 3, 4, 5, 6, 7)\n"
    trees = {"one.py": parsed(text + "h(1, 2, 3, 4, 5, 6, 7)\n")}
    assert list(long_calls(trees, taking_any_number(trees))) == ["one.py:3 f"]


# In mm, N, MPa and mm3, as exact as they are defined; NIST SP 811 (2008), appendix B.
SIZES = {
    "INCH_MM": 25.4,
    "FOOT_MM": 304.8,
    "CUBIC_INCH_MM3": 16387.064,
    "GALLON_MM3": 3785411.784,
    "POUND_N": 4.4482216152605,
    "TON_N": 8896.443230521,
    "PSI_MPA": 0.006894757293168361,
    "KSI_MPA": 6.894757293168361,
}


@pytest.mark.parametrize(("name", "size"), SIZES.items())
def test_a_unit_has_its_size(name: str, size: float) -> None:
    assert getattr(inside_units, name) == pytest.approx(size, rel=1e-15)


def digits(value: float) -> str:
    """First seven digits of a figure, whatever its power of ten."""
    return f"{abs(value):.6e}".partition("e")[0]


def test_the_size_of_a_unit_stands_in_one_place(trees: dict[str, ast.Module]) -> None:
    pounds_and_gallons = (0.45359237, 9.80665, 3785411.784, 112.984829)
    known = {digits(size) for size in (*SIZES.values(), *pounds_and_gallons)}
    found = [
        f"{path}:{node.lineno} {node.value}"
        for path, tree in trees.items()
        if path != "quantities/units.py"
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, float)
        and digits(node.value) in known
    ]
    assert found == []


# The rooms whose figures decide what a person is told to do.
DECIDING = (
    "bending",
    "blank",
    "making",
    "midline",
    "ordering",
    "planning",
    "proposing",
    "strength",
)
KNOWN_FROM = re.compile(
    r"fitted|finite elements|source|common practice|from memory|likewise|\bexact\b|numerical"
    r"|AISC|DIN|Roark|Handbook|Kalpakjian|textbook",
    re.IGNORECASE,
)


def comments_by_line(text: str) -> dict[int, str]:
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    return {one.start[0]: one.string for one in tokens if one.type == tokenize.COMMENT}


def holds_a_figure(value: ast.expr) -> bool:
    return any(
        isinstance(node, ast.Constant) and type(node.value) is float and node.value != 0.0
        for node in ast.walk(value)
    )


def heading(lines: list[str], at: int) -> list[str]:
    """Nearest comment over a 1-based line, with no blank line between."""
    above = at - 1
    while above and lines[above - 1].strip() and not lines[above - 1].startswith("#"):
        above -= 1
    last = above
    while above and lines[above - 1].startswith("#"):
        above -= 1
    return lines[above:last]


def figures_from_nowhere(text: str) -> list[str]:
    """Module constants with a figure, and no word of where it is from beside it or over it."""
    body, lines, comments = parsed(text).body, text.splitlines(), comments_by_line(text)
    found = []
    for node, after in zip(body, [*body[1:], None], strict=True):
        if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
            continue
        if not holds_a_figure(node.value):
            continue
        assert node.end_lineno is not None
        said = [comments.get(line, "") for line in range(node.lineno, node.end_lineno + 1)]
        said += heading(lines, node.lineno)
        if isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant):
            said.append(str(after.value.value))
        if not KNOWN_FROM.search("\n".join(said)):
            found.append(f"{node.lineno}: {lines[node.lineno - 1]}")
    return found


def test_every_constant_says_where_its_figure_is_from() -> None:
    found = {
        str(path.relative_to(SOURCE)): silent
        for room in DECIDING
        for path in sorted((SOURCE / room).rglob("*.py"))
        if (silent := figures_from_nowhere(path.read_text(encoding="utf-8")))
    }
    assert found == {}


def test_a_figure_from_nowhere_is_found() -> None:
    told = "# Common practice, no source.\nA = 1.5\nB = (2.5,)  # mm\n"
    other = "# Another matter.\nC = 3.5\n"
    untold = "\nD = 3.5  # mm\nCOUNT = 3\nNONE = 0.0\nE = 4.5  # fitted\n"
    silent = ["5: C = 3.5", "7: D = 3.5  # mm"]
    assert figures_from_nowhere(told + other + untold) == silent


# Reading and writing of tables and files; there a name carries its unit.
CORE = (*DECIDING, "motion", "shop")
WITH_UNIT = re.compile(r"\w+_(mm|deg|rad|N|MPa)")


def test_no_value_of_the_core_is_named_by_a_string_with_its_unit(
    trees: dict[str, ast.Module],
) -> None:
    found = [
        f"{path}:{node.lineno} {node.value}"
        for path, tree in trees.items()
        if path.partition("/")[0] in CORE
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and WITH_UNIT.fullmatch(node.value)
    ]
    assert found == []
