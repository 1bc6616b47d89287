"""A quarter twist of a flat bar: what lies beyond it stands square to what lies before it."""

from __future__ import annotations

from attrs import frozen


@frozen(kw_only=True)
class Twist:
    """One quarter twist, in the straight of a leg.

    Attributes
    ----------
    leg
        1-based leg that it lies in.
    middle
        From where the leg's dimension begins, towards end 1, to the middle of the twisted run [mm].
    angle
        A quarter of a turn; positive turns the top of the bar beyond it towards the viewer, with
        end 1 on the left [rad].
    over
        Length of the twisted run of the finished part; ``None`` for the one that the bar asks for
        [mm].
    """

    leg: int
    middle: float
    angle: float
    over: float | None = None
