"""Coming off, on parts whose answer follows from their construction.

A square ring is left with a gap in the middle of one side.  It is wound round a bar that is
endless along the nose, so it comes off exactly where the bar fits through the gap.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st
from order_referee import SETTINGS, Band, shape_of, tooling

from strapwright.ordering.freeing.bar_under_nose import on_nose
from strapwright.ordering.freeing.coming_off import comes_off, locks_on
from strapwright.ordering.freeing.leg_to_shorten import trim_to_free
from strapwright.ordering.kernel_pieces import KIND, SECTOR
from strapwright.ordering.order_results import FreeingPose
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import PartGeometry, Piece, ToolSection
from strapwright.ordering.refusal_values import StaysOn

RADIUS = 16.0


def ring(gap: float, side: float = 80.0) -> PartGeometry:
    """Square ring, bends of 16 mm inside, open by ``gap`` in the middle of the last side [mm]."""
    half = (side - gap) / 2.0
    return PartGeometry(
        straights=(half, side, side, side, half),
        angles=(math.pi / 2.0,) * 4,
        radii=(RADIUS,) * 4,
        thickness=6.0,
        z=(-25.0, 25.0),
    )


def nose(radius: float = RADIUS, z: tuple[float, float] | None = None) -> Piece:
    return Piece(name="nose", side="nose", centre=(0.0, 0.0), radius=radius, z=z, contact=True)


def bar_of(part: PartGeometry, last_bend: int, nose_radius: float) -> shapely.Geometry:
    """The bent part on the nose, from its element rows, by polygons of the referee."""
    band = Band(part.thickness)
    made = tuple(range(1, part.bends + 1))
    for row in on_nose(part, made, last_bend, nose_radius):
        x, y, angle, half = (float(v) for v in row[1:5])
        if row[KIND] == SECTOR:
            rho = float(row[5] + row[6]) / 2.0
            band.arc((x, y), rho, angle - half, angle + half)
        else:
            dx, dy = half * math.cos(angle), half * math.sin(angle)
            band.line(x - dx, y - dy, x + dx, y + dy)
    return band.shape()


def moved(bar: shapely.Geometry, pose: FreeingPose) -> shapely.Geometry:
    turned = shapely.affinity.rotate(bar, pose.theta, origin=(0.0, 0.0), use_radians=True)
    return shapely.affinity.translate(turned, pose.x, pose.y)


def poses_are_clear(
    part: PartGeometry,
    last_bend: int,
    nose_radius: float,
    pieces: tuple[Piece, ...],
    motion: tuple[FreeingPose, ...],
) -> bool:
    bar = bar_of(part, last_bend, nose_radius)
    for before, after in pairwise(motion):
        for share in (0.0, 0.25, 0.5, 0.75, 1.0):
            pose = between(before, after, share)
            z = (part.z[0] + pose.z, part.z[1] + pose.z) if part.z is not None else None
            for piece in pieces:
                beside = z is None or piece.z is None or (piece.z[0] < z[1] and z[0] < piece.z[1])
                # Touching chords overlap by slivers; a real hit takes far more than 0.5 mm2.
                if beside and moved(bar, pose).intersection(shape_of(piece)).area > 0.5:
                    return False
    return True


def between(before: FreeingPose, after: FreeingPose, share: float) -> FreeingPose:
    def mix(a: float, b: float) -> float:
        return a + share * (b - a)

    return FreeingPose(
        x=mix(before.x, after.x),
        y=mix(before.y, after.y),
        z=mix(before.z, after.z),
        theta=mix(before.theta, after.theta),
    )


@given(st.floats(1.0, 60.0))
@settings(max_examples=15, deadline=None)
def test_a_ring_comes_off_an_endless_round_where_the_round_fits_the_gap(gap: float) -> None:
    result = comes_off((nose(),), ring(gap), 2, RADIUS)
    if gap < 2.0 * RADIUS:
        assert result.verdict == "TRAPPED"
        assert result.any_motion
        assert result.held_by == ("nose",)
        assert result.gap == pytest.approx(gap, abs=1e-6)
    elif gap > 2.0 * RADIUS + 0.3:
        assert result.verdict == "FREE"
        assert poses_are_clear(ring(gap), 2, RADIUS, (nose(),), result.motion)


def test_trimming_an_end_opens_the_gap_until_the_round_fits() -> None:
    # The gap is 20 mm and the round 32 mm thick: 12 mm off either end leg, to the resolution.
    trim = trim_to_free((nose(),), ring(20.0), 2, RADIUS, 1, resolution=0.5)
    assert trim is not None
    assert 12.0 <= trim.length <= 12.9
    assert trim.gap == pytest.approx(20.0 + trim.length, abs=1e-6)


def test_where_no_trimming_helps_it_says_so() -> None:
    # A round too thick for the inside of the ring has no start, however short the end leg.
    assert trim_to_free((nose(radius=60.0),), ring(20.0), 2, RADIUS, 1) is None


def test_a_closed_ring_slides_off_an_open_end() -> None:
    carried = (
        nose(z=(-80.0, 60.0)),
        Piece(
            name="back",
            side="nose",
            polygon=((-60.0, -30.0), (60.0, -30.0), (60.0, 150.0), (-60.0, 150.0)),
            z=(-90.0, -80.0),
        ),
    )
    result = comes_off(carried, ring(1.0), 2, RADIUS)
    assert (result.verdict, result.how) == ("FREE", "slides")
    assert result.motion[-1].z > 80.0
    assert poses_are_clear(ring(1.0), 2, RADIUS, carried, result.motion)


def bar_nose(height: float) -> tuple[Piece, ...]:
    """A flat bar 8 mm thick on edge with a round edge, endless."""
    return (
        nose(radius=4.0),
        Piece(
            name="bar",
            side="nose",
            polygon=((-4.0, 0.0), (4.0, 0.0), (4.0, height), (-4.0, height)),
            body="nose",
        ),
    )


def box(gap: float) -> PartGeometry:
    """As the ring, with bends of 4 mm inside and sides of 70 mm between them [mm]."""
    half = (70.0 - gap) / 2.0
    return PartGeometry(
        straights=(half, 70.0, 70.0, 70.0, half),
        angles=(math.pi / 2.0,) * 4,
        radii=(4.0,) * 4,
        thickness=5.0,
        z=(-20.0, 20.0),
    )


def test_a_flat_bar_leaves_a_box_only_by_turning() -> None:
    # On the nose the bar stands along the diagonal, the gap looks square to a side: it has to turn
    # by 45 deg, and 66 mm of bar turn freely in 78 mm between the sides.
    result = comes_off(bar_nose(62.0), box(11.0), 2, 4.0)
    assert (result.verdict, result.how) == ("FREE", "turns")
    assert max(abs(p.theta) for p in result.motion) > math.radians(20.0)
    assert poses_are_clear(box(11.0), 2, 4.0, bar_nose(62.0), result.motion)


def test_what_does_not_fit_on_the_nose_has_no_start() -> None:
    # The web is wider than the inside of the box where the legs stand up from the bend.
    wide = Piece(
        name="web", side="nose", polygon=((-60.0, 0.0), (60.0, 0.0), (60.0, 90.0), (-60.0, 90.0))
    )
    assert comes_off((nose(radius=4.0), wide), box(11.0), 2, 4.0).verdict == "NO START"


def test_one_right_angle_drops_off() -> None:
    angle = PartGeometry(
        straights=(80.0, 80.0), angles=(math.pi / 2.0,), radii=(10.0,), thickness=6.0, z=(0.0, 50.0)
    )
    web = Piece(
        name="web", side="nose", polygon=((-4.0, 0.0), (4.0, 0.0), (4.0, 200.0), (-4.0, 200.0))
    )
    result = comes_off((nose(radius=10.0), web), angle, 1, 10.0)
    assert (result.verdict, result.how) == ("FREE", "drops")
    assert result.motion[-1].y < -80.0
    assert poses_are_clear(angle, 1, 10.0, (nose(radius=10.0), web), result.motion)


def test_an_order_avoids_the_step_that_would_lock_the_part_on_the_nose() -> None:
    # The ring round an endless nose without a web: once all four corners
    # are made it cannot come off, whichever was the last; with the gap wider than the nose it can.
    def section(gap: float) -> tuple[ToolSection, PartGeometry]:
        base = tooling()
        carried = (nose(radius=9.5), *(p for p in base.pieces if p.side == "shoulders"))
        part = evolve(ring(gap, side=120.0), radii=(9.5,) * 4, thickness=5.0)
        return evolve(base, pieces=carried), part

    for gap, off in ((15.0, False), (30.0, True)):
        tool, part = section(gap)
        assert find_order(tool, part, SETTINGS).feasible
        result = find_order(tool, part, SETTINGS, refuse=locks_on(tool, part))
        assert result.proven
        assert result.feasible is off
        if not off:
            assert any(isinstance(r.reason, StaysOn) for r in result.refusals)


def test_given_no_time_it_says_it_does_not_know() -> None:
    tight = comes_off(bar_nose(62.0), box(8.05), 2, 4.0, keep_going=lambda: False)
    assert tight.verdict == "NO TIME"


@pytest.mark.parametrize("last_bend", [1, 2, 3, 4])
@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_on_the_nose_the_last_bend_lies_under_it_with_its_wings_up(
    last_bend: int, sign: float
) -> None:
    part = PartGeometry(
        straights=(30.0, 50.0, 60.0, 40.0, 20.0),
        angles=tuple(sign * v for v in (0.5, -1.0, 1.2, 0.8)),
        radii=(8.0, 9.0, 10.0, 11.0),
        thickness=5.0,
    )
    rows = on_nose(part, (1, 2, 3, 4), last_bend, 8.0)
    x, y, angle = rows[2 * last_bend - 1, 1:4]
    assert (x, y) == pytest.approx((0.0, part.radii[last_bend - 1] - 8.0), abs=1e-9)
    assert math.cos(angle + math.pi / 2.0) == pytest.approx(1.0)
    for k in (2 * last_bend - 2, 2 * last_bend):  # the legs beside it rise outwards
        assert rows[k, 2] > -part.radii[last_bend - 1]
        assert abs(math.sin(rows[k, 3])) == pytest.approx(
            math.sin(abs(part.angles[last_bend - 1]) / 2.0)
        )
    lengths = [2.0 * r[4] for r in rows if r[0] != SECTOR]
    assert sorted(lengths) == pytest.approx(sorted(part.straights))
    assert np.isfinite(rows).all()
