"""ISO 286 limits: tolerance grades, and deviations of holes and shafts by letter."""

from __future__ import annotations

import re

from attrs import frozen

from strapwright.catalog.shop_tables import table
from strapwright.errors import InputError

LARGEST = 500.0  # mm
_BY_TEN = {12: 7, 13: 8, 14: 9, 15: 10, 16: 11}
_BELOW = "cdefgh"  # shaft letters whose upper deviation is tabulated
_CLASS = re.compile(r"([A-Za-z]{1,2})\s*(\d{1,2})")


@frozen(kw_only=True)
class Limits:
    """Deviations of a tolerance class from the nominal size.

    Attributes
    ----------
    name
        ``H7``, ``g6``.
    nominal, lower, upper
        [mm]
    """

    name: str
    nominal: float
    lower: float
    upper: float

    @property
    def least(self) -> float:
        """Smallest size [mm]."""
        return self.nominal + self.lower

    @property
    def most(self) -> float:
        """Largest size [mm]."""
        return self.nominal + self.upper


def grade_width(nominal: float, grade: int, where: str) -> float:
    """Return the width of a standard tolerance grade [mm].

    Parameters
    ----------
    nominal
        Size [mm], above 0 and up to 500.
    grade
        5 to 16 [-]: IT5 to IT11 from the table, IT12 to IT16 ten times the grade five below
        (ISO 286-1: from IT6 on each fifth step multiplies by ten).
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where size or grade is outside the table.
    """
    _check(nominal, where)
    base = _BY_TEN.get(grade, grade)
    if not 5 <= base <= 11:
        raise InputError(
            where,
            "this tolerance grade is not in the table",
            "use a grade from 5 to 16",
            value=f"IT{grade}",
        )
    factor = 10 if grade > 11 else 1
    row = next(one for one in table("iso286_grades") if nominal <= float(one["up_to_mm"]))
    return factor * float(row[f"IT{base}"]) / 1000


def limits(nominal: float, name: str, where: str) -> Limits:
    """Return the limits of a tolerance class at a size.

    Parameters
    ----------
    nominal
        Size [mm], above 0 and up to 500.
    name
        A hole C to H or JS, a shaft c to h, js, k, m, n, p, s or u, with its grade: ``H7``, ``g6``.
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where the class is not in the table.

    Notes
    -----
    ISO 286-1: the lower deviation of a hole A to H is the upper one of the shaft of that letter
    with the other sign; js lies half and half.
    """
    match = _CLASS.fullmatch(name.strip())
    letter, number = (match[1], int(match[2])) if match else ("", 0)
    shaft = letter.lower()
    known = shaft in (*_BELOW, "js") or (len(letter) == 1 and letter in "kmnpsu")
    if not known or letter not in (shaft, shaft.upper()):
        raise InputError(
            where,
            "this tolerance class is not in the table",
            "use a hole C to H or JS, or a shaft c to h, js, k, m, n, p, s or u, "
            "with its grade, for example H7 or g6",
            value=name,
        )
    width = grade_width(nominal, number, where)
    if shaft == "js":
        lower, upper = -width / 2, width / 2
    elif shaft in _BELOW:
        deviation = _deviation(nominal, shaft)
        lower, upper = deviation - width, deviation
        if letter.isupper():
            lower, upper = -deviation, -deviation + width
    else:
        lower = _deviation(nominal, shaft) if shaft != "k" or number <= 7 else 0.0
        upper = lower + width
    return Limits(name=f"{letter}{number}", nominal=nominal, lower=lower + 0.0, upper=upper + 0.0)


def _deviation(nominal: float, letter: str) -> float:
    row = next(one for one in table("iso286_shafts") if nominal <= float(one["up_to_mm"]))
    return float(row[letter]) / 1000


def _check(nominal: float, where: str) -> None:
    if not 0 < nominal <= LARGEST:
        raise InputError(
            where,
            "the size is not in the table of limits",
            "give a size above 0 and up to 500 mm",
            value=f"{nominal:g} mm",
        )
