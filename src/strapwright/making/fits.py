"""Fits: ISO 286 classes, or what a shaft and a cutter as measured make of each other."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.catalog.iso286_limits import Limits, limits
from strapwright.errors import InputError

FitKind = Literal["clearance", "transition", "interference"]
Running = Literal["press", "snug", "sliding", "running", "loose"]

# Clearance in parts of the diameter that a fit at least needs and at most has, with 0.0125 mm at
# the low end; common practice, no source: a slide fit of 1 in has about a thou.
_RUNNING: tuple[tuple[Running, float], ...] = (
    ("snug", 0.0005),
    ("sliding", 0.0015),
    ("running", 0.004),
)
_WORDS: dict[Running, str] = {
    "press": "press fit: it does not go in by hand",
    "snug": "snug: goes in by hand with oil, does not shake",
    "sliding": "sliding: moves by hand and is drawn out without force",
    "running": "running: turns and slides freely with oil, shakes a little",
    "loose": "loose: shakes; good for bolts and for rough frames, not for guiding",
}


@frozen(kw_only=True)
class Fit:
    """A shaft in a hole.

    Attributes
    ----------
    hole, shaft
        Limits of each.
    least, most
        Clearance on the diameter [mm]; below zero the shaft is larger than the hole.
    kind
        ``clearance``, ``transition`` or ``interference``.
    words
        What it feels like at the bench.
    """

    hole: Limits
    shaft: Limits
    least: float
    most: float
    kind: FitKind
    words: str


def iso_fit(nominal: float, name: str, where: str) -> Fit:
    """Work out an ISO 286 fit.

    Parameters
    ----------
    nominal
        Size of both [mm].
    name
        Hole and shaft class, e.g. ``H7/g6``.
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where it is no fit of the tables.
    """
    hole, stroke, shaft = (one.strip() for one in name.partition("/"))
    if not stroke or not hole[:1].isupper() or not shaft[:1].islower():
        raise InputError(
            where,
            "this is not a hole and a shaft class",
            "write for example H7/g6, the hole first in capitals",
            value=name,
        )
    return _fit(limits(nominal, hole, where), limits(nominal, shaft, where))


def measured_fit(hole: tuple[float, float], shaft: tuple[float, float], where: str) -> Fit:
    """Work out the fit of a shaft as measured in a hole as a cutter leaves it.

    Parameters
    ----------
    hole, shaft
        Smallest and largest diameter of each [mm]; the same number twice where it was measured.
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where a diameter is not above zero, or smallest and largest are the wrong way round.
    """
    for low, high in (hole, shaft):
        if not 0 < low <= high:
            raise InputError(
                where,
                "a diameter is not above 0, or its limits are the wrong way round",
                "give the smaller first, for example 25 to 25.02 mm",
                value=f"{low:g} to {high:g} mm",
            )
    return _fit(
        Limits(name="as made", nominal=hole[0], lower=0.0, upper=hole[1] - hole[0]),
        Limits(name="as measured", nominal=shaft[0], lower=0.0, upper=shaft[1] - shaft[0]),
    )


def _fit(hole: Limits, shaft: Limits) -> Fit:
    # Deviations are subtracted where both have one nominal size: its digits must not eat theirs.
    gap = hole.nominal - shaft.nominal
    least, most = gap + hole.lower - shaft.upper, gap + hole.upper - shaft.lower
    kind: FitKind = "clearance"
    if most <= 1e-9:
        kind = "interference"
    elif least < -1e-9:
        kind = "transition"
    return Fit(
        hole=hole,
        shaft=shaft,
        least=least,
        most=most,
        kind=kind,
        words=_felt(least, most, hole.nominal),
    )


def _felt(least: float, most: float, diameter: float) -> str:
    tight, slack = running(least, diameter), running(most, diameter)
    if tight == slack:
        return _WORDS[tight]
    first, last = (_WORDS[one].partition(":")[0] for one in (tight, slack))
    return f"from {first} at the tightest to {last} at the loosest: measure both and choose"


def running(clearance: float, diameter: float) -> Running:
    """Name what a clearance feels like.

    Parameters
    ----------
    clearance
        On the diameter [mm].
    diameter
        Of the shaft [mm].
    """
    if clearance < 0:
        return "press"
    return next(
        (name for name, share in _RUNNING if clearance <= max(0.0125, share * diameter)), "loose"
    )
