"""Which edges of solids a picture shows, counted by hand on boxes and rounds."""

from __future__ import annotations

import math

import pytest
import shapely

from strapwright.making.assembly.solid_values import Solid
from strapwright.scene.hidden_lines import CORNER, FRONT, RIGHT, TOP, Picture, View


def _box(
    x: float, y: float, z: float, wide: float, deep: float, high: float, *, hole: float = 0.0
) -> Solid:
    """A box from its low corner; a square hole from below to above about its middle."""
    a, b, h = wide / 2, deep / 2, hole / 2
    ring = ((a - h, b - h), (a + h, b - h), (a + h, b + h), (a - h, b + h))
    return Solid(
        outline=((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep)),
        holes=(ring,) if hole else (),
        origin=(x, y, z), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0), depth=high,
    )  # fmt: skip


def _round(radius: float, high: float, sides: int = 48) -> Solid:
    turn = 2 * math.pi / sides
    return Solid(
        outline=tuple(
            (radius * math.cos(k * turn), radius * math.sin(k * turn)) for k in range(sides)
        ),
        origin=(0.0, 0.0, 0.0), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0), depth=high,
    )  # fmt: skip


def _length(solids: list[Solid], view: View, of: int, *, seen: bool = True) -> float:
    """How much of one solid's edges is drawn, each place once [mm]."""
    lines = [
        shapely.LineString([one.start, one.end])
        for one in Picture(solids, view).stretches()
        if one.solid == of and one.seen is seen
    ]
    return float(shapely.union_all(lines, grid_size=1e-3).length)


def test_of_a_cube_seen_from_a_corner_nine_edges_show_and_three_do_not() -> None:
    shown = Picture([_box(0, 0, 0, 10, 10, 10)], CORNER).stretches()
    assert sum(one.seen for one in shown) == 9
    assert sum(not one.seen for one in shown) == 3
    # Each edge of such a picture is drawn at sqrt(2/3) of its length.
    for one in shown:
        assert math.dist(one.start, one.end) == pytest.approx(10 * math.sqrt(2 / 3), abs=0.03)


def test_a_box_behind_a_larger_box_shows_no_edge() -> None:
    # FRONT looks towards larger y.
    near, far = _box(0, 0, 0, 40, 5, 40), _box(10, 10, 10, 20, 5, 20)
    assert _length([near, far], FRONT, 1) == 0
    # 4 edges towards the eye, 4 away from it, in the same places; 4 end on.
    assert _length([near, far], FRONT, 1, seen=False) == pytest.approx(80, abs=0.1)
    assert _length([near, far], FRONT, 0) == pytest.approx(160, abs=0.1)


def test_the_same_box_before_the_other_shows_all_its_outline() -> None:
    far, near = _box(0, 10, 0, 40, 5, 40), _box(10, 0, 10, 20, 5, 20)
    assert _length([far, near], FRONT, 1) == pytest.approx(80, abs=0.1)
    assert _length([far, near], FRONT, 0) == pytest.approx(160, abs=0.1)


def test_a_box_half_behind_another_shows_what_stands_out() -> None:
    near, far = _box(0, 0, 0, 20, 5, 20), _box(10, 10, 5, 20, 5, 10)
    # Stands out from x = 20 to 30: two edges of 10 along, one of 10 upright.
    assert _length([near, far], FRONT, 1) == pytest.approx(30, abs=0.1)
    # Hidden: its four edges on the far side, and of the near ones what the other box covers.
    assert _length([near, far], FRONT, 1, seen=False) == pytest.approx(60, abs=0.1)


def test_a_box_is_seen_through_a_hole_as_wide_as_the_hole() -> None:
    above, below = _box(0, 0, 20, 40, 40, 5, hole=20), _box(15, 15, 0, 10, 10, 5)
    assert _length([above, below], TOP, 1) == pytest.approx(40, abs=0.1)
    wide = _box(5, 15, 0, 30, 10, 5)  # reaches under the plate on both sides
    # Two edges of 30, of each 20 in the hole; both ends are under the plate.
    assert _length([above, wide], TOP, 1) == pytest.approx(40, abs=0.1)


def test_the_wall_of_a_hole_hides_what_is_behind_it() -> None:
    # Seen aslant from above, the hole's wall covers what is straight under the hole.
    slant = View(right=(1.0, 0.0, 0.0), up=(0.0, math.sqrt(0.5), math.sqrt(0.5)))
    # The hole is 20 wide and 20 deep: at 45 degrees no ray passes.
    plate, under = _box(-40, -40, 20, 120, 120, 20, hole=20), _box(15, 15, 0, 10, 10, 5)
    assert _length([plate, under], slant, 1) == 0
    assert _length([plate, under], TOP, 1) == pytest.approx(40, abs=0.1)


def test_a_round_shows_its_two_sides_and_the_rims_of_its_ends() -> None:
    rod = _round(5, 30)
    assert _length([rod], FRONT, 0) == pytest.approx(2 * 30 + 2 * 10, abs=0.1)
    # From above a circle: the perimeter of 48 chords.
    assert _length([rod], TOP, 0) == pytest.approx(2 * 48 * 5 * math.sin(math.pi / 48), abs=0.1)


def test_boxes_that_touch_hide_nothing_of_each_other_in_front() -> None:
    lower, upper = _box(0, 0, 0, 20, 20, 10), _box(0, 0, 10, 20, 20, 10)
    for view in (FRONT, RIGHT):
        for of in (0, 1):
            assert _length([lower, upper], view, of) == pytest.approx(60, abs=0.1)


def test_a_face_that_passes_through_an_edge_hides_the_part_behind_it() -> None:
    # A bar from the eye's side to behind a board that stands aslant across it.
    aslant = Solid(
        outline=((-20.0, -20.0), (20.0, -20.0), (20.0, 20.0), (-20.0, 20.0)),
        origin=(0.0, 0.0, 0.0), u=(math.sqrt(0.5), math.sqrt(0.5), 0.0), v=(0.0, 0.0, 1.0),
        depth=0.001,
    )  # fmt: skip
    bar = _box(-10, -1, -1, 20, 2, 2)
    # The board is y = x: of the near edges, y = -1, what is left of x = -1 is behind it.
    seen = [one for one in Picture([aslant, bar], FRONT).stretches() if one.solid == 1 and one.seen]
    assert min(min(one.start[0], one.end[0]) for one in seen) == pytest.approx(-1, abs=0.1)
    # Two edges along of 11, and the upright of 2 at x = 10.
    assert _length([aslant, bar], FRONT, 1) == pytest.approx(24, abs=0.2)


def test_what_is_seen_of_a_covered_solid_is_nothing() -> None:
    near, far = _box(0, 0, 0, 40, 5, 40), _box(10, 10, 10, 20, 5, 20)
    assert Picture([near, far], FRONT).seen(1).area == pytest.approx(0, abs=1e-6)
    out = _box(30, 10, 10, 20, 5, 20)  # half of it stands out
    assert Picture([near, out], FRONT).seen(1).area == pytest.approx(10 * 20, rel=1e-6)
