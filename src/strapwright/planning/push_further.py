"""'It stands at 84, how much more': the further push from an angle read to the angle wanted."""

from __future__ import annotations

import math

import numpy as np
from attrs import frozen

from strapwright.bending.bend_band import NINETY
from strapwright.bending.shop_spreads import USUAL_SPREADS
from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.planning.plan_values import Plan, Step


@frozen(kw_only=True)
class Push:
    """A further push.

    Attributes
    ----------
    extra
        Travel beyond where the ram stopped before [mm].
    low, high
        Band of it, from reading the angle and from the local slope [mm].
    loaded
        Angle under the ram at the end of the push [rad].
    """

    extra: float
    low: float
    high: float
    loaded: float


def stroke_at(made: Plan, step: Step, stands: float) -> tuple[Plan, Step, str]:
    """Return the stroke that a reading is of: past the angle its first stroke ends at, the second.

    Parameters
    ----------
    made, step
        A plan and one of its steps.
    stands
        Free angle read [rad].

    Returns
    -------
    tuple
        The plan, its step, and the name of the tooling of a second stroke, else empty.

    Raises
    ------
    InputError
        Where it is of a second stroke and the part is refused, which has no figures to push by.
    """
    for stroke in made.second_strokes:
        if stroke.bend != step.bend or stands <= stroke.begins:
            continue
        if any(one.severity is Severity.REFUSAL for one in made.findings):
            raise InputError(
                "stands",
                "the part is refused, so there is no push to add to",
                "plan the job again and fix what it refuses first",
            )
        return stroke.made, stroke.step, stroke.tooling
    return made, step, ""


def push_on(
    step: Step,
    stands: float,
    wanted: float | None = None,
    *,
    protractor: float = USUAL_SPREADS.protractor,
) -> Push:
    """Return the further push for a bend that was let go and read.

    Parameters
    ----------
    step
        The planned bend; its stroke curve gives the difference, so touch and machine give cancel.
    stands
        Free angle read [rad].
    wanted
        Free angle wanted; ``None`` is the step's own [rad].
    protractor
        Spread of ``stands``, one standard deviation [rad].

    Raises
    ------
    InputError
        Where the bend already stands at or past what is wanted, or the curve does not reach it or
        bottoms before it.
    """
    target = step.wanted if wanted is None else wanted
    curve = step.curve
    if not stands > 0.0:
        raise InputError(
            "stands",
            "must be more than 0°",
            "read the bend angle after release, or push to the first setting if there is none",
            value=f"{math.degrees(stands):g}",
        )
    if stands >= target:
        raise InputError(
            "stands",
            f"the bend already measures {math.degrees(stands):.4g}° and "
            f"{math.degrees(target):.4g}° is wanted; pushing only adds to it",
            "open it by hand or in a vice, or accept it",
        )
    last = float(curve.free_angle[-1])
    if target > last:
        raise InputError(
            "wanted",
            f"{math.degrees(target):.4g}° is past what was planned for this bend, which ends at "
            f"{math.degrees(last):.4g}°",
            "plan the part with the larger angle",
        )
    rising = int(np.argmax(curve.free_angle > 0.0))
    free, travel = curve.free_angle[rising:], curve.travel[rising:]

    def at(angle: float) -> float:
        return float(np.interp(angle, free, travel))

    if step.bottoming_travel is not None and at(target) > step.bottoming_travel:
        onset = float(np.interp(step.bottoming_travel, travel, free))
        raise InputError(
            "wanted",
            f"the bar bottoms at {math.degrees(onset):.4g}° after release, before "
            f"{math.degrees(target):.4g}°, and beyond that no angle can be predicted",
            "deepen the floor, widen what the bar comes down into, or use a narrower opening",
        )
    extra = at(target) - at(stands)
    miss = NINETY * protractor
    # Five per cent of the difference for the slope: strength and thickness move it that much.
    low = at(target) - at(min(stands + miss, target))
    high = at(target) - at(max(stands - miss, float(free[0])))
    loaded = float(np.interp(at(target), curve.travel, curve.loaded_angle))
    return Push(extra=extra, low=0.95 * low, high=1.05 * high, loaded=loaded)
