"""Put the results of a study into charts: what runs along the foot, and a line for the rest."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from strapwright.drawing.study_charts.chart_values import Point, Series, StudyChart
from strapwright.quantities import Units
from strapwright.wording.figures import Figures, Kind

_ONLY = "the draws, all in one"

# File name -> figure of a case, its kind, what it is called, whether it is measured from zero.
_CHARTS: Mapping[str, tuple[str, Kind, str, bool]] = {
    "gauge": ("most_gauge_MPa", "MPa", "highest gauge reading that may come", True),
    "angle": ("widest_angle_deg", "rad", "free angle, plus or minus, stopped by travel", True),
    "blank": ("blank_mm", "mm", "length of the blank", False),
}
_WORDS = {" psi": "psi", " bar": "bar", "°": "degrees", " in": "inches", " mm": "mm"}


def study_charts(
    name: str,
    listed: Mapping[str, Sequence[str]],
    results: Sequence[Mapping[str, Any]],
    units: Units,
) -> dict[str, StudyChart]:
    """Make the charts of a study.

    Parameters
    ----------
    name
        Of the study.
    listed
        Key -> its values as typed, of the keys that are not drawn.  The one with the most values
        runs along the foot.
    results
        As kept.
    units
        That figures are shown in.

    Returns
    -------
    dict
        A chart for each figure that at least one case has.
    """
    foot = max(listed, key=lambda key: len(listed[key]), default=None)
    labels = tuple(listed[foot]) if foot is not None else (_ONLY,)
    others = [key for key in listed if key != foot]
    sets = list(itertools.product(*(listed[key] for key in others)))
    groups: dict[tuple[tuple[str, ...], str], list[Mapping[str, Any]]] = {}
    for one in results:
        typed = {key: str(value) for key, value in one["varied"].items()}
        at = (tuple(typed[key] for key in others), typed[foot] if foot is not None else _ONLY)
        groups.setdefault(at, []).append(one)
    found = {}
    for chart, (figure, kind, words, from_zero) in _CHARTS.items():
        unit, size = Figures(units=units, reading="1/64").size_of(kind)
        scale = 1.0 if kind == "rad" else 1.0 / size  # an angle is kept in degrees
        series = tuple(
            Series(
                name=", ".join(values),
                points=tuple(
                    _point(place, groups.get((values, label), []), figure, scale)
                    for place, label in enumerate(labels)
                ),
            )
            for values in sets
        )
        if any(one.middle is not None for line in series for one in line.points):
            found[chart] = StudyChart(
                title=name,
                head=f"{words}, {_WORDS[unit]}",
                foot=foot or "",
                labels=labels,
                series=series,
                from_zero=from_zero,
            )
    return found


def _point(place: int, cases: Sequence[Mapping[str, Any]], figure: str, scale: float) -> Point:
    """Sum up the draws of one place; those that cannot be made have no figure."""
    made = [one for one in cases if one["outcome"] in ("planned", "open")]
    read = [one["figures"][figure] * scale for one in made if one["figures"][figure] is not None]
    return Point(
        place=place,
        low=min(read, default=None),
        middle=float(np.median(read)) if read else None,
        high=max(read, default=None),
        refused=len(cases) - len(made),
        of=len(cases),
    )
