"""Words for what stands about the bar: its name, and how near the bar comes to the nearest."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from strapwright.bending.bend_values import Floats
from strapwright.drawing.surrounding import apart, corners_of, nearest_pieces, others
from strapwright.ordering.order_values import Piece
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.boxes import Box
from strapwright.scene.frame import Frame
from strapwright.scene.hatching import clipped
from strapwright.scene.placing import Layout, Row
from strapwright.scene.primitives import Circle, Line, Point
from strapwright.wording.figures import figures_for

# The drawn pose is the solver's, the search's an even arc: nearer than this they are one moment.
_SAME_MOMENT = 1.0  # mm
_RING = 13.0  # px, radius of the ring where the bar runs into something
_DOWN = (1.0, 3.2, 5.4, 7.6, 9.8, 12.0)  # half heights of a remark from the top to its middle
_SLIGHT = 500.0  # px2 (25-fold, as words are weighed)


@frozen(kw_only=True)
class View:
    """What a picture of the press shows.

    Attributes
    ----------
    frame
        Of the picture.
    window
        What of the press is in it, as drawn upright [mm].
    over
        Whether it is turned over, for a press that pushes from below.
    """

    frame: Frame
    window: Box
    over: bool

    @property
    def flip(self) -> float:
        """Factor on heights."""
        return -1.0 if self.over else 1.0


def optional(frame: Frame) -> float:
    """Area that a name may meet before a narrow picture does without it [px2].

    There the figures under the picture say what matters; on a wide one every name is set.
    """
    return _SLIGHT if frame.narrow else float("inf")


def name_nearest(
    layout: Layout, plan: Plan, step: Step, line: Floats, nose_y: float, view: View
) -> None:
    """Name the hatched piece with its distance, and show the distance where it is met now."""
    if step.clearance is None or step.nearest is None:
        return
    frame, flip = view.frame, view.flip
    pieces = nearest_pieces(plan, step)
    words = figures_for(plan.job).clearance(step.clearance)
    near = apart(line, plan.job.part.bar.thickness, pieces, nose_y)
    if near is not None and abs(near.distance - step.clearance) < _SAME_MOMENT:
        ends = [(x, flip * y) for x, y in (near.on_bar, near.on_piece)]
        layout.draw(Line(start=ends[0], end=ends[1], role="clearance"))
    rows: list[Row] = [
        (step.nearest.name, frame.body, "label"),
        (f"{words} at least", frame.body, "value"),
    ]
    _place_beside(layout, rows, pieces, nose_y, view, optional(view.frame))


def name_clash(
    layout: Layout, plan: Plan, pieces: Sequence[Piece], line: Floats, nose_y: float, view: View
) -> None:
    """Ring the place where the bar runs into something, and name what it runs into."""
    if not pieces:
        return
    px, flip = layout.px, view.flip
    near = apart(line, plan.job.part.bar.thickness, pieces, nose_y)
    if near is not None:
        at = (near.on_piece[0], flip * near.on_piece[1])
        layout.draw(Circle(centre=at, radius=_RING * px, role="hatched"))
    rows: list[Row] = [
        (pieces[0].name, view.frame.body, "label"),
        ("is hit", view.frame.body, "value"),
    ]
    _place_beside(layout, rows, pieces, nose_y, view, float("inf"))


def _place_beside(
    layout: Layout, rows: list[Row], pieces: Sequence[Piece], nose_y: float, view: View, most: float
) -> None:
    """Set words beside a hatched piece, over drawn things of at most this area [px2]."""
    window, flip, px = view.window, view.flip, layout.px
    wide, high = layout.half_size(rows)
    spots: list[Point] = []
    for piece in pieces:
        corners = clipped(corners_of(piece, nose_y), window)
        if not len(corners):
            continue
        (left, low), (right, top) = corners.min(axis=0), corners.max(axis=0)
        middle = 0.5 * (low + top)
        for y in (middle, top - high, low + high, 0.75 * top + 0.25 * low, 0.25 * top + 0.75 * low):
            spots += [(right + wide + 8 * px, flip * y), (left - wide - 8 * px, flip * y)]
        spots += [(0.5 * (left + right), flip * (low - high - 7 * px))]
    layout.place_words(rows, within_picture(spots, wide, high, window, flip), most)


def name_others(
    layout: Layout,
    plan: Plan,
    step: Step,
    nose_y: float,
    view: View,
    *,
    nearest_named: bool,
    bare: bool = False,
) -> None:
    """Name what is drawn beside the tooling; what is assumed gets one remark for all of it.

    ``bare`` says that nothing stands beside the picture, which is as wide as its frame then.
    """
    frame, window, flip, px = view.frame, view.window, view.flip, layout.px
    assumed = False
    named: set[str] = set()
    if nearest_named and step.nearest is not None:
        named.add(step.nearest.name)
    for piece in others(plan.pieces):
        corners = clipped(corners_of(piece, nose_y), window)
        if len(corners) < 3:
            continue
        assumed = assumed or piece.assumed
        if piece.name in named:
            continue
        if piece.assumed and piece.kind in {"bed", "carrier", "shoulder"}:
            continue
        named.add(piece.name)
        rows: list[Row] = [(piece.name, frame.body, "label")]
        wide, high = layout.half_size(rows)
        (left, low), (right, top) = corners.min(axis=0), corners.max(axis=0)
        x, y = 0.5 * (left + right), 0.5 * (low + top)
        spots = [
            (x, flip * (top + high + 7 * px)),
            (x, flip * (low - high - 7 * px)),
            *(
                (side, flip * (y + rise * high))
                for rise in (0.0, 2.4, -2.4, 4.8, -4.8)
                for side in (right + wide + 8 * px, left - wide - 8 * px)
            ),
            *((x, flip * (top + (1.0 + rise) * high + 3 * px)) for rise in (2.4, 4.8, 7.2)),
        ]
        layout.place_words(rows, within_picture(spots, wide, high, window, flip), optional(frame))
    plate = next((one for one in plan.pieces if one.kind == "push plate"), None)
    if plate is not None and plate.assumed:
        assumed = assumed or bool(len(clipped(corners_of(plate, nose_y), window)))
    if assumed:
        rows = [("dashed: assumed", frame.body, "label")]
        wide, high = layout.half_size(rows)
        heights = [window.top - k * high for k in _DOWN]
        low_down = [window.bottom + k * high for k in (1.0, 3.2)]
        if window.right - 2.0 * wide > _outer_edge(plan):  # there is room beside the shoulders
            heights = [*low_down, *heights]
        else:
            heights += low_down
        edge = (max(window.right, 0.5 * frame.width * px - 8 * px) if bare else window.right) - wide
        spots = [(sign * edge, y) for y in heights for sign in (-1.0, 1.0)]
        if plate is not None:  # on its outline it would be read as a remark on the plate
            spots = _beside(spots, wide, high, corners_of(plate, nose_y))
        layout.place_words(rows, [(x, flip * y) for x, y in spots], optional(frame))


def _beside(spots: list[Point], wide: float, high: float, corners: Floats) -> list[Point]:
    """Spots at which words do not lie on a piece; all of them where none does."""
    (left, low), (right, top) = corners.min(axis=0), corners.max(axis=0)
    free = [
        (x, y)
        for x, y in spots
        if x + wide < left or x - wide > right or y + high < low or y - high > top
    ]
    return free or spots


def _outer_edge(plan: Plan) -> float:
    """From the middle to the outer edge of the shoulders [mm]."""
    tooling = plan.job.tooling
    if tooling is None:
        return 0.0
    shoulders = tooling.shoulders
    return shoulders.outer_edge or 0.5 * shoulders.opening + shoulders.radius


def within_picture(
    spots: list[Point], wide: float, high: float, window: Box, flip: float
) -> list[Point]:
    """Spots at which words stay in the picture; all of them where none does."""
    bottom, top = sorted((flip * window.bottom, flip * window.top))
    inside = [
        (x, y)
        for x, y in spots
        if window.left <= x - wide
        and x + wide <= window.right
        and bottom <= y - high
        and y + high <= top
    ]
    return inside or spots
