"""The metals of the catalog as a table to read and as plain data."""

from __future__ import annotations

import math
import textwrap
from typing import Any

from strapwright.bending.bend_values import Band
from strapwright.catalog import Material, materials, smallest_radius
from strapwright.quantities import Units, round_band
from strapwright.quantities.inside_units import KSI_MPA

_THICKNESS = 6.35  # mm, a common bar to state the smallest radius for
_BAR: dict[Units | None, str] = {None: "1/4 in", "inch": "1/4 in", "metric": "6.35 mm"}
_NINE_IN_TEN = 1.6449  # standard deviations either side of the mean of a normal distribution
_WIDTH = 88  # columns
_NAME, _COLUMN = 28, 22  # columns

Data = dict[str, Any]


def metals_to_data() -> Data:
    """Turn the catalog into plain data: MPa, and radii over thickness."""
    return {"format": 1, "materials": [_data(one) for one in materials()]}


def metals_to_text(units: Units | None = None) -> str:
    """Write the catalog as a table: two lines a metal, ending in a newline.

    Parameters
    ----------
    units
        Unit system of strengths; ``None`` says both.
    """
    names = {"inch": ("ksi", KSI_MPA), "metric": ("MPa", 1.0)}
    told = [each for system, each in names.items() if units in (None, system)]
    heads = [f"Typical yield, {told[0][0]}", *(name for name, _ in told[1:])]
    lines = [f"{'Material':<{_NAME}}{''.join(f'{one:<{_COLUMN}}' for one in heads)}Source", ""]
    for one in materials():
        band = _yield_band(one)
        strengths = "".join(
            f"{_between(one.yield_typical, band, size):<{_COLUMN}}" for _, size in told
        )
        grade = one.sources["yield_typical"].grade
        lines.append(f"{one.name:<{_NAME}}{strengths}{grade}")
        radius, source = smallest_radius(one, _THICKNESS)
        words = f"smallest inside radius {radius / _THICKNESS:.2g} T: {source}"
        lines += textwrap.wrap(words, _WIDTH, initial_indent="  ", subsequent_indent="    ")
        lines.append(f"  {one.designation}")
        if one.cracks:
            lines.append(f"  too hard to bend cold; {one.softer} bends")
        elif one.brittle:
            lines.append("  this bar may snap instead of bending")
    lines += [
        "",
        f"In brackets: nine bars in ten. Smallest inside radius in {_BAR[units]} bar bent across",
        "the grain, T its thickness. A certificate for your own bar is better than any line here.",
    ]
    return "\n".join(lines) + "\n"


def _data(one: Material) -> Data:
    band = _yield_band(one)
    radius, source = smallest_radius(one, _THICKNESS)
    known, rule = one.sources["yield_typical"], one.sources["min_radius_rule"]
    return {
        "name": one.name,
        "aliases": list(one.aliases),
        "designation": one.designation,
        "family": one.family,
        "yield_MPa": {"value": one.yield_typical, "low": band.low, "high": band.high},
        "yield_minimum_MPa": one.yield_minimum,
        "yield_source": known.source,
        "yield_grade": known.grade,
        "smallest_radius": {
            "over_thickness": radius / _THICKNESS,
            "at_thickness_mm": _THICKNESS,
            "rule": one.min_radius_rule,
            "source": source,
            "grade": rule.grade,
        },
        "density_kg_m3": one.density,
        "tensile_MPa": one.tensile_typical,
        "elongation_percent": one.elongation,
        "brittle": one.brittle,
        "cracks": one.cracks,
        "softer": one.softer,
        "anneal_C": one.anneal,
    }


def _yield_band(one: Material) -> Band:
    """Nine bars in ten; the catalog's spread is of the natural logarithm."""
    factor = math.exp(_NINE_IN_TEN * one.yield_spread)
    return Band(low=one.yield_typical / factor, high=one.yield_typical * factor)


def _between(value: float, band: Band, size: float) -> str:
    low, high = band.low / size, band.high / size
    shown, first, last = round_band(value / size, low, high)
    return f"{shown} ({first} to {last})"
