"""The gap through which a nearly closed part lets something out, and what would have to pass."""

from __future__ import annotations

import math

import numpy as np
import shapely
from attrs import frozen
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.ordering.freeing.convex_solids import Slab, convex_pieces
from strapwright.ordering.kernel_pieces import ANGLE, HALF, INNER, KIND, OUTER, SECTOR, Floats, X, Y
from strapwright.ordering.order_values import Piece

# Numerical, finer than the clearance that counts.
FINE = Slab(count=0, chord_error=0.01)


@frozen(kw_only=True)
class Gap:
    """Where an end of the bar comes nearest to another leg.

    Attributes
    ----------
    width
        [mm]
    middle
        [mm]
    end_to_end
        Both sides are ends of the bar.
    """

    width: float
    middle: tuple[float, float]
    end_to_end: bool


def gaps_of(rows: Floats) -> tuple[Gap, ...]:
    """Gaps between either end leg and what does not follow it at once, narrowest first."""
    found = []
    solids = {k: _solid(rows, k) for k in range(len(rows))}
    solid = [k for k, shape in solids.items() if not shape.is_empty]  # a leg may have no length
    first, last = solid[0], solid[-1]
    for end in (first, last):
        others = [k for k in solid if abs(k - end) >= 3]
        if not others:
            continue
        nearest = min(others, key=lambda k: solids[end].distance(solids[k]))
        line = shapely.shortest_line(solids[end], solids[nearest])
        (ax, ay), (bx, by) = line.coords[0], line.coords[-1]
        found.append(
            Gap(
                width=float(solids[end].distance(solids[nearest])),
                middle=(0.5 * (ax + bx), 0.5 * (ay + by)),
                end_to_end={end, nearest} == {first, last},
            )
        )
    return tuple(sorted(found, key=lambda g: g.width))


def _solid(rows: Floats, k: int) -> BaseGeometry:
    return shapely.union_all(
        shapely.polygons(convex_pieces(rows[k : k + 1], (0.0, 0.0), FINE, grown=True))
    )


def whole(rows: Floats) -> BaseGeometry:
    """Outline of the part as one region."""
    return shapely.union_all(shapely.polygons(convex_pieces(rows, (0.0, 0.0), FINE, grown=True)))


def caliper(piece: Piece) -> float:
    """Least width of a piece in the plane, or its length along the nose if that is less [mm]."""
    if piece.centre is not None:
        width = 2.0 * piece.radius
    else:
        corners = np.array(piece.polygon, dtype=np.float64)
        edges = np.roll(corners, -1, axis=0) - corners
        normals = np.stack([-edges[:, 1], edges[:, 0]], axis=1)
        normals /= np.hypot(normals[:, 0], normals[:, 1])[:, None]
        spans = corners @ normals.T
        width = float((spans.max(axis=0) - spans.min(axis=0)).min())
    return width if piece.z is None else min(width, piece.z[1] - piece.z[0])


def wound_and_held(
    rows: Floats, pieces: tuple[Piece, ...], part_z: tuple[float, float] | None
) -> bool:
    """Whether the part closes round a member held at both ends and nothing of it fits the gap.

    Then part and tooling are linked like two links of a chain: no motion takes them apart,
    tilting included.
    """
    ends = [g for g in gaps_of(rows) if g.end_to_end]
    if not ends or any(caliper(p) <= ends[0].width for p in pieces):
        return False
    ring = Polygon(_loop(rows, ends[0].middle))
    if not ring.is_valid:
        return False
    return any(ring.contains(Point(_middle(p))) and _held(p, pieces, part_z, ring) for p in pieces)


def _loop(rows: Floats, gap: tuple[float, float]) -> list[tuple[float, float]]:
    """Neutral line from the one side of the gap round to the other."""
    points: list[tuple[float, float]] = []
    for k, row in enumerate(rows):
        x, y = float(row[X]), float(row[Y])
        c, s = math.cos(row[ANGLE]), math.sin(row[ANGLE])
        if row[KIND] == SECTOR:
            r = 0.5 * (row[INNER] + row[OUTER])
            points.append((x + r * c, y + r * s))
            continue
        start, stop = -float(row[HALF]), float(row[HALF])
        at = min(stop, max(start, (gap[0] - x) * c + (gap[1] - y) * s))
        start = at if k == 0 else start
        stop = at if k == len(rows) - 1 else stop
        points += [(x + start * c, y + start * s), (x + stop * c, y + stop * s)]
    return points


def _middle(piece: Piece) -> tuple[float, float]:
    if piece.centre is not None:
        return piece.centre
    xs, ys = zip(*piece.polygon, strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)


def _held(
    member: Piece,
    pieces: tuple[Piece, ...],
    part_z: tuple[float, float] | None,
    ring: Polygon,
) -> bool:
    """Whether a member is endless, or closes into a loop with what carries it at both ends."""
    if member.z is None:
        return True
    if part_z is None or member.z[0] > part_z[0] or part_z[1] > member.z[1]:
        return False
    centre = Point(_middle(member))
    carriers = [p for p in pieces if p.z is not None and _shape(p).contains(centre)]
    for low in carriers:
        for high in carriers:
            if not (_meet(low.z, member.z) and _meet(member.z, high.z)):
                continue
            for back in pieces:
                spans = back.z is None or (
                    back.z[0] <= part_z[0]
                    and part_z[1] <= back.z[1]
                    and _overlap(back.z, low.z)
                    and _overlap(back.z, high.z)
                )
                if (
                    back not in (member, low, high)
                    and spans
                    and _shape(back).intersects(_shape(low))
                    and _shape(back).intersects(_shape(high))
                    and not _shape(back).intersects(ring)
                ):
                    return True
    return False


def _meet(first: tuple[float, float] | None, second: tuple[float, float] | None) -> bool:
    return (
        first is not None and second is not None and math.isclose(first[1], second[0], abs_tol=1e-6)
    )


def _overlap(first: tuple[float, float], second: tuple[float, float] | None) -> bool:
    return second is not None and first[0] <= second[1] and second[0] <= first[1]


def _shape(piece: Piece) -> Polygon:
    if piece.centre is not None:
        return Point(piece.centre).buffer(piece.radius)
    return Polygon(piece.polygon)
