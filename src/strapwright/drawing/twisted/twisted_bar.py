"""A twisted flat bar as a solid in a parallel projection: what it covers, and its edges that show.

The bar is a row of sections, each a rectangle square to the middle line.  Neighbours span four
faces.  An edge is hidden where a face that looks at the eye lies before it.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import numpy as np
import shapely

from strapwright.bending.bend_values import Floats
from strapwright.drawing.leg_lines import straight_runs
from strapwright.planning.bench_work.work_values import Twisting
from strapwright.planning.plan_values import Plan
from strapwright.scene.boxes import Box
from strapwright.scene.primitives import Path, Shape

_TURNS = 24  # sections along a twisted run or a bend, numerical
_SAMPLES = 6  # along an edge between two sections, numerical
_CORNERS = np.array([[0.5, 0.5], [-0.5, 0.5], [-0.5, -0.5], [0.5, -0.5]])
_FLAT = 1e-9  # numerical
_LEAST = 1e-4  # mm2 that a face must show, numerical
_GRID = 1e-4  # mm to which faces are joined, numerical


def sections_of(plan: Plan) -> tuple[Floats, Floats, tuple[int, ...]]:
    """Sections of the finished part, the twisted runs in steps.

    Parameters
    ----------
    plan
        Of a part with twists, with its blank.

    Returns
    -------
    line
        Middle line in space, shape (k, 3) [mm].
    wide
        Unit vector along the width at each of its points, shape (k, 3) [-].
    middles
        Index of the middle of each twisted run.
    """
    part, blank = plan.job.part, plan.blank
    runs = straight_runs(part, plan.finished)
    line, wide, middles = [plan.finished_3d[:1]], [np.array([[0.0, 0.0, 1.0]])], []
    works = {one.leg: one for one in plan.bench_work if isinstance(one, Twisting)}
    across = np.array([0.0, 0.0, 1.0])
    for number, (first, last) in enumerate(runs, start=1):
        work = works.get(number)
        start, stop = plan.finished_3d[first], plan.finished_3d[last]
        if work is not None and blank is not None:
            along = (stop - start) / float(np.linalg.norm(stop - start))
            begin = work.begin - (blank.zone(number - 1)[1] if number > 1 else part.trim_1 or 0.0)
            run = work.end - work.begin - 0.5 * sum(work.lost)
            share = np.linspace(0.0, 1.0, _TURNS + 1)
            middles.append(sum(len(one) for one in line) + _TURNS // 2)
            line.append(start + np.outer(begin + share * run, along))
            wide.append(_turned(across, along, share * work.angle))
            across = wide[-1][-1]
        after = runs[number][0] if number < len(runs) else last
        points = _thinned(plan.finished_3d[last : after + 1])
        line.append(points)
        wide.append(np.tile(across, (len(points), 1)))
    return np.concatenate(line), np.concatenate(wide), tuple(middles)


def _thinned(points: Floats) -> Floats:
    """Of the many points of a bend those that its picture needs, the first and the last kept."""
    kept = np.unique(np.linspace(0, len(points) - 1, _TURNS + 1).round().astype(int))
    return np.asarray(points[kept])


def _turned(across: Floats, along: Floats, angles: Floats) -> Floats:
    """A vector square to an axis, turned about it by each angle, shape (k, 3)."""
    other = np.cross(along, across)
    turned = np.outer(np.cos(angles), across) + np.outer(np.sin(angles), other)
    return np.asarray(turned, dtype=np.float64)


def corners_of(line: Floats, wide: Floats, thickness: float, width: float) -> Floats:
    """Corners of each section, shape (k, 4, 3) [mm].

    Parameters
    ----------
    line, wide
        As of :func:`sections_of`.
    thickness, width
        Of the bar [mm].
    """
    steps = np.diff(line, axis=0)
    units = steps / np.maximum(np.linalg.norm(steps, axis=1), _FLAT)[:, None]
    mean = np.vstack([units[:1], units]) + np.vstack([units, units[-1:]])
    mean /= np.linalg.norm(mean, axis=1)[:, None]
    thick = np.cross(wide, mean)
    return np.asarray(
        line[:, None, :]
        + _CORNERS[None, :, :1] * width * wide[:, None, :]
        + _CORNERS[None, :, 1:] * thickness * thick[:, None, :]
    )


def twisted_shapes(corners: Floats, view: Floats) -> Iterator[Shape]:
    """Draw the bar: its area, and the edges of it that show.

    Parameters
    ----------
    corners
        Of each section, as of :func:`corners_of`.
    view
        Right, up and towards the eye of the picture, shape (3, 3) [-].
    """
    faces = _faces(corners, view)
    area = shapely.union_all([shapely.Polygon(one[:, :2]) for one in faces], grid_size=_GRID)
    for part in shapely.get_parts(area):
        if not isinstance(part, shapely.Polygon):
            continue
        yield Path(points=_points(part.exterior.coords[:-1]), role="bar", closed=True)
        for inner in part.interiors:
            yield Path(points=_points(inner.coords[:-1]), role="hole", closed=True)
    planes = np.array([_plane(one) for one in faces])
    # Of thousands of faces few lie over one spot: a tree finds them.
    tree = shapely.STRtree([shapely.Polygon(one[:, :2]) for one in faces])
    for edge in _edges(corners):
        yield from _seen(edge @ view.T, tree, planes)


def drawn_box(corners: Floats, view: Floats) -> Box:
    """What the bar covers of the picture [mm]."""
    flat = (corners.reshape(-1, 3) @ view.T)[:, :2]
    (left, bottom), (right, top) = flat.min(axis=0), flat.max(axis=0)
    return Box(left=float(left), bottom=float(bottom), right=float(right), top=float(top))


def _faces(corners: Floats, view: Floats) -> list[Floats]:
    """Faces as triangles that show an area, by their corners in the picture and their depth."""
    rings = [
        np.array([before[k], before[k - 1], after[k - 1], after[k]])
        for before, after in itertools.pairwise(corners)
        for k in range(4)
    ]
    rings += [corners[0], corners[-1]]
    found = []
    for ring in rings:
        for three in ((0, 1, 2), (0, 2, 3)):
            flat = ring[list(three)] @ view.T
            a, b = flat[1] - flat[0], flat[2] - flat[0]
            if abs(a[0] * b[1] - a[1] * b[0]) > _LEAST:
                found.append(flat)
    return found


def _plane(face: Floats) -> Floats:
    """Depth over the picture as a x + b y + c, shape (3,)."""
    grid = np.column_stack([face[:, :2], np.ones(3)])
    return np.asarray(np.linalg.solve(grid, face[:, 2]), dtype=np.float64)


def _edges(corners: Floats) -> Iterator[Floats]:
    """The four long edges, and both ends."""
    for k in range(4):
        yield corners[:, k]
    for end in (corners[0], corners[-1]):
        yield np.vstack([end, end[:1]])


def _seen(edge: Floats, tree: shapely.STRtree, planes: Floats) -> Iterator[Shape]:
    """Stretches of an edge that nothing covers."""
    share = np.linspace(0.0, 1.0, _SAMPLES, endpoint=False)
    points = np.vstack(
        [
            *(a + np.outer(share, b - a) for a, b in itertools.pairwise(edge)),
            edge[-1:],
        ]
    )
    spots = shapely.points(points[:, :2])
    hidden = np.zeros(len(points), dtype=bool)
    spot, face = tree.query(spots, predicate="within")
    plane = planes[face]
    deep = points[spot, 0] * plane[:, 0] + points[spot, 1] * plane[:, 1] + plane[:, 2]
    hidden[spot[deep > points[spot, 2] + 0.05]] = True
    shown: list[tuple[float, float]] = []
    for point, behind in zip(points, hidden, strict=True):
        if not behind:
            shown.append((float(point[0]), float(point[1])))
        if behind and len(shown) > 1:
            yield Path(points=tuple(shown), role="face-edge")
        if behind:
            shown = []
    if len(shown) > 1:
        yield Path(points=tuple(shown), role="face-edge")


def _points(coordinates: object) -> tuple[tuple[float, float], ...]:
    return tuple((float(x), float(y)) for x, y in coordinates)  # type: ignore[attr-defined]
