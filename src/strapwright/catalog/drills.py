"""Twist drills by name: fractions, numbers, letters, metric.

Fractions run from 1/64 to 1 in by 64ths and on to 2 in by 32nds (arithmetic); metric drills from
0.5 to 13 mm by 0.1 mm and on to 25 mm by 0.5 mm (common practice, no source).  Numbers and letters
come from the table, whose standard is ASME B94.11M.
"""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from attrs import frozen

from strapwright.catalog.shop_tables import table
from strapwright.errors import InputError

Series = Literal["fraction", "number", "letter", "metric"]
SERIES: tuple[Series, ...] = ("fraction", "number", "letter", "metric")
INCH = Fraction(254, 10)


@frozen(kw_only=True)
class Drill:
    """One twist drill.

    Attributes
    ----------
    name
        As stamped on its shank: ``3/8``, ``#7``, ``F``, ``8.5 mm``.
    series
        ``fraction``, ``number``, ``letter`` or ``metric``.
    diameter
        [mm]
    """

    name: str
    series: Series
    diameter: float


@functools.cache
def drills() -> tuple[Drill, ...]:
    """Return every drill, smallest first."""
    made = [
        Drill(
            name=_mixed(Fraction(n, 64)), series="fraction", diameter=float(Fraction(n, 64) * INCH)
        )
        for n in (*range(1, 65), *range(66, 129, 2))
    ]
    made += [
        Drill(
            name=row["name"],
            series="number" if row["series"] == "number" else "letter",
            diameter=float(Fraction(row["inch"]) * INCH),
        )
        for row in table("drills_number_letter")
    ]
    tenths = (*range(5, 131), *range(135, 251, 5))
    made += [Drill(name=f"{n / 10:g} mm", series="metric", diameter=n / 10) for n in tenths]
    return tuple(sorted(made, key=lambda one: (one.diameter, SERIES.index(one.series))))


def find_drill(name: str, where: str) -> Drill:
    """Return the drill of that name.

    Parameters
    ----------
    name
        ``3/8``, ``1-1/16``, ``#7`` or ``No. 7``, ``F``, ``8.5 mm``.
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where there is no such drill.
    """
    found = _by_name().get(_plain(name))
    if found is None:
        raise InputError(
            where,
            "this is no drill of the fraction, number, letter or metric list",
            "write for example 5/16, #7, F or 8.5 mm, or a length for a size between",
            value=name,
        )
    return found


def nearest_drills(diameter: float, among: Iterable[Drill], count: int = 3) -> tuple[Drill, ...]:
    """Return the drills nearest to a diameter, nearest first.

    Parameters
    ----------
    diameter
        Wanted [mm].
    among
        Drills to choose from.
    count
        How many at most [-].

    Raises
    ------
    InputError
        Where there is none to choose from.
    """
    ranked = sorted(among, key=lambda one: (abs(one.diameter - diameter), one.diameter))
    if not ranked:
        raise InputError("crib", "there is no drill in the crib", "list the drills that you have")
    return tuple(ranked[:count])


@functools.cache
def _by_name() -> Mapping[str, Drill]:
    return MappingProxyType({_plain(one.name): one for one in drills()})


def _plain(name: str) -> str:
    text = name.strip().lower().replace('"', "").removesuffix("in").strip()
    for start in ("number", "no.", "no", "letter"):
        if text.startswith(start):
            rest = text.removeprefix(start).strip()
            text = f"#{rest}" if rest.isdigit() else rest
    if text.endswith("mm"):
        try:
            return f"{float(text.removesuffix('mm')):g} mm"
        except ValueError:
            return text
    return text.replace(" ", "-")


def _mixed(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    if rest == 0:
        return str(whole)
    return f"{whole}-{rest}" if whole else str(rest)
