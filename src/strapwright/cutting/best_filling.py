"""The most valuable way to fill a bar: a bounded knapsack by dynamic programming."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

FINEST = 1 << 15  # steps a bar is divided into at most; numerical
_HAIR = 1e-11  # less is no gain; numerical


@frozen(kw_only=True)
class Grid:
    """Widths and room of bars in steps.

    Attributes
    ----------
    widths, rooms
        Of the pieces and of the bars of each kind [steps].
    exact
        Whether steps say exactly what fits.  Else what they let in fits, and they may keep out what
        would fit by a hair.
    """

    widths: tuple[int, ...]
    rooms: tuple[int, ...]
    exact: bool


def grid_of(widths: Sequence[int], rooms: Sequence[int], *, outward: bool = False) -> Grid:
    """Return the coarsest steps that are exact, or where those are too fine a safe rounding.

    Parameters
    ----------
    widths, rooms
        [grains]
    outward
        Whether to round so that all that fits is let in, and by a hair more: for bounds.
    """
    step = math.gcd(*widths)
    longest = max(rooms)
    if longest // step <= FINEST:
        return Grid(
            widths=tuple(one // step for one in widths),
            rooms=tuple(max(one, 0) // step for one in rooms),
            exact=True,
        )
    step = -(-longest // FINEST)

    def up(value: int) -> int:
        return -(-value // step)

    def down(value: int) -> int:
        return value // step

    wide, room = (down, up) if outward else (up, down)
    return Grid(
        widths=tuple(wide(one) for one in widths),
        rooms=tuple(room(max(one, 0)) for one in rooms),
        exact=False,
    )


class Filling:
    """The best filling of every room up to the largest, for one set of values.

    Parameters
    ----------
    grid
        Widths and rooms.
    values
        Of one piece of each width, not negative.
    limits
        How many pieces of each there are.
    """

    def __init__(
        self, grid: Grid, values: NDArray[np.float64], limits: Sequence[int], room: int = 0
    ) -> None:
        most = room or max(grid.rooms)
        best = np.zeros(most + 1)
        self._taken: list[tuple[int, int, int, NDArray[np.bool_]]] = []
        for number, (width, limit) in enumerate(zip(grid.widths, limits, strict=True)):
            value = float(values[number])
            left = min(limit, most // width if width else limit)
            if value <= _HAIR or left <= 0:
                continue
            lot = 1
            while left > 0:
                lot = min(lot, left)
                wide, worth = width * lot, value * lot
                if wide > most:
                    break
                with_it = best[: most + 1 - wide] + worth
                better = with_it > best[wide:] + _HAIR
                best[wide:] = np.where(better, with_it, best[wide:])
                self._taken.append((number, lot, wide, better))
                left -= lot
                lot *= 2
        self._best = best
        self._kinds = len(grid.widths)

    def value(self, room: int) -> float:
        """Return the value of the best filling of a room."""
        return float(self._best[room])

    def counts(self, room: int) -> tuple[int, ...]:
        """Return the pieces of the best filling of a room."""
        found = [0] * self._kinds
        for number, lot, wide, better in reversed(self._taken):
            if room >= wide and better[room - wide]:
                found[number] += lot
                room -= wide
        return tuple(found)
