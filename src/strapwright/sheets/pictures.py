"""Drawings as a sheet takes them: the picture alone where the sheet itself says the figures."""

from __future__ import annotations

from itertools import takewhile

from attrs import evolve

from strapwright.drawing.lettering import DESCENT
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


def _low(shape: Shape, scale: float) -> float:
    """Return the lowest point of a shape, arcs by their full circle [mm]; ``scale`` in px/mm."""
    if isinstance(shape, Path):
        return min(y for _, y in shape.points)
    if isinstance(shape, Line):
        return min(shape.start[1], shape.end[1])
    if isinstance(shape, Circle | Arc):
        return shape.centre[1] - shape.radius
    return shape.at[1] - DESCENT * shape.size / scale
