"""The highest relief at which something on the rack does, where nothing does at the one set."""

from __future__ import annotations

import math
from collections.abc import Callable

from attrs import frozen

from strapwright.proposing.found_values import LowerRelief, NearMiss
from strapwright.proposing.proposal_values import Proposed
from strapwright.quantities import Units
from strapwright.quantities.inside_units import PSI_MPA

# Settings that a usual gauge shows: 50 psi and 5 bar (common practice, no source).
STEPS: dict[Units, float] = {"inch": 50 * PSI_MPA, "metric": 0.5}
_SAME = 1e-9  # of a step, numerical


@frozen(kw_only=True)
class Tried:
    """What a search at one relief came to.

    Attributes
    ----------
    proposed
        The cheapest that does; ``None`` where none does.
    share
        Of that relief, above which everything that was too weak there stays too weak; 0 where
        nothing was too weak, so that less relief helps nothing.
    """

    proposed: Proposed | None
    share: float


def highest_relief(
    at: Callable[[float], Tried | None],
    *,
    relief: float,
    share: float,
    units: Units,
    near: NearMiss | None,
) -> LowerRelief | None:
    """Step down from the relief that is set until something does.

    Parameters
    ----------
    at
        Searches the rack at a relief [MPa]; ``None`` where the press cannot make the bends there,
        or the time is over.
    relief
        As set [MPa].
    share
        As :class:`Tried` has it, at the relief that is set.
    units
        Of the gauge.
    near
        The nearest miss at the relief that is set.

    Returns
    -------
    LowerRelief or None
        On a setting that the gauge shows; ``None`` where no such setting does, or none was found in
        the time.
    """
    step = STEPS[units]
    setting = math.ceil(relief / step - _SAME) * step
    while share > 0.0:
        # At least one step down, and past all settings at which the same is too weak.
        below = math.floor(min(share * setting, setting - step) / step + _SAME)
        setting = below * step
        tried = at(setting) if below > 0 else None
        if tried is None:
            return None
        if tried.proposed is not None:
            nose = tried.proposed.choice.nose
            missed = None if near is None or near.choice is None else near.choice.nose
            return LowerRelief(
                proposed=tried.proposed,
                relief=setting,
                was=relief,
                smaller=missed is not None and nose.thickness < missed.thickness,
            )
        share = tried.share
    return None
