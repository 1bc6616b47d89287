"""Cut plans against proven ones: shared cases, cuts without any waste, and time running out."""

from __future__ import annotations

import sys
import time
from pathlib import Path

import numpy as np
import pytest

from strapwright.cutting.bar_values import BarKind, CutTask, bars_used
from strapwright.cutting.find_cut_plan import find_cut_plan

VALIDATION = Path(__file__).resolve().parents[2] / "validation"
sys.path.append(str(VALIDATION))

import cut_cases  # noqa: E402
from case_files import read_case  # noqa: E402


@pytest.mark.parametrize(
    "path", sorted((VALIDATION / "cases" / "cut").glob("*.json")), ids=lambda path: path.stem
)
def test_every_case_is_proven(path: Path) -> None:
    found = cut_cases.run(read_case(path))
    assert found["verdict"] == "within", found["why"]


def without_waste(pieces: int, seed: int) -> CutTask:
    """Bars of 1000 cut into three without waste: the sum of all lengths proves the count."""
    dice = np.random.default_rng(seed)
    counts: dict[int, int] = {}
    for _ in range(pieces // 3):
        first = int(dice.integers(380, 491))
        second = int(dice.integers(250, (1000 - first) // 2 + 1))
        for one in (first, second, 1000 - first - second):
            counts[one] = counts.get(one, 0) + 1
    lengths = tuple(sorted(counts, reverse=True))
    return CutTask(
        lengths=lengths,
        quantities=tuple(counts[one] for one in lengths),
        kinds=(BarKind(length=1000),),
    )


@pytest.mark.parametrize("seed", [1, 2])
def test_bars_that_leave_nothing_over_are_found(seed: int) -> None:
    plan = find_cut_plan(without_waste(60, seed), clock=time.perf_counter)
    assert plan is not None
    assert (plan.new, plan.proven) == (20, True)
    assert plan.first_fit > 20


def test_a_bound_above_the_sum_of_lengths_is_proven() -> None:
    """Five pieces of 51 and two of 34 from bars of 100: 323 of length, but five bars."""
    task = CutTask(lengths=(51, 34), quantities=(5, 2), kinds=(BarKind(length=100),))
    plan = find_cut_plan(task, clock=time.perf_counter)
    assert plan is not None
    assert (plan.new, plan.proven) == (5, True)
    # Seven of about 40: two a bar, four bars, though 283 of length would go into three.
    task = CutTask(lengths=(41, 40), quantities=(3, 4), kinds=(BarKind(length=100),))
    plan = find_cut_plan(task, clock=time.perf_counter)
    assert plan is not None
    assert (plan.new, plan.proven, plan.how) == (4, True, "columns")


def test_offcuts_go_before_whole_bars_and_these_before_bought_ones() -> None:
    kinds = (
        BarKind(length=6000),
        BarKind(length=3000, count=2, new=False),
        BarKind(length=1100, count=2, new=False, offcut=True),
    )
    task = CutTask(lengths=(500,), quantities=(4,), kinds=kinds, kerf=2)
    plan = find_cut_plan(task, clock=time.perf_counter)
    assert plan is not None
    assert bars_used(plan.bars, 3) == [0, 0, 2]
    assert plan.settled
    task = CutTask(lengths=(500,), quantities=(7,), kinds=kinds, kerf=2)
    plan = find_cut_plan(task, clock=time.perf_counter)
    assert plan is not None
    # Five go onto one whole bar; the two left take one off-cut, not both.
    assert bars_used(plan.bars, 3) == [0, 1, 1]


def test_of_two_lengths_on_sale_the_shorter_bar_is_bought_where_it_does() -> None:
    kinds = (BarKind(length=6000), BarKind(length=3000))
    task = CutTask(lengths=(1400,), quantities=(2,), kinds=kinds, kerf=2)
    plan = find_cut_plan(task, clock=time.perf_counter)
    assert plan is not None
    assert bars_used(plan.bars, 2) == [0, 1]


def test_pieces_that_fit_no_bar_have_no_plan() -> None:
    kinds = (BarKind(length=1000, count=1, new=False),)
    task = CutTask(lengths=(600,), quantities=(2,), kinds=kinds)
    assert find_cut_plan(task, clock=time.perf_counter) is None


def test_when_time_runs_out_the_best_plan_is_told_with_its_gap() -> None:
    """A clock that jumps past the end leaves the quick plan; it is never called proven."""
    ticks = iter(range(0, 100_000, 60))
    task = without_waste(60, 1)
    plan = find_cut_plan(task, clock=lambda: float(next(ticks)))
    assert plan is not None
    assert plan.new > plan.least == 20
    assert not plan.proven
    assert not plan.settled
    assert plan.how == ""
    assert sum(sum(bar.counts) * bar.times for bar in plan.bars) == 60
