"""The half-bent bar keeps its length, its turns and its neighbours, whichever bends are made."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strapwright.ordering.half_bent_profile import closes_on_itself, half_bent, mid_line
from strapwright.ordering.order_values import PartGeometry


@st.composite
def parts(draw: st.DrawFn) -> tuple[PartGeometry, tuple[int, ...]]:
    n = draw(st.integers(1, 6))
    turn = st.floats(0.1, 2.5)
    part = PartGeometry(
        straights=tuple(draw(st.floats(5.0, 100.0)) for _ in range(n + 1)),
        angles=tuple(draw(st.sampled_from((-1.0, 1.0))) * draw(turn) for _ in range(n)),
        radii=tuple(draw(st.floats(1.0, 30.0)) for _ in range(n)),
        thickness=draw(st.floats(2.0, 12.0)),
    )
    made = draw(st.sets(st.integers(1, n)))
    return part, tuple(sorted(made))


@given(parts())
def test_length_and_turns_are_kept(drawn: tuple[PartGeometry, tuple[int, ...]]) -> None:
    part, made = drawn
    elements = half_bent(part, made)
    assert sum(e.length for e in elements) == pytest.approx(part.length)
    assert [e.bend for e in elements if e.kind == "arc"] == list(made)
    assert elements[-1].heading == pytest.approx(sum(part.angles[b - 1] for b in made))
    assert len(elements) == 2 * len(made) + 1


@given(parts())
def test_each_element_starts_where_the_one_before_ends(
    drawn: tuple[PartGeometry, tuple[int, ...]],
) -> None:
    for before, after in pairwise(half_bent(*drawn)):
        # An arc's chord is 2 r sin(turn/2) long and lies along its middle heading.
        chord = before.length
        if before.kind == "arc":
            chord *= 2.0 * math.sin(before.turn / 2.0) / before.turn
        middle = before.heading + before.turn / 2.0
        assert after.x == pytest.approx(before.x + chord * math.cos(middle), abs=1e-9)
        assert after.y == pytest.approx(before.y + chord * math.sin(middle), abs=1e-9)


@given(parts())
def test_the_drawn_line_is_shorter_than_the_bar_only_by_its_chords(
    drawn: tuple[PartGeometry, tuple[int, ...]],
) -> None:
    part, made = drawn
    line = mid_line(part, made, chord_error=0.001)
    drawn_length = float(np.hypot(*np.diff(line, axis=0).T).sum())
    assert drawn_length <= part.length + 1e-9
    assert drawn_length == pytest.approx(part.length, rel=1e-3)


@pytest.mark.parametrize(("end", "closed"), [(50.0, True), (49.7, True), (49.5, False)])
def test_a_ring_closes_on_itself_where_its_gap_is_less_than_the_clearance(
    end: float, closed: bool
) -> None:
    # A square of 100 mm between the bends: the two end legs leave 100 - 2 end of a gap.
    ring = PartGeometry(
        straights=(end, 100.0, 100.0, 100.0, end),
        angles=(math.pi / 2.0,) * 4,
        radii=(10.0,) * 4,
        thickness=5.0,
    )
    assert closes_on_itself(ring, 0.75) is closed
