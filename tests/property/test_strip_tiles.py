"""Strips cover the blank, fit the paper, overlap evenly and keep off the marks where they can."""

from __future__ import annotations

import itertools
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strapwright.blank.blank_values import Blank, FlatHole, Mark
from strapwright.sheets.strip_tiles import OVERLAP, part_into_tiles


def blank_of(length: float, places: list[float]) -> Blank:
    spots = sorted(one * length for one in places)
    return Blank(
        length=length,
        method="strain",
        allowances=(),
        deductions=(),
        alternatives=(),
        marks=tuple(
            Mark(bend=i, nose=at, sight=at + 40, tangents=(at - 9, at + 9))
            for i, at in enumerate(spots, 1)
        ),
        holes=tuple(
            FlatHole(hole=i, position=at, across=0, diameter=10, bend=1, edge_to_zone=1)
            for i, at in enumerate(spots, 1)
        ),
    )


@given(
    length=st.floats(10, 6000),
    width=st.floats(3, 700),
    paper=st.sampled_from(["letter", "a4"]),
    places=st.lists(st.floats(0.01, 0.99), max_size=6),
)
def test_strips_cover_and_fit(
    length: float, width: float, paper: Literal["letter", "a4"], places: list[float]
) -> None:
    room, tiles = part_into_tiles(blank_of(length, places), width, paper)
    first = [tile for tile in tiles if tile.row == 1]
    assert first[0].window[0] == 0.0
    end = first[-1].window[1]
    if first[-1].stops:  # behind all that is marked, and without a join
        assert len(tiles) == 1
        blank = blank_of(length, places)
        marked = [at for mark in blank.marks for at in (mark.nose, *mark.tangents)]
        marked += [mark.sight for mark in blank.marks if mark.sight <= length]
        marked += [hole.position + hole.diameter / 2 for hole in blank.holes]
        assert max(marked, default=0.0) + 4.9 <= end <= length - 25.0
    else:
        assert end == length
    for tile in tiles:
        start, end = tile.window
        gutters = sum(join is None for join in tile.joins) * 14.0 - 14.0 * tile.stops
        assert 0.0 < end - start + gutters <= room.width + 1e-9
        assert tile.height <= room.height + 1e-9
    for before, after in itertools.pairwise(first):
        assert before.joins[1] == after.joins[0]
        assert before.window[1] - after.window[0] == pytest.approx(OVERLAP)
    column = [tile for tile in tiles if tile.number == 1]
    assert column[0].across[1] == pytest.approx(width / 2)
    assert column[-1].across[0] == pytest.approx(-width / 2)
    for upper, lower in itertools.pairwise(column):
        assert upper.seams[0] == lower.seams[1]
        assert lower.across[1] - upper.across[0] == pytest.approx(OVERLAP)
    assert len(tiles) == len(first) * len(column)
    # A place belongs to one strip only, so that its words are printed once.
    for at in (0.0, length / 3, length):
        assert sum(tile.owns(at) for tile in first) == 1


@given(length=st.floats(300, 3000), at=st.floats(0.05, 0.95))
def test_a_join_keeps_off_a_lone_hole(length: float, at: float) -> None:
    hole = FlatHole(hole=1, position=at * length, across=0, diameter=8, bend=1, edge_to_zone=1)
    blank = Blank(
        length=length,
        method="strain",
        allowances=(),
        deductions=(),
        alternatives=(),
        marks=(),
        holes=(hole,),
    )
    _, tiles = part_into_tiles(blank, 40.0, "a4")
    for tile in tiles:
        if tile.joins[1] is not None:
            # From the middle of the hole: 4 mm of radius and some air.
            assert abs(tile.joins[1] - hole.position) > 4.0
