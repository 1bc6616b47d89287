"""The tooling as shapes: nose, web and push plate above, shoulders, floor and bed below."""

from __future__ import annotations

import math

from strapwright.scene.primitives import Circle, Line, Path, Point, Shape
from strapwright.shop.tooling import Nose, Shoulders

_QUARTER = math.tan(math.pi / 8)  # bulge of a quarter turn


def plate_height(nose: Nose, nose_y: float) -> float | None:
    """Height of the push plate's face, or ``None`` where nothing says how far it is [mm]."""
    if nose.reach is not None:
        return nose_y - nose.radius + nose.reach
    if nose.web_height is not None:
        return nose_y + nose.radius + nose.web_height
    return None


def nose_shapes(
    nose: Nose, nose_y: float, top: float, half_plate: float, *, plate_stated: bool = True
) -> list[Shape]:
    """Nose, web and push plate.

    Parameters
    ----------
    nose_y
        Height of the nose's centre [mm].
    top
        Where the picture ends [mm]; the web is broken off there if the plate is higher.
    half_plate
        Half the width drawn of the push plate [mm].
    plate_stated
        Whether somebody stated that width; an assumed one is dashed.
    """
    shapes: list[Shape] = []
    plate = plate_height(nose, nose_y)
    web_top = top if plate is None or plate > top else plate
    if nose.web_thickness is not None and web_top > nose_y:
        w = nose.web_thickness / 2
        shapes.append(
            Path(
                points=((-w, web_top), (-w, nose_y), (w, nose_y), (w, web_top)),
                role="web",
            )
        )
    if plate is not None and plate <= top:
        shapes.append(
            Path(
                points=(
                    (-half_plate, top),
                    (-half_plate, plate),
                    (half_plate, plate),
                    (half_plate, top),
                ),
                role="plate" if plate_stated else "assumed",  # open at the top: it goes on
            )
        )
    shapes.append(Circle(centre=(0.0, nose_y), radius=nose.radius, role="nose"))
    return shapes


def shoulder_shapes(shoulders: Shoulders, bottom: float) -> list[Shape]:
    """Both shoulders, the floor between them and the bed, cut off at ``bottom`` [mm]."""
    r, half = shoulders.radius, shoulders.opening / 2
    inner = half - r
    outer = shoulders.outer_edge if shoulders.outer_edge is not None else half + r
    foot = bottom if shoulders.height is None else max(bottom, -shoulders.height)
    shapes: list[Shape] = []
    if shoulders.floor != "open" and shoulders.depth is not None and -shoulders.depth > bottom:
        shapes.append(_floor(shoulders, inner, foot))
    points: list[Point] = [(inner, foot), (inner, -r), (half, 0.0)]
    bulges = [0.0, -_QUARTER, 0.0]
    if outer < half + r - 1e-9 or shoulders.outer_edge is not None:
        edge = max(outer, half)  # a block: flat from the round to its outer edge
        points += [(edge, 0.0), (edge, foot)]
        bulges += [0.0, 0.0]
    else:
        points += [(half + r, -r), (half + r, foot)]
        bulges = [0.0, -_QUARTER, -_QUARTER, 0.0, 0.0]
    shapes.extend(
        Path(
            points=tuple((sign * x, y) for x, y in points),
            bulges=tuple(sign * bulge for bulge in bulges),
            role="shoulders",
            closed=foot > bottom,  # cut off by the picture they have no lower edge
        )
        for sign in (1.0, -1.0)
    )
    if shoulders.height is not None and foot > bottom:
        wide = outer * 1.25
        shapes.append(Line(start=(-wide, foot), end=(wide, foot), role="paper-rule"))
    return shapes


def _floor(shoulders: Shoulders, inner: float, foot: float) -> Path:
    """Floor between the shoulders; a vee is lowest in the middle, at the stated depth."""
    depth = shoulders.depth if shoulders.depth is not None else 0.0
    top: tuple[Point, ...] = ((-inner, -depth), (inner, -depth))
    if shoulders.floor == "vee" and shoulders.vee_angle is not None:
        rise = inner / math.tan(shoulders.vee_angle / 2)
        edge = min(-depth + rise, -shoulders.radius)
        reach = (edge + depth) * math.tan(shoulders.vee_angle / 2)
        top = ((-inner, edge), (-reach, edge), (0.0, -depth), (reach, edge), (inner, edge))
    if shoulders.channel_width is not None and shoulders.channel_walls is not None:
        wall, rim = shoulders.channel_width / 2, shoulders.channel_walls - depth
        top = ((-inner, rim), (-wall, rim), (-wall, -depth))
        top += tuple((-x, y) for x, y in reversed(top))
    low = min(foot, -depth)
    return Path(points=((-inner, low), *top, (inner, low)), role="floor", closed=True)


def turned_over(shape: Shape) -> Shape:
    """Mirror tooling about y = 0; a view from behind keeps left and right."""
    if isinstance(shape, Circle):
        return Circle(centre=_over(shape.centre), radius=shape.radius, role=shape.role)
    if isinstance(shape, Line):
        return Line(start=_over(shape.start), end=_over(shape.end), role=shape.role)
    if isinstance(shape, Path):
        return Path(
            points=tuple(_over(point) for point in shape.points),
            bulges=tuple(-bulge for bulge in shape.bulges),
            role=shape.role,
            closed=shape.closed,
        )
    raise TypeError("words and arcs are set after the picture is turned over")


def _over(point: Point) -> Point:
    return (point[0], -point[1])
