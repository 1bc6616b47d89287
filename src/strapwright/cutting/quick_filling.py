"""Cut plans found without a search: first fit, and the fullest bar first."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from strapwright.cutting.bar_values import CutBar, CutTask
from strapwright.cutting.best_filling import Filling, Grid


def kinds_in_turn(task: CutTask) -> list[int]:
    """Return the kinds of bar in the order in which a shop reaches for them.

    Off-cuts first, the shortest first; then whole bars of the rack; then new bars, the longest
    first.
    """

    def rank(number: int) -> tuple[int, int]:
        kind = task.kinds[number]
        if kind.new:
            return 2, -kind.length
        return (0 if kind.offcut else 1), kind.length

    return sorted(range(len(task.kinds)), key=rank)


def first_fit(task: CutTask) -> tuple[CutBar, ...] | None:
    """Put each piece, the longest first, into the first bar that holds it.

    Returns
    -------
    tuple of CutBar or None
        ``None`` where a piece fits no bar that is left.
    """
    left: list[int] = []
    kinds: list[int] = []
    inside: list[list[int]] = []
    stock = {n: task.kinds[n].count for n in range(len(task.kinds))}
    turn = kinds_in_turn(task)
    for number, (width, quantity) in enumerate(zip(task.widths, task.quantities, strict=True)):
        for _ in range(quantity):
            bar = next((b for b, room in enumerate(left) if room >= width), None)
            if bar is None:
                kind = next((k for k in turn if stock[k] != 0 and task.room(k) >= width), None)
                if kind is None:
                    return None
                count = stock[kind]
                stock[kind] = None if count is None else count - 1
                left.append(task.room(kind))
                kinds.append(kind)
                inside.append([0] * len(task.widths))
                bar = len(left) - 1
            left[bar] -= width
            inside[bar][number] += 1
    return gathered(list(zip(kinds, (tuple(one) for one in inside), strict=True)))


def fullest_first(task: CutTask, grid: Grid, power: float = 1.0) -> tuple[CutBar, ...] | None:
    """Fill bar after bar as full as it goes; a new bar begins with the longest piece left.

    Parameters
    ----------
    task, grid
        The problem, and its steps.
    power
        Above 1 long pieces are preferred to as much length in short ones.

    Returns
    -------
    tuple of CutBar or None
        ``None`` where a piece fits no bar that is left.
    """
    left = list(task.quantities)
    taken = [0] * len(task.kinds)
    values = np.array(grid.widths, dtype=float) ** power
    found: list[tuple[int, tuple[int, ...]]] = []
    for kind in kinds_in_turn(task):
        bar = task.kinds[kind]
        while any(left) and (bar.count is None or taken[kind] < bar.count):
            room = grid.rooms[kind]
            first = next((n for n, q in enumerate(left) if q and grid.widths[n] <= room), None)
            if first is None:
                break
            counts = [0] * len(left)
            if bar.new:
                counts[first] = 1
                left[first] -= 1
                room -= grid.widths[first]
            more = Filling(grid, values, left, room=room).counts(room) if room else ()
            for number, count in enumerate(more):
                counts[number] += count
                left[number] -= count
            if not any(counts):
                break
            taken[kind] += 1
            found.append((kind, tuple(counts)))
    return None if any(left) else gathered(found)


def gathered(bars: Sequence[tuple[int, tuple[int, ...]]]) -> tuple[CutBar, ...]:
    """Put bars that are cut alike together, in the order of their first."""
    times: dict[tuple[int, tuple[int, ...]], int] = {}
    for bar in bars:
        times[bar] = times.get(bar, 0) + 1
    return tuple(CutBar(kind=k, counts=c, times=n) for (k, c), n in times.items())
