"""Compiled distances against shapely, and kinematics against the geometry they stand for."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Point, Polygon

from strapwright.ordering.kernel_advance import (
    empty_row,
    keeps_clear,
    least_distance,
    piece_speed,
    pose_distance,
    set_sector,
    set_straight,
)
from strapwright.ordering.kernel_distance import sector_distance, straight_distance
from strapwright.ordering.kernel_kinematics import arc_centre, contact_run, sinking, straight_needed
from strapwright.ordering.kernel_pieces import NOSE, SHOULDERS, Stroke
from strapwright.ordering.order_arrays import Shape, tool_arrays

ALL = 1e30  # asks for the distance itself, not for a bound
place = st.floats(-60.0, 60.0)
angle = st.floats(-math.pi, math.pi)


@st.composite
def shapes(draw: st.DrawFn) -> Shape:
    """A circle, or a convex polygon of up to six corners."""
    if draw(st.booleans()):
        corners: tuple[tuple[float, float], ...] = ((draw(place), draw(place)),)
        radius = draw(st.floats(0.5, 30.0))
    else:
        points = draw(st.lists(st.tuples(place, place), min_size=3, max_size=6))
        hull = MultiPoint(points).convex_hull
        assume(isinstance(hull, Polygon) and hull.area > 1.0)
        corners = tuple(shapely.geometry.polygon.orient(hull).exterior.coords[:-1])
        radius = 0.0
    return Shape(piece=None, corners=corners, radius=radius, group=NOSE, contact=False)


def solid(shape: Shape) -> shapely.Geometry:
    return Point(shape.corners[0]) if shape.radius else Polygon(shape.corners)


def ring_sector(
    x: float, y: float, middle: float, half: float, inner: float, outer: float
) -> Polygon:
    at = np.linspace(middle - half, middle + half, 600)
    rim = [
        (x + r * math.cos(a), y + r * math.sin(a))
        for r, order in ((inner, at), (outer, at[::-1]))
        for a in order
    ]
    return Polygon(rim)


@given(shapes(), place, place, angle, st.floats(1.0, 50.0), st.floats(1.0, 8.0))
@settings(deadline=None)
def test_distance_of_a_straight_is_that_of_the_polygons(
    shape: Shape, x: float, y: float, turn: float, half: float, across: float
) -> None:
    u, v = math.cos(turn), math.sin(turn)
    bar = Polygon(
        [
            (x + a * u - b * v, y + a * v + b * u)
            for a, b in ((-half, -across), (half, -across), (half, across), (-half, across))
        ]
    )
    true = max(0.0, bar.distance(solid(shape)) - shape.radius)
    tool = tool_arrays((shape,))
    assert straight_distance(x, y, u, v, half, across, tool, 0, ALL, ALL) == pytest.approx(
        true, abs=1e-9
    )
    bound = straight_distance(x, y, u, v, half, across, tool, 0, 2.0, 1.0)
    assert bound <= true + 1e-9
    assert bound >= min(true, 1.0) - 1e-9


@given(
    shapes(), place, place, angle, st.floats(0.05, 1.5), st.floats(2.0, 20.0), st.floats(1.0, 8.0)
)
@settings(deadline=None)
def test_distance_of_an_arc_is_that_of_a_ring_sector(
    shape: Shape, x: float, y: float, middle: float, half: float, inner: float, thick: float
) -> None:
    outer = inner + thick
    true = max(
        0.0,
        ring_sector(x, y, middle, half, inner, outer).distance(solid(shape)) - shape.radius,
    )
    tool = tool_arrays((shape,))
    # 600 chords of a circle of 28 mm or less lie within 1e-4 mm of it.
    found = sector_distance(x, y, middle, half, inner, outer, tool, 0, ALL)
    assert found == pytest.approx(true, abs=2e-4)
    bound = sector_distance(x, y, middle, half, inner, outer, tool, 0, 1.0)
    assert min(true, 1.0) - 2e-4 <= bound <= true + 2e-4


strokes = st.builds(
    lambda phi, inner, thick, rs, spare, begun: Stroke(
        phi_end=phi,
        rho=inner + thick / 2.0,
        half_opening=(inner + thick + rs) * math.sin(phi) / 0.95 + spare,
        a=inner + thick + rs,
        shoulder_radius=rs,
        inner=inner,
        thickness=thick,
        needed=0.0,
        phi_begin=begun * phi,
    ),
    phi=st.floats(0.05, 1.2),
    inner=st.floats(3.0, 30.0),
    thick=st.floats(2.0, 10.0),
    rs=st.floats(1.0, 15.0),
    spare=st.floats(5.0, 60.0),
    begun=st.sampled_from((0.0, 0.3, 0.7)),
)


@given(strokes, st.floats(0.0, 1.0))
def test_the_wing_is_tangent_to_the_shoulder_where_the_contact_is_said_to_be(
    stroke: Stroke, share: float
) -> None:
    phi = share * stroke.phi_end
    centre = arc_centre(phi, stroke.half_opening, stroke.a, stroke.shoulder_radius)
    run = contact_run(phi, stroke.half_opening, stroke.a)
    # From the arc's centre out by its outer radius, then along the wing: the lower face's contact.
    outer = stroke.inner + stroke.thickness
    x = outer * math.sin(phi) + run * math.cos(phi)
    y = centre - outer * math.cos(phi) + run * math.sin(phi)
    shoulder = (stroke.half_opening, -stroke.shoulder_radius)
    assert math.dist((x, y), shoulder) == pytest.approx(stroke.shoulder_radius, abs=1e-9)
    radial = (x - shoulder[0]) * math.cos(phi) + (y - shoulder[1]) * math.sin(phi)
    assert radial == pytest.approx(0.0, abs=1e-9)


@given(strokes)
def test_straight_needed_and_fastest_sinking_hold_over_the_whole_stroke(stroke: Stroke) -> None:
    phis = np.linspace(stroke.phi_begin, stroke.phi_end, 400)
    runs = [contact_run(p, stroke.half_opening, stroke.a) + stroke.rho * p for p in phis]
    needed = straight_needed(
        stroke.phi_end, stroke.half_opening, stroke.a, stroke.rho, stroke.phi_begin
    )
    assert max(runs) == pytest.approx(needed, abs=1e-9)
    heights = np.array(
        [arc_centre(p, stroke.half_opening, stroke.a, stroke.shoulder_radius) for p in phis]
    )
    fastest = np.abs(np.diff(heights)).max() / (phis[1] - phis[0])
    assert fastest <= sinking(stroke.phi_end, stroke.half_opening, stroke.a) * (1.0 + 1e-9)


@given(
    strokes,
    shapes(),
    st.booleans(),
    st.booleans(),
    st.floats(10.0, 120.0),
    angle,
    st.floats(0.5, 8.0),
)
@settings(deadline=None)
def test_what_keeps_clear_does_so_at_every_pose_and_no_point_is_faster_than_said(
    stroke: Stroke, shape: Shape, below: bool, arc: bool, out: float, turn: float, clearance: float
) -> None:
    tool = tool_arrays(
        (
            Shape(
                piece=None,
                corners=shape.corners,
                radius=shape.radius,
                group=SHOULDERS if below else NOSE,
                contact=False,
            ),
        )
    )
    row = empty_row()
    if arc:
        set_sector(row, out, 3.0, 0.3, turn, 6.0, stroke)
    else:
        set_straight(row, out, -4.0, turn, 25.0, stroke)
    phis = np.linspace(stroke.phi_begin, stroke.phi_end, 300)
    distances = np.array([pose_distance(row, p, stroke, tool, 0, ALL, ALL) for p in phis])
    speed = piece_speed(row, stroke, int(tool[0, 6]))
    assert np.abs(np.diff(distances)).max() <= speed * (phis[1] - phis[0]) * (1.0 + 1e-9) + 1e-9
    tolerance = 0.2 * clearance
    if keeps_clear(row, stroke, tool, 0, clearance, tolerance):
        assert distances.min() >= clearance - tolerance - 1e-9
    else:
        assert distances.min() < clearance + speed * (phis[1] - phis[0])
    least, _ = least_distance(row, stroke, tool, 0, 1000.0, 0.05)
    assert least - 0.05 - 1e-9 <= distances.min()
    assert least <= distances.min() + 0.05 + 1e-9
