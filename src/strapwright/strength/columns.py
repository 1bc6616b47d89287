"""Columns: Euler where slender, Johnson's parabola where not.

P_cr = n pi^2 E I/L^2, n = 1/4 fixed-free, 1 pinned, 2 fixed-pinned, 4 fixed-fixed; below the
slenderness sqrt(2 pi^2 E/Re) Johnson's P = A Re (1 - Re (Le/k)^2/(4 pi^2 E)).  Shigley, Mechanical
Engineering Design, columns with central loading; a published form with 2 pi^2 is a misprint.
"""

from __future__ import annotations

import math

# n of the ends, exact.
FIXED_FREE = 0.25
PINNED = 1.0
ON_LOAD = 1.67  # on all loads, as on yield; AISC 360 F1


def euler(inertia: float, length: float, end_factor: float, modulus: float) -> float:
    """Euler load [N] of a column [mm4, mm, -, MPa]; without limit for one of no length."""
    if length <= 0.0:
        return math.inf
    return end_factor * math.pi**2 * modulus * inertia / length**2


def slenderness(area: float, inertia: float, length: float, end_factor: float) -> float:
    """Effective length over radius of gyration [-] of a column [mm2, mm4, mm, -]."""
    return length / math.sqrt(end_factor) / math.sqrt(inertia / area)


def transition(strength: float, modulus: float) -> float:
    """Slenderness [-] at which Johnson meets Euler, at half the yield [MPa, MPa]."""
    return math.sqrt(2 * math.pi**2 * modulus / strength)


def johnson(area: float, slender: float, strength: float, modulus: float) -> float:
    """Johnson load [N] of a column [mm2, -, MPa, MPa]."""
    return area * strength * (1 - strength * slender**2 / (4 * math.pi**2 * modulus))


def magnified(force: float, slender: float) -> float:
    """How much more a column is bent at its foot than its bending load alone does [-].

    1/(1 - 1.67 F/P_E): the push bends what already leans, and more than in step, so that 1.67
    times all loads are to bring the fibre to yield and no less (AISC 360 appendix 8, which has 1.6,
    from memory); infinite where that load gives way by itself.

    Parameters
    ----------
    force, slender
        F along it, and its Euler load P_E [N].
    """
    left = 1 - ON_LOAD * force / slender
    return 1 / left if left > 0.0 else math.inf


def critical_load(
    area: float,
    inertia: float,
    length: float,
    end_factor: float,
    *,
    strength: float,
    modulus: float,
) -> float:
    """Return the load at which a column gives way [N].

    Parameters
    ----------
    area, inertia, length
        [mm2, mm4, mm]
    end_factor
        n above [-].
    strength, modulus
        Yield and Young's modulus [MPa].
    """
    slender = slenderness(area, inertia, length, end_factor)
    if slender < transition(strength, modulus):
        return johnson(area, slender, strength, modulus)
    return euler(inertia, length, end_factor, modulus)
