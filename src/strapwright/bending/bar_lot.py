"""From what is known of a batch of bar to its flow curve, with how well each part is known."""

from __future__ import annotations

import math

from attrs import evolve, frozen
from scipy.optimize import brentq

from strapwright.bending.bend_values import FlowCurve
from strapwright.bending.shop_spreads import USUAL_SPREADS, BarSpread
from strapwright.catalog import Material
from strapwright.errors import InputError, either_unit
from strapwright.quantities.inside_units import KSI_MPA
from strapwright.shop.bar import Lot

# Plastic strain by which an upper yield has fallen to the plateau (from memory: within the first
# few thousandths).
UPPER_YIELD_GONE = 0.003
# No bar shows an upper yield past so many times its yield (from memory: 1.05 to 1.5, in a test that
# is well lined up).
MOST_UPPER_YIELD = 2.0
# No steel keeps to its plateau this far (from memory: up to 3 %).
MOST_PLATEAU = 0.06


@frozen(kw_only=True)
class KnownMetal:
    """A flow curve and how well it is known, each spread one standard deviation.

    Attributes
    ----------
    flow
        Middle flow curve.
    strength_spread
        Relative, on the whole curve [-].
    exponent_spread, plateau_spread
        On n, and on the strain of the yield plateau [-].
    unloading_ratio, unloading_spread
        Modulus on letting go over E, and its spread [-].
    """

    flow: FlowCurve
    strength_spread: float
    exponent_spread: float
    plateau_spread: float
    unloading_ratio: float
    unloading_spread: float


def swift_through(
    modulus: float,
    poisson: float,
    yield_strength: float,
    tensile_strength: float,
    exponent: float,
    plateau: float = 0.0,
) -> FlowCurve:
    """Swift's curve through yield and the tensile point for a given exponent.

    Considere: necking starts where d sigma/d epsilon = sigma, so ``e0 + p_u = n`` and the
    engineering tensile strength is ``K n^n exp(-(n - e0 + K n^n/E))``; with ``K e0^n`` = yield one
    scalar is left, solved by bracketing.  A plateau comes before all of this: the metal necks at a
    strain that much larger.

    Parameters
    ----------
    modulus, yield_strength, tensile_strength
        [MPa]
    poisson, exponent, plateau
        [-]

    Raises
    ------
    InputError
        Where the tensile strength is not above the yield strength.
    """
    if not 0.0 < yield_strength < tensile_strength:
        raise InputError(
            "lot",
            f"yield {_stress(yield_strength)} must be more than 0 and less than tensile "
            f"{_stress(tensile_strength)}",
            "take both from the same certificate",
        )
    if not 0.0 < exponent < 1.0:
        raise InputError(
            "lot.exponent",
            "must lie between 0 and 1",
            "mild steel is about 0.2",
            value=f"{exponent:g}",
        )

    def miss(log_offset: float) -> float:
        offset = math.exp(log_offset)
        true_peak = yield_strength * math.pow(exponent / offset, exponent)
        strain = plateau + exponent - offset + true_peak / modulus
        return math.log(true_peak) - strain - math.log(tensile_strength)

    # At e0 = n the peak is the yield point itself, below the tensile strength; at the lower end it
    # is e times the tensile strength, more than any necking strain under 1 takes off again.
    top = math.log(exponent)
    low = top - (1.0 + plateau + math.log(tensile_strength / yield_strength)) / exponent
    offset = math.exp(float(brentq(miss, low, top)))
    strength = yield_strength / offset**exponent
    return FlowCurve(
        modulus=modulus,
        poisson=poisson,
        strength=strength,
        offset=offset,
        exponent=exponent,
        plateau=plateau,
    )


def _with_upper_yield(flow: FlowCurve, upper: float | None) -> FlowCurve:
    """Return the curve with the upper yield that a lot states [MPa]."""
    if upper is None:
        return flow
    level = flow.yield_stress
    if not upper > level:
        raise InputError(
            "lot.upper_yield",
            f"{_stress(upper)} must be more than the yield strength of {_stress(level)}",
            "take both from the same test, or leave the upper yield out",
        )
    if upper > MOST_UPPER_YIELD * level:
        raise InputError(
            "lot.upper_yield",
            f"{_stress(upper)} is more than {MOST_UPPER_YIELD:g} times the yield strength of "
            f"{_stress(level)}, which no bar shows",
            "enter the first peak of the same test, not the tensile strength, or leave it out",
        )
    gone = UPPER_YIELD_GONE if flow.plateau <= 0.0 else min(UPPER_YIELD_GONE, flow.plateau)
    return evolve(flow, peak=upper - level, peak_gone=gone)


def known_metal(material: Material, lot: Lot, spread: BarSpread = USUAL_SPREADS.bar) -> KnownMetal:
    """Flow curve of a lot: certificate or measurement first, the catalog's typical value else.

    Minimums in a standard are never used as the mean.

    Parameters
    ----------
    material, lot
        What the catalog and the job say.
    spread
        How well what a lot states is known.

    Raises
    ------
    InputError
        Where yield and tensile strength contradict each other.
    """
    certified = lot.yield_strength is not None or lot.tensile_strength is not None
    sy, su = material.yield_typical, material.tensile_typical
    if lot.yield_strength is not None:
        sy = lot.yield_strength
        if lot.tensile_strength is None:
            # Keep the catalog's ratio where only one of the two is on the certificate.
            su = sy * material.tensile_typical / material.yield_typical
    if lot.tensile_strength is not None:
        su = lot.tensile_strength
        if lot.yield_strength is None:
            sy = su * material.yield_typical / material.tensile_typical
    exponent = material.exponent if lot.exponent is None else lot.exponent
    plateau = material.plateau if lot.plateau is None else lot.plateau
    if plateau > MOST_PLATEAU:
        raise InputError(
            "lot.plateau",
            f"a strain of {100 * plateau:.0f} % is far past any yield plateau",
            "give the strain as a share: 0.015 for hot-rolled mild steel, 0 for drawn bar",
            value=f"{plateau:g}",
        )
    flow = swift_through(material.modulus, material.poisson, sy, su, exponent, plateau)
    return KnownMetal(
        flow=_with_upper_yield(flow, lot.upper_yield),
        strength_spread=spread.certified if certified else material.yield_spread,
        exponent_spread=(
            material.exponent_spread if lot.exponent is None else spread.stated_exponent
        ),
        plateau_spread=(
            material.plateau_spread
            if lot.plateau is None
            else spread.stated_plateau * (plateau > 0.0)
        ),
        unloading_ratio=(
            material.unloading_ratio if lot.unloading_ratio is None else lot.unloading_ratio
        ),
        unloading_spread=(
            material.unloading_spread if lot.unloading_ratio is None else spread.stated_unloading
        ),
    )


def _stress(mpa: float) -> str:
    return either_unit(f"{mpa:.4g} MPa", f"{mpa / KSI_MPA:.4g} ksi")
