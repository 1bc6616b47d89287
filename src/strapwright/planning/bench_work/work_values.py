"""What is done to a part after it leaves the press, as values."""

from __future__ import annotations

from attrs import frozen

from strapwright.midline.pose_values import End
from strapwright.shop.part_finish import FinishedBy
from strapwright.shop.part_holes import Hole


@frozen(kw_only=True)
class Sawing:
    """An end leg that was left longer is sawn off.

    Attributes
    ----------
    end
        End of the bar.
    leg
        1-based leg.
    length
        That is sawn off [mm].
    position
        Of the saw line, from end 1 of the flat blank [mm].
    finished
        Length of the leg after it, as the shop measures legs [mm].
    """

    end: End
    leg: int
    length: float
    position: float
    finished: float


@frozen(kw_only=True)
class Closing:
    """A bend that the press made part of the way is closed to its angle.

    Attributes
    ----------
    bend
        1-based.
    by
        What closes it.
    begins, ends
        Bend angle it begins at, and wanted [rad].
    past
        How far past that to go, for it opens again by so much; not proven [rad].
    pulled, clamped
        1-based leg that is pulled round, and the one in the jaws; of a squeeze both are pressed.
    leg, grip
        Straight length of the leg pulled or pressed, and of what the jaws hold [mm].
    arm
        From the bend to where it is pulled, longer than the leg where a pipe is put over it [mm].
    force
        At most, there [N].
    gauge
        Reading at that force where the ram squeezes it; ``None`` without a press [MPa].
    most
        That the ram gives at relief; ``None`` where not known [N].
    """

    bend: int
    by: FinishedBy
    begins: float
    ends: float
    past: float
    pulled: int
    clamped: int
    leg: float
    grip: float
    arm: float
    force: float
    gauge: float | None = None
    most: float | None = None

    @property
    def too_heavy(self) -> bool:
        """Whether the ram cannot squeeze it."""
        return self.most is not None and self.force > self.most


@frozen(kw_only=True)
class Drilling:
    """A hole that is drilled once the part is bent.

    Attributes
    ----------
    hole
        1-based number as stated in the part.
    place
        As the shop states it, on the finished part.
    near
        1-based bend that it is nearest to.
    away
        From its edge to that bend [mm].
    """

    hole: int
    place: Hole
    near: int
    away: float


@frozen(kw_only=True)
class Twisting:
    """A leg is given a quarter twist.

    Attributes
    ----------
    leg
        1-based.
    begin, end
        Of the run that is twisted, from end 1 of the flat blank [mm].
    angle
        Positive turns the top of the bar beyond it towards the viewer, with end 1 on the left
        [rad].
    past
        Between which angles it springs back; not proven [rad].
    lost
        Between which lengths the run gets shorter; the blank has the middle of it [mm].
    torque
        At most [N mm].
    people, arm
        How many pull at the twisting bar, one to each side, and how far from the middle [mm].
    before
        1-based bends that are made only after it; empty where it comes after the last bend.
    """

    leg: int
    begin: float
    end: float
    angle: float
    past: tuple[float, float]
    lost: tuple[float, float]
    torque: float
    people: int
    arm: float
    before: tuple[int, ...] = ()


BenchWork = Sawing | Closing | Drilling | Twisting
