"""Limits of legs and angles in words: between which sizes, and how likely they are held."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.planning.limits_and_weights.limit_values import (
    BendLimits,
    Chance,
    LegLimits,
    Limits,
)
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed
from strapwright.shop.part import Part
from strapwright.shop.part_limits import ASSUMED_CLASS, LimitBy
from strapwright.wording.figures import Figures

NOT_CHECKED = "not checked"
NORMAL = (
    "The odds are rounded down. After a first part means: its readings are in the log, and stop "
    "and marks were moved by them."
)
HOW_TO_MOVE = (
    "If another leg is long, move the bend mark on its leg {takes} side into that leg by as much. "
    "If it is short, move the mark the other way. Move all marks from there to leg {takes} alike."
)
_SURE, _NEARLY = 0.99, 0.95


@frozen(kw_only=True)
class LimitWords:
    """One leg or angle.

    Attributes
    ----------
    name
        ``Leg 1`` or ``Bend 1``.
    wanted
        Size or angle.
    low, high
        The limits, rounded inwards; the unit stands behind the second.
    first, later
        How likely they are held: as planned, and after a first part.
    by
        Whose limit that is.
    """

    name: str
    wanted: str
    low: str
    high: str
    first: str
    later: str
    by: str


def limit_words(limits: Limits, part: Part, show: Figures) -> tuple[LimitWords, ...]:
    """Put the limits of a part into words, the legs first.

    Parameters
    ----------
    limits
        Of the part.
    part
        As planned.
    show
        Prints its figures.
    """
    return (
        *(_leg(one, part, show) for one in limits.legs),
        *(_bend(one, part, show) for one in limits.bends),
    )


def odds(chance: float | None) -> str:
    """Say a chance, rounded down: ``7 in 10``, ``95 in 100``; nothing is ever said to be sure."""
    if chance is None:
        return NOT_CHECKED
    if chance >= _SURE:
        return "99 in 100"
    if chance >= _NEARLY:
        return "95 in 100"
    tenths = math.floor(chance * 10 + 1e-9)
    return f"{tenths} in 10" if tenths else "under 1 in 10"


def takes_words(limits: Limits, show: Figures) -> tuple[str, ...]:
    """Say which leg takes the error, and which marks are measured from end 2 for that."""
    said = [f"Leg {limits.takes} takes what the other legs leave."]
    if limits.from_end_2:
        marks = ", ".join(f"bend {label} at {show.on_bar(mm)}" for label, mm in limits.from_end_2)
        said.append(f"Measure from end 2 to the middle of the nose: {marks}.")
    return (*said, HOW_TO_MOVE.format(takes=limits.takes))


def _leg(one: LegLimits, part: Part, show: Figures) -> LimitWords:
    first, later = _odds(one.chance)
    return LimitWords(
        name=f"Leg {one.leg}",
        wanted=show.on_bar(one.size),
        low=_length(one.size - one.within, show, up=True)[0],
        high="".join(_length(one.size + one.within, show, up=False)),
        first=first,
        later=later,
        by=_by(one.by, part, f"ISO 2768-{ASSUMED_CLASS}, assumed"),
    )


def _bend(one: BendLimits, part: Part, show: Figures) -> LimitWords:
    first, later = _odds(one.chance)
    return LimitWords(
        name=f"Bend {one.bend}",
        wanted=show.angle(one.angle),
        low=_inwards(math.degrees(one.angle - one.within), 2, up=True),
        high=f"{_inwards(math.degrees(one.angle + one.within), 2, up=False)}°",
        first=first,
        later=later,
        by=_by(one.by, part, "usual, assumed"),
    )


def _odds(chance: Chance | None) -> tuple[str, str]:
    return (odds(None), odds(None)) if chance is None else (odds(chance.first), odds(chance.later))


def _by(by: LimitBy, part: Part, assumed: str) -> str:
    if by == "class" and part.tolerance is not None:
        return f"ISO 2768-{part.tolerance.general}"
    return {"own": "its own", "job": "of the job"}.get(by, assumed)


def _length(mm: float, show: Figures, *, up: bool) -> tuple[str, str]:
    """A limit, rounded inwards to 0.001 in or 0.01 mm."""
    inch = show.units == "inch"
    size, decimals, unit = (INCH_MM, 3, " in") if inch else (1.0, 2, " mm")
    return _inwards(mm / size, decimals, up=up), unit


def _inwards(value: float, decimals: int, *, up: bool) -> str:
    steps = value * 10**decimals
    whole = math.ceil(steps - 1e-6) if up else math.floor(steps + 1e-6)
    return fixed(whole / 10**decimals, decimals)
