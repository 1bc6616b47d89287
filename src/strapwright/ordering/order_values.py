"""What goes into the search for a bend order and into coming off.

Units inside: mm and rad.  Bends are numbered from 1 in values, from end 1 of the bar.
"""

from __future__ import annotations

import math
from typing import Literal

from attrs import frozen

from strapwright.errors import InputError

Side = Literal["nose", "shoulders"]
PieceKind = Literal[
    "nose",
    "nose web",
    "push plate",
    "carrier",
    "ram",
    "plate mount",
    "shoulder",
    "floor",
    "channel wall",
    "bed",
    "column",
    "guide rod",
    "obstacle",
]
Point = tuple[float, float]


@frozen(kw_only=True)
class Piece:
    """One convex piece of the tooling or of what stands around it.

    Attributes
    ----------
    name
        What the person at the press calls it; nothing follows from it.
    kind
        What it is; what a person put there by a name of their own is an ``obstacle``.
    side
        Which half it moves with.  ``nose``: coordinates from the nose centre, y away from the
        part.  ``shoulders``: x = 0 in the middle of the opening, y = 0 at the shoulder tops, the
        bar comes from above.
    centre, radius
        A circle [mm]; leave ``centre`` at ``None`` for a polygon.
    polygon
        Corners of a convex polygon, either way round [mm].
    z
        From where to where it reaches along the nose [mm]; ``None`` where it is endless.
    contact
        The bar touches it on purpose: it is not held against the run it carries.
    drawn
        It is put in endways once the bar lies and the rest has closed, so it is not held against
        the bar while closing.
    body
        Pieces of one body are removed together; empty where the piece is a body of its own.
    assumed
        Nobody stated it: place or size is a round figure.
    """

    name: str
    kind: PieceKind = "obstacle"
    side: Side
    centre: Point | None = None
    radius: float = 0.0
    polygon: tuple[Point, ...] = ()
    z: tuple[float, float] | None = None
    contact: bool = False
    drawn: bool = False
    body: str = ""
    assumed: bool = False

    def __attrs_post_init__(self) -> None:
        """Refuse what is neither a circle nor a convex polygon."""
        if self.centre is not None:
            if not (self.radius > 0.0 and not self.polygon):
                raise InputError(
                    f"piece {self.name}",
                    "a circle has a positive radius and no polygon",
                    "give a radius above 0, or leave the centre out",
                )
        elif not _convex(self.polygon):
            raise InputError(
                f"piece {self.name}",
                "its corners do not form a convex polygon",
                "split it into convex pieces of at least three corners",
            )
        if self.z is not None and not self.z[0] < self.z[1]:
            raise InputError(
                f"piece {self.name}",
                f"it reaches along the nose from {self.z[0]:g} to {self.z[1]:g} mm",
                "give the smaller figure first",
            )

    @property
    def owner(self) -> str:
        """Name of the body it belongs to."""
        return self.body or self.name


def _convex(corners: tuple[Point, ...]) -> bool:
    if len(corners) < 3:
        return False
    turns = []
    for k, (x, y) in enumerate(corners):
        ax, ay = corners[k - 1]
        bx, by = corners[(k + 1) % len(corners)]
        turns.append((x - ax) * (by - y) - (y - ay) * (bx - x))
    return all(t > 0.0 for t in turns) or all(t < 0.0 for t in turns)


@frozen(kw_only=True)
class ToolSection:
    """One tooling seen along the nose, with everything the bar could run into.

    Attributes
    ----------
    opening
        W, centre to centre of the shoulder circles [mm].
    shoulder_radius, nose_radius
        [mm]
    depth
        Free depth below the shoulder tops [mm]; ``None`` where it is open.
    daylight
        How far the nose side stands above its touching height when the bar is laid in [mm].
    bed
        Height of the bed's face above the shoulder tops, below 0; the way off stays above it.
        ``None`` where nothing is known of a bed [mm].
    """

    opening: float
    shoulder_radius: float
    nose_radius: float
    pieces: tuple[Piece, ...]
    depth: float | None = None
    daylight: float = 150.0
    bed: float | None = None


@frozen(kw_only=True)
class PartGeometry:
    """The finished part as a chain of straights and arcs in one plane.

    Attributes
    ----------
    straights
        Tangent to tangent, one more than the bends [mm].
    angles
        How far each bend turns the bar, positive to one side, negative to the other [rad].
    radii
        Inside (wrap) radius of each bend [mm].
    thickness
        [mm]
    z
        Where the bar lies along the nose [mm]; ``None`` where it is not known, then every piece
        counts.
    """

    straights: tuple[float, ...]
    angles: tuple[float, ...]
    radii: tuple[float, ...]
    thickness: float
    z: tuple[float, float] | None = None

    def __attrs_post_init__(self) -> None:
        """Refuse a chain that is not one."""
        if not (
            len(self.straights) == len(self.angles) + 1 and len(self.radii) == len(self.angles) >= 1
        ):
            raise InputError(
                "part",
                f"{len(self.straights)} straights, {len(self.angles)} bends and {len(self.radii)} "
                "radii do not form a chain",
                "give at least one bend, a radius for each, and one straight more than bends",
            )
        if not (self.thickness > 0.0 and min(self.straights) >= 0.0 and min(self.radii) >= 0.0):
            raise InputError(
                "part", "a length is negative", "give lengths of 0 or more and a thickness above 0"
            )
        if not all(0.0 < abs(a) < math.pi for a in self.angles):
            raise InputError(
                "part", "a bend angle is 0 or is 180° or more", "give angles between 0 and 180"
            )

    @property
    def bends(self) -> int:
        """How many bends."""
        return len(self.angles)

    @property
    def allowances(self) -> tuple[float, ...]:
        """Length of the neutral line, at half thickness, in each bend [mm]."""
        pairs = zip(self.angles, self.radii, strict=True)
        return tuple((r + self.thickness / 2.0) * abs(a) for a, r in pairs)

    @property
    def length(self) -> float:
        """Of the unbent bar [mm]."""
        return sum(self.straights) + sum(self.allowances)


@frozen(kw_only=True)
class StepCosts:
    """What handling costs, whole numbers so that 'least' can be proven.

    They stand to each other as 3 to 2 to 1 (common practice, no source), where a shop does not say
    better.

    Attributes
    ----------
    flip, swap, stop
        Other face up; end for end; end stop moved.
    pick
        Taking a part in hand again, where all parts get one bend before the next.
    half_turn
        Flip and swap in one move, by a half turn in the plane of the profile; ``None`` where the
        shop does the one and then the other.
    tool
        A change of tooling: more than all other handling of a usual part (common practice, no
        source), so that the order with the fewest changes is found.
    minutes
        How long one of them is [min].
    """

    flip: int = 3
    swap: int = 2
    stop: int = 1
    pick: int = 1
    half_turn: int | None = None
    tool: int = 50
    minutes: float = 0.1

    def __attrs_post_init__(self) -> None:
        """Refuse a negative weight."""
        turn = 0 if self.half_turn is None else self.half_turn
        if min(self.flip, self.swap, self.stop, self.pick, turn) < 0:
            raise InputError("costs", "a weight is negative", "give whole numbers of 0 or more")

    def move(self, *, flip: bool, swap: bool) -> int:
        """Return what it costs to lay the bar the other way."""
        if flip and swap and self.half_turn is not None:
            return self.half_turn
        return self.flip * flip + self.swap * swap


USUAL_WEIGHTS = StepCosts()


@frozen(kw_only=True)
class SearchSettings:
    """What a step must keep to; the clearances and margins are common practice, no source.

    Attributes
    ----------
    clearance
        Between the part and what it must not touch [mm].
    tolerance
        How far below ``clearance`` a distance may be taken for enough [mm].
    self_clearance
        Between the part and itself [mm].
    springback
        Overbend of each bend at the end of its stroke, one for all or one a bend [rad].
    begins
        Angle that each bend has before its stroke, one a bend; empty where all are straight [rad].
    leg_margin
        Added to the straight that a bend needs on each side [mm].
    depth_margin
        Kept between the outside of the arc and the bottom of the die [mm].
    stop_tolerance
        Reaches that differ by no more share one setting of the end stop [mm].
    """

    costs: StepCosts = USUAL_WEIGHTS
    clearance: float = 1.5
    tolerance: float = 0.25
    self_clearance: float = 0.75
    springback: tuple[float, ...] = (0.0,)
    begins: tuple[float, ...] = ()
    leg_margin: float = 3.0
    depth_margin: float = 1.25
    stop_tolerance: float = 0.5

    def __attrs_post_init__(self) -> None:
        """Refuse a clearance that a distance, which is never negative, always keeps."""
        if not 0.0 < self.tolerance < self.clearance:
            raise InputError(
                "settings.clearance",
                f"clearance {self.clearance:g} mm with a tolerance of {self.tolerance:g} mm",
                "give a tolerance above 0 and a clearance above it",
            )
        if not self.self_clearance > 0.0:
            raise InputError(
                "settings.self_clearance", "it is not above 0", "give a distance above 0"
            )
        if min(self.springback) < 0.0:
            raise InputError("settings.springback", "it is negative", "give 0 or more")

    def begin(self, bend: int) -> float:
        """Angle that the 0-based ``bend`` has before its stroke [rad]."""
        return self.begins[bend] if self.begins else 0.0

    def overbend(self, bend: int) -> float:
        """Overbend of the 0-based ``bend`` [rad]."""
        return self.springback[bend if len(self.springback) > 1 else 0]
