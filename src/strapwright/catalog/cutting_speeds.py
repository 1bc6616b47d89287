"""Cutting speeds, feeds, reaming stock and kerfs, as the tables say them."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.catalog.shop_tables import Row, table
from strapwright.catalog.sources import in_words
from strapwright.errors import InputError
from strapwright.quantities.inside_units import FOOT_MM, INCH_MM

Operation = Literal["drilling", "reaming", "end milling", "tapping", "countersinking"]

# Metal to cut -> rows of the speed table for drilling and end milling.
_ROWS = {
    "low carbon steel": ("low carbon steel", "low carbon steel"),
    "medium carbon steel": ("medium carbon steel", "medium carbon 1045"),
    "alloy steel": ("alloy steel", "4140"),
    "stainless": ("stainless", "304 stainless"),
    "cast iron": ("cast iron", ""),
    "aluminium": ("aluminium", ""),
    "brass, bronze": ("brass, bronze", ""),
}
METALS = tuple(_ROWS)
# Reaming against drilling of the same metal: the ratios of the handbook table run 0.50 to 0.70.
_REAMING = 0.5


@frozen(kw_only=True)
class Speed:
    """Cutting speed for high-speed steel.

    Attributes
    ----------
    low, high
        [mm/min]
    source
        What says so.
    """

    low: float
    high: float
    source: str


@frozen(kw_only=True)
class Stock:
    """Stock to leave on the diameter for a reamer: ``low`` to ``high`` [mm]."""

    low: float
    high: float
    source: str


def cutting_speed(operation: Operation, metal: str, where: str) -> Speed:
    """Return the cutting speed of a high-speed steel cutter.

    Parameters
    ----------
    operation
        What is done.
    metal
        One of :data:`METALS`.
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where the table has no speed: hardened steel is not cut with high-speed steel.
    """
    if metal not in _ROWS:
        raise InputError(
            where,
            "there is no cutting speed for high-speed steel in this metal",
            f"use one of {', '.join(METALS)}; hardened steel is ground, or cut with carbide",
            value=metal,
        )
    drilled, milled = _ROWS[metal]
    base = _speed("drilling", drilled)
    if operation == "drilling":
        return base
    if operation == "reaming":
        return Speed(
            low=_REAMING * base.low,
            high=_REAMING * base.high,
            source=f"half of drilling: {base.source}; handbook ratios are 0.50 to 0.70",
        )
    if operation == "end milling" and milled:
        return _speed("end milling", milled)
    if operation == "end milling":  # no row of its own: the slow end of drilling
        return Speed(low=base.low, high=base.low, source=f"as drilling: {base.source}")
    slow = _speed(operation, "mild steel")
    share = min(1.0, base.low / _speed("drilling", "low carbon steel").low)
    return Speed(
        low=slow.low * share, high=slow.high * share, source=f"{slow.source}, by drilling speed"
    )


def drill_feed(diameter: float) -> tuple[float, float]:
    """Return the feed of a twist drill [mm/rev], low (harder steel) to high.

    Parameters
    ----------
    diameter
        [mm]
    """
    row = next(
        one
        for one in table("drill_feeds")
        if not one["up_to"] or diameter <= float(one["up_to"]) * INCH_MM
    )
    return float(row["low"]) * INCH_MM, float(row["high"]) * INCH_MM


def end_mill_feed(metal: str, diameter: float) -> float:
    """Return the feed of an end mill [mm/tooth], between the two sizes of the table.

    Parameters
    ----------
    metal
        One of :data:`METALS`; the harder row where the table has none of its own.
    diameter
        [mm]
    """
    named = {"low carbon steel": "low carbon steel 200 HB", "stainless": "304 stainless 250 HB"}
    wanted = named.get(metal, "4140 350 HB")
    row = next(one for one in table("end_mill_feeds") if one["material"] == wanted)
    small, large = float(row["quarter_inch"]), float(row["inch_and_up"])
    share = min(1.0, max(0.0, (diameter / INCH_MM - 0.25) / 0.75))
    return (small + share * (large - small)) * INCH_MM


def reaming_stock(diameter: float, kind: Literal["machine", "hand"]) -> Stock:
    """Return the stock to leave on the diameter before a reamer.

    Parameters
    ----------
    diameter
        Of the reamer [mm].
    kind
        Up to 1 in by the chart for machine or hand reamers, larger ones by the trade school's rule.
    """
    for row in table("reaming_allowance"):
        unit = INCH_MM if row["unit"] == "in" else 1.0
        if row["kind"] == kind and diameter <= float(row["up_to"]) * unit * (1 + 1e-9):
            return _stock(row, unit)
    last = [one for one in table("reaming_allowance") if one["kind"] == "trade-school rule"][-1]
    return _stock(last, 1.0)


# Old shop text (public domain): 1/64 in left, "never more than 1/32".
MOST_STOCK = INCH_MM / 32


def kerf(saw: str, where: str) -> tuple[float, float, float]:
    """Return the kerf of a kind of saw [mm]: low, typical, high; from memory, low trust.

    Raises
    ------
    InputError
        Where the table has no such saw.
    """
    wanted = saw.strip().lower()
    for row in table("kerfs"):
        if wanted and row["saw"].lower().startswith(wanted):
            return (
                float(row["low"]) * INCH_MM,
                float(row["typical"]) * INCH_MM,
                float(row["high"]) * INCH_MM,
            )
    raise InputError(
        where,
        "the table has no such saw",
        "measure one cut and give the kerf itself",
        value=saw,
    )


def _speed(operation: str, metal: str) -> Speed:
    row = next(
        one
        for one in table("cutting_speeds")
        if one["operation"] == operation and one["material"] == metal
    )
    return Speed(
        low=float(row["low"]) * FOOT_MM,
        high=float(row["high"]) * FOOT_MM,
        source=in_words(row["source"]),
    )


def _stock(row: Row, unit: float) -> Stock:
    low, high = (float(row[key]) * unit for key in ("low", "high"))
    return Stock(low=low, high=high, source=in_words(row["source"]))
