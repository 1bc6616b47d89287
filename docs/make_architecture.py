"""Draw the layers of the package from its contracts: ``python docs/make_architecture.py``.

The layers are those of the import contracts in ``pyproject.toml``; what each package is for is the
first sentence of its own text; the libraries in its box are those that the contracts keep for it.
A test holds the pictures to the contracts as they are.
"""

from __future__ import annotations

import ast
import sys
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from strapwright.scene.lettering import wrap
from strapwright.scene.primitives import Line, Role, Scene, Shape, Text
from strapwright.scene.primitives import Path as Outline
from strapwright.scene.svg import to_svg
from strapwright.scene.themes import Theme

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent
SOURCE = ROOT / "src"
PICTURES = HERE / "pictures"
THEMES: tuple[Theme, ...] = ("light", "dark")
CORE = "the core works with values alone"

WIDE, MARGIN, GAP = 1180.0, 24.0, 12.0  # px
BESIDE = 150.0  # px, to the right of the boxes, for what the core is
NAME, WORDS = 19.0, 15.0  # px, sizes of type
LINE, PAD = 20.0, 12.0  # px
AIR = 0.92  # of a box words take, so that a wider face still fits


def contracts() -> list[dict[str, Any]]:
    """Return the import contracts."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    found: list[dict[str, Any]] = project["tool"]["importlinter"]["contracts"]
    return found


def layers() -> list[list[str]]:
    """Return the packages of each layer, the highest first."""
    (rows,) = (one["layers"] for one in contracts() if one["type"] == "layers")
    return [row.split(" | ") for row in rows]


def core() -> set[str]:
    """Return the packages that work with values alone."""
    (names,) = (one["modules"] for one in contracts() if one["name"] == CORE)
    return set(names)


def libraries() -> Mapping[str, tuple[str, ...]]:
    """Return, for each package, the libraries that no other, or one more, may use."""
    found: dict[str, list[str]] = {}
    for contract in contracts():
        if contract["type"] == "protected":
            for name in contract["allowed_importers"]:
                found.setdefault(name, []).extend(contract["protected_modules"])
    return {name: tuple(names) for name, names in found.items()}


def purpose(package: str) -> str:
    """Return what a package or module is for: the first sentence of its own text."""
    path = SOURCE / package.replace(".", "/")
    file = path / "__init__.py" if path.is_dir() else path.with_suffix(".py")
    said = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or ""
    return " ".join(said.split("\n\n")[0].split()).replace("``", "")


def scene() -> Scene:
    """Draw the layers, the highest at the top."""
    shapes: list[Shape] = []
    inner, own = core(), libraries()
    top = 0.0
    first_of_core: float | None = None
    for row in layers():
        if first_of_core is None and set(row) <= inner:
            first_of_core = top
        drawn, high = _row(row, top, own)
        shapes += drawn
        top -= high + GAP
    bottom = top + GAP
    if first_of_core is None:
        raise ValueError("no layer lies in the core")
    shapes += _core_beside(first_of_core, bottom)
    return Scene(
        title="The layers of the package",
        description="Each package may import those below it, never one above or beside it.",
        bounds=(-MARGIN, bottom - MARGIN, WIDE + MARGIN, MARGIN),
        scale=1.0,
        shapes=tuple(shapes),
    )


def _row(
    names: list[str], top: float, own: Mapping[str, tuple[str, ...]]
) -> tuple[list[Shape], float]:
    """Draw the packages of one layer side by side; return them and how high they are."""
    room = WIDE - BESIDE
    wide = (room - GAP * (len(names) - 1)) / len(names)
    texts = [_texts(name, wide - 2 * PAD, own.get(name, ())) for name in names]
    high = max(len(lines) for lines in texts) * LINE + 2 * PAD
    shapes: list[Shape] = []
    for place, lines in enumerate(texts):
        left = place * (wide + GAP)
        right, low = left + wide, top - high
        corners = ((left, low), (right, low), (right, top), (left, top))
        shapes.append(Outline(points=corners, role="plate", closed=True))
        base = top - PAD - 0.75 * NAME
        for text, size, role in lines:
            shapes.append(Text(at=(left + PAD, base), text=text, size=size, role=role))
            base -= LINE
    return shapes, high


def _texts(name: str, room: float, own: tuple[str, ...]) -> list[tuple[str, float, Role]]:
    """Return the lines of one box: its name, what it is for, and the libraries kept for it."""
    short = name.removeprefix("strapwright.")
    room *= AIR
    lines: list[tuple[str, float, Role]] = [(short, NAME, "value")]
    lines += [(line, WORDS, "tool-label") for line in wrap(purpose(name), WORDS, room)]
    if own:
        said = wrap(f"libraries: {', '.join(own)}", WORDS, room)
        lines += [(line, WORDS, "label") for line in said]
    return lines


def _core_beside(top: float, bottom: float) -> list[Shape]:
    """Say beside the boxes which of them are the core."""
    left = WIDE - BESIDE + GAP
    right = left + GAP
    lines: list[Shape] = [
        Line(start=(right, top), end=(right, bottom), role="dimension"),
        Line(start=(left, top), end=(right, top), role="dimension"),
        Line(start=(left, bottom), end=(right, bottom), role="dimension"),
    ]
    words = ("the core", "values in,", "values out:", "no file,", "no clock,", "no print")
    at = (top + bottom) / 2 + LINE * len(words) / 2
    for place, word in enumerate(words):
        role: Role = "label" if place else "value"
        size = WORDS if place else NAME
        lines.append(Text(at=(right + GAP, at - place * LINE), text=word, size=size, role=role))
    return lines


def pictures() -> dict[str, str]:
    """Return each picture by its name."""
    drawn = scene()
    return {f"layers.{theme}.svg": to_svg(drawn, theme) for theme in THEMES}


def main() -> int:
    """Write the pictures."""
    for name, text in pictures().items():
        (PICTURES / name).write_text(text, encoding="utf-8", newline="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
