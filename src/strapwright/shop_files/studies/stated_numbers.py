"""Figures between two typed ones: number and unit apart, so that a key may be swept or drawn."""

from __future__ import annotations

import math
from fractions import Fraction

from attrs import frozen

from strapwright.errors import InputError, in_file
from strapwright.quantities.numbers import scan_number, scan_sign, source
from strapwright.shop_files.studies.study_values import Value

_DIGITS = 6  # of a figure in between: finer than anything is made or set (common practice)


@frozen
class Stated:
    """A figure as typed.

    Attributes
    ----------
    number
        Exact.
    unit
        As typed behind it, with its space; empty where there is none.
    plain
        Whether it stands in the file as a bare number.
    """

    number: Fraction
    unit: str
    plain: bool


def stated(value: Value, where: str) -> Stated:
    """Read a typed figure as a number and its unit.

    Parameters
    ----------
    value
        Such as ``"1-1/2 in"``, ``"1500 psi"`` or ``6.35``.
    where
        Key path, for the message.

    Raises
    ------
    InputError
        Where it is no figure.
    """
    nothing = isinstance(value, str) and not value.strip()
    endless = isinstance(value, float) and not math.isfinite(value)
    if isinstance(value, bool) or nothing or endless:
        raise InputError(
            where, "this is no figure", "write a figure with its unit", value=str(value)
        )
    if isinstance(value, int | float):
        return Stated(Fraction(str(value)), "", plain=True)
    src = source(value.strip(), where)
    sign, at = scan_sign(src.text)
    number, end = scan_number(src, at, "1-1/2 in")
    unit = src.typed[end:]
    if any(letter.isdigit() for letter in unit):
        raise src.refuse("this is more than one figure", "write one figure with one unit", end)
    return Stated(sign * number, unit, plain=False)


def pair(ends: tuple[Value, Value], where: str) -> tuple[Stated, Stated]:
    """Read two ends in one unit.

    Raises
    ------
    InputError
        Where one is no figure, their units differ, or they are the same.
    """
    low, high = stated(ends[0], where), stated(ends[1], where)
    if low.unit.strip() != high.unit.strip() or low.plain != high.plain:
        raise InputError(
            where,
            "the two ends are not in one unit",
            in_file('write both alike, for example from = "1500 psi" and to = "2000 psi"'),
            value=f"{ends[0]}, {ends[1]}",
        )
    if low.number == high.number:
        raise InputError(where, "both ends are the same", "give two figures", value=str(ends[0]))
    return low, high


def between(low: Stated, high: Stated, share: Fraction) -> Value:
    """Return the figure a share of the way from one end to the other, typed as they are.

    Parameters
    ----------
    low, high
        From :func:`pair`.
    share
        0 to 1.
    """
    number = float(low.number + (high.number - low.number) * share)
    if low.plain:
        return float(f"{number:.{_DIGITS}g}")
    return f"{_plain(number)}{low.unit}"


def _plain(number: float) -> str:
    """Write a number without an exponent, which no length is typed with."""
    text = f"{number:.{_DIGITS}g}"
    if "e" not in text:
        return text
    return f"{number:.12f}".rstrip("0").rstrip(".")
