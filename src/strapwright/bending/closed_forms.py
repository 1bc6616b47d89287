"""Closed forms of plastic bending that stand beside our own figures; small deflections.

mm, N, MPa, though any consistent units do.
"""

from __future__ import annotations


def rectangle_plastic_modulus(width: float, depth: float) -> float:
    """Plastic section modulus b d^2/4 [mm^3].  Source: any strength-of-materials text."""
    return width * depth**2 / 4.0


def three_point_collapse_load(plastic_modulus: float, yield_stress: float, span: float) -> float:
    """Central load at collapse 4 M_p/L [N] of a simply supported beam.

    ``plastic_modulus`` Z [mm^3], ``yield_stress`` [MPa], ``span`` [mm].
    Source: any text on plastic design; worked in a university laboratory report on plastic
    bending of flat steel bar.  Range: no hardening, small slopes.
    """
    return 4.0 * plastic_modulus * yield_stress / span
