"""Room that words keep: the compiled sum against a general geometry package."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box

from strapwright.scene.boxes import BoxRow, room_of, rows_along
from strapwright.scene.primitives import Line

SIDE = st.floats(0.1, 20.0)
PLACE = st.floats(-30.0, 30.0)
ROWS = st.builds(
    BoxRow,
    st.tuples(PLACE, PLACE, SIDE, SIDE),
    st.tuples(PLACE, PLACE),
    st.integers(1, 9),
)
BOXES = st.lists(
    st.builds(lambda x, y, w, h: (x, y, x + w, y + h), PLACE, PLACE, SIDE, SIDE), max_size=6
)


@given(row=ROWS, taken=BOXES)
def test_shared_area_is_that_of_every_pair(row: BoxRow, taken: list[tuple[float, ...]]) -> None:
    there = np.array(taken).reshape(-1, 4)
    pairs = itertools.product(row.rows(), there)
    expected = sum(box(*one).intersection(box(*other)).area for one, other in pairs)
    assert row.shared(there) == pytest.approx(expected, abs=1e-9)


@given(x=st.floats(1.0, 200.0), y=st.floats(1.0, 200.0), scale=st.floats(0.5, 5.0))
def test_a_slanted_line_keeps_the_room_of_a_polyline(x: float, y: float, scale: float) -> None:
    half = 1.0 / scale
    line = Line(start=(3.0, -4.0), end=(3.0 + x + 2 * half, -4.0 - y - 2 * half), role="leader")
    expected = rows_along((line.start, line.end), half, 4.0 * half)
    room = room_of(line, scale)
    assert room is not None
    found = room.rows()
    assert abs(len(found) - len(expected)) <= 1  # a length on the edge of one box more
    assert found[[0, -1]] == pytest.approx(expected[[0, -1]])
    assert np.diff(found[:, 0]).max() <= 4.0 * half + 1e-9
