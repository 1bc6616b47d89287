"""Drawings as a sheet takes them: the picture alone where the sheet itself says the figures."""

from __future__ import annotations

from itertools import pairwise, takewhile

from attrs import evolve

from strapwright.drawing.lettering import ASCENT, DESCENT
from strapwright.drawing.scene import Arc, Circle, Line, Path, Scene, Shape, Text

_AIR = 4.0  # px below a picture
_TALLEST = 0.85  # of its width; a leg that hangs lower runs out of the picture


def without_figures(*scenes: Scene) -> tuple[Scene, ...]:
    """Leave out the figures that stand under pictures of one bend, and the room they took.

    Parameters
    ----------
    scenes
        At one scale; in each the figures are drawn last and begin with the large one.

    Returns
    -------
    tuple of Scene
        All with the same bounds, so that side by side they keep one scale.
    """
    kept = [tuple(takewhile(_is_no_figure, scene.shapes)) for scene in scenes]
    scale = scenes[0].scale
    lowest = min(_low(shape, scale) for shapes in kept for shape in shapes)
    left, _, right, _ = scenes[0].bounds
    top = max(scene.bounds[3] for scene in scenes)
    bottom = max(lowest - _AIR / scale, top - _TALLEST * (right - left))
    return tuple(
        evolve(scene, bounds=(left, bottom, right, top), shapes=shapes)
        for scene, shapes in zip(scenes, kept, strict=True)
    )


def _is_no_figure(shape: Shape) -> bool:
    return not (isinstance(shape, Text) and shape.role == "figure")


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
