"""What comes out of the search for a bend order and of coming off.

Units inside: mm and rad.  Bends are numbered from 1, from end 1 of the bar.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.ordering.order_values import Piece
from strapwright.ordering.refusal_values import End, Refusal


@frozen(kw_only=True)
class OrderStep:
    """One bend of the order.

    Attributes
    ----------
    bend
        1-based.
    sign
        Sign of its angle, which fixes the face that lies up.
    end_left
        Which end of the bar points left.
    made
        Bends made before it, ascending.
    cost
        Of getting the bar from the step before into this one.
    reach
        How far the part reaches left of the bend's middle, where the end stop stands [mm].
    clearance
        Distance that the part keeps at least over closing and stroke [mm].
    nearest
        The piece it comes nearest to; ``None`` where there is none.
    """

    bend: int
    sign: Literal[1, -1]
    end_left: End
    made: tuple[int, ...]
    cost: int
    reach: float
    clearance: float
    nearest: Piece | None


@frozen(kw_only=True)
class Alternative:
    """The best order that ends with a given bend.

    Attributes
    ----------
    last_bend
        1-based.
    cost
        ``None`` where there is no such order, or none was found in time.
    order
        Bends in order, 1-based; empty without a cost.
    proven
        The cost is the least, or that there is none is certain.
    refusal
        Why there is none.
    """

    last_bend: int
    cost: int | None
    order: tuple[int, ...]
    proven: bool
    refusal: Refusal | None


@frozen(kw_only=True)
class OrderResult:
    """The order found, and what speaks against the others.

    Attributes
    ----------
    feasible
        An order was found.
    proven
        The cost is the least there is, or it is certain that no order exists; otherwise this is
        the best found in the time given.
    cost
        ``None`` without an order.
    steps
        In the order of making.
    alternatives
        One for each last bend, where asked for.
    refusals
        For a part without an order, why each bend cannot be the last one.
    closes_on_itself
        The finished outline comes too near to itself as drawn.
    visited
        States looked at.
    """

    feasible: bool
    proven: bool
    cost: int | None
    steps: tuple[OrderStep, ...]
    alternatives: tuple[Alternative, ...]
    refusals: tuple[Refusal, ...]
    closes_on_itself: bool
    visited: int


FreeingVerdict = Literal["FREE", "TRAPPED", "TOO CLOSE", "NO START", "NO TIME"]


@frozen(kw_only=True)
class FreeingPose:
    """Where the part is on its way off, relative to where it was bent.

    Attributes
    ----------
    x, y, z
        Displacement; turning is about the middle of the arc on the nose [mm].
    theta
        Turned anticlockwise [rad].
    """

    x: float
    y: float
    z: float
    theta: float


@frozen(kw_only=True)
class FreeingResult:
    """Whether the bent part comes off.

    Attributes
    ----------
    verdict
        Holds for motion in the plane and sliding along the nose, without tilting.  ``NO START``:
        the part overlaps the tooling on the nose, or keeps the halves from opening.  ``TOO CLOSE``
        and ``NO TIME``: not decided, within what can be resolved or in the time given.
    motion
        Poses on the way out; empty unless free.  Where the part stays on the shoulders the second
        pose is the one with both halves fully open.  Between two poses of one angle the part moves
        straight, touching at most; between two angles it turns, and there the poses are linked
        by a turn about the gap rather than about the nose.
    how
        ``drops``, ``slides``, ``turns`` or empty.
    gap
        Smallest distance between an end leg and another leg it does not follow at once [mm];
        ``None`` where there is none.
    must_pass
        Least size of any piece of the nose side [mm], or ``None``.
    held_by
        Bodies of which any one, taken away, frees the part.
    any_motion
        Trapped for any motion, tilting included: the part closes round a member that is held at
        both ends, and the gap is smaller.
    slabs
        How many slabs of angle were looked at.
    rides
        The nose takes the part along as the halves open.
    spot
        Where the part is with both halves fully open, or likeliest is where it does not come off:
        displacement from where it was bent on the nose [mm].
    parts
        Nose and shoulders open with the part between them; where they do not, there is no start.
    drawn_frees
        Trapped, but free once the nose is drawn out endways.
    """

    verdict: FreeingVerdict
    motion: tuple[FreeingPose, ...]
    how: Literal["drops", "slides", "turns", ""]
    gap: float | None
    must_pass: float | None
    held_by: tuple[str, ...]
    any_motion: bool
    slabs: int
    rides: bool = False
    spot: tuple[float, float] = (0.0, 0.0)
    parts: bool = True
    drawn_frees: bool = False
