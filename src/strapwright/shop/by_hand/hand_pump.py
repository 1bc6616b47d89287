"""A hand pump: what it delivers a stroke, and the lever that drives it."""

from __future__ import annotations

from attrs import frozen


@frozen(kw_only=True)
class HandPump:
    """A hand pump of one stage or two.

    Attributes
    ----------
    volume
        Oil of one stroke, of a pump with two stages that at high pressure [mm3].
    strokes_per_minute
        As it is worked by hand.
    low_volume
        Oil of one stroke of the low stage, ``None`` for a pump of one stage [mm3].
    changes_at
        Pressure up to which the low stage works [MPa].
    piston
        Diameter of the pump's piston, that of the high stage [mm].
    lever, arm
        From the pivot to the hand, and from the pivot to the pin of the piston [mm].
    """

    volume: float
    strokes_per_minute: float
    low_volume: float | None = None
    changes_at: float | None = None
    piston: float | None = None
    lever: float | None = None
    arm: float | None = None
