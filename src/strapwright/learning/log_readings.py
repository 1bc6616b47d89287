"""One push at the press as it was read, and a push that is to be foretold."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.bend_band import Spreads
from strapwright.bending.bend_values import BendSetup


@frozen(kw_only=True)
class Places:
    """What a push was made with; what two pushes share is learned from both.

    Attributes
    ----------
    lot, press, tooling
        Names that tell one from another.
    mounting
        From putting the tooling in the press until it is taken out.
    part
        The piece; pushes on one piece share where its first contact was.
    """

    lot: str
    press: str
    tooling: str
    mounting: str
    part: str


@frozen(kw_only=True)
class Push:
    """One bend to be foretold.

    Attributes
    ----------
    setup
        As the shop states it.
    spreads
        How well that is known before anything was read.
    places
        What it is made with.
    per_force
        Pressure that a force needs [MPa/N]; ``None`` without a bore.
    no_load
        Pressure while the ram runs free [MPa].
    way
        What tells a way of bending from another whose error the solver does not share: empty for
        one bar bent by one push.
    more_force
        What is added to the force that the solver does not see, one deviation, relative [-].
    """

    setup: BendSetup
    spreads: Spreads
    places: Places
    per_force: float | None = None
    no_load: float = 0.0
    way: str = ""
    more_force: float = 0.0


@frozen(kw_only=True)
class Reading:
    """What was read of one push.

    Attributes
    ----------
    entry
        Name of the line in the log.
    push
        The bend.
    travel
        From first contact as found [mm].
    free, loaded
        Angle after release and under load, total [rad]; ``None`` where not read.
    gauge
        Pressure at the end [MPa]; ``None`` where not read.
    gauge_step
        Smallest division of the gauge [MPa].
    hits
        Pushes that were read together; ``free`` is a share of one of them.
    looks
        How often the angle after release was measured, each time anew; ``free`` is the mean.
    """

    entry: str
    push: Push
    travel: float
    free: float | None = None
    loaded: float | None = None
    gauge: float | None = None
    gauge_step: float = 0.0
    hits: int = 1
    looks: int = 1
