"""What the parts have cost so far, today's way and with the tooling, against their number."""

from __future__ import annotations

import math

from strapwright.drawing.curve_axes import round_step
from strapwright.money.payback import Payback
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import text_width
from strapwright.scene.primitives import Anchor, Circle, Line, Path, Role, Scene, Shape, Text
from strapwright.wording.bars_and_money.money_words import payback_line

PAYBACK_WIDE = Frame(width=880.0, height=460.0, body=16.0)
PAYBACK_PHONE = Frame(width=390.0, height=380.0, body=14.0)
_FEW = 20  # parts shown where the tooling never pays


class _Graph:
    """From parts and money to places in the drawing [px]."""

    def __init__(self, frame: Frame, parts: float, money: float) -> None:
        self.frame, self.body = frame, frame.body
        self.parts, self.money = parts, money
        self.left = 5.2 * frame.body
        self.low = 3.4 * frame.body
        self.wide = frame.width - self.left - 1.2 * frame.body
        self.high = frame.height - self.low - 2.2 * frame.body
        self.shapes: list[Shape] = []

    def at(self, parts: float, money: float) -> tuple[float, float]:
        return (
            self.left + self.wide * parts / self.parts,
            self.low + self.high * money / self.money,
        )

    def text(
        self, at: tuple[float, float], said: str, role: Role, anchor: Anchor = "start"
    ) -> None:
        self.shapes.append(Text(at=at, text=said, size=self.body, role=role, anchor=anchor))


def payback_scene(found: Payback, currency: str, frame: Frame = PAYBACK_WIDE) -> Scene:
    """Draw both costs against the number of parts, with the band and where they meet.

    Parameters
    ----------
    found
        As worked out.
    currency
        As printed.
    frame
        Room for the drawing.
    """
    last = 1.6 * found.count if found.count else float(_FEW)
    if found.high is not None:
        last = max(last, 1.1 * found.high)
    last = max(min(last, 4.0 * (found.count or last)), 4.0)
    tops = (last * found.old, found.tooling_high + last * found.new_high)
    graph = _Graph(frame, last, 1.05 * max(tops))
    _axes(graph, currency)
    ends = (0.0, last)
    veil = [graph.at(n, found.tooling_low + n * found.new_low) for n in ends]
    veil += [graph.at(n, found.tooling_high + n * found.new_high) for n in reversed(ends)]
    graph.shapes.append(Path(points=tuple(veil), role="veil", closed=True))
    graph.shapes += [
        Line(start=graph.at(0, 0), end=graph.at(last, last * found.old), role="beyond"),
        Line(
            start=graph.at(0, found.tooling),
            end=graph.at(last, found.tooling + last * found.new),
            role="curve",
        ),
    ]
    _names(graph, found, last)
    if found.count is not None and found.count <= last:
        x, y = graph.at(found.count, found.count * found.old)
        graph.shapes += [
            Line(start=(x, graph.low), end=(x, y), role="stop"),
            Circle(centre=(x, y), radius=6.0, role="marker"),
        ]
        said = f"paid for after {found.count}"
        wide = text_width(said, frame.body)
        place = min(x + 0.5 * frame.body, frame.width - wide - 4)
        graph.text((place, graph.low + 0.5 * frame.body), said, "figure")
    return Scene(
        title="Payback of the tooling",
        description=payback_line(found),
        bounds=(0.0, 0.0, frame.width, frame.height),
        scale=1.0,
        shapes=tuple(graph.shapes),
    )


def _axes(graph: _Graph, currency: str) -> None:
    body, frame = graph.body, graph.frame
    graph.shapes += [
        Line(start=graph.at(0, 0), end=graph.at(graph.parts, 0), role="paper-rule"),
        Line(start=graph.at(0, 0), end=graph.at(0, graph.money), role="paper-rule"),
    ]
    step = max(round_step(graph.parts, 4 if frame.narrow else 8), 1.0)
    for tick in range(math.floor(graph.parts / step) + 1):
        x, y = graph.at(tick * step, 0)
        graph.text((x, y - 1.2 * body), f"{tick * step:g}", "label", "middle")
    rise = round_step(graph.money, 5)
    for tick in range(1, math.floor(graph.money / rise) + 1):
        x, y = graph.at(0, tick * rise)
        across = graph.at(graph.parts, tick * rise)
        graph.shapes.append(Line(start=(x, y), end=across, role="grid"))
        graph.text((x - 0.5 * body, y - 0.35 * body), f"{tick * rise:g}", "label", "end")
    graph.text((frame.width - 1.2 * body, 0.5 * body), "parts made", "label", "end")
    graph.text((0.4 * body, frame.height - 1.1 * body), f"cost so far, {currency}", "label")


def _names(graph: _Graph, found: Payback, last: float) -> None:
    """Name the lines at their ends, the upper one above and the lower one below."""
    body = graph.body
    ends = [
        (last * found.old, "today's way", "label"),
        (found.tooling + last * found.new, "with the tooling", "value"),
    ]
    ends.sort()
    for (money, said, role), drop in zip(ends, (2.4, -0.8), strict=True):
        x, y = graph.at(last, money)
        place = (x, max(y - drop * body, graph.low + 1.9 * body))
        graph.text(place, said, "value" if role == "value" else "label", "end")
