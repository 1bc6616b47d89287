"""Clearance holes for bolts: inch by ASME B18.2.8 or the older shop chart, metric by ISO 273."""

from __future__ import annotations

import re
from typing import Literal

from attrs import frozen

from strapwright.catalog.drills import find_drill
from strapwright.catalog.shop_tables import table
from strapwright.errors import InputError
from strapwright.quantities import read_length

ClearanceFit = Literal["close", "normal", "loose"]
CLEARANCE_FITS: tuple[ClearanceFit, ...] = ("close", "normal", "loose")
_METRIC = {"close": "fine", "normal": "medium", "loose": "coarse"}
# Tolerance of the hole: ISO 273 names H12, H13, H14; for inch holes the same, common practice.
GRADES = {"close": 12, "normal": 13, "loose": 14}

_SHARE = 1.15  # of a bolt, how wide its hole is; common practice


@frozen(kw_only=True)
class ClearanceHole:
    """The hole a bolt goes through.

    Attributes
    ----------
    size, fit
        Bolt and class as asked for.
    diameter
        [mm]
    drill
        The drill of the table: ``13/32`` or ``11 mm``.
    source
        What says so.
    """

    size: str
    fit: ClearanceFit
    diameter: float
    drill: str
    source: str


def clearance_hole(size: str, fit: ClearanceFit, where: str) -> ClearanceHole:
    """Return the clearance hole for a bolt.

    Parameters
    ----------
    size
        Of the bolt: ``3/8``, ``#10``, ``M10``.
    fit
        ``close``, ``normal`` or ``loose`` (ISO 273: fine, medium, coarse).
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where the tables have no such bolt.
    """
    plain = re.sub(r"\s|in$|\"", "", size)
    if plain[:1] in "Mm":
        for row in table("clearance_iso273"):
            if row["size"] == plain.upper():
                entry = row[_METRIC[fit]]
                source = f"ISO 273 {_METRIC[fit]}"
                return ClearanceHole(
                    size=row["size"],
                    fit=fit,
                    diameter=float(entry),
                    drill=f"{entry} mm",
                    source=", ".join(filter(None, (source, row["note"]))),
                )
    inch = {row["size"]: row for row in table("clearance_inch")}
    # '10' is a number; '1' to '4' may be inches and must carry their '#'.
    numbers = (f"#{plain}",) if plain in ("5", "6", "8", "10", "12") else ()
    for name in (plain, *numbers):
        if name in inch:
            row = inch[name]
            entry = row[fit]
            return ClearanceHole(
                size=row["size"],
                fit=fit,
                diameter=_diameter(entry, where),
                drill=entry,
                source=f"ASME B18.2.8 {fit}",
            )
    raise InputError(
        where,
        "the tables have no clearance hole for this bolt",
        "write for example 3/8, #10 or M10, or give the diameter of the hole",
        value=size,
    )


def widest_hole(size: str, major: float) -> float:
    """Return what a bolt's hole takes out of a plate at most [mm].

    1.15 bolts, which no normal hole of ISO 273 or ASME B18.2.8 passes from 1/4 in and M10 up
    (common practice), or the normal hole where that is wider.

    Parameters
    ----------
    size, major
        Of the bolt, as a chart has it, and its diameter [mm].
    """
    try:
        hole = clearance_hole(size, "normal", "bolt").diameter
    except InputError:
        hole = 0.0  # a thread of which no chart has a hole
    return max(hole, _SHARE * major)


def shop_clearance(size: str, *, free: bool) -> float | None:
    """Return the older shop chart's close or free hole [mm] for an inch bolt, where it has one."""
    for row in table("clearance_inch"):
        entry = row["old_free" if free else "old_close"]
        if row["size"] == size and entry:
            return _diameter(entry, "chart")
    return None


def _diameter(entry: str, where: str) -> float:
    if entry[0].isdigit():
        return float(read_length(entry, where, "inch"))
    return find_drill(entry, where).diameter
