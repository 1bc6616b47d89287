"""Edges of solids in a parallel projection: which stretches are seen and which are behind.

Every edge is cut where it passes behind a face.  The flat geometry is shapely's: which faces an
edge meets in the picture, and along which stretches.  Whether it is behind there is read from the
face's plane.  Faces that are looked at from behind, or along, cover nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TypeAlias

import numpy as np
import shapely
from attrs import frozen
from numpy.typing import NDArray

from strapwright.making.assembly.solid_values import Point3, Solid
from strapwright.scene.primitives import Point

Floats: TypeAlias = NDArray[np.float64]

BEHIND = 0.01  # mm that an edge is behind a face before it is hidden; numerical
SHARP = math.radians(20.0)  # a turn of less is a facet of a round, numerical
_SHORT = 0.02  # mm in the picture; a shorter stretch is left out, numerical
_TOUCH = 1e-6  # numerical


@frozen(kw_only=True)
class View:
    """From where solids are looked at.

    Attributes
    ----------
    right, up
        Unit vectors of the picture, square to each other [-].
    """

    right: Point3
    up: Point3

    @property
    def towards(self) -> Point3:
        """Unit vector from the solids to the eye [-]."""
        (a, b, c), (d, e, f) = self.right, self.up
        return (b * f - c * e, c * d - a * f, a * e - b * d)

    def flat(self, point: Point3) -> Point:
        """Return where a point is in the picture [mm]."""
        return (_dot(point, self.right), _dot(point, self.up))


FRONT = View(right=(1.0, 0.0, 0.0), up=(0.0, 0.0, 1.0))  # looks along the nose
RIGHT = View(right=(0.0, 1.0, 0.0), up=(0.0, 0.0, 1.0))  # from the right, looks along the bar
TOP = View(right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))  # from above


def _corner_view() -> View:
    """Equal foreshortening of the three axes, ISO 5456-3 clause 5.1 (from memory)."""
    a, b = math.sqrt(1 / 2), math.sqrt(1 / 6)
    return View(right=(a, a, 0.0), up=(-b, b, 2 * b))


CORNER = _corner_view()


@frozen(kw_only=True)
class Stretch:
    """A straight piece of an edge in the picture.

    Attributes
    ----------
    start, end
        [mm]
    solid
        Index of the solid that it belongs to [-].
    seen
        Whether nothing covers it.
    """

    start: Point
    end: Point
    solid: int
    seen: bool


@frozen(kw_only=True)
class _Face:
    ring: tuple[Point3, ...]
    holes: tuple[tuple[Point3, ...], ...] = ()


class Picture:
    """Some solids as they are looked at."""

    def __init__(self, solids: Sequence[Solid], view: View) -> None:
        """Find the faces that cover something.

        Parameters
        ----------
        solids
            In place; they may touch.
        view
            From where they are looked at.
        """
        self._solids, self._view = solids, view
        covers, planes, owners = [], [], []
        for owner, solid in enumerate(solids):
            for polygon, plane in _covers(solid, view):
                covers.append(polygon)
                planes.append(plane)
                owners.append(owner)
        self._covers = np.empty(len(covers), dtype=object)
        self._covers[:] = covers
        self._planes = np.array(planes).reshape(-1, 3)
        self._owners = np.array(owners, dtype=np.intp)
        self._tree = shapely.STRtree(self._covers)

    def stretches(self) -> tuple[Stretch, ...]:
        """Return every edge, cut into what is seen and what is hidden.

        Rounds give the two edges at which they turn away from the eye, and the rims of their ends.
        """
        owners, starts, ends = [], [], []
        for index, solid in enumerate(self._solids):
            for start, end in _edges(solid, self._view):
                owners.append(index)
                starts.append(start)
                ends.append(end)
        if not owners:
            return ()
        first, last = _projected(starts, self._view), _projected(ends, self._view)
        cut: list[Stretch] = []
        for owner, a, b, spans in zip(owners, first, last, self._hidden(first, last), strict=True):
            cut += _cut(owner, a, b, spans)
        return tuple(cut)

    def area(self, but: int | None = None) -> shapely.Geometry:
        """Return what the solids cover of the picture together, without that of index ``but``."""
        return shapely.union_all(self._covers[self._owners != (-1 if but is None else but)])

    def seen(self, index: int) -> shapely.Geometry:
        """Return what is seen of the solid of that index; nothing where it is covered."""
        seen = []
        for own in np.flatnonzero(self._owners == index):
            left = face = self._covers[own]
            for number in self._tree.query(face, predicate="intersects"):
                if self._owners[number] == index:
                    continue
                common = shapely.intersection(face, self._covers[number])
                if common.area > _TOUCH:
                    at = common.representative_point()
                    spot = np.array([at.x, at.y, 1.0])
                    if float(spot @ (self._planes[number] - self._planes[own])) > BEHIND:
                        left = shapely.difference(left, self._covers[number])
            seen.append(left)
        return shapely.union_all(seen)

    def _hidden(self, first: Floats, last: Floats) -> list[list[tuple[float, float]]]:
        """Return for each edge where it is covered, in parts of its length [-]."""
        spans: list[list[tuple[float, float]]] = [[] for _ in first]
        lines = np.asarray(
            shapely.linestrings(np.stack([first[:, :2], last[:, :2]], axis=1)), dtype=object
        )
        edges, faces = self._tree.query(lines, predicate="intersects")
        # A face that is before neither end of an edge covers nothing of it.
        near = [_over(one[edges], self._planes[faces]) > BEHIND for one in (first, last)]
        edges, faces = edges[near[0] | near[1]], faces[near[0] | near[1]]
        common = shapely.intersection(lines[edges], self._covers[faces])
        parts, index = shapely.get_parts(common, return_index=True)
        straight = (shapely.get_type_id(parts) == 1) & ~shapely.is_empty(parts)
        parts, index = parts[straight], index[straight]
        edge, planes = edges[index], self._planes[faces[index]]
        a, way = first[edge], last[edge] - first[edge]
        length = np.maximum((way[:, :2] ** 2).sum(axis=1), _TOUCH * _TOUCH)
        along = [
            ((shapely.get_coordinates(shapely.get_point(parts, k)) - a[:, :2]) * way[:, :2]).sum(
                axis=1
            )
            / length
            for k in (0, -1)
        ]
        low, high = np.minimum(*along), np.maximum(*along)
        before, after = (_over(a + way * one[:, None], planes) for one in (low, high))
        there = (length >= _SHORT * _SHORT) & (high - low >= _TOUCH)
        for k in np.flatnonzero(there & ((before > BEHIND) | (after > BEHIND))):
            spans[edge[k]].append(
                _covered(float(low[k]), float(high[k]), float(before[k]), float(after[k]))
            )
        return spans


def _faces(solid: Solid) -> Iterator[_Face]:
    """Every face, its ring counter-clockwise as seen from outside."""
    lower = tuple(solid.at(one, 0.0) for one in solid.outline)
    upper = tuple(solid.at(one, solid.depth) for one in solid.outline)
    low_holes = tuple(tuple(solid.at(one, 0.0) for one in hole) for hole in solid.holes)
    up_holes = tuple(tuple(solid.at(one, solid.depth) for one in hole) for hole in solid.holes)
    yield _Face(ring=tuple(reversed(lower)), holes=low_holes)
    yield _Face(ring=upper, holes=up_holes)
    for ring in (solid.outline, *(tuple(reversed(hole)) for hole in solid.holes)):
        for one, other in zip(ring, (*ring[1:], ring[0]), strict=True):
            yield _Face(
                ring=(
                    solid.at(one, 0.0),
                    solid.at(other, 0.0),
                    solid.at(other, solid.depth),
                    solid.at(one, solid.depth),
                )
            )


def _edges(solid: Solid, view: View) -> Iterator[tuple[Point3, Point3]]:
    towards = view.towards
    for ring in (solid.outline, *(tuple(reversed(hole)) for hole in solid.holes)):
        count = len(ring)
        for deep in (0.0, solid.depth):
            for one, other in zip(ring, (*ring[1:], ring[0]), strict=True):
                yield solid.at(one, deep), solid.at(other, deep)
        for k, corner in enumerate(ring):
            before = (corner[0] - ring[k - 1][0], corner[1] - ring[k - 1][1])
            after = (ring[(k + 1) % count][0] - corner[0], ring[(k + 1) % count][1] - corner[1])
            turn = math.atan2(
                before[0] * after[1] - before[1] * after[0],
                before[0] * after[0] + before[1] * after[1],
            )
            if abs(turn) < SHARP and not _turns_away(solid, before, after, towards):
                continue
            yield solid.at(corner, 0.0), solid.at(corner, solid.depth)
    for rim in solid.rims:
        yield from zip(rim, (*rim[1:], rim[0]), strict=True)


def _turns_away(
    solid: Solid, before: tuple[float, float], after: tuple[float, float], towards: Point3
) -> bool:
    """Whether one of two facets looks at the eye and the other does not."""
    looks = []
    for dx, dy in (before, after):
        # Outward of a counter-clockwise ring is to the right of its way.
        normal = tuple(dy * p - dx * q for p, q in zip(solid.u, solid.v, strict=True))
        looks.append(_dot((normal[0], normal[1], normal[2]), towards) > _TOUCH)
    return looks[0] != looks[1]


def _covers(solid: Solid, view: View) -> Iterator[tuple[shapely.Polygon, Point3]]:
    """Faces that look at the eye as polygons, and depth as a x + b y + c of each."""
    for face in _faces(solid):
        normal = _normal(face.ring)
        look = _dot(normal, view.towards)
        if look < _TOUCH:
            continue
        polygon = shapely.Polygon(
            [view.flat(one) for one in face.ring],
            [[view.flat(one) for one in hole] for hole in face.holes],
        )
        if polygon.area < _TOUCH:
            continue
        # n . p = n . p0 with p = x right + y up + d towards, solved for d.
        right, up = _dot(normal, view.right), _dot(normal, view.up)
        yield polygon, (-right / look, -up / look, _dot(normal, face.ring[0]) / look)


def _normal(ring: Sequence[Point3]) -> Point3:
    """Unit normal of a flat ring, by the sum of its corners' cross products."""
    x = y = z = 0.0
    for (a, b, c), (d, e, f) in zip(ring, (*ring[1:], ring[0]), strict=True):
        x, y, z = x + b * f - c * e, y + c * d - a * f, z + a * e - b * d
    length = math.hypot(x, y, z)
    return (0.0, 0.0, 0.0) if length < _TOUCH else (x / length, y / length, z / length)


def _projected(points: Sequence[Point3], view: View) -> Floats:
    """Right, up and depth of some points [mm]."""
    axes = np.array([view.right, view.up, view.towards])
    return np.asarray(np.array(points).reshape(-1, 3) @ axes.T)


def _over(points: Floats, planes: Floats) -> Floats:
    """How far faces are before points of an edge, each its own, shape (n,) [mm]."""
    x, y, deep = points.T
    return np.asarray(planes[:, 0] * x + planes[:, 1] * y + planes[:, 2] - deep)


def _covered(low: float, high: float, before: float, after: float) -> tuple[float, float]:
    """What of a stretch is behind a face that is before one end of it at least."""
    if before > BEHIND and after > BEHIND:
        return (low, high)
    # A face that is at the edge on one end: it is before it all along, or passes through it.
    through = low + (high - low) * (BEHIND - before) / (after - before)
    return (low, through) if before > BEHIND else (through, high)


def _cut(owner: int, a: Floats, b: Floats, spans: list[tuple[float, float]]) -> Iterator[Stretch]:
    length = math.hypot(*(b[:2] - a[:2]))
    if length < _SHORT:
        return
    covered: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if covered and low <= covered[-1][1] + _SHORT / length:
            covered[-1] = (covered[-1][0], max(covered[-1][1], high))
        else:
            covered.append((low, high))
    at = 0.0
    for low, high in [*covered, (1.0, 1.0)]:
        for start, end, seen in ((at, low, True), (low, high, False)):
            if (end - start) * length >= _SHORT:
                one, other = a + (b - a) * start, a + (b - a) * end
                yield Stretch(
                    start=(float(one[0]), float(one[1])),
                    end=(float(other[0]), float(other[1])),
                    solid=owner,
                    seen=seen,
                )
        at = max(at, high)


def _dot(one: Point3, other: Point3) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
