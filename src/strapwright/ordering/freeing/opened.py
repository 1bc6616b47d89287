"""Both halves at full opening: all that stands there, and where the part is by then.

While the halves open the part stays on the shoulders and the nose leaves it, or it rides on the
nose and the shoulders are left behind, or it stays until something of the nose side catches it
from within and takes it along.  Coordinates are those of the nose at full opening.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

import numpy as np
import shapely
from attrs import evolve, frozen
from shapely import affinity
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.ordering.freeing.part_gap import whole
from strapwright.ordering.kernel_kinematics import arc_centre
from strapwright.ordering.kernel_pieces import Floats
from strapwright.ordering.order_values import PartGeometry, Piece, ToolSection

# Numerical.  The part, shrunk by so much, touches nothing where it was bent; it is held against
# what moves past it with that skin off, since it slides along nose and shoulders [mm].
SKIN = 0.05
DOWN = (-90.0, -60.0, -120.0, -30.0, -150.0)  # ways to slide clear of the nose [deg]
UP = (90.0, 60.0, 120.0, 30.0, 150.0)  # of the shoulders
_FINELY = 0.25  # mm to which the play is found that the part has on the nose
_ROUND = 32  # segments in a quarter turn of a round


@frozen(kw_only=True)
class Place:
    """Where the part may be once both halves stand fully open.

    Attributes
    ----------
    spot
        Displacement from where it was bent on the nose [mm].
    rides
        It went along with the nose.
    tries
        Ways to slide clear of what it touches there [deg].
    ground
        The way from there goes no lower [mm]; ``None`` where nothing is known of it.
    """

    spot: tuple[float, float] = (0.0, 0.0)
    rides: bool = True
    tries: tuple[float, ...] = DOWN
    ground: float | None = None


ON_NOSE = Place()


@frozen(kw_only=True)
class Opened:
    """What the part must pass on its way off.

    Attributes
    ----------
    pieces
        Of both halves, in coordinates of the nose [mm].
    places
        Where the part may be, the likeliest first; empty where the halves cannot open with it.
    ground, ceiling
        The way stays between these heights [mm]; ``None`` where nothing is known of them.
    """

    pieces: tuple[Piece, ...]
    places: tuple[Place, ...] = (ON_NOSE,)
    ground: float | None = None
    ceiling: float | None = None


def open_height(section: ToolSection, thickness: float) -> float:
    """Height of the nose's centre above the shoulder tops at full opening [mm]."""
    return thickness + section.nose_radius + section.daylight


def let_go_height(section: ToolSection, part: PartGeometry, last_bend: int) -> float:
    """Height of the nose's centre as it touches the part that lies, let go, on the shoulders.

    Parameters
    ----------
    last_bend
        1-based.

    Returns
    -------
    float
        Above the shoulder tops [mm].
    """
    radius = part.radii[last_bend - 1]
    a = radius + part.thickness + section.shoulder_radius
    half = 0.5 * abs(part.angles[last_bend - 1])
    centre = float(arc_centre(half, 0.5 * section.opening, a, section.shoulder_radius))
    return centre - radius + section.nose_radius


def after_bend(
    section: ToolSection, part: PartGeometry, rows: Floats, let_go: float, *, stays: bool
) -> Opened:
    """Open both halves after a bend.

    Parameters
    ----------
    rows
        The part on the nose, see :func:`~strapwright.ordering.freeing.bar_under_nose.on_nose`.
    let_go
        Height of the nose's centre above the shoulder tops as it lets go [mm].
    stays
        The part rather stays on the shoulders than rides on the nose, where it can do both.
    """
    height = open_height(section, part.thickness)
    rise = height - let_go
    solid = whole(rows).buffer(-SKIN)
    nose = [p for p in section.pieces if p.side == "nose" and _beside(p, part.z)]
    die = [p for p in section.pieces if p.side == "shoulders" and _beside(p, part.z)]
    closed = [_shape(p, rise - height) for p in die]
    rounds = [_shape(p, 0.0) for p in nose]

    def leaves(by: float) -> bool:
        """Whether the nose rises by so much from the part that stays."""
        return not any(_swept(one, by).intersects(solid) for one in rounds)

    def is_left(by: float) -> bool:
        """Whether the shoulders fall back by so much from the part that rides."""
        return not any(_swept(one, -by).intersects(solid) for one in closed)

    places: list[Place] = []
    if leaves(rise):
        places.append(Place(spot=(0.0, -rise), rides=False, tries=UP))
    if is_left(rise):
        places.append(ON_NOSE)
    if not places or places[0].rides:
        play = _most(leaves, rise)
        if play > 2.0 * _FINELY and is_left(rise - play):
            places.append(Place(spot=(0.0, -play + _FINELY)))
    if not stays:
        places.sort(key=lambda one: not one.rides)
    return _opened(section, part.thickness, solid, places)


def before_bend(section: ToolSection, part: PartGeometry, rows: Floats) -> Opened:
    """Open both halves over the bar laid on the shoulders; its way off is its way in, backwards.

    Parameters
    ----------
    rows
        The bar where it lies, see :func:`~strapwright.ordering.freeing.bar_under_nose.laid_in`.
    """
    solid = whole(rows).buffer(-SKIN)
    place = Place(rides=False, tries=UP)
    return _opened(section, part.thickness, solid, [place])


def by_ground(opened: Opened) -> tuple[Opened, ...]:
    """Part the places by how low the way from them may go: a part that rides hangs higher."""
    grounds = tuple(dict.fromkeys(place.ground for place in opened.places))
    if len(grounds) < 2:
        return (opened,)
    return tuple(
        evolve(opened, places=tuple(p for p in opened.places if p.ground == ground), ground=ground)
        for ground in grounds
    )


def all_pieces(section: ToolSection, thickness: float) -> tuple[Piece, ...]:
    """Pieces of both halves at full opening, in coordinates of the nose [mm]."""
    height = open_height(section, thickness)
    return tuple(p if p.side == "nose" else _lowered(p, height) for p in section.pieces)


def _opened(
    section: ToolSection, thickness: float, solid: BaseGeometry, places: Sequence[Place]
) -> Opened:
    spots = [place.spot[1] for place in places] or [0.0]
    ground = ceiling = None
    if section.bed is not None:
        # Legs that hang beside a narrow bed may stay as low as they are, and come no lower.
        bed = section.bed - open_height(section, thickness)
        places = [evolve(p, ground=min(bed, solid.bounds[1] + p.spot[1] - 1.0)) for p in places]
        ground = min(bed, solid.bounds[1] + min(spots) - 1.0)
        tops = [y + p.radius for p in section.pieces if p.side == "nose" for _, y in _points(p)]
        ceiling = max([*tops, solid.bounds[3] + max(spots) + 1.0])
    return Opened(
        pieces=all_pieces(section, thickness),
        places=tuple(places),
        ground=ground,
        ceiling=ceiling,
    )


def _most(clear: Callable[[float], bool], most: float) -> float:
    """Bisect for the longest clear way [mm]."""
    low, high = 0.0, most
    while high - low > _FINELY:
        middle = 0.5 * (low + high)
        if clear(middle):
            low = middle
        else:
            high = middle
    return low


def _beside(piece: Piece, z: tuple[float, float] | None) -> bool:
    return z is None or piece.z is None or (piece.z[0] < z[1] and z[0] < piece.z[1])


def _points(piece: Piece) -> Iterable[tuple[float, float]]:
    return (piece.centre,) if piece.centre is not None else piece.polygon


def _lowered(piece: Piece, by: float) -> Piece:
    if piece.centre is not None:
        return evolve(piece, centre=(piece.centre[0], piece.centre[1] - by))
    return evolve(piece, polygon=tuple((x, y - by) for x, y in piece.polygon))


def _shape(piece: Piece, lift: float) -> BaseGeometry:
    """Region of a piece, lifted; a round is drawn about its circle, not within it."""
    if piece.centre is None:
        return Polygon([(x, y + lift) for x, y in piece.polygon])
    x, y = piece.centre
    radius = piece.radius / math.cos(math.pi / (4.0 * _ROUND))
    return Point(x, y + lift).buffer(radius, quad_segs=_ROUND)


def _swept(shape: BaseGeometry, by: float) -> BaseGeometry:
    """Region that a convex shape passes on its way up by ``by``."""
    moved = affinity.translate(shape, 0.0, by)
    points = np.vstack([shapely.get_coordinates(shape), shapely.get_coordinates(moved)])
    return shapely.MultiPoint(points).convex_hull
