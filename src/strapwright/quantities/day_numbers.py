"""Dates as people write them, year-month-day, and as day numbers that can be counted with."""

from __future__ import annotations

import re

from strapwright.errors import InputError

_DATE = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def day_number(text: str, where: str) -> int:
    """Return the number of a day; the one after it is one more, Mondays are whole sevens.

    Parameters
    ----------
    text
        ``2026-12-04``.
    where
        What it is about, for the message.

    Raises
    ------
    InputError
        Where there is no such day.
    """
    found = _DATE.fullmatch(text.strip())
    if found is not None:
        year, month, day = (int(one) for one in found.groups())
        if 1900 <= year <= 2199 and 1 <= month <= 12 and 1 <= day <= days_of(year, month):
            return _before(year, month) + day
    raise InputError(
        where, "there is no such day", "write year, month, day, for example 2026-12-04",
        value=text,
    )  # fmt: skip


def days_of(year: int, month: int) -> int:
    """Return how many days a month has."""
    return 29 if month == 2 and _is_leap(year) else _LENGTHS[month - 1]


def weekday(number: int) -> int:
    """Return the day of the week of a day number, 0 for Monday."""
    return number % 7


def show_day(number: int) -> str:
    """Return a day number as a date with its day of the week: ``Fri 2026-12-04``."""
    year = 1900
    while _before(year + 1, 1) < number:
        year += 1
    month = 1
    while month < 12 and _before(year, month + 1) < number:
        month += 1
    return f"{WEEKDAYS[weekday(number)]} {year}-{month:02}-{number - _before(year, month):02}"


def _is_leap(year: int) -> bool:
    """Gregorian rule."""
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


def _before(year: int, month: int) -> int:
    """Days before a month since the Monday 1 January 1900."""
    years = year - 1900
    leaps = sum(_is_leap(one) for one in range(1900, year))
    return 365 * years + leaps + sum(days_of(year, one) for one in range(1, month)) - 1
