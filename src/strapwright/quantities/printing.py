"""Print quantities the way people at the bench read them.

Rounding is to the nearest, halves away from zero, on exact fractions: what is printed does not
depend on the binary form of a float near a half.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

from strapwright.errors import either_unit
from strapwright.quantities.units import INCH, KILOGRAM_FORCE, POUND_FORCE, PSI, TON_US, Units

Reading = Literal["1/64", "1/32", "1/16", "decimal", "mm"]
PressureUnit = Literal["psi", "bar", "MPa"]
ForceUnit = Literal["lbf", "N", "kN", "tons (US)", "tonnes"]

_PRESSURES: dict[PressureUnit, Fraction] = {
    "psi": PSI,
    "bar": Fraction(1, 10),
    "MPa": Fraction(1),
}
_FORCES: dict[ForceUnit, Fraction] = {
    "lbf": POUND_FORCE,
    "N": Fraction(1),
    "kN": Fraction(1000),
    "tons (US)": TON_US,
    "tonnes": 1000 * KILOGRAM_FORCE,
}
_DENOMINATORS = {"1/64": 64, "1/32": 32, "1/16": 16}


def round_half_away(value: Fraction) -> int:
    """Nearest whole number, halves away from zero."""
    size = (2 * abs(value) + 1) // 2
    return int(size if value >= 0 else -size)


def fixed(value: float | Fraction, decimals: int) -> str:
    """Write a number [-] with a fixed count of decimals, never ``-0``."""
    steps = round_half_away(Fraction(value) * 10**decimals)
    digits = str(abs(steps)).rjust(decimals + 1, "0")
    sign = "-" if steps < 0 else ""
    if decimals == 0:
        return sign + digits
    return f"{sign}{digits[:-decimals]}.{digits[-decimals:]}"


def show_inch_parts(mm: float | Fraction, denominator: int) -> tuple[int, int, int, float]:
    """Return a length as a mixed fraction of an inch, for setting as a real fraction.

    Parameters
    ----------
    mm
        Length [mm].
    denominator
        Finest division of the rule [-], e.g. 64.

    Returns
    -------
    whole, num, den, remainder_mm
        Nearest ``whole + num/den`` inches in lowest terms, ``0 <= |num| < den``; below zero
        ``whole`` and ``num`` both carry the sign.  The remainder is length minus that [mm].
    """
    exact = Fraction(mm)
    steps = round_half_away(exact / INCH * denominator)
    sign = -1 if steps < 0 else 1
    whole, rest = divmod(abs(steps), denominator)
    part = Fraction(rest, denominator)
    remainder = exact - Fraction(steps, denominator) * INCH
    return sign * whole, sign * part.numerator, part.denominator, float(remainder)


def show_length(mm: float | Fraction, reading: Reading, *, remainder: bool = False) -> str:
    """Print a length by the rule it will be read on.

    Parameters
    ----------
    mm
        Length [mm].
    reading
        A binary division of the inch, decimal inches (0.001) or mm (0.1).
    remainder
        Also what the fraction leaves over, in 0.001 in, where it is not 0.000.

    Returns
    -------
    str
        E.g. ``6-13/64 in``, ``6-13/64 in +0.004``, ``6.207 in``, ``157.7 mm``.
    """
    if reading == "mm":
        return f"{fixed(mm, 1)} mm"
    if reading == "decimal":
        return f"{fixed(Fraction(mm) / INCH, 3)} in"
    whole, num, den, _ = show_inch_parts(mm, _DENOMINATORS[reading])
    sign = "-" if whole < 0 or num < 0 else ""
    if num == 0:
        text = f"{sign}{abs(whole)} in"
    elif whole == 0:
        text = f"{sign}{abs(num)}/{den} in"
    else:
        text = f"{sign}{abs(whole)}-{abs(num)}/{den} in"
    if not remainder:
        return text
    over = fixed(Fraction(mm) / INCH - whole - Fraction(num, den), 3)
    if over == "0.000":
        return text
    return f"{text} {over if over.startswith('-') else '+' + over}"


def either_length(mm: float, decimals: int = 1) -> str:
    """Return a length for a problem or remedy, of which a reader sees one unit system."""
    return either_unit(f"{mm:.{decimals}f} mm", f"{mm / float(INCH):.{decimals + 1}f} in")


def show_pressure(mpa: float | Fraction, unit: Units | PressureUnit) -> str:
    """Print a pressure [MPa] in psi (also for ``inch``), bar (also for ``metric``) or MPa."""
    named: PressureUnit = "psi" if unit == "inch" else "bar" if unit == "metric" else unit
    return f"{_readable(Fraction(mpa) / _PRESSURES[named])} {named}"


def show_force(newtons: float | Fraction, unit: ForceUnit) -> str:
    """Print a force [N] in the named unit, at least three digits of it."""
    return f"{_readable(Fraction(newtons) / _FORCES[unit])} {unit}"


def show_angle(radians: float, decimals: int = 1) -> str:
    """Print an angle [rad] in degrees, e.g. ``91.4°``; ``decimals`` [-]."""
    return f"{fixed(math.degrees(radians), decimals)}°"


def show_speed(mm_per_s: float | Fraction, units: Units) -> str:
    """Print a speed [mm/s] in in/s (``inch``) or mm/s (``metric``)."""
    if units == "inch":
        return f"{_readable(Fraction(mm_per_s) / INCH)} in/s"
    return f"{_readable(Fraction(mm_per_s))} mm/s"


def round_band(value: float, low: float, high: float) -> tuple[str, str, str]:
    """Write a number and the ends of its band with only the digits the band supports.

    The last place is the largest power of ten not above a fifth of the width of the band, so
    rounding moves the number by no more than a tenth of the width; where that would leave a
    single digit it is one place finer.  The ends have the same last place, so a band never prints
    as one number.  A band without width gives three digits.

    Parameters
    ----------
    value, low, high
        In one unit [-]; the band from ``low`` to ``high``.

    Returns
    -------
    value, low, high
        Without a unit, all three with the same last place.

    Raises
    ------
    ValueError
        Where the numbers are not finite or ``low`` is above ``high``.
    """
    if not all(map(math.isfinite, (value, low, high))) or low > high:
        raise ValueError(f"no band from {low} to {high} about {value}")
    exact = Fraction(value)
    fifth = (Fraction(high) - Fraction(low)) / 5
    if fifth == 0:
        place = _finest(exact)
    else:
        place = _power_of_ten(fifth)
        if exact != 0 and _power_of_ten(abs(exact)) == place:
            place -= 1
    first, second, third = (_to_place(Fraction(one), place) for one in (value, low, high))
    return first, second, third


def round_to_band(value: float, low: float, high: float) -> str:
    """Write a number with only the digits its band supports: the first of :func:`round_band`."""
    return round_band(value, low, high)[0]


def _to_place(value: Fraction, place: int) -> str:
    if place < 0:
        return fixed(value, -place)
    return str(round_half_away(value / 10**place) * 10**place)


def _finest(value: Fraction) -> int:
    """Last place of three digits, whole digits never rounded away."""
    return 0 if value == 0 else min(0, _power_of_ten(abs(value)) - 2)


def _power_of_ten(size: Fraction) -> int:
    """Largest n with 10^n <= size, exactly; a float logarithm errs next to a power."""
    n = len(str(size.numerator)) - len(str(size.denominator))
    return n if Fraction(10) ** n <= size else n - 1


def _readable(value: Fraction) -> str:
    """At least three digits where the number has them; whole digits are never rounded away."""
    text = fixed(value, -_finest(value))
    return text.rstrip("0").rstrip(".") if "." in text else text
