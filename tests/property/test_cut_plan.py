"""What holds of every cut plan, whatever is cut from what."""

from __future__ import annotations

import time
from functools import cache

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from strapwright.cutting.bar_values import BarKind, CutBar, CutPlan, CutTask
from strapwright.cutting.cut_checker import Stick, check_bars
from strapwright.cutting.find_cut_plan import find_cut_plan
from strapwright.cutting.laid_bars import lay_bars, stop_settings
from strapwright.cutting.longest_offcut import offcut_of, with_longest_offcut

GRAIN = 0.1


@st.composite
def tasks(draw: st.DrawFn) -> CutTask:
    lengths = draw(st.lists(st.integers(20, 480), min_size=1, max_size=7, unique=True))
    rack = draw(st.lists(st.tuples(st.integers(100, 600), st.booleans()), max_size=3))
    return CutTask(
        lengths=tuple(sorted(lengths, reverse=True)),
        quantities=tuple(draw(st.integers(1, 5)) for _ in lengths),
        kinds=(
            BarKind(length=draw(st.sampled_from([500, 730, 1200]))),
            *(BarKind(length=one, count=1, new=False, offcut=off) for one, off in rack),
        ),
        kerf=draw(st.integers(0, 7)),
        squaring=draw(st.integers(0, 15)),
    )


def solved(task: CutTask) -> CutPlan:
    plan = find_cut_plan(task, clock=time.perf_counter)
    assert plan is not None
    return plan


def test_what_is_left_lies_behind_a_cut() -> None:
    """Hand: of 1200 and 517, 420 + 272 + 220 + 35 leave 1200 - 947 - 4 x 3 = 241 of the longer."""
    kinds = (
        BarKind(length=1200),
        BarKind(length=517, count=1, new=False),
    )
    lengths = (420, 405, 272, 220, 72, 35, 20)
    task = CutTask(lengths=lengths, quantities=(1,) * len(lengths), kinds=kinds, kerf=3, squaring=0)
    # All but 272 on the long bar leaves 10 there and 517 - 275 = 242 on the other.
    bars = (
        CutBar(kind=1, counts=(0, 0, 1, 0, 0, 0, 0), times=1),
        CutBar(kind=0, counts=(1, 1, 0, 1, 1, 1, 1), times=1),
    )
    plan = evolve(solved(task), bars=bars)
    tidy = with_longest_offcut(task, plan, seconds=10.0, clock=time.perf_counter)
    assert max(offcut_of(task, bar) for bar in tidy.bars) >= 242


@settings(max_examples=20, deadline=None)
@given(tasks())
def test_a_plan_can_be_sawn_and_its_lengths_balance(task: CutTask) -> None:
    plan = solved(task)
    tidy = with_longest_offcut(task, plan, seconds=0.15, clock=time.perf_counter)
    assert plan.proven
    assert plan.least == plan.new <= plan.first_fit
    assert max(offcut_of(task, bar) for bar in tidy.bars) >= max(
        offcut_of(task, bar) for bar in plan.bars
    )
    bars = lay_bars(task, tidy.bars, GRAIN)
    wanted = [
        (length * GRAIN, count) for length, count in zip(task.lengths, task.quantities, strict=True)
    ]
    sticks = [Stick(length=one.length * GRAIN, count=one.count) for one in task.kinds]
    assert (
        check_bars(
            bars,
            wanted=wanted,
            sticks=sticks,
            kerf=task.kerf * GRAIN,
            squaring=task.squaring * GRAIN,
        )
        == ()
    )
    assert sum(task.kinds[bar.kind].new for bar in bars) == plan.new
    for bar in bars:
        solid = sum(piece.end - piece.start for piece in bar.pieces)
        whole = task.squaring * GRAIN + solid + bar.sawdust + bar.offcut
        assert abs(whole - bar.length) < 1e-6
        most = len(bar.pieces) * task.kerf * GRAIN
        assert most - task.kerf * GRAIN - 1e-9 <= bar.sawdust <= most + 1e-9
        assert all(piece.end <= bar.length + 1e-9 for piece in bar.pieces)
    assert (
        len(set(task.lengths))
        <= stop_settings(bars)
        <= sum(len({piece.number for piece in bar.pieces}) for bar in bars)
    )


@settings(max_examples=25, deadline=None)
@given(tasks(), st.integers(60, 900))
def test_more_on_the_rack_never_costs_more(task: CutTask, length: int) -> None:
    more = evolve(
        task, kinds=(*task.kinds, BarKind(length=length, count=1, new=False, offcut=True))
    )
    assert solved(more).new <= solved(task).new


def fewest(task: CutTask) -> int:
    """Fewest bars of the first kind, by going through every way to fill the next bar."""
    room = task.room(0)

    @cache
    def left(counts: tuple[int, ...]) -> int:
        first = next((n for n, count in enumerate(counts) if count), None)
        if first is None:
            return 0
        best = sum(counts)

        def fill(at: int, rest: int, now: tuple[int, ...]) -> None:
            nonlocal best
            if at == len(now):
                best = min(best, 1 + left(now))
                return
            for taken in range(min(now[at], rest // task.widths[at]) + 1):
                fill(
                    at + 1, rest - taken * task.widths[at],
                    (*now[:at], now[at] - taken, *now[at + 1 :]),
                )  # fmt: skip

        # The longest piece left lies on some bar; let that be the next one.
        begun = (*counts[:first], counts[first] - 1, *counts[first + 1 :])
        fill(0, room - task.widths[first], begun)
        return best

    return left(task.quantities)


@settings(max_examples=40, deadline=None)
@given(tasks())
def test_no_plan_of_few_pieces_buys_fewer(task: CutTask) -> None:
    few = evolve(
        task,
        lengths=task.lengths[:4],
        quantities=tuple(min(one, 3) for one in task.quantities[:4]),
        kinds=task.kinds[:1],
    )
    assert solved(few).new == fewest(few)
