"""An independent check of a laid-out cut plan; it shares nothing with the search but its values."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from attrs import frozen

from strapwright.cutting.laid_bars import LaidBar

HAIR = 1e-6  # of the unit of the lengths; less is no difference

FaultKind = Literal[
    "unknown bar",
    "wrong bar length",
    "too many bars",
    "nothing cut",
    "end not squared",
    "wrong length",
    "no room for the cut",
    "past the end",
    "off-cut",
    "sawdust",
    "too few",
    "too many",
]


@frozen(kw_only=True)
class Stick:
    """A kind of bar as the check knows it.

    Attributes
    ----------
    length
        [as the pieces]
    count
        How many there are; ``None`` for any number.
    """

    length: float
    count: int | None


@frozen(kw_only=True)
class Fault:
    """Something wrong with a plan.

    Attributes
    ----------
    kind
        What.
    bar, piece
        Where, from 0; ``None`` where it is about none.
    by
        By how much [as the lengths], or how many.
    """

    kind: FaultKind
    bar: int | None = None
    piece: int | None = None
    by: float = 0.0


def check_bars(
    bars: Sequence[LaidBar],
    *,
    wanted: Sequence[tuple[float, int]],
    sticks: Sequence[Stick],
    kerf: float,
    squaring: float,
) -> tuple[Fault, ...]:
    """Return everything wrong with a plan; nothing where it can be sawn as it is.

    Parameters
    ----------
    bars
        As laid out.
    wanted
        Length and quantity of each piece.
    sticks
        The kinds of bar.
    kerf, squaring
        What a cut takes, and what comes off the first end of every bar.
    """
    faults: list[Fault] = []
    for number, bar in enumerate(bars):
        if not 0 <= bar.kind < len(sticks):
            faults.append(Fault(kind="unknown bar", bar=number))
            continue
        if abs(bar.length - sticks[bar.kind].length) > HAIR:
            faults.append(
                Fault(kind="wrong bar length", bar=number, by=bar.length - sticks[bar.kind].length)
            )
        faults += _one_bar(number, bar, wanted, kerf, squaring)
    used = Counter(bar.kind for bar in bars)
    for at, stick in enumerate(sticks):
        if stick.count is not None and used[at] > stick.count:
            faults.append(Fault(kind="too many bars", by=used[at] - stick.count))
    made = Counter(piece.number for bar in bars for piece in bar.pieces)
    for piece, (_, quantity) in enumerate(wanted):
        if made[piece] != quantity:
            kind: FaultKind = "too few" if made[piece] < quantity else "too many"
            faults.append(Fault(kind=kind, piece=piece, by=abs(made[piece] - quantity)))
    return tuple(faults)


def _one_bar(
    number: int,
    bar: LaidBar,
    wanted: Sequence[tuple[float, int]],
    kerf: float,
    squaring: float,
) -> list[Fault]:
    faults: list[Fault] = []
    if not bar.pieces:
        return [Fault(kind="nothing cut", bar=number)]
    row = sorted(bar.pieces, key=lambda piece: piece.start)
    if row[0].start < squaring - HAIR:
        faults.append(Fault(kind="end not squared", bar=number, by=squaring - row[0].start))
    for piece in row:
        known = 0 <= piece.number < len(wanted)
        length = wanted[piece.number][0] if known else 0.0
        if abs(piece.end - piece.start - length) > HAIR:
            faults.append(
                Fault(
                    kind="wrong length",
                    bar=number,
                    piece=piece.number,
                    by=piece.end - piece.start - length,
                )
            )
    for before, after in pairwise(row):
        if after.start - before.end < kerf - HAIR:
            faults.append(
                Fault(
                    kind="no room for the cut",
                    bar=number,
                    piece=after.number,
                    by=kerf - (after.start - before.end),
                )
            )
    last = max(piece.end for piece in row)
    if last > bar.length + HAIR:
        faults.append(Fault(kind="past the end", bar=number, by=last - bar.length))
    left = max(bar.length - last - kerf, 0.0)
    if abs(bar.offcut - left) > HAIR:
        faults.append(Fault(kind="off-cut", bar=number, by=bar.offcut - left))
    solid = sum(piece.end - piece.start for piece in row)
    dust = bar.length - squaring - solid - bar.offcut
    if abs(bar.sawdust - dust) > HAIR:
        faults.append(Fault(kind="sawdust", bar=number, by=bar.sawdust - dust))
    return faults
