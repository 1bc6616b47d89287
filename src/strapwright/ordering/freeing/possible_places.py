"""Where the part may stand, for one slab of angles, as exact polygons in the plane."""

from __future__ import annotations

import math

import numpy as np
import shapely
from attrs import frozen
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.ordering.freeing.convex_solids import Slab, convex_pieces
from strapwright.ordering.kernel_pieces import Floats
from strapwright.ordering.order_values import Piece
from strapwright.ordering.time_given import KeepGoing, always, ask

# Numerical, to the safe side.
CIRCLE_SEGMENTS = (4, 16)  # a quarter turn of a round piece, at least and at most
LEAST_AREA = 1e-4  # smaller certain regions are dropped: that can only refuse [mm2]


@frozen(kw_only=True, eq=False)
class Region:
    """One connected region of displacements of the reference point.

    Attributes
    ----------
    outline
        [mm]
    open
        It reaches arbitrarily far.
    """

    outline: Polygon
    open: bool


@frozen(kw_only=True)
class Bounds:
    """Where the part may be at all.

    Attributes
    ----------
    ground, ceiling
        Heights that no point of the part passes [mm]; ``None`` where there is none.
    window
        Displacements of the reference point looked at: left, low, right, high [mm]; what leaves
        the window counts as out.  ``None`` for all there are.
    """

    ground: float | None = None
    ceiling: float | None = None
    window: tuple[float, float, float, float] | None = None


EVERYWHERE = Bounds()


class Slices:
    """Free regions of one part beside some pieces, for all slabs of one fineness."""

    def __init__(
        self,
        pieces: tuple[Piece, ...],
        rows: Floats,
        reference: tuple[float, float],
        slab: Slab,
        *,
        certain: bool,
        bounds: Bounds = EVERYWHERE,
        keep_going: KeepGoing = always,
    ) -> None:
        self.keep_going = keep_going
        self.slab = slab
        self.reference = reference
        self._certain = certain
        solid = convex_pieces(rows, reference, slab, grown=certain)
        self._solid = solid
        self._whole: BaseGeometry | None = None
        self._round: dict[int, BaseGeometry] = {}
        # The middle of a round piece stands for it, as far as its radius.
        self._corners = [np.array(_corners(one)) for one in pieces]
        self._pieces = pieces
        self._bounds = bounds
        reach = float(np.abs(solid).max(initial=1.0)) * math.sqrt(2.0)
        far = 1.0 + max(
            (abs(v) + p.radius for p in pieces for c in _corners(p) for v in c), default=1.0
        )
        size = 2.0 * (reach + far + math.hypot(*reference))
        self.box = bounds.window or (-size, -size, size, size)
        self._known: dict[tuple[frozenset[int], int], tuple[Region, ...]] = {}

    def angle(self, index: int) -> float:
        """Middle of a slab [rad]."""
        return 2.0 * math.pi * index / self.slab.count if self.slab.count else 0.0

    def regions(self, beside: frozenset[int], index: int) -> tuple[Region, ...]:
        """Free regions beside the pieces ``beside`` in slab ``index``."""
        key = (beside, index)
        if key not in self._known:
            self._known[key] = self._cut(beside, self.angle(index))
        return self._known[key]

    @property
    def cut(self) -> int:
        """How many slices were cut."""
        return len(self._known)

    def _cut(self, beside: frozenset[int], theta: float) -> tuple[Region, ...]:
        c, s = math.cos(theta), math.sin(theta)
        turn = np.array([[c, s], [-s, c]])
        box, edge = self._room(self._solid @ turn)
        if box is None:
            return ()
        blocked = shapely.union_all(self._obstacles(beside, turn, box.bounds))
        ask(self.keep_going)
        free = box.difference(blocked)
        return tuple(
            Region(outline=part, open=bool(part.intersects(edge)))
            for part in shapely.get_parts(free)
            if not self._certain or part.area > LEAST_AREA
        )

    def _room(self, turned: NDArray[np.float64]) -> tuple[Polygon | None, BaseGeometry]:
        """Displacements looked at for one angle, and the sides of them that lead out."""
        left, low, right, high = self.box
        sides = [((left, low), (left, high)), ((right, low), (right, high))]
        heights = turned[..., 1] + self.reference[1]
        ground, ceiling = self._bounds.ground, self._bounds.ceiling
        lowest, highest = -math.inf, math.inf
        if ground is not None and heights.size:
            lowest = ground - float(heights.min())
        if ceiling is not None and heights.size:
            highest = ceiling - float(heights.max())
        if lowest <= low:
            sides.append(((left, low), (right, low)))
        if highest >= high:
            sides.append(((left, high), (right, high)))
        low, high = max(low, lowest), min(high, highest)
        if low >= high:
            return None, shapely.MultiLineString()
        return shapely.box(left, low, right, high), shapely.MultiLineString(sides)

    def _obstacles(
        self,
        beside: frozenset[int],
        turn: NDArray[np.float64],
        box: tuple[float, float, float, float],
    ) -> list[BaseGeometry]:
        """Displacements at which the turned part overlaps a piece: piece less part, summed."""
        turned = -self._solid @ turn
        lows, highs = turned.min(axis=1), turned.max(axis=1)
        found: list[BaseGeometry] = []
        for k in sorted(beside):
            ask(self.keep_going)
            corners = self._corners[k] - np.array(self.reference)
            reach = self._grown_radius(k)
            low, high = lows + corners.min(axis=0) - reach, highs + corners.max(axis=0) + reach
            near = (low < box[2:]).all(axis=1) & (high > box[:2]).all(axis=1)
            if not near.any():
                continue
            if self._pieces[k].centre is not None:
                found.append(self._about(k, turned[near] + corners[0], turn))
            else:
                # Piece by piece, so that no single step takes long.
                sums = corners[None, :, None, :] + turned[near][:, None, :, :]
                points = sums.reshape(len(sums), -1, 2)
                hulls = shapely.convex_hull(shapely.multipoints(points))
                found.append(shapely.union_all(hulls))
        return found

    def _grown_radius(self, number: int) -> float:
        """Radius of a round piece, larger where its chords must not lie inside it [mm]."""
        radius = self._pieces[number].radius
        if not self._certain or self._pieces[number].centre is None:
            return radius
        return radius / math.cos(math.pi / (4.0 * _segments(radius, self.slab.chord_error)))

    def _about(
        self, number: int, near: NDArray[np.float64], turn: NDArray[np.float64]
    ) -> BaseGeometry:
        """The part with a round piece's radius around it; ``near`` is what comes near that piece.

        Of a single angle no more is needed than that; of many the whole is grown once and turned.
        """
        if not self.slab.count:
            return self._grown(shapely.union_all(shapely.polygons(near)), number)
        if number not in self._round:
            if self._whole is None:
                self._whole = shapely.union_all(shapely.polygons(self._solid))
            self._round[number] = self._grown(self._whole, number)
        (c, s), _ = turn
        x, y = self._corners[number][0] - np.array(self.reference)
        return shapely.affinity.affine_transform(self._round[number], [-c, s, -s, -c, x, y])

    def _grown(self, solid: BaseGeometry, number: int) -> BaseGeometry:
        return solid.buffer(
            self._grown_radius(number),
            quad_segs=_segments(self._pieces[number].radius, self.slab.chord_error),
        )


def _segments(radius: float, error: float) -> int:
    """In a quarter turn of a round piece, that its chords stay within an error [mm]."""
    least, most = CIRCLE_SEGMENTS
    step = 2.0 * math.acos(max(0.0, 1.0 - error / radius))
    return min(most, max(least, math.ceil(0.5 * math.pi / step)))


def _corners(piece: Piece) -> tuple[tuple[float, float], ...]:
    return (piece.centre,) if piece.centre is not None else piece.polygon
