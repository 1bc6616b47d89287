"""A job: everything one plan is made from."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.part import Part
from strapwright.shop.press import Press
from strapwright.shop.tooling import Tooling

Units = Literal["inch", "metric"]
BlankMethod = Literal["strain", "book soft", "book medium", "book hard", "din 6935", "factor"]
Reading = Literal["1/64", "1/32", "1/16", "decimal", "mm"]


@frozen(kw_only=True)
class BlankSettings:
    """How the blank is worked out and read.

    Attributes
    ----------
    method
        ``strain`` is the stroke solver's own strain state.
    factor
        Neutral-axis factor K for the method ``factor`` [-].
    reading
        How lengths are printed on the sheet; ``None`` follows the job's units.
    """

    method: BlankMethod = "strain"
    factor: float | None = None
    reading: Reading | None = None


# Chord height of a row of hits from the true arc, 1/32 in; common practice, no source.
HITS_TOLERANCE = 0.79375  # mm


@frozen(kw_only=True)
class HitSettings:
    """How fine a row of hits is.

    Attributes
    ----------
    tolerance
        How far the made shape may stand off the true arc [mm].
    """

    tolerance: float = HITS_TOLERANCE


@frozen(kw_only=True)
class Job:
    """One part with the press and tooling it is made on; either may be missing."""

    units: Units
    part: Part
    press: Press | None = None
    tooling: Tooling | None = None
    blank: BlankSettings = BlankSettings()
    hits: HitSettings = HitSettings()
