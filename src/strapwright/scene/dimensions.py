"""Dimension lines: two extension lines, a line with strokes at its ends, a figure in its gap."""

from __future__ import annotations

import math

from strapwright.scene.lettering import ASCENT, DESCENT, text_width
from strapwright.scene.placing import middle_baseline
from strapwright.scene.primitives import Line, Point, Role, Shape, Text


def dimension(
    start: Point,
    end: Point,
    away: float,
    text: str,
    *,
    size: float,
    px: float,
    clear: float = 0.0,
    role: Role = "value",
) -> list[Shape]:
    """Dimension between two points.

    Parameters
    ----------
    start, end
        What is measured [mm].
    away
        From the points to the dimension line, positive to the left of start -> end [mm].
    text
        The figure, set level so that it reads without turning the head.
    size
        Of the figure [px].
    px
        One pixel [mm].
    clear
        Length along ``away`` that the extension lines leave free at the points [mm].
    """
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    side = math.copysign(1.0, away)
    out = (-along[1] * side, along[0] * side)
    reach = abs(away)

    def off(point: Point, by: float) -> Point:
        return (point[0] + out[0] * by, point[1] + out[1] * by)

    shapes: list[Shape] = [
        Line(start=off(point, clear), end=off(point, reach + 6 * px), role="extension")
        for point in (start, end)
        if reach + 6 * px > clear
    ]
    first, last = off(start, reach), off(end, reach)
    shapes.extend(_stroke(point, along, out, 5 * px) for point in (first, last))
    middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
    half_wide = (text_width(text, size) / 2 + 5) * px
    half_high = ((ASCENT + DESCENT) / 2 * size + 1) * px
    gap = min(
        half_wide / max(abs(along[0]), 1e-9),
        half_high / max(abs(along[1]), 1e-9),
    )
    if 2 * gap + 20 * px <= length:
        for point, sign in ((first, -1.0), (last, 1.0)):
            stop = (middle[0] + sign * along[0] * gap, middle[1] + sign * along[1] * gap)
            shapes.append(Line(start=point, end=stop, role="dimension"))
    else:  # no room within: the figure stands outside the whole line
        shapes.append(Line(start=first, end=last, role="dimension"))
        beyond = abs(out[0]) * half_wide + abs(out[1]) * half_high + 2 * px
        middle = (middle[0] + out[0] * beyond, middle[1] + out[1] * beyond)
    shapes.append(
        Text(
            at=(middle[0], middle_baseline(middle[1], size, px)),
            text=text,
            size=size,
            role=role,
            anchor="middle",
        )
    )
    return shapes


def _stroke(point: Point, along: Point, out: Point, half: float) -> Line:
    """Oblique stroke that ends a dimension line."""
    dx, dy = (along[0] + out[0]) * half * 0.7, (along[1] + out[1]) * half * 0.7
    return Line(
        start=(point[0] - dx, point[1] - dy), end=(point[0] + dx, point[1] + dy), role="dimension"
    )
