"""Find the cut plan that buys fewest bars, with a proof or the gap that is left.

In turn: bars bought; where they differ in price or length what is bought; whole bars of the rack
taken, off-cuts first.  Each is proven or not; time runs out with the best plan found.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
from attrs import evolve, frozen

from strapwright.cutting.bar_values import CutBar, CutPlan, CutTask
from strapwright.cutting.best_filling import Filling, Grid, grid_of
from strapwright.cutting.flow_of_cuts import solve_flow
from strapwright.cutting.quick_filling import first_fit, fullest_first
from strapwright.cutting.way_columns import Goal, Relaxed, Ways

SECONDS = 9.0  # a person waits no longer at the bench; common practice, no source
_POWERS = (1.0, 1.05, 1.2)  # how much long pieces are preferred, in turn; numerical
_DIVES = 5  # numerical
_WHOLE_SHARE = 0.15  # of the time that is left, for whole bars over the ways known; numerical
_NEARLY = 1e-6  # numerical

Clock = Callable[[], float]
Progress = Callable[[int, int], None]  # bars bought by the best plan, and the bound


@frozen(kw_only=True)
class _Found:
    bars: tuple[CutBar, ...]
    bound: int
    how: str


def find_cut_plan(
    task: CutTask,
    *,
    seconds: float = SECONDS,
    clock: Clock,
    progress: Progress | None = None,
    settle: bool = True,
) -> CutPlan | None:
    """Find the plan that buys fewest bars.

    Parameters
    ----------
    task
        What is cut from what.
    seconds
        Longest time [s]; the best plan found by then is returned with its gap.
    clock
        Seconds from any beginning; the core has none of its own.
    progress
        Called with the bars that the best plan so far buys, and how few they could be.
    settle
        Whether the further rules are followed too, which takes as long again.

    Returns
    -------
    CutPlan or None
        ``None`` where the pieces do not fit into the bars there are.
    """
    begun = clock()

    def time_left() -> float:
        return seconds - (clock() - begun)

    rooms = [task.room(k) for k in range(len(task.kinds))]
    grid = grid_of(task.widths, rooms)
    loose = grid if grid.exact else grid_of(task.widths, rooms, outward=True)
    ways = Ways(task, grid, loose)
    quick = first_fit(task)
    known = [] if quick is None else [quick]
    ways.add_single()
    counts = tuple(kind.count for kind in task.kinds)
    goal = Goal(costs=tuple(int(kind.new) for kind in task.kinds), counts=counts)
    search = _Search(task, ways, grid, time_left)
    for power in _POWERS:
        if known and min(goal.cost(one) for one in known) <= search.by_length(goal):
            break
        found = fullest_first(task, grid, power=power)
        if found is not None:
            known.append(found)
    for one in known:
        ways.add_plan(one)
    first = search.least(goal, known, by_length=True)
    if first is None:
        return None
    new = goal.cost(first.bars)
    if progress is not None:
        progress(new, first.bound)
    bars, settled = first.bars, False
    if settle:
        bars, settled = search.settle(bars, goal.costs, new)
    return CutPlan(
        bars=bars,
        new=new,
        least=min(first.bound, new),
        proven=new <= first.bound,
        settled=settled and new <= first.bound,
        first_fit=new if quick is None else goal.cost(quick),
        how=first.how if new <= first.bound else "",
        seconds=clock() - begun,
    )


class _Search:
    """One task, solved for one goal after the other over the same ways."""

    def __init__(self, task: CutTask, ways: Ways, grid: Grid, time_left: Clock) -> None:
        self.task = task
        self.ways = ways
        self.grid = grid
        self.time_left = time_left

    def settle(
        self, bars: tuple[CutBar, ...], news: tuple[int, ...], new: int
    ) -> tuple[tuple[CutBar, ...], bool]:
        """Return the plan after the further rules, and whether each is proven."""
        kinds = self.task.kinds
        budgets: list[tuple[tuple[int, ...], int]] = [(news, new)]
        rules = [
            tuple(kind.price or kind.length if kind.new else 0 for kind in kinds),
            tuple(0 if kind.new or kind.offcut else kind.length for kind in kinds),
            tuple(kind.length if kind.offcut else 0 for kind in kinds),
        ]
        settled = True
        for rule in rules:
            step = math.gcd(*rule)
            costs = tuple(one // step for one in rule) if step else rule
            alike = len({one for one in costs if one}) <= 1 and costs == tuple(
                c * max(costs) for c in news
            )
            counts = tuple(
                min(new, kind.count if kind.count is not None else new) if kind.new else kind.count
                for kind in kinds
            )
            goal = Goal(costs=costs, counts=counts, budgets=tuple(budgets))
            if any(costs) and not alike and goal.cost(bars):
                found = self.least(goal, [bars])
                if found is not None:
                    bars = found.bars
                    settled &= goal.cost(bars) <= found.bound
            budgets.append((costs, goal.cost(bars)))
        return bars, settled

    def least(
        self, goal: Goal, known: Sequence[tuple[CutBar, ...]], *, by_length: bool = False
    ) -> _Found | None:
        """Return the plan that costs least, or the best found, with the bound."""
        best = min(known, key=goal.cost) if known else None
        bound = self.by_length(goal) if by_length else 0
        if best is not None and goal.cost(best) <= bound:
            return _Found(bars=best, bound=bound, how="length")
        relaxed = self._relaxed(goal, best)
        if relaxed is not None:
            bound = max(bound, relaxed.bound)
        best = self._better(goal, best, bound, relaxed)
        if best is not None and goal.cost(best) <= bound:
            return _Found(bars=best, bound=bound, how="columns")
        if self.grid.exact and self.time_left() > 0:
            answer = solve_flow(self.grid, goal, self.task.quantities, self.time_left())
            if answer is not None:
                if math.isfinite(answer.bound):
                    bound = max(bound, math.ceil(answer.bound - _NEARLY))
                if answer.bars is not None and (
                    best is None or goal.cost(answer.bars) < goal.cost(best)
                ):
                    best = answer.bars
        return None if best is None else _Found(bars=best, bound=bound, how="flow")

    def by_length(self, goal: Goal) -> int:
        """Bars that must be bought for the sum of all lengths, and for the pieces over half."""
        task = self.task
        rack = sum(
            max(self.grid.rooms[k], 0) * (count or 0)
            for k, count in enumerate(goal.counts)
            if not task.kinds[k].new
        )
        rooms = [self.ways.loose.rooms[k] for k, kind in enumerate(task.kinds) if kind.new]
        if not rooms or rack:
            return 0
        widths, room = self.ways.loose.widths, max(rooms)
        total = sum(w * q for w, q in zip(widths, task.quantities, strict=True))
        large = sum(q for w, q in zip(widths, task.quantities, strict=True) if 2 * w > room)
        return max(-(-total // room), large)

    def _relaxed(self, goal: Goal, best: tuple[CutBar, ...] | None) -> Relaxed | None:
        if best is None and any(count is not None for count in goal.counts):
            # Nothing known fits the rack: the relaxed problem may have no mixture to begin with.
            self._seed()
        return self.ways.relax(goal, self.task.quantities, self.time_left)

    def _seed(self) -> None:
        """Add the fullest way of every kind, so that a full rack has something to begin with."""
        filling = Filling(self.grid, np.array(self.grid.widths, dtype=float), self.task.quantities)
        for kind, room in enumerate(self.grid.rooms):
            self.ways.add((kind, filling.counts(room)))

    def _better(
        self,
        goal: Goal,
        best: tuple[CutBar, ...] | None,
        bound: int,
        relaxed: Relaxed | None,
    ) -> tuple[CutBar, ...] | None:
        """Round the relaxed problem, then solve it in whole bars over the ways known."""

        def took(found: tuple[CutBar, ...] | None) -> bool:
            nonlocal best
            if found is not None and (best is None or goal.cost(found) < goal.cost(best)):
                best = found
            return best is not None and goal.cost(best) <= bound

        def whole() -> tuple[CutBar, ...] | None:
            wanted = self.task.quantities
            return self.ways.whole(goal, wanted, _WHOLE_SHARE * self.time_left())

        if relaxed is None:
            if self.time_left() > 0:
                took(whole())
            return best
        for skip in range(_DIVES):
            if self.time_left() <= 0 or took(self._dive(goal, relaxed, skip)):
                break
            if skip in (1, _DIVES - 1) and took(whole()):
                break
        return best

    def _dive(self, goal: Goal, relaxed: Relaxed, skip: int) -> tuple[CutBar, ...] | None:
        """Fix the bars that the relaxed problem is surest of, solve the rest again, and so on.

        ``skip`` passes over so many of the surest at the beginning, for another dive.
        """
        left = list(self.task.quantities)
        times = np.zeros(len(self.ways.ways), dtype=int)
        while any(left):
            shares = relaxed.shares
            times = np.pad(times, (0, len(self.ways.ways) - times.size))
            whole = np.floor(shares + _NEARLY).astype(int)
            if skip or not whole.any():
                surest = np.argsort(-shares, kind="stable")
                whole[:] = 0
                whole[surest[min(skip, int((shares > _NEARLY).sum()) - 1)]] = 1
                skip = 0
            cut = False
            for number in np.flatnonzero(whole):
                kind, counts = self.ways.ways[int(number)]
                for _ in range(int(whole[number])):
                    if goal.counts[kind] == 0 or not any(
                        c and q for c, q in zip(counts, left, strict=True)
                    ):
                        break
                    left = [max(q - c, 0) for q, c in zip(left, counts, strict=True)]
                    times[number] += 1
                    goal = _one_less(goal, kind)
                    cut = True
            if not cut:
                return None
            if any(left):
                again = self.ways.relax(goal, left, self.time_left)
                if again is None:
                    return None
                relaxed = again
        return self.ways.pared(times, self.task.quantities)


def _one_less(goal: Goal, kind: int) -> Goal:
    """Return the goal after one bar of a kind is taken."""
    return evolve(
        goal,
        counts=tuple(
            count - 1 if k == kind and count is not None else count
            for k, count in enumerate(goal.counts)
        ),
        budgets=tuple((sums, most - sums[kind]) for sums, most in goal.budgets),
    )
