"""Quantities in a table: read, held to a range, turned into the floats used inside."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType

from attrs import frozen

from strapwright.errors import InputError, in_file
from strapwright.quantities import (
    Units,
    read_angle,
    read_area_rate,
    read_flow,
    read_force,
    read_length,
    read_pressure,
    read_ratio,
    read_volume,
)
from strapwright.shop_files.toml_table import Table, shown

# 45 digits of pi, so that a turn in degrees becomes the float nearest to it in radians.
PI = Fraction("3.14159265358979323846264338327950288419716939")


@frozen(kw_only=True)
class Kind:
    """One kind of quantity and the range within which a shop's figures lie.

    The range catches slips of the pen (a missing point, another unit); it is not a limit of the
    mechanics.  The bounds are common practice, no source.

    Attributes
    ----------
    read
        Text or number -> exact value.
    low, high
        Smallest value above zero and largest value, in the unit inside.
    unit
        Name of the unit inside, empty for a plain number.
    also
        The same range in the other unit system, for the message.
    words
        The range as told, where the bounds themselves would be odd to read.
    """

    read: Callable[[str | float, str, Units | None], Fraction]
    low: Fraction
    high: Fraction
    unit: str
    also: str = ""
    words: str = ""

    @property
    def span(self) -> str:
        """What to give, in words."""
        if self.words:
            return self.words
        unit = f" {self.unit}" if self.unit else ""
        also = f" ({self.also})" if self.also else ""
        return f"a value from {_number(self.low)} to {_number(self.high)}{unit}{also}"


def _ratio(text: str | float, where: str, units: Units | None) -> Fraction:
    del units  # a ratio has none
    return read_ratio(text, where)


def _angle(text: str | float, where: str, units: Units | None) -> Fraction:
    return read_angle(text, where, units)


def _plain(text: str | float, where: str, units: Units | None) -> Fraction:
    del units  # a count has none
    if isinstance(text, str) or not math.isfinite(text):
        raise InputError(
            where, "this is not a plain number", in_file("write it without quotes"), value=str(text)
        )
    return Fraction(repr(text))


def _area_rate(text: str | float, where: str, units: Units | None) -> Fraction:
    """With its unit; a number alone has always been mm2 a minute, whatever the file's units."""
    if isinstance(text, str):
        return read_area_rate(text, where, units)
    return _plain(text, where, units)


LENGTH = Kind(
    read=read_length,
    low=Fraction(1, 100),
    high=Fraction(100_000),
    unit="mm",
    also="0.0004 in to 328 ft",
)
ANGLE = Kind(
    read=_angle,
    low=Fraction(1, 100),
    high=Fraction(17999, 100),
    unit="degrees",
    words="an angle above 0 and below 180 degrees (0.01 to 179.99)",
)
PRESSURE = Kind(
    read=read_pressure,
    low=Fraction(1, 1000),
    high=Fraction(200),
    unit="MPa",
    also="0.15 to 29000 psi",
)
STRENGTH = Kind(
    read=read_pressure,
    low=Fraction(10),
    high=Fraction(3000),
    unit="MPa",
    also="1.5 to 435 ksi",
)
FORCE = Kind(
    read=read_force,
    low=Fraction(10),
    high=Fraction(10**8),
    unit="N",
    also="2.25 lbf to 11000 tons (US)",
)
FLOW = Kind(
    read=read_flow,
    low=Fraction(10),
    high=Fraction(10**8),
    unit="mm3/s",
    also="0.0002 to 1585 gpm",
)
VOLUME = Kind(
    read=read_volume, low=Fraction(10), high=Fraction(10**7), unit="mm3", also="0.0006 to 610 in³"
)
SHARE = Kind(read=_ratio, low=Fraction(1, 1000), high=Fraction(1), unit="")
FRICTION = Kind(read=_ratio, low=Fraction(1, 1000), high=Fraction(6, 10), unit="")
EXPONENT = Kind(read=_ratio, low=Fraction(1, 1000), high=Fraction(6, 10), unit="")
PER_MINUTE = Kind(read=_plain, low=Fraction(1, 10), high=Fraction(600), unit="")
MINUTES = Kind(read=_plain, low=Fraction(1, 100), high=Fraction(10_000), unit="min")
HOURS = Kind(read=_plain, low=Fraction(1, 10), high=Fraction(24), unit="h")
AREA_RATE = Kind(
    read=_area_rate,
    low=Fraction(1),
    high=Fraction(10**6),
    unit="mm² a minute",
    also="0.0016 to 1550 in² a minute",
)
MONEY = Kind(read=_plain, low=Fraction(1, 10_000), high=Fraction(10**7), unit="")

# By the name that a key states.
KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "length": LENGTH,
        "signed length": LENGTH,
        "angle": ANGLE,
        "pressure": PRESSURE,
        "strength": STRENGTH,
        "force": FORCE,
        "flow": FLOW,
        "volume": VOLUME,
        "share": SHARE,
        "friction": FRICTION,
        "exponent": EXPONENT,
        "per minute": PER_MINUTE,
        "minutes": MINUTES,
        "hours": HOURS,
        "area rate": AREA_RATE,
        "money": MONEY,
    }
)


def quantity(table: Table, key: str, kind: Kind, *, zero: bool = False) -> float | None:
    """Return the quantity under a key, or ``None`` where the key is missing.

    Parameters
    ----------
    table, key
        Where it stands.
    kind
        Which kind; the result is in its ``unit``.
    zero
        Whether 0 will do as well.

    Raises
    ------
    InputError
        Where it is not one, or out of range.
    """
    if key not in table.data:
        return None
    return float(exact(table, key, table.data[key], kind, zero=zero))


def needed(table: Table, key: str, kind: Kind, example: str, *, zero: bool = False) -> float:
    """Return the quantity under a key that must be there.

    Parameters
    ----------
    table, key, kind, zero
        As for :func:`quantity`.
    example
        A sound value, for the remedy.
    """
    value = table.need(key, in_file(f'write for example {key} = "{example}"'))
    return float(exact(table, key, value, kind, zero=zero))


def exact(
    table: Table, key: str, value: object, kind: Kind, *, zero: bool = False, name: str = ""
) -> Fraction:
    """Return a quantity exactly, in the unit of its kind, held to its range.

    Parameters
    ----------
    table, key
        Where it stands; ``key`` may carry a number, as ``shape[2]``.
    value
        As typed.
    kind, zero
        As for :func:`quantity`.
    name
        What it is called in the message; the key where not given.

    Raises
    ------
    InputError
        Where it is not one, or out of range.
    """
    found = raw(table, key, value, kind)
    if (zero and found == 0) or kind.low <= found <= kind.high:
        return found
    name = name or key.replace("_", " ")
    is_what = "is 0" if found == 0 else "is negative" if found < 0 else "is out of range"
    raise table.refuse(
        key,
        f"the {name} {is_what}",
        f"give {'0, or ' if zero else ''}{kind.span}",
        value=value,
    )


def raw(table: Table, key: str, value: object, kind: Kind) -> Fraction:
    """Return a quantity exactly, of whatever size and sign.

    Parameters
    ----------
    table, key, value, kind
        As for :func:`exact`.

    Raises
    ------
    InputError
        Where it is not one.
    """
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise table.refuse(
            key,
            "this is neither text nor a number",
            in_file(f'write for example {key} = "..." with the figure and its unit'),
            value=shown(value),
        )
    try:
        return kind.read(value, table.where(table.at(key)), table.units)
    except InputError as error:
        raise table.placed(error, key) from None


def signed(table: Table, key: str, value: object) -> float:
    """Return a length of either sign, held to the range of lengths [mm].

    Parameters
    ----------
    table, key, value
        As for :func:`exact`.

    Raises
    ------
    InputError
        Where it is not one, or out of range.
    """
    found = raw(table, key, value, LENGTH)
    if abs(found) > LENGTH.high:
        raise table.refuse(
            key, "the length is out of range", f"give {LENGTH.span} or its negative", value=value
        )
    return float(found)


def _number(value: Fraction) -> str:
    return f"{float(value):.10g}" if value < 10**6 else f"{float(value):.0f}"
