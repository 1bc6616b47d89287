"""Straight beams and sections in closed form.

Largest moment [N mm] and sag [mm] of a simply supported beam after the beam tables of the AISC
manual (two equal loads, centre load, uniform load) and superposition (load spread over a central
length); a cantilever after any text.  Short deep beams sag more than this, by shear.
"""

from __future__ import annotations

import math

from attrs import frozen

TWIST = 0.208  # of a square bar, the least of any rectangle (Roark, torsion of solid sections)


@frozen(kw_only=True)
class Section:
    """A section.

    Attributes
    ----------
    area
        [mm2]
    modulus
        Elastic section modulus W [mm3].
    inertia
        [mm4]
    shear_peak
        Peak over mean shear stress [-].
    """

    area: float
    modulus: float
    inertia: float
    shear_peak: float


def round_section(diameter: float) -> Section:
    """Return a full round of a diameter [mm]: W = pi d^3/32."""
    return Section(
        area=math.pi * diameter**2 / 4,
        modulus=math.pi * diameter**3 / 32,
        inertia=math.pi * diameter**4 / 64,
        shear_peak=4 / 3,
    )


def flat_section(width: float, depth: float) -> Section:
    """Return a rectangle, ``depth`` in the direction of the load [mm]: W = b h^2/6."""
    return Section(
        area=width * depth,
        modulus=width * depth**2 / 6,
        inertia=width * depth**3 / 12,
        shear_peak=1.5,
    )


def twisting(couple: float, first: float, second: float) -> float:
    """T/(0.208 b t^2) [MPa] of a couple [N mm] on a rectangle, t its shorter side [mm]."""
    long, short = max(first, second), min(first, second)
    return couple / (TWIST * long * short**2)


def central_moment(force: float, span: float, spread: float) -> float:
    """M = F (2 L - a)/8 for a force spread over a central length a, 0 to L [N, mm -> N mm]."""
    return force * (2 * span - spread) / 8


def central_sag(force: float, span: float, spread: float, stiffness: float) -> float:
    """F (8 L^3 - 4 L a^2 + a^3)/(384 E I) [mm]; ``stiffness`` E I [N mm2], the rest [N, mm]."""
    return force * (8 * span**3 - 4 * span * spread**2 + spread**3) / (384 * stiffness)


def cantilever_sag(force: float, length: float, stiffness: float) -> float:
    """F L^3/(3 E I) at the end of a cantilever loaded there [N, mm, N mm2 -> mm]."""
    return force * length**3 / (3 * stiffness)


def sag_over_middle(force: float, span: float, spread: float, stiffness: float) -> float:
    """How much more a beam sags in its middle than at the ends of the loaded length [mm].

    F a^2 (12 L - 7 a)/(384 E I), from M = F ((2 L - a)/8 - s^2/(2 a)) at s beside the middle and a
    level middle: the first integral of M (a/2 - s) over s from 0 to a/2.  At a = L the 5 F L^3/(384
    E I) of the beam tables.

    Parameters
    ----------
    force
        Spread over a central length [N].
    span, spread
        L and a [mm].
    stiffness
        E I [N mm2].
    """
    return force * spread**2 * (12 * span - 7 * spread) / (384 * stiffness)


def sag_over_end(force: float, length: float, spread: float, stiffness: float) -> float:
    """How much more the free end of a cantilever sags than a place short of it [mm].

    F a (3 L^2 - a^2)/(6 E I): F L^3/(3 E I) less F x^2 (3 L - x)/(6 E I) at x = L - a.

    Parameters
    ----------
    force
        At the free end [N].
    length, spread
        L, and a from the end to that place [mm].
    stiffness
        E I [N mm2].
    """
    return force * spread * (3 * length**2 - spread**2) / (6 * stiffness)
