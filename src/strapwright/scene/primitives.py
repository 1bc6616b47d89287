"""A drawing as few primitives in mm, each with the role it plays; no colours, no format."""

from __future__ import annotations

from typing import Literal, TypeAlias

from attrs import frozen

Point: TypeAlias = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Role = Literal[
    "bar",  # the metal: the only warm thing
    "bar-core",  # its middle, brighter where it glows
    "ghost",  # where the bar was or will be
    "face-edge",  # strokes in the bar along the face that is towards the nose
    "hole",
    "nose",
    "web",
    "plate",
    "shoulders",
    "floor",
    "around",  # what else stands about the bar: its face, its edges
    "around-edge",
    "assumed",  # nobody stated it
    "edge",  # of a solid, where it is seen
    "balloon",  # about the number of a part
    "dot",  # where its leader ends
    "beside",  # it stands beside the bar along the nose
    "hatch",  # what is nearest, or holds the part
    "hatched",  # its outline
    "clearance",  # from the bar to what is nearest
    "touch",  # datum the travel is counted from
    "mark",  # middle of the nose, on the blank
    "sight",  # line to set against an edge that can be seen
    "tangent",
    "mark-on-bar",  # the same three where they cross the bar
    "sight-on-bar",
    "tangent-on-bar",
    "leader",
    "extension",
    "dimension",
    "paper-rule",  # thin rules and axes
    "grid",
    "break",  # where a piece is cut short in the picture
    "veil",  # a band
    "curve",
    "beyond",  # the curve past the stop
    "stop",
    "marker",  # where the ram stands
    "pause",  # where a staged push lets off
    "caution",
    "caution-mark",
    "label",  # quiet words
    "tool-label",  # the same on a piece of the tooling
    "value",  # a figure to read
    "marked",  # a figure to carry over to the bar
    "figure",  # the one number that matters
]


@frozen(kw_only=True)
class Path:
    """A polygon or polyline.

    Attributes
    ----------
    points
        [mm], y up.
    bulges
        Empty, or for each point the tangent of a quarter of the angle that an arc to the next
        point sweeps, positive counter-clockwise; 0 is a straight line [-].
    closed
        Whether the last point joins the first.
    """

    points: tuple[Point, ...]
    role: Role
    bulges: tuple[float, ...] = ()
    closed: bool = False


@frozen(kw_only=True)
class Line:
    """A straight line [mm]."""

    start: Point
    end: Point
    role: Role


@frozen(kw_only=True)
class Circle:
    """A full circle [mm]."""

    centre: Point
    radius: float
    role: Role


@frozen(kw_only=True)
class Arc:
    """An arc from ``start`` counter-clockwise to ``end`` [rad], ``radius`` [mm]."""

    centre: Point
    radius: float
    start: float
    end: float
    role: Role


@frozen(kw_only=True)
class Text:
    """Words or a figure on one line.

    Attributes
    ----------
    at
        Where its baseline is anchored [mm].
    size
        Height of the type at nominal size [px].
    """

    at: Point
    text: str
    size: float
    role: Role
    anchor: Anchor = "start"


Shape: TypeAlias = Path | Line | Circle | Arc | Text


@frozen(kw_only=True)
class Scene:
    """One drawing.

    Attributes
    ----------
    title, description
        What it shows, for people who hear the page.
    bounds
        Left, bottom, right, top [mm].
    scale
        Nominal size of a mm [px/mm].
    shapes
        Painted in this order.
    """

    title: str
    description: str
    bounds: tuple[float, float, float, float]
    scale: float
    shapes: tuple[Shape, ...]
