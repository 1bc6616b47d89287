"""Nose and shoulders at first contact, to scale, from their sizes alone: no bend is planned."""

from __future__ import annotations

import numpy as np
from attrs import frozen

from strapwright.drawing import tooling_shapes
from strapwright.scene.boxes import Box
from strapwright.scene.dimensions import dimension
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.placing import Layout, Row
from strapwright.scene.primitives import Path, Point, Scene
from strapwright.shop.tooling import Nose, Shoulders

_PAD = 16.0  # px
_MOST_UP, _MOST_DOWN = 2.4, 1.8  # openings drawn above and below the shoulder tops
_SIDE = 7.5  # letters of body type kept to each side for words
_PLATE = 1.1  # openings to each side that a plate is drawn wide


@frozen(kw_only=True)
class SizeWords:
    """What stands beside each of the three sizes: its name, and its figure or nothing."""

    nose: tuple[str, str]
    radius: tuple[str, str]
    opening: tuple[str, str]


def tooling_scene(
    nose: Nose,
    shoulders: Shoulders,
    words: SizeWords,
    *,
    thickness: float = 0.0,
    below: bool = False,
    frame: Frame = WIDE,
) -> Scene:
    """Draw the tooling with the bar laid on it.

    Parameters
    ----------
    nose, shoulders
        The tooling.
    words
        Beside its sizes.
    thickness
        Of the bar; 0 draws none [mm].
    below
        Whether the nose comes from below.
    frame
        Room for the drawing.

    Returns
    -------
    Scene
        To scale.
    """
    window = _window(nose, shoulders, thickness)
    wide, high = window.right - window.left, window.top - window.bottom
    room = frame.width - 2 * _PAD - 2 * _SIDE * frame.body
    scale = min(room / wide, (frame.height - 2 * _PAD - 3.0 * frame.body) / high)
    layout = Layout(scale=scale)
    px, flip = layout.px, -1.0 if below else 1.0
    half_plate = min(_PLATE * shoulders.opening, window.right)
    at = thickness + nose.radius
    shapes = [
        *tooling_shapes.shoulder_shapes(shoulders, window.bottom),
        *tooling_shapes.nose_shapes(nose, at, window.top, half_plate),
    ]
    if thickness > 0.0:
        ends = 0.5 * (window.right - window.left)
        corners: tuple[Point, ...] = ((-ends, 0), (ends, 0), (ends, thickness), (-ends, thickness))
        shapes.append(Path(points=corners, role="bar", closed=True))
    layout.draw(*(tooling_shapes.turned_over(one) if below else one for one in shapes))
    for shape in shapes:
        if isinstance(shape, Path):
            ring = np.array((*shape.points, shape.points[0])) * (1.0, flip)
            layout.keep_clear(ring, 1.5 * px)
    half = shoulders.opening / 2
    foot = flip * (window.bottom - 1.6 * frame.body * px)
    layout.add(
        *dimension(
            (-half, -flip * shoulders.radius),
            (half, -flip * shoulders.radius),
            foot + flip * shoulders.radius,
            " ".join(filter(None, words.opening)),
            size=frame.body,
            px=px,
            role="value" if words.opening[1] else "label",
        )
    )
    outer = max(shoulders.outer_edge or 0.0, half + shoulders.radius)
    _beside(layout, frame, words.radius, outer, -0.5 * shoulders.radius * flip)
    _beside(
        layout, frame, words.nose, max(nose.radius, half_plate * 0.25), flip * (at + nose.radius)
    )
    extent = layout.extent()
    side = frame.width / 2 * px
    low = min(window.bottom, *(flip * y for y in (extent.bottom, extent.top))) - _PAD * px
    top = max(window.top, *(flip * y for y in (extent.bottom, extent.top))) + _PAD * px
    bounds = (-side, low, side, top) if not below else (-side, -top, side, -low)
    named = ", ".join(
        " ".join(filter(None, one)) for one in (words.nose, words.radius, words.opening)
    )
    return Scene(
        title="The tooling at first contact",
        description=f"To scale: {named}.",
        bounds=bounds,
        scale=scale,
        shapes=tuple(layout.shapes),
    )


def _window(nose: Nose, shoulders: Shoulders, thickness: float) -> Box:
    opening = shoulders.opening
    outer = max(shoulders.outer_edge or 0.0, opening / 2 + shoulders.radius)
    top = thickness + 4.0 * nose.radius
    plate = tooling_shapes.plate_height(nose, thickness + nose.radius)
    if plate is not None:
        top = max(top, min(plate + 0.15 * opening, _MOST_UP * opening + 2.0 * nose.radius))
    down = max(shoulders.height or 0.0, shoulders.depth or 0.0, 0.9 * opening)
    return Box(-1.25 * outer, -1.05 * min(down, _MOST_DOWN * opening), 1.25 * outer, top)


def _beside(
    layout: Layout, frame: Frame, words: tuple[str, str], out: float, height: float
) -> None:
    """Set the name of a size and its figure to the right of what has it, or to the left."""
    name, figure = words
    rows: list[Row] = [(name, frame.body, "label")]
    rows += [(figure, frame.body, "value")] if figure else []
    wide, high = layout.half_size(rows)
    spots = [
        (sign * (out + far * layout.px + wide), height + up * high)
        for far in (8.0, 24.0)
        for up in (0.0, 1.0, -1.0, 2.0, -2.0)
        for sign in (1.0, -1.0)
    ]
    layout.place_words(rows, spots)
