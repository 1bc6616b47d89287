"""How well a steel takes an arc: carbon equivalent, and preheat as guidance."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from types import MappingProxyType
from typing import cast

from attrs import frozen

from strapwright.catalog.materials import Grade
from strapwright.catalog.sources import in_words
from strapwright.catalog.steels import Steel, table_rows

# Edges below which every list asks for little or nothing [percent].
LITTLE_CARBON, LITTLE_EQUIVALENT = 0.30, 0.35
# From here on every list asks for preheat [percent].
HARD_EQUIVALENT = 0.45
_ELEMENTS = ("C", "Mn", "Cr", "Mo", "V", "Ni", "Cu")


@frozen(kw_only=True)
class Weldability:
    """What is known of an arc on a steel.

    Attributes
    ----------
    equivalent
        Carbon equivalent [percent]; ``None`` where the composition is not known.
    carbon
        Most of its class [percent].
    low, high
        Between which temperatures the lists put the preheat [F]: the lowest and the highest that
        any names; ``None`` for no preheat, and for no upper limit.
    surely
        From where on no list asks for more [F]: the highest of their low ends; ``None`` for none.
    source, grade
        How the composition is known.
    """

    equivalent: float | None
    carbon: float
    low: float | None
    high: float | None
    surely: float | None
    source: str
    grade: Grade


def carbon_equivalent(percent: Mapping[str, float]) -> float:
    """Return CE = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15 [percent].

    The formula of the International Institute of Welding.

    Parameters
    ----------
    percent
        Symbol of an element -> share by weight [percent]; what is missing counts as none.
    """
    c, mn, cr, mo, v, ni, cu = (percent.get(one, 0.0) for one in _ELEMENTS)
    return c + mn / 6 + (cr + mo + v) / 5 + (ni + cu) / 15


def preheat_by(kind: str, percent: float) -> tuple[float | None, float | None]:
    """Return the preheat that the lists give [F]; ``None`` for none, or for no upper limit.

    Parameters
    ----------
    kind
        ``carbon`` or ``CE``.
    percent
        Of it; past the end of a list its last row counts.
    """
    rows = [row for row in _preheat_rows() if row["by"] == kind]
    row = next((one for one in rows if not one["to"] or percent <= float(one["to"])), rows[-1])
    low, high = (float(row[key]) if row[key] else None for key in ("low", "high"))
    return low, high


def weldability(steel: Steel) -> Weldability:
    """Return how well a steel takes an arc.

    Parameters
    ----------
    steel
        Of the catalog; one whose composition is not known goes by its carbon alone.
    """
    row = _chemistry().get(steel.name)
    equivalent = None
    source, grade = "composition not known", steel.grade
    bands = [preheat_by("carbon", steel.carbon)]
    if row is not None:
        stated = {one: float(row[one]) for one in _ELEMENTS}
        equivalent = float(row["limit"]) if row["limit"] else carbon_equivalent(stated)
        source, grade = in_words(row["source"]), cast("Grade", row["grade"])
        bands.append(preheat_by("CE", equivalent))
    lows = [low for low, _ in bands if low is not None]
    open_ended = any(low is not None and high is None for low, high in bands)
    highs = [] if open_ended else [high for _, high in bands if high is not None]
    return Weldability(
        equivalent=equivalent,
        carbon=steel.carbon,
        low=min(lows, default=None),
        high=max(highs, default=None),
        surely=max(lows, default=None),
        source=source,
        grade=grade,
    )


@functools.cache
def _preheat_rows() -> tuple[Mapping[str, str], ...]:
    return tuple(MappingProxyType(row) for row in table_rows("weld_preheat.csv"))


@functools.cache
def _chemistry() -> Mapping[str, Mapping[str, str]]:
    return MappingProxyType({row["steel"]: row for row in table_rows("weld_chemistry.csv")})
