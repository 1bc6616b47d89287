"""A plan as plain data for JSON: lengths in mm, angles in degrees, N, MPa, seconds.

The layout is ``docs/plan.schema.json``, explained in ``docs/plan-json.md``; keys are only ever
added within one ``format``.
"""

from __future__ import annotations

import math
from typing import Any

from strapwright.bending.bend_values import Band
from strapwright.blank.blank_values import Blank
from strapwright.motion.refused_bends import has_no_stop, is_refused
from strapwright.planning.hits_and_stacks.stack_values import StackBar
from strapwright.planning.limits_and_weights.handling_values import Handling
from strapwright.planning.limits_and_weights.pumping import PumpWork, pump_work
from strapwright.planning.limits_and_weights.weight_values import STOCK_LENGTH, Weights
from strapwright.planning.limits_and_weights.weights import Stand, stand_of
from strapwright.planning.plan_values import (
    CrossCheck,
    Gauge,
    Plan,
    ReliefSetting,
    SecondStroke,
    Setting,
    Speed,
    StagedPush,
    Step,
    StepBands,
)
from strapwright.planning.surroundings.off_values import ComingOff
from strapwright.report.bench_work_json import bench_work_data
from strapwright.report.json_text import to_text
from strapwright.report.limits_text import limits_data
from strapwright.report.remedies_json import remedies_data
from strapwright.shop.part_holes import cut_kind
from strapwright.wording.reader import at_command
from strapwright.wording.refused_words import clash_words, headline
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.bench_work_words import work_words
from strapwright.wording.steps.gauge_words import no_gauge_words
from strapwright.wording.steps.handling_words import handling_words
from strapwright.wording.steps.step_words import tooling_name
from strapwright.wording.steps.way_off_words import way_off_words
from strapwright.wording.telling import Told, tell_all

__all__ = ["FORMAT", "plan_to_data", "to_text"]

FORMAT = 1

Data = dict[str, Any]


def plan_to_data(plan: Plan) -> Data:
    """Turn a plan into plain data.

    Parameters
    ----------
    plan
        As made by :func:`strapwright.planning.plan`.

    Returns
    -------
    dict
        By ``docs/plan.schema.json``.
    """
    said = headline(plan, at_command(plan.job))
    return {
        "format": FORMAT,
        "refused": said is not None,
        "headline": "" if said is None else said.sentence,
        "part": {"name": plan.job.part.name, "quantity": plan.job.part.quantity},
        "units": plan.job.units,
        "legs_mm": list(plan.job.part.legs),
        "legs_band_mm": [_band(one.band) for one in plan.legs],
        "dimension_points_mm": [[list(one) for one in pair] for pair in plan.dimension_points],
        "blank": None if plan.blank is None else _blank(plan.blank, plan.length_band),
        "stack": [_stack_bar(one) for one in plan.stack],
        "steps": [_step(plan, step) | _refused(plan, step) for step in plan.steps],
        "bench_work": [
            _second_stroke(plan, one)
            if isinstance(one, SecondStroke)
            else bench_work_data(plan, one)
            for one in plan.bench_work
        ],
        "handling": None if plan.handling is None else _handling(plan.handling),
        "limits": limits_data(plan),
        "weights": None if plan.weights is None else _weights(plan.weights),
        "findings": [finding_data(one) for one in tell_all(plan.findings, at_command(plan.job))],
        "remedies": None if plan.remedies is None else remedies_data(plan),
        "cautions": list(plan.cautions),
    }


def _second_stroke(plan: Plan, stroke: SecondStroke) -> Data:
    """A bend that is pushed on; a refused part gets nothing to push by."""
    said = work_words(plan, stroke, at_command(plan.job))
    refused = is_refused(plan)
    return {
        "kind": "second stroke",
        "bend": stroke.bend,
        "tooling": stroke.tooling,
        "changed": stroke.changed,
        "from_deg": math.degrees(stroke.begins),
        "to_deg": math.degrees(stroke.ends),
        "force_N": None if refused else stroke.force,
        "step": None if refused else _step(stroke.made, stroke.step),
        "title": said.title,
        "text": said.text,
    }


def _weights(weights: Weights) -> Data:
    return {
        "bar_kg_m": weights.per_length * 1000.0,
        "stock_bar_kg": weights.stock_bar,
        "stock_bar_mm": STOCK_LENGTH,
        "blank_kg": weights.blank,
        "part_kg": weights.part,
        "lifted_kg": weights.lifted,
        "density_source": weights.source,
    }


def _stand(stand: Stand | None) -> Data | None:
    if stand is None:
        return None
    return {
        "right_of_nose_mm": stand.across,
        "above_bed_mm": stand.height,
        "carries_kg": stand.carries,
    }


def _stack_bar(one: StackBar) -> Data:
    return {
        "bar": one.bar,
        "blank": _blank(one.blank, None),
        "free_angles_deg": [math.degrees(free) for free in one.free],
        "radii_mm": list(one.radii),
    }


def _refused(plan: Plan, step: Step) -> Data:
    """Whether a bend may be pushed at all, and what it runs into."""
    return {
        "no_stop": has_no_stop(plan, step),
        "clash": clash_words(plan, step, at_command(plan.job)),
    }


def _blank(blank: Blank, band: Band | None) -> Data:
    return {
        "length_mm": blank.length,
        "length_band_mm": None if band is None else _band(band),
        "method": blank.method,
        "alternatives": [
            {"method": other.method, "length_mm": other.length} for other in blank.alternatives
        ],
        "allowances_mm": list(blank.allowances),
        "deductions_mm": list(blank.deductions),
        "marks": [
            {
                "bend": mark.bend,
                "hit": mark.hit,
                "nose_mm": mark.nose,
                "sight_mm": mark.sight,
                "tangent_mm": list(mark.tangents),
            }
            for mark in blank.marks
        ],
        "holes": [
            {
                "hole": hole.hole,
                "position_mm": hole.position,
                "across_mm": hole.across,
                "diameter_mm": hole.diameter,
                "kind": cut_kind(hole),
                "length_mm": hole.length,
                "open": hole.opens,
                "bend": hole.bend,
                "edge_to_zone_mm": hole.edge_to_zone,
                "after_bending": hole.after,
            }
            for hole in blank.holes
        ],
        "welds": [
            {
                "weld": weld.weld,
                "position_mm": weld.position,
                "bend": weld.bend,
                "to_zone_mm": weld.to_zone,
            }
            for weld in blank.welds
        ],
        "saw_lines": [
            {"end": saw.end, "position_mm": saw.position, "length_mm": saw.length}
            for saw in blank.saws
        ],
        "twisted_runs": [
            {"leg": one.leg, "begin_mm": one.begin, "end_mm": one.end} for one in blank.twists
        ],
    }


def _step(plan: Plan, step: Step) -> Data:
    return {
        "order": step.order,
        "bend": step.bend,
        "tooling": tooling_name(plan, step.bend) if plan.job.part.several_toolings else "",
        "hold": {
            "face": step.hold.face,
            "end_left": step.hold.end_left,
            "nose": step.hold.nose,
            "carried_by": step.hold.carried_by,
            "weight_right_mm": step.hold.weight,
            "tips": step.hold.tips,
            "stand": _stand(stand_of(plan, step)),
            "text": hold_words.whole(plan, step),
            "roll_deg": math.degrees(step.hold.roll),
        },
        "stop": step.stop,
        "hits": step.hits,
        "wanted_angle_deg": math.degrees(step.wanted),
        "total_angle_deg": math.degrees(step.wanted if step.total is None else step.total),
        "travel_mm": step.setting.travel,
        "setting": _setting(step.setting),
        "loaded_angle_deg": math.degrees(step.loaded_angle),
        "free_angle_deg": math.degrees(step.free_angle),
        "force_N": step.force,
        "peak_force_N": step.peak_force,
        "gauge_MPa": None if step.gauge is None else _gauge(step.gauge),
        "gauge_reason": no_gauge_words(step.no_gauge),
        "relief_to_set_MPa": _to_set(step.relief),
        "relief": None if step.relief is None else _relief(step.relief),
        "radii_mm": {
            "wrap": step.radii.wrap,
            "gauge": step.radii.gauge,
            "tightest": step.radii.tightest,
        },
        "bottoming_travel_mm": step.bottoming_travel,
        "jam_angle_deg": math.degrees(step.jam_angle),
        "straight_left_mm": step.straight_left,
        "clearance_mm": step.clearance,
        "nearest": "" if step.nearest is None else step.nearest.name,
        "end_stop_mm": step.end_stop,
        "coming_off": None if step.coming_off is None else _off(step, step.coming_off),
        "speed": _speed(step.speed),
        "pump": _pump(pump_work(plan.job.press, step)),
        "staged": None if step.staged is None else _staged(step.staged),
        "bands": _bands(step.bands),
        "cross_checks": [_cross_check(check) for check in step.cross_checks],
        "curve": {
            "travel_mm": step.curve.travel.tolist(),
            "force_N": step.curve.force.tolist(),
            "force_low_N": step.curve_low.tolist(),
            "force_high_N": step.curve_high.tolist(),
            "loaded_angle_deg": [math.degrees(a) for a in step.curve.loaded_angle.tolist()],
            "free_angle_deg": [math.degrees(a) for a in step.curve.free_angle.tolist()],
        },
    }


def _off(step: Step, off: ComingOff) -> Data:
    return {
        "verdict": off.verdict,
        "how": off.how,
        "text": way_off_words(step),
        "released": off.released,
        "weight_right_mm": off.weight,
        "held_by": list(off.held_by),
        "motion": [
            {"x_mm": x, "y_mm": y, "z_mm": z, "turn_deg": math.degrees(turn)}
            for x, y, z, turn in off.motion
        ],
    }


def _handling(handling: Handling) -> Data:
    return {
        "cost": handling.cost,
        "proven": handling.proven,
        "part_by_part": handling.part_by_part,
        "bend_by_bend": handling.bend_by_bend,
        "minutes": {
            name: None if cost is None else cost * handling.weights.minutes
            for name, cost in (
                ("per_part", handling.cost),
                ("part_by_part", handling.part_by_part),
                ("bend_by_bend", handling.bend_by_bend),
            )
        },
        "text": handling_words(handling),
    }


def _setting(setting: Setting) -> Data:
    return {
        "faces_mm": setting.faces,
        "faces_between": list(setting.faces_between),
        "block_mm": setting.block,
        "block_between": list(setting.block_between),
    }


def _gauge(gauge: Gauge) -> Data:
    return {
        "value": gauge.value,
        "low": gauge.low,
        "high": gauge.high,
        "ease_off": gauge.ease_off,
        "peak": gauge.peak,
    }


def _to_set(relief: ReliefSetting | None) -> float | None:
    """Keep what readers of the first plans look for."""
    return relief.pressure if relief is not None and relief.kind == "set" else None


def _relief(relief: ReliefSetting) -> Data:
    return {"kind": relief.kind, "pressure_MPa": relief.pressure, "by": relief.by}


def _speed(speed: Speed) -> Data:
    return {
        "ram_mm_s": speed.ram,
        "angle_deg_s": None if speed.angle is None else math.degrees(speed.angle),
        "sensitivity_deg_mm": math.degrees(speed.sensitivity),
    }


def _pump(work: PumpWork | None) -> Data | None:
    if work is None:
        return None
    return {
        "strokes_first": work.first,
        "strokes": work.whole,
        "seconds": work.seconds,
        "handle_N": work.handle,
        "handle_most_N": work.handle_most,
    }


def _staged(staged: StagedPush) -> Data:
    return {
        "first_travel_mm": staged.first_travel,
        "first_loaded_deg": math.degrees(staged.first_loaded),
        "first_free_deg": math.degrees(staged.first_free),
        "readings_deg": [math.degrees(angle) for angle in staged.readings],
        "extra_mm": list(staged.extra),
    }


def _bands(bands: StepBands) -> Data:
    named = {
        "travel_mm": _band(bands.travel),
        "loaded_angle_deg": _turned(bands.loaded_angle),
        "free_angle_deg": _turned(bands.free_angle),
        "staged_angle_deg": _turned(bands.staged_angle),
        "force_N": _band(bands.force),
    }
    return named if bands.gauge is None else named | {"gauge_MPa": _band(bands.gauge)}


def _turned(band: Band) -> Data:
    return {"low": math.degrees(band.low), "high": math.degrees(band.high)}


def _band(band: Band) -> Data:
    return {"low": band.low, "high": band.high}


def _cross_check(check: CrossCheck) -> Data:
    return {
        "name": check.name,
        "value": check.value,
        "ours": check.ours,
        "unit": check.unit,
        "source": check.source,
        "text": check.text,
    }


def finding_data(finding: Told) -> Data:
    """Return a finding as plain data.

    Parameters
    ----------
    finding
        Of a plan or a tooling, in words.
    """
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "where": finding.where,
        "text": finding.text,
        "remedy": finding.remedy,
    }
