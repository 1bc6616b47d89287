"""Work at the bench after the press, as plain data: mm, degrees, N, MPa."""

from __future__ import annotations

import math
from typing import Any

from strapwright.motion.refused_bends import is_refused
from strapwright.planning.bench_work.work_values import BenchWork, Drilling, Sawing, Twisting
from strapwright.planning.plan_values import Plan
from strapwright.shop.part_holes import cut_kind
from strapwright.wording.reader import at_command
from strapwright.wording.steps.bench_work_words import work_words

# Of a twist and of a bend that is closed.
_TO_WORK_BY = ("past_deg", "torque_N_mm", "people", "arm_mm", "force_N", "gauge_MPa")


def bench_work_data(plan: Plan, work: BenchWork) -> dict[str, Any]:
    """Turn one piece of work into plain data.

    Parameters
    ----------
    plan
        Whose work it is.
    work
        One of its ``bench_work``.
    """
    said = work_words(plan, work, at_command(plan.job))
    figures = _figures(work)
    if is_refused(plan):
        # Nothing is given to work by.
        figures |= dict.fromkeys(one for one in _TO_WORK_BY if one in figures)
    return {"kind": _kind(work), **figures, "title": said.title, "text": said.text}


def _kind(work: BenchWork) -> str:
    if isinstance(work, Sawing):
        return "saw"
    if isinstance(work, Twisting):
        return "twist"
    return "drill" if isinstance(work, Drilling) else work.by


def _figures(work: BenchWork) -> dict[str, Any]:
    if isinstance(work, Sawing):
        return {
            "end": work.end,
            "leg": work.leg,
            "length_mm": work.length,
            "position_mm": work.position,
            "finished_mm": work.finished,
        }
    if isinstance(work, Twisting):
        return {
            "leg": work.leg,
            "begin_mm": work.begin,
            "end_mm": work.end,
            "angle_deg": math.degrees(work.angle),
            "past_deg": [math.degrees(one) for one in work.past],
            "shorter_mm": list(work.lost),
            "torque_N_mm": work.torque,
            "people": work.people,
            "arm_mm": work.arm,
            "before_bends": list(work.before),
        }
    if isinstance(work, Drilling):
        return {
            "hole": work.hole,
            "leg": work.place.leg,
            "from_bend": work.place.from_bend,
            "distance_mm": work.place.distance,
            "across_mm": work.place.across,
            "diameter_mm": work.place.diameter,
            "cut": cut_kind(work.place),
            "length_mm": work.place.length,
            "open": work.place.opens,
            "near_bend": work.near,
            "edge_to_zone_mm": work.away,
        }
    return {
        "bend": work.bend,
        "from_deg": math.degrees(work.begins),
        "to_deg": math.degrees(work.ends),
        "past_deg": math.degrees(work.past),
        "clamped_leg": work.clamped,
        "pulled_leg": work.pulled,
        "arm_mm": work.arm,
        "force_N": work.force,
        "gauge_MPa": work.gauge,
    }
