"""What the pump has to do for a bend, in words."""

from __future__ import annotations

import math
from collections.abc import Mapping

from strapwright.findings import Finding, Force
from strapwright.planning.limits_and_weights.pumping import PumpWork
from strapwright.wording.figures import Figures
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words


def pump_words(work: PumpWork | None, show: Figures) -> str:
    """Say strokes, seconds and force on the handle, as a sentence without its full stop.

    Parameters
    ----------
    work
        Of a bend, ``None`` where nothing is known of it; the words are empty then.
    show
        Prints its figures.
    """
    if work is None:
        return ""
    seconds = f"about {_seconds(work.seconds)} s of pumping"
    if work.whole is None:
        return f"{seconds} from first contact"
    whole = math.ceil(work.whole - 1e-9)
    said = f"about {_strokes(whole)} from first contact ({seconds})"
    if work.first is not None:
        first = math.ceil(work.first - 1e-9)
        said += f", the first push {_strokes(first)}"
    if work.handle is not None:
        said += f"; {_force(work.handle, show)} at the handle"
        if work.handle_most is not None and work.handle_most > 1.02 * work.handle:
            said += f", up to {_force(work.handle_most, show)}"
    return said


def _force(newtons: float, show: Figures) -> str:
    """Force of an arm: whole lbf or N, rounded up."""
    if show.units == "inch":
        return f"{math.ceil(newtons / show.size_of('N')[1] - 1e-9)} lbf"
    return f"{math.ceil(newtons - 1e-9)} N"


def _strokes(count: int) -> str:
    return "1 stroke" if count == 1 else f"{count} strokes"


def _seconds(seconds: float) -> str:
    return f"{seconds:.0f}" if seconds >= 10.0 else f"{seconds:.1f}"


def _hard(finding: Finding, reader: Reader) -> Words:
    force, easy = (_force(finding.one(Force, n).value, reader.figures) for n in ("force", "easy"))
    return Words(
        f"The pump handle may take {force}. An arm gives about {easy} again and again.",
        "Use a longer lever, a pump with a smaller piston, or a wider opening of the shoulders.",
    )


PUMP_WORDS: Mapping[str, Teller] = {"handle-too-hard": _hard}
