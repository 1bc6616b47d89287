"""Control charts of one figure over the pieces of a batch, and whether the set-up has moved.

Individuals and moving range (E 2587, standard practice for control charts, and any text on quality
control): the moving range of two neighbours divided by ``d2`` = 1.128 estimates the deviation; the
individuals lie within 3 deviations, that is 2.66 mean moving ranges, of their mean, and a moving
range below ``D4`` = 3.267 mean ones.

A small lasting shift is found by a tabular cumulative sum (Page; Montgomery, Introduction to
Statistical Quality Control): allowance 0.5 and limit 5 deviations, which a steady process passes
once in 465 pieces and one that has moved by a deviation after 10.4 on average.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np
from attrs import frozen

# For ranges of two: factors of ASTM E2587, table 1; NIST/SEMATECH e-Handbook of Statistical
# Methods, section 6.3.2.2 (from memory).
D2 = 1.128
D4 = 3.267
INDIVIDUALS = 2.66  # 3 / d2
# So many or more pieces in a row on one side of the mean are no chance any more (the fourth rule of
# Western Electric's Statistical Quality Control Handbook, 1956; from memory).
RUN = 8
# Share of a figure by which sums round it; numerical.
_ROUNDING = 1e-9
# Allowance and limit of the cumulative sum, in deviations (Montgomery, from memory).
ALLOWANCE, LIMIT = 0.5, 5.0
# Fewer moving ranges than this say little of a deviation (common practice, no source).
ENOUGH = 8

Rule = Literal["beyond the limits", "jump", "run on one side"]
Verdict = Literal["approved", "not approved", "too close to tell"]


@frozen(kw_only=True)
class Chart:
    """Individuals and moving range of a figure.

    Attributes
    ----------
    centre, low, high
        Mean and limits of the individuals.
    mean_range, range_high
        Mean moving range and its upper limit.
    deviation
        Mean moving range over ``d2``.
    marked
        Place of a piece, from 0, and which rule it breaks.
    enough
        Whether there are pieces enough for the limits to mean much.
    """

    centre: float
    low: float
    high: float
    mean_range: float
    range_high: float
    deviation: float
    marked: tuple[tuple[int, Rule], ...]
    enough: bool


@frozen(kw_only=True)
class Shift:
    """A set-up that has moved.

    Attributes
    ----------
    seen
        Place of the piece, from 0, at which it was noticed.
    since
        Place of the first piece that it probably holds of.
    size
        Mean of the pieces since then less what was aimed at.
    """

    seen: int
    since: int
    size: float


def chart(values: Sequence[float]) -> Chart | None:
    """Chart single values in the order they were made; ``None`` of fewer than two.

    Parameters
    ----------
    values
        One a piece.
    """
    if len(values) < 2:
        return None
    x = np.asarray(values, dtype=np.float64)
    ranges = np.abs(np.diff(x))
    centre, mean_range = float(np.mean(x)), float(np.mean(ranges))
    low, high = centre - INDIVIDUALS * mean_range, centre + INDIVIDUALS * mean_range
    # Equal readings leave no range, and their mean rounds to beside them.
    slack = _ROUNDING * float(np.max(np.abs(x)))
    side = np.where(np.abs(x - centre) <= slack, 0, np.sign(x - centre))
    marked: list[tuple[int, Rule]] = []
    for i, value in enumerate(x):
        if not low - slack <= value <= high + slack:
            marked.append((i, "beyond the limits"))
        elif i and ranges[i - 1] > D4 * mean_range + slack:
            marked.append((i, "jump"))
        elif i + 1 >= RUN and abs(int(np.sum(side[i + 1 - RUN : i + 1]))) == RUN:
            marked.append((i, "run on one side"))
    return Chart(
        centre=centre,
        low=low,
        high=high,
        mean_range=mean_range,
        range_high=D4 * mean_range,
        deviation=mean_range / D2,
        marked=tuple(marked),
        enough=len(ranges) >= ENOUGH,
    )


def steady_deviation(found: Chart | None, least: float) -> float:
    """Return the deviation of single pieces that a shift is measured by.

    Parameters
    ----------
    found
        Of the pieces so far.  While there are few, their ranges say little.
    least
        What measuring and stopping leave open of any piece.
    """
    return max(least, found.deviation if found is not None and found.enough else 0.0)


def shift(values: Sequence[float], aim: float, deviation: float) -> Shift | None:
    """Return the first lasting shift from what was aimed at, ``None`` where there is none.

    The sum says when; since when is the likeliest place of one step in the mean, by all pieces.

    Parameters
    ----------
    values
        One a piece, in the order they were made.
    aim
        What they should be.
    deviation
        Of single values of a steady process, above 0.
    """
    off = (np.asarray(values, dtype=np.float64) - aim) / deviation
    high = low = 0.0
    for i, one in enumerate(off):
        high = max(0.0, high + float(one) - ALLOWANCE)
        low = max(0.0, low - float(one) - ALLOWANCE)
        if max(high, low) > LIMIT:
            sums = np.cumsum(off[::-1])[::-1]  # from each piece to the last one there is
            counts = np.arange(len(off), 0, -1)
            since = int(np.argmax((sums**2 / counts)[: i + 1]))
            size = float(np.mean(off[since:])) * deviation
            return Shift(seen=i, since=since, size=size)
    return None


def first_off(measured: float, wanted: float, tolerance: float, reading: float) -> Verdict:
    """Judge the first piece of a batch, with how well it was measured taken off its tolerance.

    The rule of ISO 14253-1: what is in tolerance by more than the uncertainty is approved, what is
    out by more than it is not, and between nothing is decided.

    Parameters
    ----------
    measured, wanted, tolerance
        Of one figure, the tolerance to either side.
    reading
        Half width of the nine-in-ten band of the measurement.
    """
    off = abs(measured - wanted)
    if off <= tolerance - reading:
        return "approved"
    return "not approved" if off > tolerance + reading else "too close to tell"
