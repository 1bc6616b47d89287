"""Whether a part on the press is pushed on, by how much, and why not where it is not."""

from __future__ import annotations

import math
from typing import Literal

from attrs import frozen

from strapwright.bending.bend_band import NINETY
from strapwright.bending.bend_values import Band
from strapwright.learning.log_spreads import USUAL_LOG

# However tight the tolerance, a bend that is short by less than this is not pushed on: a protractor
# tells no more (common practice, no source).
_LEAST = math.radians(0.25)

Standing = Literal["not read", "finished", "past", "further", "jams", "far enough"]


@frozen(kw_only=True)
class Aim:
    """Where the next push of a bend goes [mm].

    Attributes
    ----------
    travel
        From first contact as found.
    band
        That meets the wanted angle, nine times in ten.
    """

    travel: float
    band: Band


@frozen(kw_only=True)
class Onward:
    """What follows for the part on the press.

    Attributes
    ----------
    standing
        ``finished`` is in tolerance as read, ``past`` above it; ``far enough`` is a bend that reads
        short although its push should have done by all that is known of it, ``jams`` one that can
        be pushed no further by that.
    aim
        How much further to push, counted from where it was pushed to; ``None`` but for ``further``.
    """

    standing: Standing
    aim: Aim | None = None


def is_short(free: float, wanted: float, tolerance: float) -> bool:
    """Tell whether a bend is short by more than its tolerance surely allows [rad].

    The reading is off by up to what nine of ten protractor readings are, so a bend that is short
    by nearly the tolerance is pushed on.
    """
    return free < wanted - max(tolerance - NINETY * USUAL_LOG.protractor, _LEAST)


def onward(
    free: float | None, wanted: float, tolerance: float, pushed: float | None, aim: Aim | None
) -> Onward:
    """Return what follows for a part.

    Parameters
    ----------
    free, wanted, tolerance
        Angle read, wanted, and how far off it may be [rad]; ``free`` is ``None`` if not read.
    pushed
        Travel it was pushed to [mm].
    aim
        Setting for this very part by all that is known of it; ``None`` where the tooling jams.
    """
    if free is None or pushed is None:
        return Onward(standing="not read")
    if free > wanted + tolerance:
        return Onward(standing="past")
    if not is_short(free, wanted, tolerance):
        return Onward(standing="finished")
    if aim is None:
        return Onward(standing="jams")
    # No ram stops finer than a stop comes back.
    if aim.travel - pushed <= USUAL_LOG.stop:
        return Onward(standing="far enough")
    return Onward(
        standing="further",
        aim=Aim(
            travel=aim.travel - pushed,
            band=Band(low=max(aim.band.low - pushed, 0.0), high=max(aim.band.high - pushed, 0.0)),
        ),
    )
