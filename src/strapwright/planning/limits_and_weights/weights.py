"""What bar, blank and part weigh, what two hands may lift, and where a stand goes."""

from __future__ import annotations

import math

import numpy as np
from attrs import frozen

from strapwright.blank.cut_shapes import cut_area
from strapwright.catalog import find_material
from strapwright.findings import Finding, KeyAt, Length, Mass, Severity
from strapwright.midline.pose_values import DrawnPose
from strapwright.planning.limits_and_weights.weight_values import STOCK_LENGTH, Weights
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.bar import Bar
from strapwright.shop.part import Part

# The load constant of the lifting equation of NIOSH, 1994: the most for one person, held close and
# lifted well.  ISO 11228-1 starts from 25 kg for men and 20 kg for women (both from memory).
LIFT_ALONE = 23.0  # kg
# A stand must be past the weight by this much to carry it surely, and off the end of the leg; bar
# is level where its underside is within the other (both numerical) [mm].
_PAST, _LEVEL = 20.0, 0.5


@frozen(kw_only=True)
class Stand:
    """Where a stand carries the long end before first contact.

    Attributes
    ----------
    across
        From the middle of the nose along the bar, right of it as drawn if positive [mm].
    height
        Of its top above the bed; ``None`` where the height of the shoulders is not stated [mm].
    carries
        [kg]
    """

    across: float
    height: float | None
    carries: float


def section_area(bar: Bar, thickness: float) -> float:
    """Area of a bar's section [mm2].

    Parameters
    ----------
    bar
        Which section it has.
    thickness
        As measured, or nominal [mm].
    """
    if bar.section == "round":
        return math.pi * thickness**2 / 4.0
    return thickness * (bar.width if bar.section == "flat" else thickness)


def weights_of(part: Part, length: float | None) -> Weights:
    """Return what bar, blank and finished part weigh.

    Parameters
    ----------
    part
        As planned.
    length
        Of its blank, ``None`` without one [mm].

    Notes
    -----
    Mass = density x area x length, less a cylinder for each hole through the flat; of round rod
    nothing is taken off for holes, which errs to the heavy side.  No rolling tolerance is counted.
    """
    per_length = mass_per_length(part)
    blank = None if length is None else per_length * length
    taken = 0.0 if part.bar.section == "round" else _holes(part)
    known = find_material(part.material, "part.material").sources["density"]
    return Weights(
        per_length=per_length,
        stock_bar=per_length * STOCK_LENGTH,
        blank=blank,
        part=None if blank is None else max(blank - taken, 0.0),
        lifted=None if blank is None else blank * part.at_once * part.stacked,
        source=f"{known.source} ({known.grade})",
    )


def mass_per_length(part: Part) -> float:
    """Mass of the bar of a part [kg/mm]."""
    return _density(part) * section_area(part.bar, _thickness(part))


def _density(part: Part) -> float:
    """[kg/mm3]."""
    return find_material(part.material, "part.material").density * 1e-9


def _thickness(part: Part) -> float:
    return part.bar.thickness if part.lot.thickness is None else part.lot.thickness


def _holes(part: Part) -> float:
    """Mass of what is drilled out [kg]."""
    area = sum(cut_area(hole, part.bar.width) for hole in part.holes)
    return _density(part) * area * _thickness(part)


def lifting_findings(weights: Weights) -> list[Finding]:
    """What is too heavy for one person: what goes under the nose, and a bar as it is sold."""
    found = []
    if weights.lifted is not None and weights.lifted > LIFT_ALONE:
        found.append(
            Finding(
                code="too-heavy-to-lift",
                severity=Severity.WARNING,
                about=(KeyAt("part.bar"),),
                facts={"lifted": Mass(weights.lifted), "alone": Mass(LIFT_ALONE)},
            )
        )
    if weights.stock_bar > LIFT_ALONE:
        found.append(
            Finding(
                code="heavy-stock-bar",
                severity=Severity.NOTE,
                about=(KeyAt("part.bar"),),
                facts={
                    "bar": Mass(weights.stock_bar),
                    "length": Length(STOCK_LENGTH),
                    "alone": Mass(LIFT_ALONE),
                },
            )
        )
    return found


def stand_of(plan: Plan, step: Step) -> Stand | None:
    """Return where a stand goes for a bar that tips on the shoulders, ``None`` where none serves.

    None serves where the ram moves the shoulders, where the nose carries the bar, and where the bar
    is not level past its weight.

    Parameters
    ----------
    plan
        As made.
    step
        One of its bends.

    Notes
    -----
    Moments about the top of the far shoulder: the stand carries W (w + b)/(x + b), with the weight
    W at w from the middle, the shoulders at b and the stand at x (statics).
    """
    hold, job, weights = step.hold, plan.job, plan.weights
    if hold.carried_by != "shoulders" or hold.ram_side == "shoulders" or hold.weight is None:
        return None
    if hold.tips is None or job.tooling is None or weights is None:
        return None
    side = 1.0 if hold.tips == "right" else -1.0
    out, weight = _level_to(step.poses.rest, side), abs(hold.weight)
    if out - _PAST < weight + _PAST:
        return None
    across = 0.5 * (weight + out)
    bars = job.part.at_once * job.part.stacked
    lifted = weights.per_length * _length(step.poses.rest) * bars
    return Stand(
        across=side * across,
        height=job.tooling.shoulders.height,
        carries=lifted * (weight + hold.support) / (across + hold.support),
    )


def _level_to(pose: DrawnPose, side: float) -> float:
    """How far out from the middle the bar is level, towards one side [mm]."""
    x, y = side * pose.x, pose.y
    if side < 0:
        x, y = x[::-1], y[::-1]
    level = float(np.interp(0.0, x, y))
    out = 0.0
    for i in range(len(x)):
        if x[i] <= 0.0:
            continue
        if abs(float(y[i]) - level) > _LEVEL or x[i] <= out:
            break
        out = float(x[i])
    return out


def _length(pose: DrawnPose) -> float:
    return float(np.hypot(np.diff(pose.x), np.diff(pose.y)).sum())
