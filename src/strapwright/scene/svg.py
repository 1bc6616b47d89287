"""A scene as a stand-alone SVG file; the same scene gives the same bytes."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape

from strapwright.scene.primitives import Arc, Circle, Line, Path, Point, Scene, Shape, Text
from strapwright.scene.themes import FAMILY, PALETTES, Theme, style_of

_FRACTION = re.compile("(\\d+\N{FRACTION SLASH}\\d+)")
# XML 1.0 has no way at all to write these.
_UNWRITABLE = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def to_svg(scene: Scene, theme: Theme | None = "dark") -> str:
    """Write a scene as SVG.

    Parameters
    ----------
    scene
        In mm, y up.
    theme
        ``dark``, ``light`` (daylight) or ``paper``; ``None`` leaves the look to the page that the
        drawing stands in, see :func:`page_rules`.

    Returns
    -------
    str
        A whole file with its own style, title and description; lengths in px at nominal size.
    """
    left, bottom, right, top = scene.bounds
    wide, high = (right - left) * scene.scale, (top - bottom) * scene.scale
    size = f"{_number(wide)} {_number(high)}"
    look = "sw" if theme is None else f"sw sw-{theme}"
    lines = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="{look}" role="img" '
            f'viewBox="0 0 {size}" width="{_number(wide)}" height="{_number(high)}">'
        ),
        f"<title>{_words(scene.title)}</title>",
        f"<desc>{_words(scene.description)}</desc>",
    ]
    if theme is not None:
        lines += [
            f"<style>{_style(scene, theme)}</style>",
            f'<rect class="ground" width="{_number(wide)}" height="{_number(high)}"/>',
        ]
    write = _Writer(left, top, scene.scale)
    lines.extend(write.shape(shape) for shape in scene.shapes)
    lines.append("</svg>\n")
    return "\n".join(lines)


def shapes_to_svg(shapes: Iterable[Shape]) -> str:
    """Write shapes without a frame around them: 1 px a mm, y down, the origin where it was."""
    write = _Writer(0.0, 0.0, 1.0)
    return "\n".join(write.shape(shape) for shape in shapes)


def page_rules(theme: Theme, scope: str) -> str:
    """Write the style sheet of drawings that stand in a page.

    Parameters
    ----------
    theme
        As in :func:`to_svg`.
    scope
        Selector of what the drawings stand in.
    """
    ground = PALETTES[theme].ground
    # What glows in one look must not go on glowing where another takes over.
    rules = [f"{scope} .sw text{{stroke:{ground};}}", f"{scope} .sw *{{filter:none;}}"]
    rules.extend(f"{scope} .sw .{role}{{{css}}}" for role, css in style_of(theme).items())
    return "".join(rules)


def _style(scene: Scene, theme: Theme) -> str:
    # Each rule names the theme, so that drawings of two themes can stand in one page.
    used = {shape.role for shape in scene.shapes}
    scope = f".sw-{theme}"
    ground = PALETTES[theme].ground
    rules = [
        f"{scope} .ground{{fill:{ground};}}",
        (
            f"{scope} text{{font-family:{FAMILY};font-variant-numeric:tabular-nums lining-nums;"
            f"paint-order:stroke;stroke:{ground};stroke-width:4px;stroke-linejoin:round;}}"
        ),
        f"{scope} .frac{{font-variant-numeric:diagonal-fractions;}}",
    ]
    rules.extend(
        f"{scope} .{role}{{{css}}}" for role, css in style_of(theme).items() if role in used
    )
    return "".join(rules)


def _number(value: float) -> str:
    """Two decimals at most, no negative zero: bytes do not depend on the last bits."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _words(text: str) -> str:
    return escape(_UNWRITABLE.sub("\N{REPLACEMENT CHARACTER}", text))


class _Writer:
    """Turns mm with y up into px with y down."""

    def __init__(self, left: float, top: float, scale: float) -> None:
        self.left, self.top, self.scale = left, top, scale

    def x(self, mm: float) -> str:
        return _number((mm - self.left) * self.scale)

    def y(self, mm: float) -> str:
        return _number((self.top - mm) * self.scale)

    def at(self, point: Point) -> str:
        return f"{self.x(point[0])} {self.y(point[1])}"

    def shape(self, shape: Shape) -> str:
        if isinstance(shape, Text):
            return self._text(shape)
        if isinstance(shape, Line):
            return (
                f'<line class="{shape.role}" x1="{self.x(shape.start[0])}" '
                f'y1="{self.y(shape.start[1])}" x2="{self.x(shape.end[0])}" '
                f'y2="{self.y(shape.end[1])}"/>'
            )
        if isinstance(shape, Circle):
            return (
                f'<circle class="{shape.role}" cx="{self.x(shape.centre[0])}" '
                f'cy="{self.y(shape.centre[1])}" r="{_number(shape.radius * self.scale)}"/>'
            )
        data = self._arc(shape) if isinstance(shape, Arc) else "".join(self._path(shape))
        return f'<path class="{shape.role}" d="{data}"/>'

    def _text(self, text: Text) -> str:
        anchor = "" if text.anchor == "start" else f' text-anchor="{text.anchor}"'
        words = "".join(
            f'<tspan class="frac">{part}</tspan>' if _FRACTION.fullmatch(part) else _words(part)
            for part in _FRACTION.split(text.text)
        )
        return (
            f'<text class="{text.role}" x="{self.x(text.at[0])}" y="{self.y(text.at[1])}" '
            f'font-size="{_number(text.size)}"{anchor}>{words}</text>'
        )

    def _arc(self, arc: Arc) -> str:
        (x, y), r = arc.centre, arc.radius
        start = (x + r * math.cos(arc.start), y + r * math.sin(arc.start))
        end = (x + r * math.cos(arc.end), y + r * math.sin(arc.end))
        return f"M{self.at(start)}" + self._sweep(end, r, arc.end - arc.start)

    def _sweep(self, end: Point, radius: float, turn: float) -> str:
        size = _number(radius * self.scale)
        # y runs down on the page, so counter-clockwise is the sweep with flag 0.
        return f"A{size} {size} 0 {int(abs(turn) > math.pi)} {int(turn < 0)} {self.at(end)}"

    def _path(self, path: Path) -> Iterator[str]:
        yield f"M{self.at(path.points[0])}"
        ends = (*path.points[1:], path.points[0]) if path.closed else path.points[1:]
        bulges = path.bulges or (0.0,) * len(path.points)
        for start, end, bulge in zip(path.points, ends, bulges, strict=False):
            if bulge == 0.0:
                yield f"L{self.at(end)}"
            else:
                # Chord c, bulge b = tan(turn / 4): radius c (1 + b^2) / (4 |b|).
                chord = math.hypot(end[0] - start[0], end[1] - start[1])
                radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
                yield self._sweep(end, radius, 4 * math.atan(bulge))
        if path.closed:
            yield "Z"
