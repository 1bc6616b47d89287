"""Each learned figure in words: before, now, and which lines of the log moved it."""

from __future__ import annotations

import math
from collections.abc import Callable

from attrs import frozen

from strapwright.bending.bend_values import BendSetup
from strapwright.bending.learned_spread import SCALE, TOUCH, ZERO
from strapwright.learning.learned_figures import LearnedFigure
from strapwright.quantities.inside_units import INCH_MM, KSI_MPA
from strapwright.wording.figures import Figures

_MOST_LINES = 3  # named of those that moved a figure


@frozen(kw_only=True)
class LearnedWords:
    """One learned figure.

    Attributes
    ----------
    thing
        ``bar lot``, ``press`` or ``tooling``.
    name, before, now, moved
        What it is, its band before any reading and now, and what moved it.
    """

    thing: str
    name: str
    before: str
    now: str
    moved: str

    @property
    def sentence(self) -> str:
        """The whole of it."""
        return f"{self.name}: {self.now} now, {self.before} before. {self.moved}"


_NAMES = {
    0: "Yield strength",
    1: "Hardening exponent",
    2: "Thickness",
    3: "Friction on the shoulders",
    4: "Stiffness on springing back",
    5: "Effective opening",
    6: "Give of the press",
    TOUCH: "First contact found late by",
    SCALE: "Pressure gauge reads high by",
    ZERO: "Pressure gauge zero",
}


def learned_words(found: LearnedFigure, setup: BendSetup, show: Figures) -> LearnedWords:
    """Put a learned figure into words.

    Parameters
    ----------
    found
        From the log.
    setup
        What the shop states.
    show
        Prints figures.
    """
    value, unit = _scale(found.figure, setup, show)
    ends = [value(found.now.low), value(found.now.high)]
    first = [value(found.before.low), value(found.before.high)]
    decimals = _decimals(abs(ends[1] - ends[0]))

    def shown(number: float) -> str:
        text = f"{number:.{decimals}f}"
        return text.removeprefix("-") if float(text) == 0.0 else text

    return LearnedWords(
        thing={"lot": "bar lot"}.get(found.owner, found.owner),
        name=_NAMES[found.figure],
        before=f"{shown(first[0])} to {shown(first[1])}{unit}",
        now=f"{shown(value(found.value))}{unit} ({shown(ends[0])} to {shown(ends[1])})",
        moved=_moved([entry for entry, _ in found.moved]),
    )


def _scale(figure: int, setup: BendSetup, show: Figures) -> tuple[Callable[[float], float], str]:
    """Return what turns a figure into a number as it is read, and its unit."""
    inch = show.units == "inch"
    length, in_or_mm = (INCH_MM, " in") if inch else (1.0, " mm")
    if figure == 0:
        stress, unit = (KSI_MPA, " ksi") if inch else (1.0, " MPa")
        return lambda x: setup.flow.yield_stress * math.exp(x) / stress, unit
    plain: dict[int, tuple[Callable[[float], float], str]] = {
        1: (lambda x: setup.flow.exponent + x, ""),
        2: (lambda x: setup.thickness * math.exp(x) / length, in_or_mm),
        3: (lambda x: setup.friction + x, ""),
        4: (lambda x: 100.0 * setup.unloading_ratio * math.exp(x), " %"),
        5: (lambda x: (setup.opening + x) / length, in_or_mm),
        6: (lambda x: (setup.give + x) * 1e4 / length, f"{in_or_mm} for 10 kN"),
        TOUCH: (lambda x: x / length, in_or_mm),
        SCALE: (lambda x: 100.0 * x, " %"),
    }
    if figure in plain:
        return plain[figure]
    name, size = show.size_of("MPa")
    return lambda x: x / size, name


def _decimals(width: float) -> int:
    """Places that the width of a band supports: two figures of it (numerical)."""
    if not width > 0.0:
        return 3
    return max(0, min(4, 1 - math.floor(math.log10(width))))


def line_words(line: str, of: tuple[int, int] | None, by: float) -> str:
    """Name a line of the log that moved a figure, and which way.

    Parameters
    ----------
    line
        Its number.
    of
        Part and bend that it is of; ``None`` of another job.
    by
        How far it moved the figure; only the sign is said.
    """
    what = "another job" if of is None else f"part {of[0]}, bend {of[1]}"
    return f"line {line} ({what}): {'up' if by > 0.0 else 'down'}"


def _moved(entries: list[str]) -> str:
    if not entries:
        return "No line moved it much."
    named = entries[:_MOST_LINES]
    lines = f"Line {named[0]}" if len(named) == 1 else f"Lines {', '.join(named)}"
    more = len(entries) - len(named)
    return f"{lines} moved it{' most' if more or len(named) > 1 else ''}."
