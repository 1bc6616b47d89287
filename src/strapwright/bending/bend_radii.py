"""The three radii of a made bend, and how far its outer face has stretched.

A bar does not lie on the nose everywhere: it thins in the middle, leaves the tip of the nose and
rides on two flanks.  So what a radius gauge reads is smaller than the nose, and smallest in the
middle.  Shares of the nose radius from the finite elements of the reference cases.
"""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.bending.bend_values import BendSetup, StrokeState
from strapwright.bending.solver_model import hardening

# Fitted: middle of what the reference cases show over the middle +-t once wrapped (0.78 to 0.89).
GAUGE_SHARE = 0.835
# Over the middle +-t/2: little hardening 0.54, ordinary hardening 0.73 (0.69 to 0.77).
TIGHT_SHARE_LOW, TIGHT_SHARE = 0.54, 0.73
_LOW_N, _ORDINARY_N = 0.02, 0.15


@frozen(kw_only=True)
class BendRadii:
    """Inside radii under load [mm], see :func:`bend_radii`."""

    wrap: float
    gauge: float
    tightest: float


def bend_radii(setup: BendSetup, state: StrokeState) -> BendRadii:
    """Return wrap, gauge and tightest inside radius of a state.

    Before the bar has wrapped, its radius under the nose is the larger one of the elastica, and
    the crowding in the middle has only begun; it grows with the square of the curvature.
    """
    wrap = 1.0 / state.nose_curvature - 0.5 * setup.thickness
    top = 1.0 / (setup.nose_radius + 0.5 * setup.thickness)
    begun = min(state.nose_curvature / top, 1.0) ** 2
    n = min(max(hardening(setup.flow), _LOW_N), _ORDINARY_N)
    tight = TIGHT_SHARE_LOW + (TIGHT_SHARE - TIGHT_SHARE_LOW) * (n - _LOW_N) / (
        _ORDINARY_N - _LOW_N
    )
    return BendRadii(
        wrap=wrap,
        gauge=wrap * (1.0 - (1.0 - GAUGE_SHARE) * begun),
        tightest=wrap * (1.0 - (1.0 - tight) * begun),
    )


def outer_strain(setup: BendSetup, state: StrokeState) -> float:
    """Local true strain of the outer face in the middle of the bend, see :func:`strain_at` [-]."""
    return strain_at(setup, state.nose_curvature)


def wrapped_strain(setup: BendSetup) -> float:
    """Local true strain of the outer face once the bar has wrapped the nose [-]."""
    return strain_at(setup, 1.0 / (setup.nose_radius + 0.5 * setup.thickness))


def strain_at(setup: BendSetup, curvature: float) -> float:
    """Local true strain of the outer face at a curvature kappa of the mid-line [1/mm] [-].

    ``ln(1 + kappa t/2)`` times 1.3, or 1.8 for little hardening on a sharp nose (finite elements
    of the reference cases).
    """
    sharp = hardening(setup.flow) < 0.1 and setup.nose_radius < 1.5 * setup.thickness
    factor = 1.8 if sharp else 1.3
    return factor * math.log(1.0 + 0.5 * curvature * setup.thickness)
