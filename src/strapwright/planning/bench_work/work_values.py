"""What is done to a part after it leaves the press, as values."""

from __future__ import annotations

from attrs import frozen

from strapwright.midline.pose_values import End


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


BenchWork = Sawing
