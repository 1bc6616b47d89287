"""Words for a batch: the first piece, the chart, and what to look at where something moved."""

from __future__ import annotations

import math

from strapwright.learning.control_chart import Chart, Rule, Shift, Verdict

_FIRST = {
    "approved": "The first part is approved: it is in tolerance by more than the protractor "
    "leaves open.",
    "not approved": "The first part is not approved: change the stop, then bend another one.",
    "too close to tell": "The first part is too close to the tolerance to tell: measure it twice "
    "more, or with a finer protractor.",
}
_LOOK = {
    "set-up": "Look at the stop block and what is under it, the bolts of the shoulders, and first "
    "contact.",
    "harder bar": "The pressure rose with it: measure thickness and width, and check whether the "
    "bar is of another lot.",
    "softer bar": "The pressure fell with it: measure thickness and width, and check whether the "
    "bar is of another lot.",
}
_RULES: dict[Rule, str] = {
    "beyond the limits": "outside the limits of the chart",
    "jump": "a jump from the part before",
    "run on one side": "eight or more in a row on one side of the mean",
}


def first_words(verdict: Verdict) -> str:
    """Say whether the batch may go on after its first piece."""
    return _FIRST[verdict]


def chart_words(chart: Chart) -> str:
    """Say between which angles the pieces lie by chance [rad]."""
    low, high, centre = (_degrees(one) for one in (chart.low, chart.high, chart.centre))
    said = f"Mean {centre}; single parts lie between {low} and {high} by chance."
    if not chart.enough:
        said += " There are too few parts yet for these limits to mean much."
    return said


def marked_words(rule: Rule) -> str:
    """Say which rule a piece breaks."""
    return _RULES[rule]


def moved_words(moved: Shift, cause: str, first_part: int) -> str:
    """Say that a bend has moved, since when, and what to look at."""
    size = f"{abs(math.degrees(moved.size)):.1f}° {'more' if moved.size > 0 else 'less'}"
    if moved.since == 0:
        return f"The parts come out {size} than wanted from the first one on. Change the stop."
    return (
        f"The set-up has moved: parts come out {size} than wanted since part {first_part}. "
        f"{_LOOK[cause]}"
    )


def _degrees(rad: float) -> str:
    return f"{math.degrees(rad):.2f}°"
