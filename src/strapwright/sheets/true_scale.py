"""Lines, circles and words at stated places on a page, for sheets that are measured from.

Places are in mm from the top left corner of the page, y down: what is stated here is what a rule
laid on the print shows.
"""

from __future__ import annotations

from typing import Any, Literal

from attrs import frozen

from strapwright.quantities.inside_units import INCH_MM
from strapwright.sheets.setup_sheet import Paper

Data = dict[str, Any]
Place = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Stroke = Literal[
    "outline", "nose", "sight", "tangent", "hole", "leader", "join", "register", "bar", "edge",
    "cut", "trim", "saw",
]  # fmt: skip

SIZES: dict[Paper, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
MARGIN = 12.7  # mm; what a small printer leaves white, common practice, no source
HEAD, FOOT = 24.0, 21.0  # mm kept for what the page says above and below
FOUR_INCHES, HUNDRED = 4 * INCH_MM, 100.0  # mm
_TICK = 2.0  # mm either side of a check bar
UPRIGHT = 4.0 + FOUR_INCHES + _TICK  # mm that a check bar takes up from the bottom of the room
_PT = INCH_MM / 72.0


@frozen(kw_only=True)
class Line:
    """A straight line between two places."""

    start: Place
    end: Place
    stroke: Stroke

    def data(self) -> Data:
        """Say it to the layout."""
        return {
            "kind": "line",
            "x": self.start[0],
            "y": self.start[1],
            "dx": self.end[0] - self.start[0],
            "dy": self.end[1] - self.start[1],
            "stroke": self.stroke,
        }


@frozen(kw_only=True)
class Circle:
    """A circle about a place."""

    centre: Place
    radius: float
    stroke: Stroke

    def data(self) -> Data:
        """Say it to the layout."""
        x, y = self.centre
        return {
            "kind": "circle",
            "x": x - self.radius,
            "y": y - self.radius,
            "radius": self.radius,
            "stroke": self.stroke,
        }


@frozen(kw_only=True)
class Words:
    """One line of type; ``at`` is on its base line, ``size`` in pt.

    ``upward`` turns it to read from below; ``at`` then is on the base line too.
    """

    at: Place
    text: str
    size: float
    anchor: Anchor = "start"
    bold: bool = False
    upward: bool = False

    def data(self) -> Data:
        """Say it to the layout."""
        return {
            "kind": "words",
            "x": self.at[0],
            "y": self.at[1],
            "text": self.text,
            "size": self.size,
            "share": {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor],
            "weight": 700 if self.bold else 400,
            "upward": self.upward,
        }


Shape = Line | Circle | Words


@frozen(kw_only=True)
class Room:
    """The part of a page that a drawing may take [mm]."""

    paper: Paper
    landscape: bool

    @property
    def page(self) -> tuple[float, float]:
        """Width and height of the page."""
        width, height = SIZES[self.paper]
        return (height, width) if self.landscape else (width, height)

    @property
    def left(self) -> float:
        """Left edge."""
        return MARGIN

    @property
    def right(self) -> float:
        """Right edge."""
        return self.page[0] - MARGIN

    @property
    def top(self) -> float:
        """Top edge, under the head of the page."""
        return MARGIN + HEAD

    @property
    def bottom(self) -> float:
        """Bottom edge, above the check bars."""
        return self.page[1] - MARGIN - FOOT

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top


@frozen(kw_only=True)
class Sheet:
    """One page: what is drawn on it and what its head says.

    Attributes
    ----------
    kind
        ``strip`` or ``gauge``: which explanation stands in the head.
    gauges_at
        From the margin and from the top of the page, where the explanation of gauges under a strip
        stands; ``None`` where there are none [mm].
    by_square
        Whether right angles have no gauge here and are checked with a square.
    """

    room: Room
    kind: Literal["strip", "gauge"]
    shapes: tuple[Shape, ...]
    gauges_at: tuple[float, float] | None = None
    by_square: bool = False

    def data(self) -> Data:
        """Say it to the layout, check bars included."""
        width, height = self.room.page
        upright = self.kind == "gauge" or self.gauges_at is not None
        shapes = (*self.shapes, *check_bars(self.room, upright=upright))
        return {
            "kind": self.kind,
            "width": width,
            "height": height,
            "gauges_at": self.gauges_at,
            "by_square": self.by_square,
            "shapes": [shape.data() for shape in shapes],
        }


def check_bars(room: Room, *, upright: bool) -> list[Shape]:
    """Draw bars of exactly 4 in and 100 mm from tick to tick.

    Parameters
    ----------
    room
        Of the page; the bars lie below it.
    upright
        Also a pair along the left edge, where both directions of the page are measured from.
    """
    foot = room.bottom + FOOT
    shapes: list[Shape] = []
    for y, length, name in ((foot - 11.0, FOUR_INCHES, "4 in"), (foot - 2.2, HUNDRED, "100 mm")):
        x = room.left
        shapes += [
            Line(start=(x, y), end=(x + length, y), stroke="bar"),
            *(
                Line(start=(at, y - _TICK), end=(at, y + _TICK), stroke="bar")
                for at in (x, x + length)
            ),
            Words(at=(x + 50.0, y - 1.2), text=f"exactly {name}", size=9.0, anchor="middle"),
        ]
    if upright:
        low = room.bottom - 4.0
        for x, length, name in (
            (room.left + 4.5, FOUR_INCHES, "4 in"),
            (room.left + 12.0, HUNDRED, "100 mm"),
        ):
            shapes += [
                Line(start=(x, low), end=(x, low - length), stroke="bar"),
                *(
                    Line(start=(x - _TICK, at), end=(x + _TICK, at), stroke="bar")
                    for at in (low, low - length)
                ),
                Words(
                    at=(x - 1.0, low - 50.0),
                    text=f"exactly {name}",
                    size=9.0,
                    anchor="middle",
                    upward=True,
                ),
            ]
    return shapes


def lowest(shape: Shape) -> float:
    """Return how far down the page a shape reaches [mm]."""
    if isinstance(shape, Line):
        return max(shape.start[1], shape.end[1])
    return shape.centre[1] + shape.radius if isinstance(shape, Circle) else shape.at[1]


def points(mm: float) -> float:
    """Turn mm into pt of 1/72 in."""
    return mm / _PT


def millimetres(pt: float) -> float:
    """Turn pt of 1/72 in into mm."""
    return pt * _PT
