"""Contact along a line: two parallel rounds, or a round on a flat (Hertz).

b = sqrt(2 F/(pi l) ((1 - nu1^2)/E1 + (1 - nu2^2)/E2)/(1/d1 + 1/d2)), p = 2 F/(pi b l); Shigley,
Mechanical Engineering Design, cylindrical contact.
"""

from __future__ import annotations

import math

# Peak shear over peak pressure for nu = 0.3, below the skin; with shear yield by Tresca at half of
# Re, yield begins at p = 1.67 Re.  From memory; 1.6 is on the safe side.
FIRST_YIELD = 1.6


def line_contact(
    force: float,
    length: float,
    first: float,
    second: float | None,
    *,
    moduli: tuple[float, float],
    poissons: tuple[float, float],
) -> tuple[float, float]:
    """Return half width [mm] and peak pressure [MPa] of a contact along a line.

    Parameters
    ----------
    force
        Across the line [N].
    length
        Of the line [mm].
    first, second
        Diameters, ``None`` for a flat [mm].
    moduli, poissons
        Of both bodies [MPa, -].
    """
    give = sum((1 - nu**2) / E for E, nu in zip(moduli, poissons, strict=True))
    curve = 1 / first + (0.0 if second is None else 1 / second)
    line = 2 * force / (math.pi * length)
    # Not over the half width: where an end takes a load without limit, so is its pressure.
    return math.sqrt(line * give / curve), math.sqrt(line * curve / give)
