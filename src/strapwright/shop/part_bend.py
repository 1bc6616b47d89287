"""One bend of a part."""

from __future__ import annotations

from typing import Literal

from attrs import frozen


@frozen(kw_only=True)
class Bend:
    """One bend of the part.

    Attributes
    ----------
    angle
        How far the bend turns the bar, positive [rad].
    side
        ``+1`` where the next leg turns up as drawn, ``-1`` where it turns down.
    radius
        Inside radius where the bend is made in a series of hits, ``None`` where by one [mm].
    """

    angle: float
    side: Literal[1, -1]
    radius: float | None = None
