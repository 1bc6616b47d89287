"""How well a person reads at the press, and how what is learned hangs together, before any log."""

from __future__ import annotations

import math

from attrs import field, frozen, validators

from strapwright.learning.error_along_turn import ErrorAlongTurn

_SPREAD = validators.ge(0.0)
_FORCE_ERROR = ErrorAlongTurn(even=0.28, quick=0.37, reach=math.radians(13.0))
_ANGLE_ERROR = ErrorAlongTurn(even=0.1, reach=math.radians(11.0))


@frozen(kw_only=True)
class LogSpreads:
    """One standard deviation each, unless it says otherwise.

    Attributes
    ----------
    gauge
        Pressure read by eye on a moving ram, relative [-] (common practice, no source).
    gauge_zero
        What a gauge shows with no pressure on it [MPa]; about half a needle's width on a small
        Bourdon gauge (common practice, no source).
    protractor
        Free angle read on a bar with mill scale [rad] (common practice, no source).
    loaded
        Loaded angle, read from outside with a paper angle gauge [rad] (common practice, no
        source).
    stop
        How well the ram comes back to one stop, from one part to the next [mm] (common practice,
        no source).
    piece
        Force from one piece of a lot to the next, relative [-] (common practice, no source).
    kept
        Share of the variance of the first contact that the tooling keeps when it is taken out
        and put in again [-]; the rest is new each time (common practice, no source).
    force_error, angle_error
        How the solver's own error of the force and of the angles hangs together along the turn: as
        those of the finite-element cases do, each by constants that were tuned without it
        (``validation/error_along_turn.py``).
    """

    gauge: float = field(default=0.03, validator=_SPREAD)
    gauge_zero: float = field(default=0.15, validator=_SPREAD)
    protractor: float = field(default=0.004, validator=_SPREAD)
    loaded: float = field(default=0.008, validator=_SPREAD)
    stop: float = field(default=0.02, validator=_SPREAD)
    piece: float = field(default=0.01, validator=_SPREAD)
    kept: float = field(default=0.5, validator=[_SPREAD, validators.le(1.0)])
    force_error: ErrorAlongTurn = _FORCE_ERROR
    angle_error: ErrorAlongTurn = _ANGLE_ERROR


USUAL_LOG = LogSpreads()
