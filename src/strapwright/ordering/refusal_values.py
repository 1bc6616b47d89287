"""Why a bend cannot be made in one state of the bar, as values.

Units inside: mm and rad.  Bends are numbered from 1, from end 1 of the bar.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.findings import Fact
from strapwright.ordering.order_values import Piece

End = Literal[1, 2]
Phase = Literal["closing", "rest", "stroke"]


@frozen(kw_only=True)
class SmallRadius:
    """The bend is tighter than the nose.

    Attributes
    ----------
    had, needed
        Inside radius of the bend, and the least, which is that of the nose [mm].
    """

    had: float
    needed: float


@frozen(kw_only=True)
class Jams:
    """The tooling jams before the angle that the bend needs under load.

    Attributes
    ----------
    had, needed
        Bend angle at which it jams, and the one needed [rad].
    """

    had: float
    needed: float


@frozen(kw_only=True)
class TooShallow:
    """The outside of the bend would meet the bottom of the die.

    Attributes
    ----------
    had, needed
        Depth of the die, and how far the outside of the bend sinks [mm].
    angle
        Bend angle under load at which it does [rad].
    """

    had: float
    needed: float
    angle: float


@frozen(kw_only=True)
class ShortLeg:
    """A leg does not reach over its shoulder.

    Attributes
    ----------
    towards
        The end of the bar that it lies towards.
    had, needed
        Straight bar from the middle of the bend [mm].
    """

    towards: End
    had: float
    needed: float


@frozen(kw_only=True)
class Hits:
    """A wing hits something.

    Attributes
    ----------
    piece
        What it hits.
    wing
        Which one, as the bar lies.
    phase
        ``closing``: while the nose side comes down; ``rest``: as the bar is laid in; ``stroke``.
    angle
        Bend angle at which it happens [rad].
    off_middle
        How far the nose then stands off the middle, positive to the right as the bar lies [mm].
    """

    piece: Piece
    wing: Literal["left", "right"]
    phase: Phase
    angle: float
    off_middle: float = 0.0


@frozen(kw_only=True)
class TooNear:
    """Something is nearer on the way than the clearance allows.

    Attributes
    ----------
    piece
        What is so near; ``None`` where that was not told apart.
    had
        Distance that is kept at least [mm].
    off_middle
        How far the nose then stands off the middle, positive to the right as the bar lies [mm].
    """

    piece: Piece | None
    had: float
    off_middle: float = 0.0


@frozen(kw_only=True)
class MeetsItself:
    """The part hits itself.

    Attributes
    ----------
    angle
        Bend angle at which it does, overbend included [rad].
    """

    angle: float


@frozen(kw_only=True)
class StaysOn:
    """The caller refuses it, for the part does not come off the tooling afterwards."""


@frozen(kw_only=True)
class NotLaidIn:
    """The caller refuses it, for the bar cannot be laid in with nose and shoulders open."""


@frozen(kw_only=True)
class AtHit:
    """A row of hits comes no further.

    Attributes
    ----------
    hit, hits
        1-based number of the hit, and how many there are.
    reason
        What forbids it.
    """

    hit: int
    hits: int
    reason: Hits | MeetsItself | TooShallow | ShortLeg


@frozen(kw_only=True)
class InStack:
    """One bar of a stack cannot be made.

    Attributes
    ----------
    bar
        1-based, from the nose.
    reason
        What forbids it.
    """

    bar: int
    reason: Reason


@frozen(kw_only=True)
class NoWayThere:
    """The bend itself can be made, but no order leads to it.

    Attributes
    ----------
    furthest
        The stage nearest to the straight bar from which the part can be finished with this bend
        last; ``None`` where that is this stage itself.
    blocked
        Why none of the bends made by then can have been the latest of them.
    """

    furthest: Stage | None
    blocked: tuple[Refusal, ...]


Reason = (
    SmallRadius
    | Jams
    | TooShallow
    | ShortLeg
    | Hits
    | TooNear
    | MeetsItself
    | StaysOn
    | NotLaidIn
    | AtHit
    | InStack
    | NoWayThere
)


@frozen(kw_only=True)
class Stage:
    """One bend on top of others.

    Attributes
    ----------
    bend
        1-based.
    made
        Bends made before it, ascending.
    last
        No bend is left after it.
    """

    bend: int
    made: tuple[int, ...]
    last: bool


@frozen(kw_only=True)
class Refusal(Fact):
    """Why one bend cannot be made in one state of the bar.

    Attributes
    ----------
    stage
        The bend, and those made before it.
    reason
        What forbids it.
    end_left
        Which end pointed left; ``None`` where neither way works or it makes no difference.
    """

    stage: Stage
    reason: Reason
    end_left: End | None = None

    def in_the_way(self) -> tuple[Reason, ...]:
        """What is in the way in the end: the reason, or what blocks all orders that lead there."""
        if isinstance(self.reason, NoWayThere):
            return tuple(one for refusal in self.reason.blocked for one in refusal.in_the_way())
        reason: Reason = self.reason
        while isinstance(reason, AtHit | InStack):
            reason = reason.reason
        return (reason,)
