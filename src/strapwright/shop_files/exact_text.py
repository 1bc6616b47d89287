"""Write quantities as text that reads back as the very same float."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction

from strapwright.errors import InputError
from strapwright.quantities import (
    Units,
    read_flow,
    read_force,
    read_length,
    read_pressure,
)
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop_files.quantity_fields import PI

_Read = Callable[[str, str, Units | None], Fraction]


def length_text(value: float, units: Units) -> str:
    """Write a length, in inches as a fraction or in mm.

    Parameters
    ----------
    value
        [mm]
    units
        Unit system to prefer; what has no short form in it is written in mm.
    """
    inches = value / INCH_MM
    names = (_fraction_of_inch(inches), *_short(inches, "in")) if units == "inch" else ()
    return _first_that_reads_back(value, read_length, *names, f"{plain(value)} mm")


def pressure_text(value: float, units: Units) -> str:
    """Write a pressure, in psi, bar or MPa.

    Parameters
    ----------
    value
        [MPa]
    units
        Unit system to prefer.
    """
    unit, factor = ("psi", float(read_pressure("1 psi", ""))) if units == "inch" else ("bar", 0.1)
    return _first_that_reads_back(
        value, read_pressure, *_short(value / factor, unit), f"{plain(value)} MPa"
    )


def strength_text(value: float, units: Units) -> str:
    """Write a strength of a metal, in ksi or MPa.

    Parameters
    ----------
    value
        [MPa]
    units
        Unit system to prefer.
    """
    ksi = value / float(read_pressure("1 ksi", ""))
    names = _short(ksi, "ksi") if units == "inch" else ()
    return _first_that_reads_back(value, read_pressure, *names, f"{plain(value)} MPa")


def force_text(value: float, units: Units) -> str:
    """Write a force, in tons (US), lbf or kN.

    Parameters
    ----------
    value
        [N]
    units
        Unit system to prefer.
    """
    pounds = value / float(read_force("1 lbf", ""))
    names = (
        (*_short(pounds / 2000, "tons (US)", places=2), *_short(pounds, "lbf", places=1))
        if units == "inch"
        else _short(value / 1000, "kN")
    )
    return _first_that_reads_back(value, read_force, *names, f"{plain(value)} N")


def flow_text(value: float, units: Units) -> str:
    """Write a flow, in gallons or litres a minute.

    Parameters
    ----------
    value
        [mm3/s]
    units
        Unit system to prefer.
    """
    unit = "gpm" if units == "inch" else "L/min"
    names = _short(value / float(read_flow(f"1 {unit}", "")), unit)
    return _first_that_reads_back(value, read_flow, *names, f"{plain(value)} mm3/s")


def degrees_text(value: float) -> str:
    """Write an angle in degrees.

    Parameters
    ----------
    value
        [rad]
    """
    degrees = Fraction(value) * 180 / PI
    # 20 figures settle the nearest float of radians, which two or three floats of degrees share.
    for places in (0, 1, 2, 3, 4, 20):
        text = plain_decimal(Decimal(str(round(degrees * 10**places))).scaleb(-places))
        if float(Fraction(text) * PI / 180) == value:
            return text
    raise AssertionError(value)  # 20 places are finer than any float from 0.01 degrees up


def plain(value: float) -> str:
    """Write a float with a point and no exponent, so that it reads back as the same float."""
    return plain_decimal(Decimal(repr(value)))


def plain_decimal(value: Decimal) -> str:
    """Write a decimal number without an exponent and without idle zeros."""
    text = format(value, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _short(value: float, unit: str, *, places: int = 4) -> Iterator[str]:
    """Give rounded forms, shortest first."""
    for count in range(places + 1):
        yield f"{plain(round(value, count))} {unit}"


def _fraction_of_inch(inches: float) -> str:
    parts = round(abs(inches) * 64)
    whole, rest = divmod(parts, 64)
    sign = "-" if inches < 0 else ""
    fraction = str(Fraction(rest, 64)) if rest else ""
    return f"{sign}{'-'.join(filter(None, (str(whole) if whole else '', fraction))) or '0'} in"


def _first_that_reads_back(value: float, read: _Read, *texts: str) -> str:
    """Return the first text that reads back as the value; the last one always does."""
    for text in texts[:-1]:
        try:
            same = float(read(text, "", None)) == value
        except InputError:  # so few psi are asked about where they are read
            same = False
        if same:
            return text
    return texts[-1]
