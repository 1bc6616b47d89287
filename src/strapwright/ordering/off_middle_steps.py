"""Single steps with the nose off the middle of the opening: two wings that do not move alike.

The centre of the arc stays under the nose.  So each wing moves as in an even bend of twice what
lies between the nose and its own shoulder, :mod:`strapwright.ordering.kernel_kinematics`; both see
the centre of the arc at one height, which says how far each has turned, and together they turn by
what the bend needs.  What stands with the shoulders is shifted the other way.

The bar is taken as set by the shoulders: the nose meets it as far off the mark as it stands off the
middle, so the wing on the side of the nearer shoulder is shorter by that and the other longer.
"""

from __future__ import annotations

import math

from attrs import evolve

from strapwright.ordering.kernel_kinematics import arc_centre
from strapwright.ordering.kernel_pieces import Floats, Outward, Stroke
from strapwright.ordering.kernel_wings import wing_answer, wing_rows
from strapwright.ordering.nearest_piece import first_hit, nearest_piece
from strapwright.ordering.order_arrays import Wing
from strapwright.ordering.order_values import (
    PartGeometry,
    Piece,
    Point,
    SearchSettings,
    ToolSection,
)
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import Hits, TooNear

_HALVINGS = 60  # numerical


class OffMiddleSteps(Steps):
    """Answers of single steps with the nose ``off`` the middle, positive to the right [mm].

    Only what a wing runs into is answered; depth, straight beside the bend and the part itself are
    those of a nose in the middle.
    """

    def __init__(
        self, section: ToolSection, part: PartGeometry, settings: SearchSettings, off: float
    ) -> None:
        moved = tuple(_moved(piece, -off) for piece in section.pieces)
        super().__init__(evolve(section, pieces=moved), part, settings)
        self.off = off
        self._stand = section.pieces
        self.symmetric = False
        self._wings = [_strokes(stroke, off) for stroke in self.strokes]

    def stroke_at(self, bend: int, place: int) -> Stroke:
        """Stroke of the wing that points left (0) or right (1)."""
        return self._wings[bend][place]

    def rows_at(self, made: int, bend: int, wing: Wing, end: int) -> Floats:
        """Element rows of one wing with an end of the bar pointing left."""
        place = self.place(end, wing)
        rows: Floats = wing_rows(
            self._outward(bend, wing, place),
            self.stroke_at(bend, place),
            self.sub(made, bend, wing),
        )
        return rows

    def answer(self, made: int, bend: int, end: int, wing: Wing) -> tuple[int, float]:
        """Flag and reach of one wing in one step."""
        place = self.place(end, wing)
        key = (bend, wing, place, self.sub(made, bend, wing))
        if key not in self._answers:
            flags, reach = wing_answer(
                self._outward(bend, wing, place),
                self.stroke_at(bend, place),
                self.tools[bend][place],
                self.settings.clearance,
                self.settings.tolerance,
                key[3],
            )
            self._answers[key] = int(flags), float(reach)
        return self._answers[key]

    def in_the_way(self, made: int, bend: int, end: int) -> Hits | TooNear | None:
        """What a wing of the step hits, or comes too near to."""
        wings: tuple[Wing, Wing] = (0, 1)
        if all(self.answer(made, bend, end, wing)[0] for wing in wings):
            return None
        hit = first_hit(self, made, bend, end)
        if hit is not None:
            left, right = self._wings[bend]
            own, other = (left, right) if hit.wing == "left" else (right, left)
            return evolve(
                hit,
                piece=self._as_it_stands(hit.piece),
                angle=_both(0.5 * hit.angle, own, other),
                off_middle=self.off,
            )
        had, piece = self.nearest(made, bend, end)
        return TooNear(piece=piece, had=had, off_middle=self.off)

    def nearest(self, made: int, bend: int, end: int) -> tuple[float, Piece | None]:
        """Clearance kept at least over the step, and the piece that is nearest [mm]."""
        had, piece = nearest_piece(self, made, bend, end)
        return had, None if piece is None else self._as_it_stands(piece)

    def _as_it_stands(self, piece: Piece) -> Piece:
        """Piece of the tooling that the nose sees shifted."""
        return self._stand[self.section.pieces.index(piece)]

    def _outward(self, bend: int, wing: Wing, place: int) -> Outward:
        out = self.outward[bend][wing]
        shorter = self.off if place == 1 else -self.off
        return out._replace(near=out.near - shorter, far=out.far - shorter, end=out.end - shorter)


def _strokes(even: Stroke, off: float) -> tuple[Stroke, Stroke]:
    """Strokes of the wings that point left and right, from that of a nose in the middle."""
    halves = (even.half_opening + off, even.half_opening - off)
    turns = _turns(even, halves)
    # Whether the legs are long enough was asked of the nose in the middle.
    left, right = (
        even._replace(phi_end=turn, half_opening=half, needed=0.0)
        for turn, half in zip(turns, halves, strict=True)
    )
    return left, right


def _turns(even: Stroke, halves: tuple[float, float]) -> tuple[float, float]:
    """How far the left and the right wing have turned at the end of the stroke [rad]."""
    whole = 2.0 * even.phi_end
    # The centre of the arc sinks as a wing turns, until that wing jams.
    least = max(0.0, whole - _jam(even, halves[1]))
    low, high = least, min(whole, _jam(even, halves[0]))
    for _ in range(_HALVINGS):
        left = 0.5 * (low + high)
        if _height(even, left, halves[0]) > _height(even, whole - left, halves[1]):
            low = left
        else:
            high = left
    return 0.5 * (low + high), whole - 0.5 * (low + high)


def _both(turn: float, own: Stroke, other: Stroke) -> float:
    """Bend angle where one wing has turned so far [rad]."""
    height = _height(own, turn, own.half_opening)
    low, high = 0.0, other.phi_end
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if _height(other, middle, other.half_opening) > height:
            low = middle
        else:
            high = middle
    return turn + 0.5 * (low + high)


def _height(stroke: Stroke, turn: float, half: float) -> float:
    return float(arc_centre(turn, half, stroke.a, stroke.shoulder_radius))


def _jam(even: Stroke, half: float) -> float:
    return math.asin(min(1.0, half / even.a))


def _moved(piece: Piece, right: float) -> Piece:
    """What stands with the shoulders, as seen from the nose."""
    if piece.side == "nose":
        return piece

    def at(point: Point) -> Point:
        return point[0] + right, point[1]

    if piece.centre is not None:
        return evolve(piece, centre=at(piece.centre))
    return evolve(piece, polygon=tuple(at(corner) for corner in piece.polygon))
