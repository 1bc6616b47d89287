"""Boxes, rounds and profiles as solids in place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import shapely

from strapwright.making.assembly.solid_values import Point3, Ring, Solid

Axis3 = Literal["x", "y", "z"]
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)  # exact
# The plane of an outline drawn out along an axis: its two unit vectors, so that u x v is the axis.
PLANES: dict[Axis3, tuple[Point3, Point3]] = {"x": (Y, Z), "y": (Z, X), "z": (X, Y)}
SIDES = 36  # straight sides of a full round in a picture, numerical


def ring(radius: float, middle: tuple[float, float] = (0.0, 0.0), sides: int = SIDES) -> Ring:
    """Return a round as corners, counter-clockwise; lengths in mm."""
    turn = 2 * math.pi / sides
    return tuple(
        (middle[0] + radius * math.cos(k * turn), middle[1] + radius * math.sin(k * turn))
        for k in range(sides)
    )


def rectangle(wide: float, high: float) -> Ring:
    """Return a rectangle from its lower left corner [mm]."""
    return ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))


def drawn_out(
    outline: Ring,
    axis: Axis3,
    origin: Point3,
    depth: float,
    *,
    holes: Sequence[Ring] = (),
    rims: Sequence[tuple[Point3, ...]] = (),
) -> Solid:
    """Return an outline drawn out along an axis from ``origin``; lengths in mm."""
    u, v = PLANES[axis]
    return Solid(
        outline=outline, origin=origin, u=u, v=v, depth=depth, holes=tuple(holes),
        rims=tuple(rims),
    )  # fmt: skip


def rod(radius: float, axis: Axis3, start: Point3, length: float, *, sides: int = SIDES) -> Solid:
    """Return a round along an axis from the middle of one end; lengths in mm."""
    return drawn_out(ring(radius, sides=sides), axis, start, length)


def without_round(outline: Ring, middle: tuple[float, float], radius: float) -> Ring:
    """Return an outline with a round taken out of its border; lengths in mm.

    A round that leaves it untouched, or takes it apart, changes nothing.
    """
    left = shapely.Polygon(outline).difference(shapely.Polygon(ring(radius, middle, 2 * SIDES)))
    if not isinstance(left, shapely.Polygon) or left.is_empty or left.interiors:
        return outline
    corners = shapely.get_coordinates(shapely.remove_repeated_points(left.exterior, 0.02))[:-1]
    turned = tuple((float(x), float(y)) for x, y in corners)
    return turned if left.exterior.is_ccw else tuple(reversed(turned))


def rounded_corner(outline: Ring, corner: int, radius: float) -> Ring:
    """Return an outline of square corners with one of them rounded; ``radius`` in mm."""
    x, y = outline[corner]
    before, after = outline[corner - 1], outline[(corner + 1) % len(outline)]

    def towards(other: tuple[float, float]) -> tuple[float, float]:
        length = math.dist((x, y), other)
        return ((other[0] - x) / length, (other[1] - y) / length)

    (ax, ay), (bx, by) = towards(before), towards(after)
    middle = (x + radius * (ax + bx), y + radius * (ay + by))
    steps = SIDES // 4
    arc = []
    for k in range(steps + 1):
        turn = k / steps * math.pi / 2
        # From where the side before ends to where the side after begins.
        c, s = math.cos(turn), math.sin(turn)
        arc.append((middle[0] - radius * (c * bx + s * ax), middle[1] - radius * (c * by + s * ay)))
    return (*outline[:corner], *arc, *outline[corner + 1 :])
