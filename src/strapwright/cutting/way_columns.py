"""Column generation: the ways to cut a bar that are worth a look, and how few bars there can be.

The cutting-stock problem of Gilmore and Gomory (Operations Research 9, 1961, 849-859; recalled, not
looked up): a variable for each way to cut a bar, a row for each length of piece.  Ways are added as
long as one is worth more, by the prices of the rows, than its bar costs.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
from attrs import frozen
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from strapwright.cutting.bar_values import CutBar, CutTask
from strapwright.cutting.best_filling import Filling, Grid

Way = tuple[int, tuple[int, ...]]  # kind of bar, pieces of each length
_GAIN = 1e-7  # what a way must be worth more than its bar; numerical
_ROUND = 1e-6  # below this a bound is no more than the whole number under it; numerical
MOST_ROUNDS = 2000  # numerical


@frozen(kw_only=True)
class Goal:
    """What is made least, and what may not be passed.

    Attributes
    ----------
    costs
        Of a bar of each kind, whole numbers not negative.
    counts
        How many bars of each kind may be taken; ``None`` for any number, whose cost is above 0.
    budgets
        Sums over the kinds, and what each may not pass.
    """

    costs: tuple[int, ...]
    counts: tuple[int | None, ...]
    budgets: tuple[tuple[tuple[int, ...], int], ...] = ()

    def cost(self, bars: Sequence[CutBar]) -> int:
        """Return what a plan costs."""
        return sum(self.costs[bar.kind] * bar.times for bar in bars)


@frozen(kw_only=True)
class Relaxed:
    """The relaxed problem, solved.

    Attributes
    ----------
    bound
        No plan costs less.
    shares
        How often each way is used, in fractions.
    """

    bound: int
    shares: NDArray[np.float64]


@frozen(kw_only=True)
class _Program:
    costs: NDArray[np.float64]
    matrix: NDArray[np.float64]
    limits: NDArray[np.float64]


class Ways:
    """The ways known so far, and the problems over them."""

    def __init__(self, task: CutTask, grid: Grid, loose: Grid) -> None:
        self.task = task
        self.grid = grid
        self.loose = loose
        self.ways: list[Way] = []
        self._known: set[Way] = set()

    def add(self, way: Way) -> bool:
        """Add a way; return whether it was unknown."""
        if way in self._known or not any(way[1]):
            return False
        self._known.add(way)
        self.ways.append(way)
        return True

    def add_single(self) -> None:
        """Add every bar with one piece on it."""
        for number, width in enumerate(self.task.widths):
            counts = tuple(int(n == number) for n in range(len(self.task.widths)))
            for kind in range(len(self.task.kinds)):
                if width <= self.task.room(kind):
                    self.add((kind, counts))

    def add_plan(self, bars: Sequence[CutBar]) -> None:
        """Add the ways of a plan, and the same on every other kind of bar that is long enough."""
        for bar in bars:
            wide = sum(c * w for c, w in zip(bar.counts, self.task.widths, strict=True))
            for kind in range(len(self.task.kinds)):
                if wide <= self.task.room(kind):
                    self.add((kind, bar.counts))

    def relax(
        self, goal: Goal, wanted: Sequence[int], time_left: Callable[[], float]
    ) -> Relaxed | None:
        """Solve the relaxed problem, adding ways until none helps.

        Parameters
        ----------
        goal
            What is made least.
        wanted
            Pieces of each length.
        time_left
            [s]

        Returns
        -------
        Relaxed or None
            ``None`` where no mixture of ways makes the pieces, or the time is up.
        """
        need = np.array(wanted, dtype=float)
        bound = 0.0
        for _ in range(MOST_ROUNDS):
            if time_left() <= 0:
                return None
            program = self._program(goal, need)
            solved = linprog(
                program.costs, A_ub=program.matrix, b_ub=program.limits, method="highs"
            )
            if solved.status != 0:
                return None
            prices = np.maximum(-solved.ineqlin.marginals, 0.0)
            rows, more = prices[: need.size], prices[need.size :]
            filling = Filling(self.grid, rows, wanted)
            own, added = self._charges(goal, more), False
            for kind, room in enumerate(self.grid.rooms):
                if filling.value(room) > own[kind] + _GAIN and goal.counts[kind] != 0:
                    added |= self.add((kind, filling.counts(room)))
            if added:
                self._add_beside(rows, wanted, own, goal)
                continue
            bound = self._bound(goal, need, rows, more)
            return Relaxed(bound=math.ceil(bound - _ROUND), shares=np.asarray(solved.x))
        return None

    def _add_beside(
        self, rows: NDArray[np.float64], wanted: Sequence[int], own: list[float], goal: Goal
    ) -> None:
        """Add ways for what the last one leaves, so that fewer rounds are needed."""
        left = list(wanted)
        for _ in range(6):  # numerical
            kind, counts = self.ways[-1]
            left = [have - c for have, c in zip(left, counts, strict=True)]
            if min(left) < 0 or not any(left):
                return
            filling = Filling(self.grid, rows, left)
            kind = max(
                (k for k in range(len(own)) if goal.counts[k] != 0),
                key=lambda k: filling.value(self.grid.rooms[k]) - own[k],
            )
            if not self.add((kind, filling.counts(self.grid.rooms[kind]))):
                return

    def _program(self, goal: Goal, need: NDArray[np.float64]) -> _Program:
        """Return the relaxed problem over the ways known."""
        pieces = np.array([counts for _, counts in self.ways], dtype=float).T
        kinds = np.array([kind for kind, _ in self.ways])
        matrix, limits = [-pieces], [-need]
        for number, count in enumerate(goal.counts):
            if count is not None:
                matrix.append((kinds == number).astype(float)[None, :])
                limits.append(np.array([float(count)]))
        for sums, most in goal.budgets:
            matrix.append(np.array(sums, dtype=float)[kinds][None, :])
            limits.append(np.array([float(most)]))
        return _Program(
            costs=np.array(goal.costs, dtype=float)[kinds],
            matrix=np.vstack(matrix),
            limits=np.concatenate(limits),
        )

    def _charges(self, goal: Goal, more: NDArray[np.float64]) -> list[float]:
        """What a bar of each kind costs with the prices of the rows that hold it back."""
        charges = [float(cost) for cost in goal.costs]
        at = 0
        for number, count in enumerate(goal.counts):
            if count is not None:
                charges[number] += float(more[at])
                at += 1
        for sums, _ in goal.budgets:
            for number, part in enumerate(sums):
                charges[number] += part * float(more[at])
            at += 1
        return charges

    def _bound(
        self,
        goal: Goal,
        need: NDArray[np.float64],
        rows: NDArray[np.float64],
        more: NDArray[np.float64],
    ) -> float:
        """Return a bound that holds whatever the prices are, from a filling that lets all in.

        Prices are shrunk until no bar that may be had in any number is worth more than it costs;
        what a bar of the rack is worth beyond its cost is taken off as often as there are bars.
        """
        budget_prices = more[sum(count is not None for count in goal.counts) :]
        costs = [
            float(cost)
            + sum(
                float(price) * sums[k]
                for price, (sums, _) in zip(budget_prices, goal.budgets, strict=True)
            )
            for k, cost in enumerate(goal.costs)
        ]
        filling = Filling(self.loose, rows, [int(one) for one in need])
        worth = [filling.value(room) for room in self.loose.rooms]
        shrink = 1.0
        for k, count in enumerate(goal.counts):
            if count is None and costs[k] > 0:
                shrink = max(shrink, worth[k] / costs[k])
        bound = float(rows @ need) / shrink
        bound -= sum(
            count * max(0.0, worth[k] / shrink - costs[k])
            for k, count in enumerate(goal.counts)
            if count is not None
        )
        held = zip(budget_prices, goal.budgets, strict=True)
        return bound - sum(float(price) * most for price, (_, most) in held)

    def whole(self, goal: Goal, wanted: Sequence[int], seconds: float) -> tuple[CutBar, ...] | None:
        """Return the best plan in whole bars over the ways known, or ``None`` where none is found.

        Parameters
        ----------
        goal, wanted
            As of :meth:`relax`.
        seconds
            Longest time [s].
        """
        program = self._program(goal, np.array(wanted, dtype=float))
        solved = milp(
            program.costs,
            constraints=LinearConstraint(program.matrix, ub=program.limits),
            integrality=np.ones(len(self.ways), dtype=int),
            bounds=Bounds(0, np.inf),
            options={"time_limit": max(seconds, 0.05), "mip_rel_gap": 0.0},
        )
        if solved.x is None:
            return None
        return self.pared(np.rint(solved.x).astype(int), wanted)

    def pared(self, times: NDArray[np.int_], wanted: Sequence[int]) -> tuple[CutBar, ...] | None:
        """Return the plan of ways used so often, without the pieces that are too many."""
        left = list(wanted)
        found: dict[Way, int] = {}
        for (kind, counts), often in zip(self.ways, times, strict=True):
            for _ in range(int(often)):
                kept = tuple(min(c, q) for c, q in zip(counts, left, strict=True))
                left = [q - c for q, c in zip(left, kept, strict=True)]
                if any(kept):
                    found[kind, kept] = found.get((kind, kept), 0) + 1
        if any(left):
            return None
        return tuple(CutBar(kind=k, counts=c, times=n) for (k, c), n in found.items())
