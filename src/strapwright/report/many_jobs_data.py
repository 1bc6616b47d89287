"""The figures of one job among many, and tables of them all: mm, degrees, N, MPa."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from strapwright.bending.bend_values import Band
from strapwright.findings import Severity
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.order_findings import undecided
from strapwright.planning.plan_values import Plan, Step
from strapwright.wording.reader import at_command
from strapwright.wording.refused_words import headline
from strapwright.wording.telling import tell

Data = dict[str, Any]

# Columns of the table of cases, each with what it is; the figures of every bend are lists in the
# order of making.
CASE_COLUMNS: Mapping[str, str] = {
    "blank_mm": "length to cut",
    "blank_low_mm": "and between which values it lies",
    "blank_high_mm": "",
    "bends": "how many bends",
    "most_force_N": "highest force on the nose of all bends",
    "most_gauge_MPa": "highest gauge reading at the end of a bend, the high end of its band",
    "widest_angle_deg": "widest half band of a free angle, stopped by travel",
    "warnings": "how many warnings the plan has",
    "refusals": "how many refusals",
}
BEND_COLUMNS: Mapping[str, str] = {
    "bend": "its number along the bar",
    "travel_mm": "how far the ram is pushed",
    "loaded_deg": "angle under load",
    "free_deg": "angle after release",
    "free_low_deg": "and between which values it lies",
    "free_high_deg": "",
    "force_N": "at the end of the stroke",
    "gauge_MPa": "reading at the end of the stroke",
    "gauge_low_MPa": "and between which values it lies",
    "gauge_high_MPa": "",
}


def headline_of(plan: Plan) -> str:
    """Say in one sentence why a plan is refused or open.

    Parameters
    ----------
    plan
        One that is; where it is neither there is nothing to say.
    """
    reader = at_command(plan.job)
    refused = headline(plan, reader)
    if refused is not None:
        return refused.sentence
    told = tell(next(one for one in plan.findings if undecided((one,))), reader)
    return told.text


def case_figures(plan: Plan) -> Data:
    """Return the figures of a plan that are compared among many.

    A bend that cannot be made has none to stop at: its figures are ``None``.

    Parameters
    ----------
    plan
        As planned.

    Returns
    -------
    dict
        Keys of :data:`CASE_COLUMNS`, and under ``steps`` one dict a bend with those of
        :data:`BEND_COLUMNS`.
    """
    made = [one for one in plan.steps if not has_no_stop(plan, one)]
    readings = [one.bands.gauge for one in made if one.bands.gauge is not None]
    severities = [one.severity for one in plan.findings]
    return {
        "blank_mm": None if plan.blank is None else plan.blank.length,
        "blank_low_mm": None if plan.length_band is None else plan.length_band.low,
        "blank_high_mm": None if plan.length_band is None else plan.length_band.high,
        "bends": len(plan.job.part.bends),
        "most_force_N": max((one.peak_force for one in made), default=None),
        "most_gauge_MPa": max((one.high for one in readings), default=None),
        "widest_angle_deg": max((_half(one.bands.free_angle) for one in made), default=None),
        "warnings": severities.count(Severity.WARNING),
        "refusals": severities.count(Severity.REFUSAL),
        "steps": [_bend(plan, one) for one in plan.steps],
    }


def _half(band: Band) -> float:
    return math.degrees(band.high - band.low) / 2.0


def _bend(plan: Plan, step: Step) -> Data:
    if has_no_stop(plan, step):
        return {name: step.bend if name == "bend" else None for name in BEND_COLUMNS}
    free, gauge = step.bands.free_angle, step.bands.gauge
    return {
        "bend": step.bend,
        "travel_mm": step.setting.travel,
        "loaded_deg": math.degrees(step.loaded_angle),
        "free_deg": math.degrees(step.free_angle),
        "free_low_deg": math.degrees(free.low),
        "free_high_deg": math.degrees(free.high),
        "force_N": step.force,
        "gauge_MPa": None if step.gauge is None else step.gauge.value,
        "gauge_low_MPa": None if gauge is None else gauge.low,
        "gauge_high_MPa": None if gauge is None else gauge.high,
    }


def table_rows(results: Sequence[Mapping[str, Any]]) -> list[Data]:
    """Return one flat row a case, for a table of columns.

    Parameters
    ----------
    results
        As kept: ``name``, ``outcome``, ``said``, ``units``, ``varied`` and ``figures``.

    Returns
    -------
    list of dict
        Every row with the same keys: what varies as ``vary press.relief``, as typed; the figures
        of the bends as lists ``bend_travel_mm``.
    """
    varied = list(dict.fromkeys(key for one in results for key in one["varied"]))
    rows = []
    for one in results:
        figures = one["figures"]
        steps = figures.get("steps", [])
        row: Data = {"case": one["name"], "outcome": one["outcome"], "said": one["said"]}
        row |= {f"vary {key}": _typed(one["varied"].get(key)) for key in varied}
        row |= {name: figures.get(name) for name in CASE_COLUMNS}
        row |= {f"bend_{name}": [step[name] for step in steps] for name in BEND_COLUMNS}
        rows.append(row)
    return rows


def _typed(value: object) -> str | None:
    return None if value is None else str(value)
