"""A stroke of a whole bend, counted from where the nose touches a bar that is bent already."""

from __future__ import annotations

import math

import numpy as np
from attrs import evolve

from strapwright.bending.bend_values import Band, StrokeCurve
from strapwright.planning.bench_work.again import stops_higher
from strapwright.planning.made_bend import FIRST_PUSH
from strapwright.planning.plan_values import StagedPush, Step

_LEAST_SPRUNG = 0.01  # mm; straight legs tell the touch no closer than that; numerical
_LEAST_READ = math.radians(1.0)  # less than this more a protractor does not show; common practice


def from_touch(
    step: Step,
    begins: float,
    *,
    lower: float,
    own_lower: float,
    past: float,
    rounder: float,
    touches: Band,
) -> Step:
    """Return a stroke of a whole bend as that of a bend which has an angle already.

    It is stopped where a rounder bend that keeps its shape has the angle, and a tighter one is
    short of it: what is short can be pushed on.  Until it yields it only springs; a tighter bend
    touches so low that one push would have turned it by more there, and its curve goes on from
    where that is.

    Parameters
    ----------
    step
        As if made in one push.
    begins
        Angle after release that the bend has [rad].
    lower, own_lower
        How much lower the nose touches it, and one that this tooling bent as far [mm].
    past
        Most that it springs back [rad].
    rounder
        As of :func:`~strapwright.planning.bench_work.again.stops_higher` [mm].
    touches
        How much lower the nose may touch it than at ``lower``, as the first stroke may have turned
        it by less or more; the lower end is below 0 [mm].
    """
    curve, travel = step.curve, step.setting.travel
    rising = int(np.argmax(curve.free_angle > 0.0))
    # Where it yields again: pushed to here at once it would have the angle that it has.
    yields = float(np.interp(begins, curve.free_angle[rising:], curve.travel[rising:]))
    # Until then it goes down as much as from the touch of a bend of its own.
    sprung = max(yields - own_lower, _LEAST_SPRUNG)
    further = curve.travel[curve.travel > yields]
    keeps = stops_higher(
        max(rounder, 0.0), begins, np.interp(further, curve.travel, curve.loaded_angle)
    )
    further = further[further - keeps - lower > sprung]
    at = np.concatenate([[lower, yields], further])

    def on(values: np.ndarray) -> np.ndarray:
        kept: np.ndarray = np.interp(at, curve.travel, values)
        return kept

    force, loaded, free = on(curve.force), on(curve.loaded_angle), on(curve.free_angle)
    below = at - stops_higher(max(rounder, 0.0), begins, loaded) - lower
    below[:2] = 0.0, sprung
    force[0], loaded[0] = 0.0, begins  # not pushed yet, then it gives like a spring
    free[:2] = begins
    low = on(step.curve_low)
    low[0] = 0.0
    turned = StrokeCurve(
        travel=below,
        force=force,
        loaded_angle=loaded,
        free_angle=free,
        nose_curvature=on(curve.nose_curvature),
        wrap_length=on(curve.wrap_length),
        jam_angle=curve.jam_angle,
        jammed=curve.jammed,
        solved=curve.solved,
    )
    bands = step.bands
    more = past - (step.loaded_angle - step.free_angle)
    most = float(np.interp(step.loaded_angle + more, curve.loaded_angle, curve.travel))
    apart = float(stops_higher(rounder, begins, step.loaded_angle))
    up, deeper = max(apart, 0.0), max(-apart, 0.0)
    # Pushed so far in one push it would be so much short.
    short = step.free_angle - float(np.interp(travel - abs(apart), curve.travel, curve.free_angle))
    setting = step.setting
    stops = travel - up - lower
    bottoms = step.bottoming_travel
    if bottoms is not None:
        # Legs meet what lies under them at an angle, which the nose has reached higher.
        there = float(np.interp(bottoms, curve.travel, curve.loaded_angle))
        bottoms = max(bottoms - float(stops_higher(max(rounder, 0.0), begins, there)) - lower, 0.0)
    # Travel counts from the touch, so a stop by travel lies as much lower; a block does not.
    moved = Band(low=0.0, high=0.0) if step.stop == "on a block" else touches
    too_far = float(np.interp(travel + moved.high, curve.travel, curve.free_angle))
    too_short = float(np.interp(travel + moved.low, curve.travel, curve.free_angle))
    return evolve(
        step,
        setting=evolve(
            setting,
            travel=stops,
            faces=None if setting.faces is None else setting.faces + up,
            block=None if setting.block is None else setting.block + up,
        ),
        peak_force=float(np.max(force[at <= travel], initial=step.force)),
        bottoming_travel=bottoms,
        curve=turned,
        curve_low=low,
        curve_high=on(step.curve_high),
        staged=None if step.staged is None else _staged(turned, stops, begins, step.wanted),
        bands=evolve(
            bands,
            travel=_with(
                Band(
                    low=bands.travel.low - up - lower,
                    high=bands.travel.high + (most - travel) + deeper - lower,
                ),
                stops,
                Band(low=-touches.high, high=-touches.low),
                least=0.0,
            ),
            free_angle=_with(
                Band(low=bands.free_angle.low - more - short, high=bands.free_angle.high),
                step.free_angle,
                Band(low=too_short - step.free_angle, high=too_far - step.free_angle),
                least=begins,
            ),
        ),
    )


def _with(band: Band, value: float, apart: Band, *, least: float) -> Band:
    """Widen a band by what moves its value independently of all else, as a root of squares."""
    return Band(
        low=max(value - math.hypot(value - band.low, apart.low), least),
        high=value + math.hypot(band.high - value, apart.high),
    )


def _staged(curve: StrokeCurve, travel: float, begins: float, wanted: float) -> StagedPush | None:
    """First push, and how much further for what the protractor may show then."""
    yields = float(curve.travel[1])
    first = yields + FIRST_PUSH * (travel - yields)
    loaded = float(np.interp(first, curve.travel, curve.loaded_angle))
    free = float(np.interp(first, curve.travel, curve.free_angle))
    if free - begins < _LEAST_READ:
        return None
    centre = round(math.degrees(free))
    readings = [math.radians(centre + k) for k in range(-4, 5)]
    readings = [one for one in readings if begins < one < wanted]
    pushes = np.interp([*readings, wanted], curve.free_angle[1:], curve.travel[1:])
    return StagedPush(
        first_travel=first,
        first_loaded=loaded,
        first_free=free,
        readings=tuple(readings),
        extra=tuple(float(pushes[-1] - one) for one in pushes[:-1]),
    )
