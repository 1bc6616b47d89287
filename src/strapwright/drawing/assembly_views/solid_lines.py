"""Solids in a parallel projection as lines of a scene: hidden edges left out."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from strapwright.scene.hidden_lines import Picture
from strapwright.scene.primitives import Path, Point, Role, Shape

_GRID = 1e-3  # mm to which ends of lines are drawn together, numerical


def solid_lines(
    picture: Picture, move: Point = (0.0, 0.0), *, bar: int | None = None
) -> list[Shape]:
    """Draw solids as they are looked at.

    Parameters
    ----------
    picture
        Of the solids.
    move
        Where the picture's zero comes to be [mm].
    bar
        Index of the solid that is the bar, if any.

    Returns
    -------
    list of Shape
        The tint of what is there, the bar, and each edge that is seen, once.
    """
    shapes: list[Shape] = [*_areas(picture.area(but=bar), move, "around")]
    if bar is not None:
        shapes += _areas(picture.seen(bar), move, "bar")
    lines = [
        shapely.LineString([one.start, one.end])
        for one in picture.stretches()
        if one.seen and one.solid != bar
    ]
    joined = shapely.line_merge(shapely.union_all(lines, grid_size=_GRID))
    for line in shapely.get_parts(joined):
        points = _moved(shapely.get_coordinates(line), move)
        shapes.append(Path(points=points, role="edge"))
    return shapes


def _areas(area: shapely.Geometry, move: Point, role: Role) -> Iterator[Path]:
    """Outlines of an area; a hole in it is drawn as background."""
    for part in shapely.get_parts(area):
        if not isinstance(part, shapely.Polygon) or part.area < _GRID:
            continue
        yield Path(
            points=_moved(shapely.get_coordinates(part.exterior)[:-1], move),
            role=role,
            closed=True,
        )
        for hole in part.interiors:
            points = _moved(shapely.get_coordinates(hole)[:-1], move)
            yield Path(points=points, role="hole", closed=True)


def _moved(coordinates: object, move: Point) -> tuple[Point, ...]:
    dx, dy = move
    return tuple((float(x) + dx, float(y) + dy) for x, y in coordinates)  # type: ignore[attr-defined]
