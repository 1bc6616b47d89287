"""One bend over the parts of a batch: each angle, the tolerance, and what chance alone does."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import frozen

from strapwright.drawing.curve_axes import round_step
from strapwright.learning.control_chart import Chart
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import text_width
from strapwright.scene.primitives import Anchor, Circle, Line, Path, Role, Scene, Shape, Text

BATCH_WIDE = Frame(width=880.0, height=420.0, body=16.0)
BATCH_PHONE = Frame(width=390.0, height=380.0, body=14.0)
_LEAST_SPAN = 1.0  # deg shown beside the figures, so that noise does not fill the picture


@frozen(kw_only=True)
class Dot:
    """One part of a batch.

    Attributes
    ----------
    part
        Its number.
    angle
        Set back to one stop [rad].
    marked
        Whether it breaks a rule of the chart, or is out of tolerance.
    """

    part: int
    angle: float
    marked: bool


class _Graph:
    """From parts and degrees to places in the drawing [px]."""

    def __init__(self, frame: Frame, count: int, low: float, high: float) -> None:
        self.frame, self.body = frame, frame.body
        self.count, self.low, self.high = count, low, high
        self.left = 4.2 * frame.body
        self.foot = 3.4 * frame.body
        self.wide = frame.width - self.left - 1.4 * frame.body
        self.tall = frame.height - self.foot - 2.2 * frame.body
        self.shapes: list[Shape] = []

    def at(self, place: float, degrees: float) -> tuple[float, float]:
        share = (place + 0.5) / self.count
        return (
            self.left + self.wide * share,
            self.foot + self.tall * (degrees - self.low) / (self.high - self.low),
        )

    def across(self, degrees: float, role: Role) -> None:
        y = self.at(0.0, degrees)[1]
        self.shapes.append(Line(start=(self.left, y), end=(self.left + self.wide, y), role=role))

    def text(
        self, at: tuple[float, float], said: str, role: Role, anchor: Anchor = "start"
    ) -> None:
        self.shapes.append(Text(at=at, text=said, size=self.body, role=role, anchor=anchor))


def batch_scene(
    dots: Sequence[Dot],
    wanted: float,
    tolerance: float,
    chart: Chart | None,
    moved_since: int | None,
    said: str,
    frame: Frame = BATCH_WIDE,
) -> Scene:
    """Draw the parts of a batch in the order they were made.

    Parameters
    ----------
    dots
        The parts, one at least.
    wanted, tolerance
        Of the angle [rad]; drawn as a band.
    chart
        Its limits are drawn where there are parts enough for them; ``None`` of fewer than two.
    moved_since
        Place of the first part since which the set-up has moved, from 0.
    said
        What a person hears who cannot see the picture.
    frame
        Room for the drawing.
    """
    degrees = [math.degrees(one.angle) for one in dots]
    middle, off = math.degrees(wanted), math.degrees(tolerance)
    limits = []
    if chart is not None and chart.enough:
        limits = [math.degrees(chart.low), math.degrees(chart.high)]
    shown = [*degrees, *limits, middle - off, middle + off]
    span = max(max(shown) - min(shown), _LEAST_SPAN)
    graph = _Graph(frame, len(dots), min(shown) - 0.12 * span, max(shown) + 0.2 * span)
    _band(graph, middle, off)
    _axes(graph, [one.part for one in dots])
    for limit, word in zip(limits, ("chance, low", "chance, high"), strict=False):
        graph.across(limit, "beyond")
        x, y = graph.at(0.0, limit)
        drop = -1.1 if limit == limits[0] else 0.3
        graph.text((graph.left + 0.4 * frame.body, y + drop * frame.body), word, "label")
    if moved_since is not None and moved_since > 0:
        x = graph.at(moved_since - 0.5, middle)[0]
        ends = (graph.foot, graph.foot + graph.tall)
        graph.shapes.append(Line(start=(x, ends[0]), end=(x, ends[1]), role="stop"))
        words = f"moved since part {dots[moved_since].part}"
        beside = 0.4 * frame.body
        room = frame.width - x - beside - text_width(words, frame.body) > 0.0
        place = (x + beside if room else x - beside, ends[1] - frame.body)
        graph.text(place, words, "figure", "start" if room else "end")
    points = tuple(graph.at(place, one) for place, one in enumerate(degrees))
    if len(points) > 1:
        graph.shapes.append(Path(points=points, role="curve"))
    for one, point in zip(dots, points, strict=True):
        graph.shapes.append(Circle(centre=point, radius=5.0, role="marker"))
        if one.marked:  # told by its shape, not by a colour alone
            graph.shapes.append(Circle(centre=point, radius=10.0, role="caution-mark"))
    return Scene(
        title="The bend over the parts of the batch",
        description=said,
        bounds=(0.0, 0.0, frame.width, frame.height),
        scale=1.0,
        shapes=tuple(graph.shapes),
    )


def _band(graph: _Graph, middle: float, off: float) -> None:
    low, high = graph.at(0.0, middle - off)[1], graph.at(0.0, middle + off)[1]
    ends = (graph.left, graph.left + graph.wide)
    corners = ((ends[0], low), (ends[1], low), (ends[1], high), (ends[0], high))
    graph.shapes.append(Path(points=corners, role="veil", closed=True))
    graph.across(middle, "paper-rule")


def _axes(graph: _Graph, parts: Sequence[int]) -> None:
    body, frame = graph.body, graph.frame
    step = round_step(graph.high - graph.low, 5)
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    for tick in range(math.ceil(graph.low / step), math.floor(graph.high / step) + 1):
        y = graph.at(0.0, tick * step)[1]
        graph.across(tick * step, "grid")
        said = f"{tick * step:.{places}f}°"
        graph.text((graph.left - 0.4 * body, y - 0.35 * body), said, "label", "end")
    most = 6 if frame.narrow else 14
    each = max(math.ceil(len(parts) / most), 1)
    for place in range(0, len(parts), each):
        x = graph.at(place, graph.low)[0]
        graph.text((x, graph.foot - 1.2 * body), f"{parts[place]}", "label", "middle")
    graph.text((frame.width - 1.2 * body, 0.5 * body), "part", "label", "end")
    head = "angle at one stop; band: tolerance"
    graph.text((0.4 * body, frame.height - 1.1 * body), head, "label")
