"""Drawings as a sheet takes them: a tall one in pieces that each find a page."""

from __future__ import annotations

from itertools import pairwise

from attrs import evolve

from strapwright.scene.lettering import ASCENT, DESCENT
from strapwright.scene.primitives import Arc, Circle, Line, Path, Scene, Shape


def in_pieces(scene: Scene, most: float) -> tuple[Scene, ...]:
    """Cut a tall drawing between its lines, so that each piece finds a page.

    Parameters
    ----------
    scene
        With rows of bar that leave air between them and their words.
    most
        Height of a piece [px]; a row that is higher stays whole.

    Returns
    -------
    tuple of Scene
        From the top down, at the same scale.
    """
    left, bottom, right, top = scene.bounds
    cuts = _between_rows(scene)
    pieces = []
    while (top - bottom) * scene.scale > most:
        below = [cut for cut in cuts if bottom < cut < top]
        within = [cut for cut in below if (top - cut) * scene.scale <= most]
        if not below:
            break
        cut = min(within) if within else max(below)
        pieces.append((cut, top))
        top = cut
    pieces.append((bottom, top))
    return tuple(
        evolve(
            scene,
            bounds=(left, low, right, high),
            shapes=tuple(s for s in scene.shapes if low <= _low(s, scene.scale) < high),
        )
        for low, high in pieces
    )


def _between_rows(scene: Scene) -> list[float]:
    """Heights between rows of bar, in the widest air: words stay with their row [mm]."""
    spans = sorted(_span(shape, scene.scale) for shape in scene.shapes)
    gaps = []
    highest = spans[0][1]
    for low, high in spans[1:]:
        if low > highest:
            gaps.append((low - highest, (low + highest) / 2))
        highest = max(highest, high)
    rows = sorted(_span(shape, scene.scale) for shape in scene.shapes if shape.role == "bar")
    cuts: list[float] = []
    for (_, under), (over, _) in pairwise(rows):
        air = [gap for gap in gaps if under < gap[1] < over]
        cuts.extend(cut for _, cut in sorted(air)[-1:])
    return cuts


def _low(shape: Shape, scale: float) -> float:
    """Return the lowest point of a shape, arcs by their full circle [mm]; ``scale`` in px/mm."""
    return _span(shape, scale)[0]


def _span(shape: Shape, scale: float) -> tuple[float, float]:
    if isinstance(shape, Path):
        heights = [y for _, y in shape.points]
        return min(heights), max(heights)
    if isinstance(shape, Line):
        return min(shape.start[1], shape.end[1]), max(shape.start[1], shape.end[1])
    if isinstance(shape, Circle | Arc):
        return shape.centre[1] - shape.radius, shape.centre[1] + shape.radius
    size = shape.size / scale
    return shape.at[1] - DESCENT * size, shape.at[1] + ASCENT * size
