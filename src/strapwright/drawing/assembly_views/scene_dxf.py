"""Any drawing as DXF: its lines, rounds and words on layers by what they are."""

from __future__ import annotations

import io
import math
import re
from typing import TYPE_CHECKING, Any

from strapwright.drawing.plate_dxf import STYLE, dxf_document
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.scene.primitives import Arc, Circle, Line, Path, Point, Role, Scene, Shape, Text

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

# Role -> layer; tints and backgrounds are left out.
_LAYER: dict[Role, str] = {
    "edge": "EDGES",
    "bar": "BAR",
    "assumed": "PRESS",
    "sight": "CENTRES",
    "dimension": "DIMENSIONS",
    "extension": "DIMENSIONS",
    "leader": "NUMBERS",
    "balloon": "NUMBERS",
    "value": "TEXT",
    "label": "TEXT",
}
LAYERS = {
    "EDGES": (7, "CONTINUOUS"),
    "BAR": (1, "CONTINUOUS"),
    "PRESS": (8, "CONTINUOUS"),
    "CENTRES": (1, "CONTINUOUS"),
    "DIMENSIONS": (4, "CONTINUOUS"),
    "NUMBERS": (3, "CONTINUOUS"),
    "TEXT": (2, "CONTINUOUS"),
}
_ALIGN = {"start": 0, "middle": 1, "end": 2}  # codes of the format


def scene_dxf(scene: Scene, units: Units) -> bytes:
    """Write a drawing as DXF.

    Parameters
    ----------
    scene
        In mm.
    units
        In which the file is.

    Returns
    -------
    bytes
        DXF R2010 in true size; the same drawing gives the same bytes.
    """
    document = dxf_document(units, LAYERS)
    pen = _Pen(document.modelspace(), INCH_MM if units == "inch" else 1.0, 1 / scene.scale)
    for shape in scene.shapes:
        layer = _LAYER.get(shape.role)
        if layer is not None:
            pen.draw(shape, layer)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode("utf-8")


class _Pen:
    """Draws in the unit of the file; ``per`` mm are one of it, ``px`` mm one pixel."""

    def __init__(self, space: Modelspace, per: float, px: float) -> None:
        self.space, self.per, self.px = space, per, px

    def at(self, point: Point) -> Point:
        return point[0] / self.per, point[1] / self.per

    def draw(self, shape: Shape, layer: str) -> None:
        on: dict[str, Any] = {"layer": layer}
        if isinstance(shape, Line):
            self.space.add_line(self.at(shape.start), self.at(shape.end), dxfattribs=on)
        elif isinstance(shape, Circle):
            self.space.add_circle(self.at(shape.centre), shape.radius / self.per, dxfattribs=on)
        elif isinstance(shape, Arc):
            self.space.add_arc(
                self.at(shape.centre), shape.radius / self.per, math.degrees(shape.start),
                math.degrees(shape.end), dxfattribs=on,
            )  # fmt: skip
        elif isinstance(shape, Path):
            bulges = shape.bulges or (0.0,) * len(shape.points)
            points = [
                (*self.at(one), bulge) for one, bulge in zip(shape.points, bulges, strict=True)
            ]
            self.space.add_lwpolyline(points, format="xyb", close=shape.closed, dxfattribs=on)
        else:
            self._text(shape, on)

    def _text(self, text: Text, on: dict[str, Any]) -> None:
        place = self.at(text.at)
        self.space.add_text(
            plain_words(text.text),
            height=0.7 * text.size * self.px / self.per,
            dxfattribs={
                **on, "style": STYLE, "insert": place, "align_point": place,
                "halign": _ALIGN[text.anchor],
            },
        )  # fmt: skip


def plain_words(words: str) -> str:
    """Return words as a face of the format can write them: 1-1/2 for a set fraction."""
    plain = words.replace("\N{THIN SPACE}", "-").replace("\N{FRACTION SLASH}", "/")
    # Two percent signs in a row begin a code of the format.
    return re.sub("%(?=%)", "% ", plain)
