"""One hit of a row held against everything that stands about it, and against the bar itself.

A bar that was hit before is no longer straight between the shoulders, so it tilts while it is
bent and the wings do not move apart from each other.  The bar is laid on the shoulders anew for
every angle, and between two angles the distance shrinks by no more than the bar moves: angles are
added until that settles every piece.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

import numpy as np
import shapely
from attrs import frozen
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.bending.bend_values import Floats
from strapwright.midline.bar_seating import carried
from strapwright.midline.pose_values import DrawnPose
from strapwright.ordering.order_values import Piece, SearchSettings, ToolSection
from strapwright.ordering.refusal_values import Hits, MeetsItself, Phase, TooShallow

Wing = Literal["left", "right"]
Posed = Callable[[float], DrawnPose]
# Numerical: how finely is looked.
FEWEST = 4  # parts of the stroke looked at in any case
SETTLED = 0.2  # a bar that moves less between two angles is not looked at between them [mm]
SPACING = 2.0  # of the points that the bar is held against itself at [mm]


Met = Hits | MeetsItself | TooShallow


@frozen(kw_only=True)
class Kept:
    """The least distance that a hit keeps [mm], and the piece it is to."""

    clearance: float
    nearest: Piece | None


@frozen(kw_only=True)
class _Shown:
    """The bar at one angle of the hit."""

    angle: float
    points: Floats
    nose: float
    under: int
    wings: tuple[BaseGeometry, BaseGeometry]
    beyond: tuple[BaseGeometry | None, BaseGeometry | None]


@frozen(kw_only=True)
class _Held:
    """One angle held against every piece: which wing is nearer to each and by how much [mm]."""

    shown: _Shown
    near: tuple[tuple[Piece, Wing, float], ...]
    own: float


def hold_hit(
    posed: Posed,
    loaded: float,
    thickness: float,
    section: ToolSection,
    pieces: Sequence[Piece],
    settings: SearchSettings,
) -> Met | Kept:
    """Hold one hit against the pieces, from laying the bar in to the full stroke.

    Parameters
    ----------
    posed
        The bar at an angle of this hit [rad], laid on the shoulders.
    loaded
        Angle of this hit at full stroke [rad].
    pieces
        Those of the section that reach along the nose to where the bar lies.
    """
    hold = _Hold(posed, thickness, section, pieces, settings)
    rest = hold.shown(0.0)
    met = hold.closing(rest)
    if met is not None:
        return met
    angles = np.linspace(0.0, loaded, FEWEST + 1)
    before = hold.held(rest)
    for angle in angles[1:]:
        after = hold.held(hold.shown(float(angle)))
        met = hold.between(before, after)
        if met is not None:
            return met
        before = after
    return Kept(clearance=hold.least[0], nearest=hold.least[1])


class _Hold:
    def __init__(
        self,
        posed: Posed,
        thickness: float,
        section: ToolSection,
        pieces: Sequence[Piece],
        settings: SearchSettings,
    ) -> None:
        self.posed = posed
        self.thickness = thickness
        self.section = section
        self.settings = settings
        self.enough = settings.clearance - settings.tolerance
        self.pieces = [(piece, _outline(piece)) for piece in pieces]
        self.least: tuple[float, Piece | None] = (1e9, None)

    def shown(self, angle: float) -> _Shown:
        """Lay the bar on the shoulders at one angle."""
        pose = self.posed(angle)
        points = np.column_stack([pose.x, pose.y])
        first, middle, last = _run(pose)
        return _Shown(
            angle=angle,
            points=points,
            nose=pose.nose_y,
            under=middle,
            wings=(self._bar(points[: middle + 1]), self._bar(points[middle:])),
            beyond=(
                self._bar(points[: first + 1]) if first > 0 else None,
                self._bar(points[last:]) if last < len(points) - 1 else None,
            ),
        )

    def closing(self, rest: _Shown) -> Met | None:
        """Hold the bar as it is laid in against the nose side as it comes down."""
        for piece, outline in self.pieces:
            if piece.side != "nose" or piece.drawn:
                continue
            low = shapely.affinity.translate(outline, 0.0, rest.nose)
            high = shapely.affinity.translate(low, 0.0, self.section.daylight)
            swept = shapely.union(low, high).convex_hull
            wing, distance = self._least(rest, piece, swept)
            if distance < self._asked(piece):
                return Hits(piece=piece, wing=wing, phase="closing", angle=0.0)
        return None

    def between(self, before: _Held, after: _Held) -> Met | None:
        """Hold the bar from one angle to the next."""
        met = self.at(before) or self.at(after)
        if met is not None:
            return met
        moved = _moved(before.shown, after.shown)
        if moved <= SETTLED or self._spare(before, after) - 0.5 * moved >= 0.0:
            return None
        middle = self.held(self.shown(0.5 * (before.shown.angle + after.shown.angle)))
        return self.between(before, middle) or self.between(middle, after)

    def held(self, shown: _Shown) -> _Held:
        """Hold the bar at one angle against every piece and against itself."""
        near = tuple(
            (piece, *self._least(shown, piece, _placed(piece, outline, shown.nose)))
            for piece, outline in self.pieces
        )
        for piece, _, distance in near:
            if not piece.contact and distance < self.least[0]:
                self.least = (distance, piece)
        return _Held(shown=shown, near=near, own=self._own(shown))

    def at(self, held: _Held) -> Met | None:
        """What the bar meets at one angle."""
        angle = held.shown.angle
        phase: Phase = "stroke" if angle > 0.0 else "rest"
        for piece, wing, distance in held.near:
            if distance < self._asked(piece):
                return Hits(piece=piece, wing=wing, phase=phase, angle=angle)
        if held.own < self.settings.self_clearance:
            return MeetsItself(angle=angle)
        return self._deep(held.shown)

    def _spare(self, before: _Held, after: _Held) -> float:
        """By how much the tighter of two poses keeps more than it must [mm]."""
        spare = 1e9
        for held in (before, after):
            for piece, _, distance in held.near:
                spare = min(spare, distance - self._asked(piece))
            # Both wings move, so the bar comes nearer to itself twice as fast.
            spare = min(spare, 0.5 * (held.own - self.settings.self_clearance))
        return spare

    def _asked(self, piece: Piece) -> float:
        # What the nose and the shoulders carry touches them; the rest must only not run into them.
        return 0.0 if piece.contact else self.enough

    def _least(self, shown: _Shown, piece: Piece, outline: BaseGeometry) -> tuple[Wing, float]:
        """Return the nearer wing and its distance; below 0 where a part beyond overlaps [mm]."""
        if not piece.contact:
            left, right = (float(shapely.distance(wing, outline)) for wing in shown.wings)
            return ("left", left) if left <= right else ("right", right)
        found: tuple[Wing, float] = ("left", 1e9)
        core = outline.buffer(-self.settings.tolerance)
        wings: tuple[Wing, Wing] = ("left", "right")
        for name, bar in zip(wings, shown.beyond, strict=True):
            if bar is None:
                continue
            distance = float(shapely.distance(bar, core)) - self.settings.tolerance
            if distance < found[1]:
                found = (
                    name,
                    distance if distance > 0.0 else -1.0 if bar.intersects(core) else 0.0,
                )
        return found

    def _own(self, shown: _Shown) -> float:
        """Gap between the wings, places close along the bar left out [mm].

        A wing by itself does not change while the hit is made.
        """
        wings = []
        for points in (shown.points[shown.under :: -1], shown.points[shown.under :]):
            steps = np.hypot(*np.diff(points, axis=0).T)
            along = np.concatenate([[0.0], np.cumsum(steps)])
            at = np.linspace(0.0, along[-1], max(int(along[-1] / SPACING), 2))
            x, y = (np.interp(at, along, points[:, k]) for k in (0, 1))
            wings.append((at, x, y))
        (a, ax, ay), (b, bx, by) = wings
        reach = self.thickness + self.settings.self_clearance
        far = a[:, None] + b[None, :] > 0.55 * np.pi * reach
        apart = np.hypot(ax[:, None] - bx[None, :], ay[:, None] - by[None, :])
        return float(np.min(apart[far], initial=1e9)) - self.thickness

    def _deep(self, shown: _Shown) -> TooShallow | None:
        depth = self.section.depth
        if depth is None:
            return None
        inside = np.abs(shown.points[:, 0]) < 0.5 * self.section.opening
        low = float(np.min(shown.points[inside, 1], initial=1e9)) - 0.5 * self.thickness
        if low >= self.settings.depth_margin - depth:
            return None
        return TooShallow(had=depth, needed=-low, angle=shown.angle)

    def _bar(self, points: Floats) -> BaseGeometry:
        return LineString(points).buffer(0.5 * self.thickness, cap_style="flat", join_style="mitre")


def _run(pose: DrawnPose) -> tuple[int, int, int]:
    """First point of the carried run, the point under the nose, and the last of the run."""
    # A bar is tilted about the point under the nose, which so stays at 0; a leg bent round over
    # the nose may cross there too, higher up.
    there = np.flatnonzero(np.abs(pose.x) < 1e-6)
    under = int(there[np.argmin(pose.y[there])])
    first, last = carried(pose.x, pose.y - pose.y[under])
    return first, under, last


def _outline(piece: Piece) -> BaseGeometry:
    if piece.centre is not None:
        return Point(piece.centre).buffer(piece.radius, quad_segs=64)
    return Polygon(piece.polygon)


def _placed(piece: Piece, outline: BaseGeometry, nose: float) -> BaseGeometry:
    return shapely.affinity.translate(outline, 0.0, nose) if piece.side == "nose" else outline


def _moved(before: _Shown, after: _Shown) -> float:
    """How far any place of the bar moves against the nose or against the die [mm]."""
    step = after.points - before.points
    die = np.max(np.hypot(step[:, 0], step[:, 1]))
    nose = np.max(np.hypot(step[:, 0], step[:, 1] - (after.nose - before.nose)))
    return float(max(die, nose))
