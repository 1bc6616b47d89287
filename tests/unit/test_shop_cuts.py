"""The cut plan of one bar size: cuts counted, bars bought, and pieces that no bar gives."""

from __future__ import annotations

import time

import pytest

from strapwright.cutting.bar_values import BarKind, CutBar, CutPlan, CutTask
from strapwright.cutting.longest_offcut import with_longest_offcut
from strapwright.cutting.shop_cuts import BarSource, CutPiece, SectionCuts, cut_section
from strapwright.errors import InputError
from strapwright.shop.bar import Bar

FLAT = Bar(section="flat", thickness=6.0, width=40.0)
SOLD = BarSource(name="new bar", length=1000.0, count=None, origin="supplier")


def cut(*pieces: tuple[float, int], kerf: float = 2.0, rack: int = 0) -> SectionCuts:
    long = BarSource(name="long one", length=2000.0, count=rack, origin="rack")
    return cut_section(
        FLAT,
        "A36",
        [CutPiece(name=f"{mm:g}", length=mm, quantity=count) for mm, count in pieces],
        (SOLD, long) if rack else (SOLD,),
        kerf=kerf,
        squaring=0.0,
        least_offcut=300.0,
        clock=time.perf_counter,
    )


@pytest.mark.parametrize(
    ("mm", "cuts"),
    [
        (499.0, 1),  # 499, 2 of kerf, 499: the second piece ends where the bar ends
        (498.0, 2),  # 2 mm are left: one cut more takes them
        (498.5, 2),  # 1 mm is left, less than the blade, and still a cut
        (1000.0, 0),
    ],
)
def test_a_piece_that_ends_with_its_bar_needs_no_cut(mm: float, cuts: int) -> None:
    found = cut((mm, 1 if mm == 1000.0 else 2))
    assert len(found.bars) == 1
    assert found.cuts == cuts


def test_pieces_that_only_the_rack_is_long_enough_for_are_refused_where_it_is_used_up() -> None:
    assert cut((1500.0, 1), (400.0, 2), rack=1).plan.new == 1
    with pytest.raises(InputError, match=r"no bar that is sold gives a piece of 1500") as said:
        cut((1500.0, 2), (400.0, 2), rack=1)
    assert said.value.where == "1500"


def test_pieces_moved_together_can_save_a_bar() -> None:
    """A plan that buys two bars for what one holds: moved together they are on one."""
    task = CutTask(lengths=(400,), quantities=(2,), kinds=(BarKind(length=1000),))
    apart = CutPlan(
        bars=(CutBar(kind=0, counts=(1,), times=2),), new=2, least=1, proven=False, settled=False,
        first_fit=2, how="", seconds=0.0,
    )  # fmt: skip
    tidy = with_longest_offcut(task, apart, seconds=2.0, clock=time.perf_counter)
    assert tidy.new == sum(bar.times for bar in tidy.bars)
