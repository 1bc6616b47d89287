"""A stroke beside its reference as one picture: curves above, what is between them below."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import frozen

from case_files import Floats
from strapwright.drawing.curve_axes import round_step
from strapwright.scene.primitives import Circle, Line, Path, Point, Role, Scene, Shape, Text

_PX = 25.4 / 96  # mm, as on every sheet
_BODY = 15.0  # px
_WIDE, _HIGH = 880.0, 470.0  # px
_TOP, _CURVES, _BETWEEN = 52.0, 230.0, 86.0  # px: heading, curves, strip below
_LEFT, _RIGHT, _GAP = 56.0, 14.0, 44.0  # px
_DOTS = 30  # about so many of the reference's rows are drawn on a curve; the strip has them all


@frozen(kw_only=True)
class Panel:
    """One quantity over the travel.

    Attributes
    ----------
    name, difference
        What it is and what the strip below shows, with their units.
    travel, ours, low, high
        Our curve and its band, shape (k,).
    at, truth, apart
        The reference's rows that count, and ours less them, shape (m,).
    band
        Half width of our band in the unit of ``apart``.
    """

    name: str
    difference: str
    travel: Floats
    ours: Floats
    low: Floats
    high: Floats
    at: Floats
    truth: Floats
    apart: Floats
    band: float


def plot(title: str, description: str, panels: Sequence[Panel]) -> Scene:
    """Draw panels side by side over one travel.

    Parameters
    ----------
    title, description
        For people who hear the page.
    panels
        From left to right.
    """
    shapes: list[Shape] = []
    wide = (_WIDE - _LEFT - _RIGHT - (len(panels) - 1) * (_GAP + _LEFT)) / len(panels)
    for place, panel in enumerate(panels):
        left = _LEFT + place * (wide + _GAP + _LEFT)
        shapes += _curves(panel, left, wide)
        shapes += _strip(panel, left, wide)
    return Scene(
        title=title,
        description=description,
        bounds=(0.0, -_HIGH * _PX, _WIDE * _PX, 0.0),
        scale=1.0 / _PX,
        shapes=tuple(shapes),
    )


@frozen(kw_only=True)
class _Box:
    """From figures to places; px from the top left."""

    left: float
    wide: float
    top: float
    high: float
    last: float
    least: float
    most: float

    def at(self, x: float, y: float) -> Point:
        across = self.left + self.wide * x / self.last
        down = self.top + self.high * (self.most - y) / (self.most - self.least)
        return across * _PX, -down * _PX

    def line(self, x: Floats, y: Floats) -> tuple[Point, ...]:
        return tuple(self.at(float(a), float(b)) for a, b in zip(x, y, strict=True))


def _curves(panel: Panel, left: float, wide: float) -> list[Shape]:
    last = float(panel.travel[-1])
    most = 1.08 * max(float(panel.high.max()), float(panel.truth.max()))
    box = _Box(left=left, wide=wide, top=_TOP, high=_CURVES, last=last, least=0.0, most=most)
    shapes: list[Shape] = [_words(left - _LEFT + 6, 24.0, panel.name, role="value")]
    step = round_step(most, 5)
    shapes += _rules(box, [k * step for k in range(int(most / step + 1e-9) + 1)], "g")
    veil = box.line(panel.travel, panel.high) + box.line(panel.travel[::-1], panel.low[::-1])
    shapes.append(Path(points=veil, role="veil", closed=True))
    shapes.append(Path(points=box.line(panel.travel, panel.ours), role="curve"))
    thin = max(len(panel.at) // _DOTS, 1)
    # Counted from the end, so that the last row is among them.
    chosen = np.arange(len(panel.at) - 1, -1, -thin)[::-1]
    shapes += [
        Circle(centre=point, radius=3.2 * _PX, role="pause")
        for point in box.line(panel.at[chosen], panel.truth[chosen])
    ]
    return shapes


def _strip(panel: Panel, left: float, wide: float) -> list[Shape]:
    last = float(panel.travel[-1])
    most = 1.25 * max(panel.band, float(np.abs(panel.apart).max()))
    top = _TOP + _CURVES + 46.0
    box = _Box(left=left, wide=wide, top=top, high=_BETWEEN, last=last, least=-most, most=most)
    shapes: list[Shape] = [_words(left - _LEFT + 6, top - 12.0, panel.difference, role="value")]
    veil = (
        box.at(0.0, panel.band),
        box.at(last, panel.band),
        box.at(last, -panel.band),
        box.at(0.0, -panel.band),
    )
    shapes.append(Path(points=veil, role="veil", closed=True))
    shapes += _rules(box, [-panel.band, 0.0, panel.band], "+g")
    shapes.append(Path(points=box.line(panel.at, panel.apart), role="curve"))
    step = round_step(last, 6)
    for k in range(int(last / step + 1e-9) + 1):
        x, y = box.at(k * step, -most)
        shapes.append(Line(start=(x, y), end=(x, y - 5 * _PX), role="paper-rule"))
        shapes.append(
            _words(x / _PX, -y / _PX + 8 + 0.85 * _BODY, f"{k * step:g}", anchor="middle")
        )
    foot = top + _BETWEEN + 14 + 2.1 * _BODY
    shapes.append(_words(left + wide, foot, "travel from touch, mm", anchor="end"))
    return shapes


def _rules(box: _Box, values: Sequence[float], form: str) -> list[Shape]:
    """Axes, and a line across at each value with its figure."""
    corner, up = box.at(0.0, box.least), box.at(0.0, box.most)
    end = box.at(box.last, box.least)
    shapes: list[Shape] = [
        Line(start=corner, end=up, role="paper-rule"),
        Line(start=corner, end=end, role="paper-rule"),
    ]
    for value in values:
        start, far = box.at(0.0, value), box.at(box.last, value)
        shapes.append(Line(start=start, end=far, role="grid" if value else "paper-rule"))
        said = f"{value:{form}}" if value else "0"
        down = -start[1] / _PX + 0.34 * _BODY
        shapes.append(_words(box.left - 8, down, said, anchor="end"))
    return shapes


def _words(
    across: float, down: float, text: str, *, role: Role = "label", anchor: str = "start"
) -> Text:
    return Text(
        at=(across * _PX, -down * _PX),
        text=text,
        size=_BODY,
        role=role,
        anchor=anchor,  # type: ignore[arg-type]  # one of three
    )
