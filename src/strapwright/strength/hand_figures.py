"""Figures of a hand calculation as read in the shop."""

from __future__ import annotations

import math

from strapwright.quantities import Units

# Unit inside -> (unit, factor) for inch and metric readers.
_UNITS: dict[str, dict[Units, tuple[str, float]]] = {
    "mm": {"inch": ("in", 1 / 25.4), "metric": ("mm", 1.0)},
    "mm2": {"inch": ("in2", 1 / 25.4**2), "metric": ("mm2", 1.0)},
    "mm3": {"inch": ("in3", 1 / 25.4**3), "metric": ("mm3", 1.0)},
    "mm4": {"inch": ("in4", 1 / 25.4**4), "metric": ("mm4", 1.0)},
    "N": {"inch": ("lbf", 1 / 4.4482216152605), "metric": ("kN", 1e-3)},
    "N/mm": {"inch": ("lbf/in", 25.4 / 4.4482216152605), "metric": ("N/mm", 1.0)},
    "N mm": {"inch": ("lbf in", 1 / 112.984829), "metric": ("N m", 1e-3)},
    "MPa": {"inch": ("ksi", 1 / 6.894757293168361), "metric": ("MPa", 1.0)},
    "bar": {"inch": ("psi", 1000 / 6.894757293168361), "metric": ("bar", 10.0)},
    "rad": {"inch": ("deg", 180 / math.pi), "metric": ("deg", 180 / math.pi)},
    "": {"inch": ("", 1.0), "metric": ("", 1.0)},
}


def shown(value: float, unit: str, units: Units) -> str:
    """Return a figure to three digits with its unit.

    Parameters
    ----------
    value
        In ``unit``; a pressure of oil is in MPa and named ``bar``.
    unit
        ``mm``, ``N``, ``N mm``, ``MPa`` ... or empty.
    units
        Unit system to print in.
    """
    name, factor = _UNITS[unit][units]
    size = value * factor
    if not math.isfinite(size):
        text = "without limit"
    elif abs(size) >= 100:
        text = f"{size:.0f}"
    else:
        text = f"{size:#.3g}".rstrip(".") if size else "0"
    return f"{text} {name}".strip()
