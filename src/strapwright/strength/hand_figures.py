"""Figures of a hand calculation as read in the shop."""

from __future__ import annotations

import math

from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM, KSI_MPA, POUND_N, PSI_MPA, InsideUnit

# Unit inside -> (unit, factor) for inch and metric readers, exact.
_UNITS: dict[InsideUnit, dict[Units, tuple[str, float]]] = {
    "mm": {"inch": ("in", 1 / INCH_MM), "metric": ("mm", 1.0)},
    "mm2": {"inch": ("in²", 1 / INCH_MM**2), "metric": ("mm²", 1.0)},
    "mm3": {"inch": ("in³", 1 / INCH_MM**3), "metric": ("mm³", 1.0)},
    "mm4": {"inch": ("in⁴", 1 / INCH_MM**4), "metric": ("mm⁴", 1.0)},
    "N": {"inch": ("lbf", 1 / POUND_N), "metric": ("kN", 1e-3)},
    "N/mm": {"inch": ("lbf/in", INCH_MM / POUND_N), "metric": ("N/mm", 1.0)},
    "N mm": {"inch": ("lbf in", 1 / (POUND_N * INCH_MM)), "metric": ("N m", 1e-3)},
    "MPa": {"inch": ("ksi", 1 / KSI_MPA), "metric": ("MPa", 1.0)},
    "rad": {"inch": ("°", 180 / math.pi), "metric": ("°", 180 / math.pi)},
    "rad/mm": {
        "inch": ("°/in", 180 / math.pi * INCH_MM),
        "metric": ("°/mm", 180 / math.pi),
    },
    "": {"inch": ("", 1.0), "metric": ("", 1.0)},
}
# A pressure of oil is held in MPa as a stress is, and read off a gauge; exact.
_OIL: dict[Units, tuple[str, float]] = {"inch": ("psi", 1 / PSI_MPA), "metric": ("bar", 10.0)}


def shown(value: float, unit: InsideUnit, units: Units, *, oil: bool = False) -> str:
    """Return a figure to three digits with its unit.

    Parameters
    ----------
    value
        In ``unit``.
    unit
        What it is held in.
    units
        Unit system to print in.
    oil
        Whether MPa is a pressure of oil, which people read in psi or bar, and not a stress.
    """
    name, factor = (_OIL if oil and unit == "MPa" else _UNITS[unit])[units]
    size = value * factor
    if not math.isfinite(size):
        text = "without limit"
    elif abs(size) >= 100:
        text = f"{size:.0f}"
    else:
        text = f"{size:#.3g}".rstrip(".") if size else "0"
    return f"{text}{'' if name.startswith('°') else ' '}{name}".strip()
