"""Of plans that take the same bars, one that leaves the longest piece over."""

from __future__ import annotations

from collections.abc import Callable

from attrs import evolve

from strapwright.cutting.bar_values import BarKind, CutBar, CutPlan, CutTask, bars_used
from strapwright.cutting.find_cut_plan import Clock, find_cut_plan

_TRIES = 9  # halvings; numerical
_SECONDS_EACH = 0.4  # numerical


def offcut_of(task: CutTask, bar: CutBar) -> int:
    """Return what is left of a bar behind its last cut [grains]."""
    wide = sum(count * width for count, width in zip(bar.counts, task.widths, strict=True))
    return max(task.kinds[bar.kind].length - task.squaring - wide, 0)


def with_longest_offcut(task: CutTask, plan: CutPlan, *, seconds: float, clock: Clock) -> CutPlan:
    """Return the plan with its pieces moved so that one bar keeps as much as can be found.

    The bars taken stay the same.  What is found is not proven to be the longest.

    Parameters
    ----------
    task, plan
        The problem and a plan for it.
    seconds, clock
        Longest time, and seconds from any beginning [s].
    """
    begun = clock()
    used = bars_used(plan.bars, len(task.kinds))
    most = max((k for k, n in enumerate(used) if n), key=lambda k: task.kinds[k].length)
    wide = sum(q * w for q, w in zip(task.quantities, task.widths, strict=True))
    others = sum((n - (k == most)) * task.room(k) for k, n in enumerate(used))
    kept = max(offcut_of(task, bar) for bar in plan.bars)
    # Not more can be left on one bar than all others leave it to hold.
    high = task.kinds[most].length - task.squaring - max(wide - others, min(task.widths))
    best = plan
    low = kept
    for _ in range(_TRIES):
        if high <= low or clock() - begun > seconds:
            break
        middle = (low + high + 1) // 2
        found = _leaving(task, used, most, middle, clock)
        if found is None:
            high = middle - 1
        else:
            best = evolve(plan, bars=found, new=_bought(task, found))
            low = max(middle, *(offcut_of(task, bar) for bar in found))
    return best


def _bought(task: CutTask, bars: tuple[CutBar, ...]) -> int:
    """How many bars a plan buys: pieces moved together can leave one of them whole."""
    return sum(bar.times for bar in bars if task.kinds[bar.kind].new)


def _leaving(
    task: CutTask, used: list[int], most: int, left: int, clock: Callable[[], float]
) -> tuple[CutBar, ...] | None:
    """Return a plan on the bars used that leaves so much of one of the longest, if one is found."""
    kinds = tuple(
        BarKind(length=kind.length, count=used[k] - (k == most), new=False)
        for k, kind in enumerate(task.kinds)
    )
    # What is left lies behind a cut, which a bar that ends there would not need.
    end = task.kinds[most].length - left - task.kerf
    short = BarKind(length=end, count=1, new=False)
    plan = find_cut_plan(
        evolve(task, kinds=(*kinds, short)), seconds=_SECONDS_EACH, clock=clock, settle=False
    )
    if plan is None:
        return None
    return tuple(evolve(bar, kind=most) if bar.kind == len(kinds) else bar for bar in plan.bars)
