"""The whole problem as flows along the bar: exact, for bars of not too many steps.

Valerio de Carvalho, Annals of Operations Research 86, 1999, 629-659; recalled, not looked up.  A
bar is a walk from 0; each piece is a step forward by its width, the longest first; a walk may end
wherever a bar is long enough.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import frozen
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array, csc_array

from strapwright.cutting.bar_values import CutBar
from strapwright.cutting.best_filling import Grid
from strapwright.cutting.quick_filling import gathered
from strapwright.cutting.way_columns import Goal

MOST_STEPS = 60_000  # arcs a network may have; numerical
_WHOLE = 1e-6  # numerical


@frozen(kw_only=True)
class FlowAnswer:
    """What the whole problem says.

    Attributes
    ----------
    bars
        Best plan found, or ``None``.
    bound
        No plan costs less.
    """

    bars: tuple[CutBar, ...] | None
    bound: float


class _Rows:
    """Rows of a sparse problem with their bounds."""

    def __init__(self) -> None:
        self.entries: list[tuple[int, int, float]] = []
        self.lower: list[float] = []
        self.upper: list[float] = []

    @property
    def count(self) -> int:
        return len(self.lower)

    def put(self, row: int, column: int, value: float) -> None:
        self.entries.append((row, column, value))

    def close(self, rows: int, low: float, high: float) -> None:
        self.lower += [low] * rows
        self.upper += [high] * rows

    def matrix(self, columns: int) -> csc_array:
        rows, places, values = zip(*self.entries, strict=True)
        return csc_array(coo_array((values, (rows, places)), shape=(self.count, columns)))


def _hold_back(rows: _Rows, goal: Goal, ends: Sequence[tuple[int, int]], first: int) -> None:
    """Add a row for each count of bars and each budget."""
    sums = [
        (tuple(int(k == kind) for k in range(len(goal.costs))), count)
        for kind, count in enumerate(goal.counts)
        if count
    ]
    for parts, most in (*sums, *goal.budgets):
        for column, (kind, _) in enumerate(ends, first):
            if parts[kind]:
                rows.put(rows.count, column, float(parts[kind]))
        rows.close(1, -np.inf, float(most))


def solve_flow(grid: Grid, goal: Goal, wanted: Sequence[int], seconds: float) -> FlowAnswer | None:
    """Solve the whole problem.

    Parameters
    ----------
    grid
        Exact steps.
    goal, wanted
        What is made least, and the pieces of each length.
    seconds
        Longest time [s].

    Returns
    -------
    FlowAnswer or None
        ``None`` where the network would be too large, or nothing came of it in the time.
    """
    starts = _starts(grid, wanted)
    if starts is None:
        return None
    kinds = [k for k, count in enumerate(goal.counts) if count != 0]
    arcs = [(n, at) for n, places in enumerate(starts) for at in places]
    nodes = sorted({0} | {at + grid.widths[n] for n, at in arcs})
    ends = [(k, node) for k in kinds for node in nodes if 0 < node <= grid.rooms[k]]
    rows = _Rows()
    row_of = {node: row for row, node in enumerate(nodes, start=-1)}  # none for the first
    for column, (number, at) in enumerate(arcs):
        rows.put(row_of[at + grid.widths[number]], column, 1.0)
        if at:
            rows.put(row_of[at], column, -1.0)
    for column, (_, node) in enumerate(ends, len(arcs)):
        rows.put(row_of[node], column, -1.0)
    rows.close(len(nodes) - 1, 0.0, 0.0)
    for column, (number, _) in enumerate(arcs):
        rows.put(rows.count + number, column, 1.0)
    for quantity in wanted:
        rows.close(1, float(quantity), float(quantity))
    _hold_back(rows, goal, ends, len(arcs))
    costs = np.array([0.0] * len(arcs) + [float(goal.costs[kind]) for kind, _ in ends])
    most_each = [float(wanted[n]) for n, _ in arcs] + [float(sum(wanted))] * len(ends)
    solved = milp(
        costs,
        constraints=LinearConstraint(rows.matrix(costs.size), rows.lower, rows.upper),
        integrality=np.ones(costs.size, dtype=int),
        bounds=Bounds(0, np.array(most_each)),
        options={"time_limit": max(seconds, 0.05), "mip_rel_gap": 0.0},
    )
    bound = getattr(solved, "mip_dual_bound", None)
    if bound is None:
        return None
    bars = None
    if solved.x is not None and np.abs(solved.x - np.rint(solved.x)).max() < _WHOLE:
        bars = _walks(np.rint(solved.x).astype(int), arcs, ends, grid)
    return FlowAnswer(bars=bars, bound=float(bound))


def _starts(grid: Grid, wanted: Sequence[int]) -> list[list[int]] | None:
    """Where on the bar a piece of each width may begin; ``None`` where there are too many."""
    room = max(grid.rooms)
    reached = np.zeros(room + 1, dtype=bool)
    reached[0] = True
    total = 0
    order = sorted(range(len(wanted)), key=lambda n: -grid.widths[n])
    places: dict[int, list[int]] = {}
    for number in order:
        width = grid.widths[number]
        begin = np.zeros(room + 1, dtype=bool)
        front = reached.copy()
        for _ in range(min(wanted[number], room // width)):
            front[room + 1 - width :] = False
            begin |= front
            moved = np.zeros_like(front)
            moved[width:] = front[: room + 1 - width]
            front = moved
            reached |= moved
        places[number] = [int(one) for one in np.flatnonzero(begin)]
        total += len(places[number])
        if total > MOST_STEPS:
            return None
    return [places[number] for number in range(len(wanted))]


def _walks(
    flow: np.ndarray[tuple[int], np.dtype[np.int_]],
    arcs: Sequence[tuple[int, int]],
    ends: Sequence[tuple[int, int]],
    grid: Grid,
) -> tuple[CutBar, ...]:
    """Take the flow apart into bars, from their ends back to 0."""
    into: dict[int, list[tuple[int, int]]] = {}
    left = {}
    for column, (number, at) in enumerate(arcs):
        if flow[column]:
            left[number, at] = int(flow[column])
            into.setdefault(at + grid.widths[number], []).append((number, at))
    found: list[tuple[int, tuple[int, ...]]] = []
    for column, (kind, node) in enumerate(ends, len(arcs)):
        for _ in range(int(flow[column])):
            counts = [0] * len(grid.widths)
            at = node
            while at:
                number, before = next(one for one in into[at] if left[one])
                left[number, before] -= 1
                counts[number] += 1
                at = before
            found.append((kind, tuple(counts)))
    return gathered(found)
