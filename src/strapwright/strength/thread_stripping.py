"""Stripping of threads.

Shear areas after FED-STD-H28/2B, forms as in Machinery's Handbook: external threads shear at the
smallest internal minor, internal ones at the smallest external major diameter.
"""

from __future__ import annotations

import math

from strapwright.catalog.thread_sizes import Thread


def low_areas(thread: Thread) -> tuple[float, float]:
    """Areas per length of external and internal thread on the low side [mm2/mm].

    Half the cylinder at the pitch diameter and half at the major diameter: less than the forms
    above give for any class 2 fit, and without their table of limits (common practice).
    """
    return math.pi / 2 * thread.pitch_diameter, math.pi / 2 * thread.major
