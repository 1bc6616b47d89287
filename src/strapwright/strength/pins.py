"""Pins in double shear: a centre plate between two cheeks.

Shigley, Mechanical Engineering Design, knuckle pin exercise of the chapter on stress: the load
spreads over the plates, M = F/2 (a/2 + b/4); as point loads M = F/2 (a/2 + b/2).
"""

from __future__ import annotations

import math


def point_moment(force: float, cheek: float, centre: float) -> float:
    """M = F/2 (a/2 + b/2) [N mm], the safer of the two; cheek a, centre plate b [mm]."""
    return force / 2 * (cheek / 2 + centre / 2)


def bending_stress(moment: float, diameter: float) -> float:
    """32 M/(pi d^3) [MPa] of a moment [N mm] on a full round [mm]."""
    return 32 * moment / (math.pi * diameter**3)


def mean_shear(force: float, diameter: float) -> float:
    """F/(2 A) [MPa] of a force [N] over the two faces of a pin [mm]."""
    return force / (2 * math.pi * diameter**2 / 4)


def peak_shear(force: float, diameter: float) -> float:
    """4/3 of the mean shear [MPa], by V Q/(I b)."""
    return 4 / 3 * mean_shear(force, diameter)


def bearing(force: float, diameter: float, thickness: float) -> float:
    """F/(d t) [MPa] on the projected area."""
    return force / (diameter * thickness)
