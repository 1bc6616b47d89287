"""The plan of a part whose end legs are bent long and sawn off, from the plan of the long part."""

from __future__ import annotations

from attrs import evolve

from strapwright.blank.blank_values import Blank
from strapwright.blank.leg_straights import bar_thickness
from strapwright.blank.trimmed_ends import with_saw_lines
from strapwright.midline.bar_poses import finished_in_space, finished_line, zone_points
from strapwright.midline.dimension_points import dimension_points
from strapwright.midline.pose_values import Zone
from strapwright.planning.bench_work.work_values import Sawing, Twisting
from strapwright.planning.limits_and_weights.weight_values import Weights
from strapwright.planning.plan_values import Plan
from strapwright.shop.part import Part


def sawn_off(long: Plan, part: Part) -> Plan:
    """Return the plan with the finished part as it is once its ends are sawn off.

    Parameters
    ----------
    long
        Plan of the part with its end legs left long.
    part
        As the shop states it.
    """
    stated = evolve(long, job=evolve(long.job, part=part))
    if long.blank is None:
        return stated
    blank = with_saw_lines(long.blank, part)
    first = part.trim_1 or 0.0
    # A twisted run of the finished part is shorter than in the flat.
    lost = sum(0.5 * sum(one.lost) for one in long.bench_work if isinstance(one, Twisting))
    length = blank.length - lost - first - (part.trim_2 or 0.0)
    zones = [_moved(zone, -first) for zone in long.finished_zones or long.zones]
    finished = finished_line(length, zones)
    return evolve(
        stated,
        blank=blank,
        finished=finished,
        dimension_points=dimension_points(part, bar_thickness(part), finished, zone_points(zones)),
        finished_3d=finished_in_space(length, zones),
        finished_zones=tuple(zones),
        weights=_lighter(long.weights, (part.trim_1 or 0.0) + (part.trim_2 or 0.0)),
        legs=tuple(evolve(one, length=part.legs[one.leg - 1]) for one in long.legs),
        stack=tuple(evolve(one, blank=with_saw_lines(one.blank, part)) for one in long.stack),
        bench_work=(*long.bench_work, *_sawings(blank, part)),
    )


def _lighter(weights: Weights | None, sawn: float) -> Weights | None:
    """What the part weighs once a length is sawn off [mm]."""
    if weights is None or weights.part is None:
        return weights
    return evolve(weights, part=max(weights.part - weights.per_length * sawn, 0.0))


def _moved(zone: Zone, along: float) -> Zone:
    return evolve(zone, begin=zone.begin + along, end=zone.end + along)


def _sawings(blank: Blank, part: Part) -> list[Sawing]:
    return [
        Sawing(
            end=saw.end,
            leg=1 if saw.end == 1 else len(part.legs),
            length=saw.length,
            position=saw.position,
            finished=part.legs[0 if saw.end == 1 else -1],
        )
        for saw in blank.saws
    ]
