"""Words for bar lots, presses and tooling as things with memory."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from strapwright.quantities import Units, show_length
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed

_HEADS = {"lot": "Bar lots", "press": "Presses", "tooling": "Tooling"}
_SIZES = re.compile(r"(\d+\.\d\d)(?: x (\d+\.\d\d))? mm\b")  # as the log tells things apart
_NEAR = 0.006  # mm; what is lost where a size is kept to 0.01 mm
_FEW = 3  # numbers in a row that are written out; more are a range


def head_words(kind: str) -> str:
    """Name all things of a kind."""
    return _HEADS[kind]


def state_words(retired: bool, merged_into: str) -> str:
    """Say whether a thing is still offered; nothing where it is."""
    if merged_into:
        return f"merged into {merged_into}"
    return "retired" if retired else ""


def name_words(name: str, units: Units) -> str:
    """Name a thing with its sizes in the units of the shop.

    Parameters
    ----------
    name
        By which the log tells it apart: its file, or its sizes in mm.
    units
        Of the shop.
    """
    if units == "metric":
        return _SIZES.sub(lambda found: _trimmed(found[0]), name)
    return _SIZES.sub(
        lambda found: f"{' x '.join(_inches(one) for one in found.groups() if one)} in", name
    )


def _trimmed(sizes: str) -> str:
    return re.sub(r"(\.\d*?)0+\b", r"\1", sizes).replace(". ", " ")


def _inches(size: str) -> str:
    mm = float(size)
    near = Fraction(round(mm / INCH_MM * 64), 64)
    if near and abs(float(near) * INCH_MM - mm) <= _NEAR:
        return show_length(near * Fraction(254, 10), "1/64").removesuffix(" in")
    return fixed(mm / INCH_MM, 3)


def other_thing_words(kind: str, said: str, own: str, units: Units) -> str:
    """Say that a reading is of another lot, press or tooling than the job that is to take it.

    Parameters
    ----------
    kind
        ``lot``, ``press`` or ``tooling``.
    said, own
        As the log tells them apart: that of the reading, and that of the job.
    units
        Of the job.
    """
    shown, here = (name_words(one.removesuffix(".toml"), units) for one in (said, own))
    return (
        f"It is of the {kind} {shown}, and the {kind} of this job is {here}, which would learn "
        "from it. Leave the row out, or import it into a job with the other one."
    )


def thing_lines(lines: Sequence[int]) -> str:
    """Say which lines of the log are of a thing, runs of them as ranges."""
    if not lines:
        return "nothing logged yet"
    runs: list[list[int]] = []
    for line in sorted(lines):
        if runs and line == runs[-1][-1] + 1:
            runs[-1].append(line)
        else:
            runs.append([line])
    said = ", ".join(
        f"{run[0]}-{run[-1]}" if len(run) >= _FEW else ", ".join(map(str, run)) for run in runs
    )
    return f"log line {said}" if len(lines) == 1 else f"log lines {said}"


def done_words(what: str, name: str, count: int = 0) -> str:
    """Say what was done with a lot, a press or a tooling.

    Parameters
    ----------
    what
        ``new``, ``merge``, ``split``, ``retire`` or ``use``.
    name
        Of the file that is there now, or was put away; of the job that takes a lot.
    count
        Lines of the log that went over.
    """
    lines = "1 line" if count == 1 else f"{count} lines"
    shown = name.removesuffix(".toml")
    return {
        "new": f"{shown} is kept. Choose below which job uses it.",
        "merge": f"Merged into {shown}. {lines} of the log went over.",
        "split": f"{lines} of the log went over to {shown}. Choose below which job uses it.",
        "retire": f"{shown} is retired. Its log is kept.",
        "use": f"{shown} uses this lot now.",
    }[what]
