"""Where a plan's forces meet the tooling's members."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from strapwright.planning.values import Plan
from strapwright.quantities import Units
from strapwright.shop.press import Press
from strapwright.shop.rack import Rack
from strapwright.shop.tooling import Tooling
from strapwright.toolmaking.checking import check_members, member_findings
from strapwright.toolmaking.loads import push_loads, retract_load
from strapwright.toolmaking.mending import mends_of
from strapwright.toolmaking.rating import rating_of, relief_to_set
from strapwright.toolmaking.values import Assessment, Bench


def bench_of(plans: Sequence[Plan], tooling: Tooling, press: Press | None) -> Bench:
    """Return what is to be checked: the tooling under the worst of some plans.

    Parameters
    ----------
    plans
        Of one or more parts made on it; none leaves relief and pulling back.
    tooling, press
        As stated.
    """
    steps = [step for plan in plans for step in plan.steps]
    friction = tooling.friction
    peak = outward = steepest = None
    if steps:
        # The upper end of the band on the way: what a hard, thick bar asks for.
        peak = max(float(np.max(step.curve_high)) for step in steps)
        peak = max(peak, *(step.peak_force for step in steps))
        steepest = max(step.bands["loaded_angle_deg"].high for step in steps)
        steepest = float(np.radians(max(steepest, 0.0))) / 2
        steepest = max(steepest, *(step.loaded_angle / 2 for step in steps))
        outward = max(_outward(step.curve_high, step.curve.loaded_angle, friction)
                      for step in steps)  # fmt: skip
    members = tooling.members
    bars = [plan.job.part for plan in plans]
    return Bench(
        tooling=tooling,
        press=press,
        thickness=max((part.bar.thickness for part in bars), default=0.0),
        # The narrowest bar loads the middle most, the force being the worst of all.
        width=min((part.bar.width * part.at_once for part in bars), default=0.0),
        widest=max((part.bar.width * part.at_once for part in bars), default=0.0),
        pushes=push_loads(
            peak=peak,
            outward=outward,
            steepest=steepest,
            press=press,
            friction=friction,
            off_centre=0.0 if members is None else members.off_centre,
        ),
        retract=retract_load(press),
    )


def _outward(force: np.ndarray, angle: np.ndarray, friction: float) -> float:
    """Largest (F/2) tan delta on the way, delta = alpha - atan mu [N]."""
    slope = np.maximum(0.5 * angle - np.arctan(friction), 0.0)
    return float(np.max(0.5 * force * np.tan(slope)))


def assess(bench: Bench, units: Units, rack: Rack | None = None) -> Assessment:
    """Check every member, say what mends the weak ones and what the tooling may be loaded to.

    Parameters
    ----------
    bench
        From :func:`bench_of`.
    units
        Unit system of sizes proposed.
    rack
        Where the next size comes from.
    """
    checks, unchecked = check_members(bench)
    return Assessment(
        checks=checks,
        unchecked=unchecked,
        findings=tuple(member_findings(bench, checks, unchecked)),
        mends=mends_of(bench, checks, units, rack),
        rating=rating_of(bench, checks, unchecked),
        relief_to_set=relief_to_set(bench, checks),
    )
