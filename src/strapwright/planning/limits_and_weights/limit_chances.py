"""How likely each leg and angle comes out within its limits, now and after a first part.

All errors are taken as normal and apart from each other.  A nine-in-ten band reaches 1.645
deviations to each side (textbook); of a band that is not even the wider side counts.  What a nose
off the middle does to the legs is no chance: it is the same at every part, and added whole.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from attrs import frozen

from strapwright.bending.bend_band import NINETY
from strapwright.bending.shop_spreads import USUAL_SPREADS
from strapwright.blank.length_band import deduction_spread
from strapwright.findings import Severity
from strapwright.learning.blank_legs import LEG, PRIOR
from strapwright.learning.log_spreads import USUAL_LOG, LogSpreads
from strapwright.planning.bend_setups import known_bar, spreads_of
from strapwright.planning.job_findings import PROVEN_ANGLE
from strapwright.planning.limits_and_weights.limit_values import (
    BendLimits,
    Chance,
    LegLimits,
    Limits,
)
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.job import Job
from strapwright.shop.part import Part
from strapwright.shop.part_limits import bend_limit, leg_limit, states_limits, taking_leg
from strapwright.shop.tooling import Tooling

# Half width of the nine-in-ten band of a blank as it is sawn and faced (common practice, no source)
# [mm].
CUT = 0.4


@frozen(kw_only=True)
class _LegErrors:
    """What moves the legs: what each bend takes off, how well it is marked, what the nose adds.

    All are half widths [mm]; ``takes_off`` goes by bend, ``lands`` by leg.
    """

    takes_off: tuple[float, ...]
    mark: float
    lands: tuple[float, ...]


def chance_within(tolerance: float, half: float, aside: float = 0.0) -> float:
    """Return how likely a normal error stays within a tolerance [-].

    Parameters
    ----------
    tolerance
        To either side.
    half
        Half width of the nine-in-ten band of the error, in the same unit.
    aside
        How far the middle of the error may lie to one side of nothing.  It is taken to lie there,
        which is the least likely to hold of all places up to it.

    Notes
    -----
    P = (erf((t + a) / (sigma sqrt 2)) + erf((t - a) / (sigma sqrt 2))) / 2 with sigma = half /
    1.645 (textbook).
    """
    if half <= 0.0:
        return 1.0 if aside <= tolerance else 0.0
    scale = NINETY / (half * math.sqrt(2.0))
    return 0.5 * (math.erf((tolerance + aside) * scale) + math.erf((tolerance - aside) * scale))


def limits_of(plan: Plan) -> Limits:
    """Return what a part is held to, with the chance of each leg and angle where it is known.

    Parameters
    ----------
    plan
        As made.  Nothing is proven of a part that is refused, has no tooling, or is bent in a
        stack.
    """
    part, blank = plan.job.part, plan.blank
    refused = any(one.severity is Severity.REFUSAL for one in plan.findings)
    proven = not refused and part.stacked == 1 and len(plan.steps) == len(part.bends)
    steps = {step.bend: step for step in plan.steps} if proven else {}
    errors = _leg_errors(plan, steps) if steps else None
    takes = taking_leg(part)
    return Limits(
        legs=tuple(_leg(part, leg, takes, errors) for leg in range(1, len(part.legs) + 1)),
        bends=tuple(_bend(part, bend, steps, USUAL_LOG) for bend in range(1, len(part.bends) + 1)),
        takes=takes,
        stated=states_limits(part),
        from_end_2=()
        if blank is None
        else tuple(
            (mark.label, blank.length - mark.nose) for mark in blank.marks if mark.bend >= takes
        ),
    )


def _leg_errors(plan: Plan, steps: Mapping[int, Step]) -> _LegErrors | None:
    """Gather what moves the legs; ``None`` where the plan has no band of them."""
    tooling = plan.job.tooling
    if tooling is None or not plan.legs:
        return None
    return _LegErrors(
        takes_off=_takes_off(plan.job, tooling, steps),
        mark=tooling.mark_error,
        lands=tuple(one.lands for one in plan.legs),
    )


def _takes_off(job: Job, tooling: Tooling, steps: Mapping[int, Step]) -> tuple[float, ...]:
    """Half width of the nine-in-ten band of what each bend takes off its legs [mm].

    It has the share of thickness and radius that is in the band of the blank, and that of the
    neutral axis, which is known to a share of the thickness for each radian.
    """
    known = known_bar(job)
    spread = spreads_of(job, known, tooling, USUAL_SPREADS)
    by_section = deduction_spread(
        job.part,
        job.blank,
        inside_radii=[steps[bend].radii.wrap for bend in range(1, len(steps) + 1)],
        thickness_tolerance=NINETY * spread.thickness * known.thickness,
        radius_tolerance=USUAL_SPREADS.tooling.radius * tooling.nose.radius,
    )
    return tuple(
        math.hypot(one, NINETY * PRIOR * known.thickness * bend.angle)
        for one, bend in zip(by_section, job.part.bends, strict=True)
    )


def _bend(part: Part, bend: int, steps: Mapping[int, Step], log: LogSpreads) -> BendLimits:
    within, by = bend_limit(part, bend)
    return BendLimits(
        bend=bend,
        angle=part.bends[bend - 1].angle,
        within=within,
        by=by,
        # What the bench does to an angle has no band.
        chance=_angle_chance(steps[bend], within, log)
        if bend in steps and part.finish_of(bend) is None
        else None,
    )


def _angle_chance(step: Step, within: float, log: LogSpreads) -> Chance | None:
    """Chance of an angle; none where it is stopped by eye, of which there is no band.

    None either where it bottoms first, or past where the solver was compared.
    """
    if step.stop == "by eye" or step.bottoms_first or step.loaded_angle > PROVEN_ANGLE:
        return None
    band = step.bands.staged_angle if step.stop == "in stages" else step.bands.free_angle
    # The hits of a row are off the same way, all of them.
    half = step.hits * max(band.high - step.wanted, step.wanted - band.low, 0.0)
    return Chance(
        half=half,
        first=chance_within(within, half),
        later=max(chance_within(within, half), chance_within(within, later_half(step, log))),
    )


def later_half(step: Step, log: LogSpreads) -> float:
    """Half width of the nine-in-ten band of an angle once the first part was measured [rad].

    The stop is moved by what the first part read.  What is left: how well that was read, and, of
    the first part and of this one alike, how well the ram comes back to its stop and how much the
    springback follows the strength of the piece.

    Parameters
    ----------
    step
        The bend; each hit of a row comes back to the stop anew, and springs back alike.
    log
        How well a person reads and stops.
    """
    stop = log.stop * step.speed.sensitivity * math.sqrt(step.hits)
    piece = log.piece * (step.loaded_angle - step.free_angle) * step.hits
    return NINETY * math.sqrt(log.protractor**2 + 2.0 * stop**2 + 2.0 * piece**2)


def _leg(part: Part, leg: int, takes: int, errors: _LegErrors | None) -> LegLimits:
    within, by = leg_limit(part, leg)
    return LegLimits(
        leg=leg,
        size=part.legs[leg - 1],
        within=within,
        by=by,
        chance=None if errors is None else _leg_chance(within, leg, takes, errors),
    )


def _leg_chance(within: float, leg: int, takes: int, errors: _LegErrors) -> Chance:
    """Chance of a leg: its bends give half of what they take off to each side, and it is marked."""
    takes_off, aside = errors.takes_off, errors.lands[leg - 1]
    bends = [bend for bend in (leg - 1, leg) if 1 <= bend <= len(takes_off)]
    # One bar: its bends are off the same way.
    by_bends = sum(0.5 * takes_off[bend - 1] for bend in bends)
    by_hand = len(bends) * errors.mark**2 + (CUT**2 if leg == takes else 0.0)
    half = math.sqrt(by_bends**2 + by_hand)
    # The first part and the next are marked and cut alike; the leg that takes what is left has the
    # readings of all legs in it.  A measured leg corrects no mark for where the nose stands.
    read = (len(takes_off) + 1 if leg == takes else 1) * (NINETY * LEG) ** 2
    later = math.sqrt(read + 2.0 * by_hand)
    first = chance_within(within, half, aside)
    return Chance(
        half=half + aside,
        first=first,
        later=max(first, chance_within(within, later, aside)),
    )
