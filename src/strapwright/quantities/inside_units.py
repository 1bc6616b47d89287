"""The units inside, and the size in them of the units that people write, as floats.

The exact sizes, with their sources, stand in :mod:`strapwright.quantities.units`; nowhere else is
an inch, a pound or a gallon given in figures.
"""

from __future__ import annotations

from typing import Literal

from strapwright.quantities.units import (
    CUBIC_INCH,
    FOOT,
    GALLON_US,
    INCH,
    POUND,
    POUND_FORCE,
    PSI,
    TON_US,
)

# What a figure inside is held in; empty for a plain number.
InsideUnit = Literal["", "mm", "mm2", "mm3", "mm4", "rad", "rad/mm", "N", "N/mm", "N mm", "MPa"]

INCH_MM = float(INCH)
CUBIC_INCH_MM3 = float(CUBIC_INCH)
GALLON_MM3 = float(GALLON_US)
POUND_N = float(POUND_FORCE)
POUND_KG = float(POUND)
FOOT_MM = float(FOOT)
TON_N = float(TON_US)
PSI_MPA = float(PSI)
KSI_MPA = float(1000 * PSI)
