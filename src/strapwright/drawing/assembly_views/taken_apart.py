"""The tooling taken apart, seen from a corner, each part with the number of the parts list."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from attrs import frozen

from strapwright.drawing.assembly_views.solid_lines import solid_lines
from strapwright.drawing.assembly_views.three_views import corners
from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.assembly.solid_values import Solid
from strapwright.scene.hidden_lines import CORNER, Picture
from strapwright.scene.placing import middle_baseline
from strapwright.scene.primitives import Circle, Line, Point, Scene, Shape, Text

WIDE, HIGH, TYPE = 680.0, 620.0, 15.0
_ROUND = 0.95  # radius of a balloon in type sizes
_APART = 2.5  # least distance of two balloons in type sizes
_SIDE = 4.5  # room at each side in type sizes


@frozen(kw_only=True)
class _Spot:
    number: int
    at: Point


def taken_apart(made: Assembly, name: str, *, wide: float = WIDE, high: float = HIGH) -> Scene:
    """Draw the tooling taken apart.

    Parameters
    ----------
    made
        Put together.
    name
        Of the job.
    wide, high
        Room for the drawing [px].

    Returns
    -------
    Scene
        Isometric, hidden edges left out; every number of the parts list stands at one of its parts.
    """
    solids = [one.solid.moved(one.apart) for one in made.parts]
    points = [CORNER.flat(one) for solid in solids for one in corners(solid)]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, top = min(y for _, y in points), max(y for _, y in points)
    scale = min((wide - 2 * _SIDE * TYPE) / (right - left), (high - 2 * TYPE) / (top - low))
    px = 1 / scale
    middle = (left + right) / 2
    half = wide / 2 * px
    picture = Picture(solids, CORNER)
    shapes = solid_lines(picture)
    spots = [_spot(made, item.number, picture, solids) for item in made.items]
    placed = [one for one in spots if one is not None]
    for side in (-1, 1):
        beside = sorted(
            (one for one in placed if (one.at[0] >= middle) == (side > 0)), key=lambda s: s.at[1]
        )
        edge = middle + side * (half - 2 * TYPE * px)
        shapes += _column(beside, edge, side, (low, top), px)
    return Scene(
        title=f"{name}: the tooling taken apart",
        description=", ".join(f"{one.number}: {one.name}" for one in made.items),
        bounds=(middle - half, low - TYPE * px, middle + half, top + TYPE * px),
        scale=scale,
        shapes=tuple(shapes),
    )


def _spot(made: Assembly, number: int, picture: Picture, solids: Sequence[Solid]) -> _Spot | None:
    """A point on the part of an item of which most is seen."""
    own = [index for index, one in enumerate(made.parts) if one.item == number]
    if not own:
        return None
    areas = [picture.seen(index) for index in own]
    best = max(areas, key=shapely.area)
    if shapely.area(best) > 1.0:  # mm2
        largest = max(shapely.get_parts(best), key=shapely.area)
        at = largest.representative_point()
        return _Spot(number=number, at=(at.x, at.y))
    points = [CORNER.flat(one) for one in corners(solids[own[0]])]
    count = len(points)
    return _Spot(
        number=number, at=(sum(x for x, _ in points) / count, sum(y for _, y in points) / count)
    )


def _column(
    spots: Sequence[_Spot], x: float, side: int, room: tuple[float, float], px: float
) -> list[Shape]:
    """Balloons under each other as near their parts' heights as they go."""
    step, radius = _APART * TYPE * px, _ROUND * TYPE * px
    heights: list[float] = []
    for spot in spots:
        heights.append(max(spot.at[1], heights[-1] + step if heights else room[0] + radius))
    over = (heights[-1] if heights else 0.0) - (room[1] - radius)
    for k in range(len(heights) - 1, -1, -1):
        if over <= 0:
            break
        highest = room[1] - radius if k == len(heights) - 1 else heights[k + 1] - step
        heights[k] = min(heights[k], highest)
    shapes: list[Shape] = []
    for spot, y in zip(spots, heights, strict=True):
        shapes += [
            Line(start=(x - side * radius, y), end=spot.at, role="leader"),
            Circle(centre=spot.at, radius=2.2 * px, role="dot"),
            Circle(centre=(x, y), radius=radius, role="balloon"),
            Text(
                at=(x, middle_baseline(y, TYPE, px)), text=str(spot.number), size=TYPE,
                role="value", anchor="middle",
            ),
        ]  # fmt: skip
    return shapes
