"""Hoop stress of a bent bar against its plastic strain: one law for every metal.

Compiled; plain floats only.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from strapwright.compiled import jit


class Law(NamedTuple):
    """Hoop stress against plastic hoop strain, sigma(p) = gamma Y(gamma p), Y = K (e0+q)^n + H q.

    ``modulus`` is E' [MPa]; ``gamma`` carries the width state [-].  q is the plastic strain past
    the ``plateau`` [-], up to which the metal flows at its yield.  ``peak`` is what the upper yield
    adds at first [MPa]; it falls evenly to nothing at the strain ``peak_gone`` [-].  On letting go
    the modulus is E_u = E' [1 - (1 - unloading) (1 - exp(-unloading_rate p))].
    """

    modulus: float
    gamma: float
    strength: float
    offset: float
    exponent: float
    slope: float
    unloading: float = 1.0
    unloading_rate: float = 0.0
    plateau: float = 0.0
    peak: float = 0.0
    peak_gone: float = 1.0


@jit
def hoop_stress(law: Law, p: float) -> float:
    """Sigma(p) [MPa]."""
    g = law.gamma * p
    q = max(g - law.plateau, 0.0)
    flow = law.strength * math.pow(law.offset + q, law.exponent) + law.slope * q
    if law.peak > 0.0:
        flow += law.peak * max(1.0 - g / law.peak_gone, 0.0)
    return law.gamma * flow


@jit
def hoop_rise(law: Law, p: float) -> float:
    """Return d sigma / d p [MPa]."""
    g = law.gamma * p
    rise = 0.0
    if g >= law.plateau:
        q = g - law.plateau
        rise = law.strength * law.exponent * math.pow(law.offset + q, law.exponent - 1.0)
        rise += law.slope
    if law.peak > 0.0 and g < law.peak_gone:
        rise -= law.peak / law.peak_gone
    return law.gamma * law.gamma * rise


@jit
def stress_and_rise(law: Law, p: float) -> tuple[float, float]:
    """Sigma(p) and d sigma / d p [MPa], with one power for both."""
    if law.plateau > 0.0 or law.peak > 0.0:
        return hoop_stress(law, p), hoop_rise(law, p)
    base = law.offset + law.gamma * p
    power = law.strength * math.pow(base, law.exponent)
    stress = law.gamma * (power + law.slope * law.gamma * p)
    return stress, law.gamma * law.gamma * (law.exponent * power / base + law.slope)


@jit
def plastic_strain(law: Law, strain: float, guess: float) -> float:
    """Plastic part p of a total strain e = p + sigma(p)/E', by Newton from ``guess``.

    sigma is concave, so a start from the left never overshoots below the yield point for long;
    the step is held at p >= 0 all the same.
    """
    p = guess
    for _ in range(40):
        stress, rise = stress_and_rise(law, p)
        miss = p + stress / law.modulus - strain
        p_new = p - miss / (1.0 + rise / law.modulus)
        if p_new < 0.0:
            p_new = 0.5 * p
        # The next step would be of the order of this one's square.
        if abs(p_new - p) <= 1e-14 + 1e-8 * p:
            return p_new
        p = p_new
    return p
