"""Stripping of threads.

Shear areas after FED-STD-H28/2B, forms as in Machinery's Handbook: external threads shear at the
smallest internal minor, internal ones at the smallest external major diameter.
"""

from __future__ import annotations

import math

from strapwright.catalog.thread_sizes import Thread

_TAN_30 = 0.57735  # to the digits that the source prints


def external_area(pitch: float, minor_most: float, pitch_least: float) -> float:
    """As per length of engagement [mm2/mm]: pi n Kn (1/(2 n) + 0.57735 (Es - Kn)).

    Parameters
    ----------
    pitch, minor_most, pitch_least
        Pitch, largest minor diameter of the internal, smallest pitch diameter of the external
        thread, all in one unit of length [mm].
    """
    return math.pi / pitch * minor_most * (pitch / 2 + _TAN_30 * (pitch_least - minor_most))


def internal_area(pitch: float, major_least: float, pitch_most: float) -> float:
    """An per length of engagement [mm2/mm]: pi n Ds (1/(2 n) + 0.57735 (Ds - En)).

    Parameters
    ----------
    pitch, major_least, pitch_most
        Pitch, smallest major diameter of the external, largest pitch diameter of the internal
        thread, all in one unit of length [mm].
    """
    return math.pi / pitch * major_least * (pitch / 2 + _TAN_30 * (major_least - pitch_most))


def engagement(stress_area: float, external: float) -> float:
    """Least engagement at which the bolt breaks before it strips, Le = 2 At/As [mm2, mm -> mm]."""
    return 2 * stress_area / external


def strength_quotient(external: float, bolt: float, internal: float, tapped: float) -> float:
    """J = As Su/(An Su') [-] of areas per length [mm] and strengths [MPa]; above 1 it lengthens."""
    return external * bolt / (internal * tapped)


def low_areas(thread: Thread) -> tuple[float, float]:
    """Areas per length of external and internal thread on the low side [mm2/mm].

    Half the cylinder at the pitch diameter and half at the major diameter: less than the forms
    above give for any class 2 fit, and without their table of limits (common practice).
    """
    return math.pi / 2 * thread.pitch_diameter, math.pi / 2 * thread.major
