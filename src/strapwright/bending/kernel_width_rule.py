"""How wide a bar is, mechanically: between plane stress and plane strain, and how far it saddles.

Measured on three-dimensional finite elements of whole bars (b/t 1 to 16, W/t 5 to 32) with two
metals; a fit, not blind.  Force within 0.5 % in the mean, angle within 0.2 deg in the mean; at an
exponent of 0.08 force to 3.9 % and angle to 0.9 deg.
"""

from __future__ import annotations

import math

from strapwright.compiled import jit

# Fitted with the rest of the rule: the saddle stops growing here, total loaded angle [rad].
SAG_CAP = math.radians(50.0)
# Past it the wrap flattens the saddle again up to here; nothing was compared past 68 deg, so this
# has no source.
SAG_END = math.radians(75.0)


@jit
def narrowness(width: float, thickness: float, opening: float, exponent: float) -> float:
    """Return u, the measure of how narrow a flat bar is for its opening [-].

    ``u = c_w (t/b) (W/(8 t))^0.7`` with ``c_w = 1.06 + 2.7 n``.
    """
    c_w = 1.06 + 2.7 * exponent
    return c_w * (thickness / width) * math.pow(opening / (8.0 * thickness), 0.7)


@jit
def width_state(u: float) -> float:
    """Return w, 0 plane stress .. 1 plane strain, for a narrowness ``u`` [-]."""
    return 1.0 - u / math.pow(1.0 + math.pow(u, 3.5), 1.0 / 3.5)


@jit
def sag_rate(u: float, thickness: float, opening: float) -> float:
    """How much lower the bar sits per radian of loaded angle because the section saddles [mm/rad].

    The nose touches the crest only; holds up to ``SAG_CAP``.
    """
    shape = u / math.pow(1.0 + math.pow(1.36 * u, 6.5), 3.0 / 6.5)
    return 0.098 * thickness * math.pow(opening / (8.0 * thickness), 1.3) * shape


@jit
def flow_exponent(strength: float, offset: float, exponent: float, slope: float) -> float:
    """Return dln(sigma)/dln(strain) at 5 % strain, which is n for a pure power law [-]."""
    if slope == 0.0:
        return exponent
    p = 0.05
    stress = strength * math.pow(offset + p, exponent) + slope * p
    power = strength * exponent * math.pow(offset + p, exponent - 1.0)
    return p * (power + slope) / stress
