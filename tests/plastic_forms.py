"""Closed forms of elastic-perfectly-plastic bending, which the solver must meet in its limits.

Rectangle on its flat and solid round; small deflections; one yield stress in tension and
compression.  mm, N, MPa, rad, though any consistent units do.
"""

from __future__ import annotations

import math

from scipy.optimize import brentq

from strapwright.errors import InputError

RECTANGLE_SHAPE_FACTOR = 3.0 / 2.0
ROUND_SHAPE_FACTOR = 16.0 / (3.0 * math.pi)
DIAMOND_SHAPE_FACTOR = 2.0  # square bar on its corner


def rectangle_second_moment(width: float, depth: float) -> float:
    """Second moment of area b d^3/12 [mm^4] of a rectangle ``width`` by ``depth`` [mm].

    Source: any strength-of-materials text.
    """
    return width * depth**3 / 12.0


def round_second_moment(diameter: float) -> float:
    """Second moment of area pi d^4/64 [mm^4] of a solid round, ``diameter`` [mm].

    Source: any strength-of-materials text.
    """
    return math.pi * diameter**4 / 64.0


def rectangle_elastic_modulus(width: float, depth: float) -> float:
    """Elastic section modulus b d^2/6 [mm^3].  Source: any strength-of-materials text."""
    return width * depth**2 / 6.0


def round_elastic_modulus(diameter: float) -> float:
    """Elastic section modulus pi d^3/32 [mm^3].  Source: any strength-of-materials text."""
    return math.pi * diameter**3 / 32.0


def round_plastic_modulus(diameter: float) -> float:
    """Plastic section modulus d^3/6 [mm^3].  Source: any strength-of-materials text."""
    return diameter**3 / 6.0


def diamond_elastic_modulus(side: float) -> float:
    """Elastic section modulus a^3/(6 sqrt 2) [mm^3] of a square on its corner, ``side`` [mm].

    Source: any strength-of-materials text.
    """
    return side**3 / (6.0 * math.sqrt(2.0))


def diamond_plastic_modulus(side: float) -> float:
    """Plastic section modulus a^3/(3 sqrt 2) [mm^3] of a square on its corner, ``side`` [mm].

    Source: any strength-of-materials text.
    """
    return side**3 / (3.0 * math.sqrt(2.0))


def rectangle_moment_ratio(curvature_ratio: float) -> float:
    """Moment over yield moment [-] of a rectangle at a curvature over yield curvature [-].

    M/M_y = (3 - (kappa_y/kappa)^2)/2 past first yield, kappa/kappa_y before.
    Source: Timoshenko, Strength of Materials, Part II, plastic bending of a rectangular beam.
    Range: any curvature, either sign.
    """
    size = abs(curvature_ratio)
    ratio = size if size <= 1.0 else 1.5 - 0.5 / size**2
    return math.copysign(ratio, curvature_ratio)


def rectangle_curvature_ratio(moment_ratio: float) -> float:
    """Curvature over yield curvature [-] of a rectangle at a moment over yield moment [-].

    kappa/kappa_y = 1/sqrt(3 - 2 M/M_y) past first yield; infinite at the plastic moment.
    Source: Timoshenko, Strength of Materials, Part II, plastic bending of a rectangular beam.

    Raises
    ------
    InputError
        Where the moment is above the plastic moment, 1.5 M_y.
    """
    size = abs(moment_ratio)
    if size > RECTANGLE_SHAPE_FACTOR:
        raise InputError(
            "moment_ratio",
            f"{moment_ratio:g} times the yield moment is more than the section can carry",
            "give a ratio of at most 1.5",
        )
    if size == RECTANGLE_SHAPE_FACTOR:
        return math.copysign(math.inf, moment_ratio)
    ratio = size if size <= 1.0 else 1.0 / math.sqrt(3.0 - 2.0 * size)
    return math.copysign(ratio, moment_ratio)


def round_moment_ratio(curvature_ratio: float) -> float:
    """Moment over yield moment [-] of a solid round at a curvature over yield curvature [-].

    With s = kappa_y/kappa = sin(a), the half depth of the elastic core over the radius:
    M/M_y = (4/pi) [ (a - sin(4 a)/4)/(2 s) + (4/3) cos(a)^3 ].
    Source: own integral of the stress over the circle; limits 1 at first yield and 16/(3 pi).
    Range: any curvature, either sign.
    """
    size = abs(curvature_ratio)
    if size <= 1.0:
        return curvature_ratio
    core = 1.0 / size
    a = math.asin(core)
    # The core's second moment is (R^4/2)(a - sin(4 a)/4), which cancels as core^3 for a thin core.
    if core < 1e-3:
        elastic = (4.0 / 3.0) * core**2
    else:
        elastic = (a - math.sin(4.0 * a) / 4.0) / (2.0 * core)
    ratio = (4.0 / math.pi) * (elastic + (4.0 / 3.0) * math.cos(a) ** 3)
    return math.copysign(ratio, curvature_ratio)


def residual_curvature(loaded_curvature: float, loaded_moment: float, stiffness: float) -> float:
    """Curvature left after the moment is let go elastically [1/mm].

    ``loaded_curvature`` [1/mm], ``loaded_moment`` [N mm], ``stiffness`` E I [N mm^2].
    Source: any strength-of-materials text (superposition of an elastic moment); e.g. Beer and
    Johnston, Mechanics of Materials, residual stresses in bending.
    Range: no yielding backwards, true below twice the yield moment.
    """
    return loaded_curvature - loaded_moment / stiffness


def three_point_stiffness(bending_stiffness: float, span: float) -> float:
    """Central load over central deflection 48 E I/L^3 [N/mm] of a simply supported beam.

    ``bending_stiffness`` E I [N mm^2], ``span`` [mm].
    Source: any strength-of-materials text.  Range: elastic, small slopes.
    """
    return 48.0 * bending_stiffness / span**3


def three_point_yield_load(elastic_modulus: float, yield_stress: float, span: float) -> float:
    """Central load at first yield 4 S Y/L [N] of a simply supported beam.

    ``elastic_modulus`` S [mm^3], ``yield_stress`` [MPa], ``span`` [mm].
    Source: any strength-of-materials text.
    """
    return 4.0 * elastic_modulus * yield_stress / span


def three_point_deflection_ratio(load_ratio: float) -> float:
    """Central deflection over that at first yield [-], at a load over the yield load [-].

    delta/delta_y = (P_y/P)^2 [5 - (3 + P/P_y) sqrt(3 - 2 P/P_y)] past first yield, for a
    rectangle; 20/9 at collapse, P = 1.5 P_y.
    Source: standard plasticity text result, from memory.

    Raises
    ------
    InputError
        Where the load is negative or above the collapse load.
    """
    if not 0.0 <= load_ratio <= RECTANGLE_SHAPE_FACTOR:
        raise InputError(
            "load_ratio",
            f"{load_ratio:g} times the yield load is outside what the beam can carry",
            "give a ratio from 0 to 1.5",
        )
    if load_ratio <= 1.0:
        return load_ratio
    return (5.0 - (3.0 + load_ratio) * math.sqrt(3.0 - 2.0 * load_ratio)) / load_ratio**2


def three_point_yielded_length(load_ratio: float, span: float) -> float:
    """Length over which the outer fibres of a centrally loaded beam have yielded [mm].

    L (1 - P_y/P), nought below first yield; ``load_ratio`` P/P_y [-], ``span`` [mm].
    Source: the moment falls linearly from the middle; e.g. Hearn, Mechanics of Materials 2, ch. 3.
    """
    return span * (1.0 - 1.0 / load_ratio) if load_ratio > 1.0 else 0.0


def round_curvature_ratio(moment_ratio: float) -> float:
    """Curvature over yield curvature [-] of a solid round; the inverse of the moment's ratio.

    Solved by bracketing :func:`round_moment_ratio` to rounding.

    Raises
    ------
    InputError
        Where the moment is not below the plastic moment, 16/(3 pi) M_y.
    """
    size = abs(moment_ratio)
    if size >= ROUND_SHAPE_FACTOR * (1.0 - 1e-9):
        raise InputError(
            "moment_ratio",
            f"{moment_ratio:g} times the yield moment is more than the section can carry",
            "give a ratio below 1.697",
        )
    if size <= 1.0:
        return moment_ratio
    found = brentq(lambda k: round_moment_ratio(k) - size, 1.0, 1e6, xtol=1e-12, rtol=1e-14)
    return math.copysign(float(found), moment_ratio)
