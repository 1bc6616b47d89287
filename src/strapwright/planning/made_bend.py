"""One bend at the press: the state wanted, its band, where to stop and what the gauge reads."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bar_shape import HalfShape, half_shape, released_bend
from strapwright.bending.bend_band import BendSample, OffMiddle, Spreads, band_of, sample_bend
from strapwright.bending.bend_radii import BendRadii, bend_radii
from strapwright.bending.bend_values import (
    BendSetup,
    Floats,
    ReleasedBend,
    StrokeCurve,
    StrokeState,
)
from strapwright.bending.bottoming import channel_onset, floor_onset, vee_onset
from strapwright.bending.hydraulics import pressure_for
from strapwright.bending.kernel_curve import TRAVEL
from strapwright.bending.learned_spread import SCALE, ZERO, LearnedSpread
from strapwright.bending.model_error import ModelError, model_error
from strapwright.bending.off_middle.two_legs import UnevenBend, uneven_at_travel
from strapwright.bending.solver import curve_of, end_of, jams_at, state_of
from strapwright.bending.solver_model import Model, build
from strapwright.errors import BendAt, InputError
from strapwright.planning.from_the_log.seen_bend import (
    model_state,
    seen_curve,
    seen_state,
    seen_travel,
)
from strapwright.planning.plan_values import Gauge, StagedPush, StepBands
from strapwright.planning.settled_bend import settled
from strapwright.shop.press import Press
from strapwright.shop.tooling import Shoulders

# The step card pushes to this share of the travel first (common practice, no source).
FIRST_PUSH = 0.85
# Shares of the travel at which the sample's force is taken, for the veil of the curve; numerical.
SHARES = np.array([0.12, 0.25, 0.4, 0.55, 0.7, FIRST_PUSH, 1.0])
# Past the setting the curve is drawn on by this share, so that the eye sees where it leads
# (common practice, no source).
_SHOWN_PAST = 1.12


@frozen(kw_only=True)
class MadeBend:
    """Everything the solver says of one bend angle; bends of one angle share it.

    Attributes
    ----------
    released, settled
        As it stays bent once let go, see :mod:`strapwright.planning.settled_bend`.
    shape
        All the way to the shoulder contact.
    force_low, force_high
        Band of the force on ``curve.travel``, shape (k,) [N].
    uneven
        The bar at the same travel under a nose as far off the middle as it may stand, one entry
        for each of ``SHARES``; empty where the nose stands in the middle, or where the bar cannot
        be followed there.
    offset
        How far that is [mm].
    learned
        What readings taught of it, ``None`` before any; state, curve and bottoming are as read at
        the press, see :mod:`strapwright.planning.from_the_log.seen_bend`.
    rubbed
        Highest force expected on the way where the bars of a stack rub, or where the bar was bent
        there before; else 0 [N].
    """

    setup: BendSetup
    model: Model
    state: StrokeState
    curve: StrokeCurve
    released: ReleasedBend
    shape: HalfShape
    settled: HalfShape
    radii: BendRadii
    error: ModelError
    sample: BendSample
    peak: float
    force_low: Floats
    force_high: Floats
    jammed_share: float
    bottoming: float | None
    jam: float
    uneven: tuple[UnevenBend, ...] = ()
    offset: float = 0.0
    learned: LearnedSpread | None = None
    rubbed: float = 0.0

    @property
    def peak_to_carry(self) -> float:
        """Highest force on the way that tooling and press are held to [N]."""
        return max(self.peak, self.rubbed)

    @property
    def upper(self) -> float:
        """Upper end of the band of the force, up to the setting [N]."""
        pushed = self.force_high[self.curve.travel <= self.state.travel]
        return max(self.peak_to_carry, float(np.max(pushed, initial=0.0)))


class JamsError(InputError):
    """The tooling jams before an angle is reached.

    Parameters
    ----------
    where
        The bend.
    angle
        Wanted [rad].
    curve
        The whole stroke.
    """

    def __init__(self, where: BendAt, angle: float, curve: StrokeCurve) -> None:
        self.angle = angle
        self.jam = jams_at(curve)
        self.reaches = float(curve.free_angle[-1])
        super().__init__(
            where,
            f"a {math.degrees(angle):.4g}° bend cannot be made: {end_of(curve)}",
            "open the shoulders, or take a smaller nose or smaller shoulder radii",
        )


def make_bend(
    setup: BendSetup, angle: float, spreads: Spreads, shoulders: Shoulders, where: BendAt
) -> MadeBend:
    """Solve one bend to a free angle [rad], with its band.

    Parameters
    ----------
    spreads
        How well everything that goes into it is known.
    shoulders
        Under it, where it may bottom.
    where
        What an error is about.

    Raises
    ------
    JamsError
        Where the tooling jams before that angle, naming the jam angle.
    """
    # How high they stand and how far out they reach changes no bend.
    floor = evolve(shoulders, height=None, outer_edge=None)
    solved = _solved(setup, angle, spreads, floor)
    if isinstance(solved, StrokeCurve):
        raise JamsError(where, angle, solved)
    return solved


@lru_cache(maxsize=128)
def _solved(
    setup: BendSetup, angle: float, spreads: Spreads, shoulders: Shoulders
) -> MadeBend | StrokeCurve:
    """Solve one bend with its band, or return the whole curve where it jams before the angle.

    Remembered, since a leg or a hole that changes leaves every bend as it was.
    """
    learned = spreads.learned
    model = build(setup)
    own = model_state(model, angle, learned)
    full = curve_of(model)
    if own is None:
        return full
    most = min(0.5 * own.loaded_angle * _SHOWN_PAST, model.top)
    curve = seen_curve(curve_of(model, 100, most), angle, learned)
    error = model_error(setup, own.loaded_angle)
    state = seen_state(own, angle, learned)
    uneven = uneven_stroke(setup, spreads.off_middle, own.travel)
    sample = sample_bend(
        setup,
        spreads,
        error,
        travel=state.travel,
        wanted=angle,
        loaded=own.loaded_angle,
        shares=SHARES,
        curve_travel=curve.travel,
        curve_free=curve.free_angle,
        off_middle=_added(model, uneven),
    )
    low, high = _veil(curve, state.travel, sample)
    pushed = curve.travel <= state.travel
    shape = half_shape(model, free=angle)
    short, bend = settled(shape, released_bend(model, angle))
    return MadeBend(
        setup=setup,
        model=model,
        state=state,
        curve=curve,
        released=bend,
        shape=shape,
        settled=short,
        radii=bend_radii(setup, own),
        error=error,
        sample=sample,
        peak=max(state.force, float(np.max(curve.force[pushed], initial=0.0))),
        force_low=low,
        force_high=high,
        jammed_share=float(np.mean(np.isnan(sample.travel))),
        bottoming=seen_travel(_bottoming(model, full, shoulders), learned),
        jam=full.jam_angle,
        uneven=uneven,
        offset=spreads.off_middle,
        learned=learned,
    )


def uneven_stroke(setup: BendSetup, offset: float, travel: float) -> tuple[UnevenBend, ...]:
    """Follow a bar under a nose off the middle to ``SHARES`` of a travel [mm].

    Empty where the nose stands in the middle, or the bar cannot be followed.
    """
    if offset <= 0.0:
        return ()
    found = [uneven_at_travel(setup, offset, float(share) * travel) for share in SHARES]
    return tuple(one for one in found if one is not None) if None not in found else ()


def _added(model: Model, uneven: tuple[UnevenBend, ...]) -> OffMiddle | None:
    """What a nose off the middle adds to the even bend at the same travels."""
    if not uneven:
        return None
    even = [state_of(model, TRAVEL, one.travel) for one in uneven]
    force, free = np.zeros(len(uneven)), np.zeros(len(uneven))
    for i, (one, alone) in enumerate(zip(uneven, even, strict=True)):
        if alone is not None:
            force[i] = one.force / alone.force - 1.0
            free[i] = one.free_angle - alone.free_angle
    last = even[-1]
    loaded = 0.0 if last is None else uneven[-1].loaded_angle - last.loaded_angle
    return OffMiddle(force=force, loaded=loaded, free=float(free[-1]), first_free=float(free[-2]))


def bottoms_first(made: MadeBend) -> bool:
    """Whether the bar bottoms before the angle is reached."""
    return made.bottoming is not None and made.state.travel > made.bottoming


def _bottoming(model: Model, curve: StrokeCurve, shoulders: Shoulders) -> float | None:
    """Travel at which the bar meets what lies under it, ``None`` where it meets nothing [mm]."""
    depth = shoulders.depth
    if shoulders.floor == "open" or depth is None:
        return None
    if shoulders.floor == "channel":
        width, walls = shoulders.channel_width, shoulders.channel_walls
        if width is None or walls is None:
            return channel_onset(model, curve, depth)
        return channel_onset(model, curve, depth, walls_at=0.5 * width, walls_top=depth - walls)
    if shoulders.vee_angle is not None:
        return vee_onset(model, curve, shoulders.vee_angle, depth)
    return floor_onset(curve, depth, model.frame.thickness)


def _veil(curve: StrokeCurve, travel: float, sample: BendSample) -> tuple[Floats, Floats]:
    middle = np.interp(SHARES * travel, curve.travel, curve.force)
    ends = np.nanquantile(sample.force, [0.05, 0.95], axis=0)
    # Contact found early leaves a stretch without force, whose band the next share stands for.
    pushed = middle > 0.0
    low, high = (np.interp(SHARES, SHARES[pushed], end[pushed] / middle[pushed]) for end in ends)
    # Before the first share the band is that of the first share, past the setting that of the end.
    at = curve.travel / travel
    return curve.force * np.interp(at, SHARES, low), curve.force * np.interp(at, SHARES, high)


def bands_of(made: MadeBend, press: Press | None) -> StepBands:
    """Bands of one step."""
    return _bands(made.sample, press)


# Remembered as the bends themselves: many plans of one part have the same.
@lru_cache(maxsize=128)
def _bands(sample: BendSample, press: Press | None) -> StepBands:
    return StepBands(
        travel=band_of(sample.travel),
        loaded_angle=band_of(sample.loaded),
        free_angle=band_of(sample.free),
        staged_angle=band_of(sample.staged),
        force=band_of(sample.force[:, -1]),
        gauge=band_of(_readings(sample, press)[:, -1])
        if press is not None and press.bore is not None
        else None,
    )


def _readings(sample: BendSample, press: Press) -> Floats:
    """Gauge reading of every draw at every share, shape (n, m) [MPa]."""
    bore = press.bore or 0.0
    factor = (pressure_for(1.0, bore, press.efficiency, 0.0)) * (1.0 + sample.reading)
    step = 0.0 if press.gauge_step is None else 0.5 * press.gauge_step
    # Half a division of the gauge widens the band at both ends; it is not random but it is small.
    spread = np.where(sample.reading >= 0.0, step, -step)
    readings: Floats = (
        sample.force * factor[:, None] + press.no_load + (sample.zero + spread)[:, None]
    )
    # However coarse the gauge, a ram that pushes cannot show less than one that pushes nothing.
    return np.maximum(readings, press.no_load)


@lru_cache(maxsize=128)
def _reading_ends(sample: BendSample, press: Press) -> tuple[float, float, float]:
    """Ends of the band at the setting, and its upper end over the whole stroke [MPa]."""
    readings = _readings(sample, press)
    low, high = np.nanquantile(readings[:, -1], [0.05, 0.95])
    return float(low), float(high), float(np.max(np.nanquantile(readings, 0.95, axis=0)))


@frozen(kw_only=True)
class Pressures:
    """Gauge figures of a step before the limits are put on [MPa].

    Attributes
    ----------
    most
        What tooling and press are held to: the peak, of a stack where its bars rub.
    upper
        Upper end of the band over the whole stroke.
    """

    value: float
    peak: float
    most: float
    low: float
    high: float
    upper: float


def pressures(made: MadeBend, press: Press) -> Pressures:
    """Return what the gauge reads through this press, which has a bore."""
    bore = press.bore or 0.0

    scale = 0.0 if made.learned is None else made.learned.mean[SCALE]
    zero = 0.0 if made.learned is None else made.learned.mean[ZERO]

    def reading(force: float) -> float:
        own = pressure_for(force, bore, press.efficiency) * (1.0 + scale) + press.no_load + zero
        return max(own, press.no_load)

    low, high, upper = _reading_ends(made.sample, press)
    value = reading(made.state.force)
    most = reading(made.peak_to_carry)
    return Pressures(
        value=value,
        peak=reading(made.peak),
        most=most,
        low=min(low, value),
        high=max(high, value),
        upper=max(upper, most),
    )


def gauge_of(found: Pressures, ease_off: float) -> Gauge:
    """Return the gauge figures of a step with its ease-off pressure [MPa]."""
    return Gauge(
        value=found.value, peak=found.peak, low=found.low, high=found.high, ease_off=ease_off
    )


def staged_push(made: MadeBend, wanted: float) -> StagedPush | None:
    """Step card: first push, what the protractor may show, and how much further for each.

    ``None`` where the first push leaves no bend to read.
    """
    curve = made.curve
    first = FIRST_PUSH * made.state.travel
    loaded = float(np.interp(first, curve.travel, curve.loaded_angle))
    free = float(np.interp(first, curve.travel, curve.free_angle))
    if free < math.radians(3.0):
        return None
    centre = round(math.degrees(free))
    readings = [math.radians(centre + k) for k in range(-4, 5)]
    readings = [r for r in readings if math.radians(1.0) <= r < wanted]
    rising = int(np.argmax(curve.free_angle > 0.0))
    travels = np.interp([*readings, wanted], curve.free_angle[rising:], curve.travel[rising:])
    return StagedPush(
        first_travel=first,
        first_loaded=loaded,
        first_free=free,
        readings=tuple(readings),
        extra=tuple(float(travels[-1] - t) for t in travels[:-1]),
    )
