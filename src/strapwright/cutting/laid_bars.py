"""A cut plan laid out on its bars: where each piece begins and ends, and what is left."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from strapwright.cutting.bar_values import CutBar, CutTask


@frozen(kw_only=True)
class LaidPiece:
    """One piece on a bar.

    Attributes
    ----------
    number
        Of its length in the list of pieces, from 0.
    start, end
        From the bar's first end [as the lengths].
    """

    number: int
    start: float
    end: float


@frozen(kw_only=True)
class LaidBar:
    """One bar as it is sawn.

    Attributes
    ----------
    kind
        Number of its kind of bar, from 0.
    length
        [as the lengths]
    pieces
        In the order of sawing.
    sawdust
        What all cuts between and behind the pieces took together.
    offcut
        What is left behind the last cut.
    """

    kind: int
    length: float
    pieces: tuple[LaidPiece, ...]
    sawdust: float
    offcut: float


def lay_bars(task: CutTask, bars: Sequence[CutBar], grain: float) -> tuple[LaidBar, ...]:
    """Lay every bar of a plan out, bars and pieces so that the length stop is seldom moved.

    Parameters
    ----------
    task, bars
        The problem and the plan.
    grain
        How long a grain is, in the unit wanted.
    """
    found = []
    for bar, order in _in_turn(task, bars):
        at, pieces = task.squaring, []
        for number in order:
            for _ in range(bar.counts[number]):
                end = at + task.lengths[number]
                pieces.append(LaidPiece(number=number, start=at * grain, end=end * grain))
                at = end + task.kerf
        length = task.kinds[bar.kind].length
        solid = task.squaring + sum(
            count * one for count, one in zip(bar.counts, task.lengths, strict=True)
        )
        offcut = max(length - at, 0)
        found.append(
            LaidBar(
                kind=bar.kind,
                length=length * grain,
                pieces=tuple(pieces),
                sawdust=(length - solid - offcut) * grain,
                offcut=offcut * grain,
            )
        )
    return tuple(found)


def stop_settings(bars: Sequence[LaidBar]) -> int:
    """Return how often the length stop is set for bars sawn one after the other."""
    row = [piece.number for bar in bars for piece in bar.pieces]
    return sum(at == 0 or row[at - 1] != one for at, one in enumerate(row))


def _in_turn(task: CutTask, bars: Sequence[CutBar]) -> list[tuple[CutBar, list[int]]]:
    """Each bar, with its lengths in the order of sawing.

    The next bar is one that has the length the stop is set to; of those the one with fewest
    lengths, what is in the shop before what is bought, full bars before the one that keeps most.
    """
    left = {n: bar.times for n, bar in enumerate(bars)}
    found: list[tuple[CutBar, list[int]]] = []
    at: int | None = None
    while any(left.values()):
        ready = [n for n, times in left.items() if times]
        same = [n for n in ready if at is not None and bars[n].counts[at]]
        # The one with fewest lengths keeps the stop where it is for longest.
        pick = min(
            same or ready,
            key=lambda n: (
                sum(c > 0 for c in bars[n].counts),
                task.kinds[bars[n].kind].new,
                not task.kinds[bars[n].kind].offcut,
                -sum(bars[n].counts),
                n,
            ),
        )
        left[pick] -= 1
        inside = [n for n, count in enumerate(bars[pick].counts) if count]
        if at in inside:
            inside.remove(at)
            inside.insert(0, at)
        # End with a length that bars still to come have too.
        rest = [n for n, times in left.items() if times]
        for number in reversed(inside[1:]):
            if any(bars[n].counts[number] for n in rest):
                inside.remove(number)
                inside.append(number)
                break
        found.append((bars[pick], inside))
        at = inside[-1]
    return found
