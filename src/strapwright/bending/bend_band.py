"""Between which values: one fixed sample of bars, presses and hands, pushed to one setting."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from attrs import frozen
from scipy.special import ndtri

from strapwright.bending.bend_values import Band, BendSetup, Floats
from strapwright.bending.kernel_sample import (
    DRAW_COLUMNS,
    EXPONENT,
    FORCE_OUT,
    FREE_OUT,
    FRICTION,
    GIVE,
    LOADED_OUT,
    OPENING,
    STRENGTH,
    THICKNESS,
    TRAVEL_OUT,
    UNLOADING,
    push_draws,
)
from strapwright.bending.learned_spread import (
    ANGLE,
    BACK,
    FIGURES,
    FORCE,
    SCALE,
    TOUCH,
    ZERO,
    LearnedSpread,
)
from strapwright.bending.model_error import ModelError
from strapwright.bending.solver_model import FITTED, Effects, kernel_inputs, rule_for
from strapwright.catalog.sobol_points import KEPT_POINTS, sobol_points

DRAWS = KEPT_POINTS
# A nine-in-ten band of a normal variable reaches this many standard deviations to each side; exact.
NINETY = 1.6448536269514722
# The draws are those of a learned spread but its last, and then the protractor.
_PROTRACTOR = SCALE + 1
_DIMENSIONS = _PROTRACTOR + 1
_FACTORS = (STRENGTH, THICKNESS, UNLOADING)


@frozen(kw_only=True)
class Spreads:
    """How well everything is known, one standard deviation each.

    Attributes
    ----------
    strength, thickness, unloading, reading
        Relative [-]; ``reading`` is what the gauge shows against the true force.
    exponent, friction, plateau
        Absolute [-].
    opening, touch
        [mm]
    off_middle
        How far the nose may stand off the middle, half width of a nine-in-ten band [mm].
    give
        [mm/N]
    protractor
        Reading of the free angle in the step card [rad].
    learned
        What readings say of all of them but the protractor; ``None`` before any.
    """

    strength: float
    exponent: float
    thickness: float
    friction: float
    unloading: float
    opening: float
    touch: float
    give: float
    reading: float
    protractor: float
    plateau: float = 0.0
    off_middle: float = 0.0
    learned: LearnedSpread | None = None


@frozen(kw_only=True, eq=False)
class BendSample:
    """What the sample did, one row a draw; NaN where a draw jams.

    Attributes
    ----------
    travel
        Travel from touch as found that meets the wanted angle, shape (n,) [mm].
    loaded, free
        Total angles at the setting, shape (n,) [rad].
    force
        At each of the travels asked for, shape (n, m) [N].
    reading
        Relative error of the gauge, shape (n,) [-].
    staged
        Free angle after the push-let off-push on card, shape (n,) [rad].
    thickness
        Factor on the thickness, shape (n,) [-].
    zero
        What the gauge shows with no pressure on it, shape (n,) [MPa].
    """

    travel: Floats
    loaded: Floats
    free: Floats
    force: Floats
    reading: Floats
    staged: Floats
    thickness: Floats
    zero: Floats


@frozen(kw_only=True, eq=False)
class OffMiddle:
    """What a nose as far off the middle as it may stand adds to an even bend.

    Attributes
    ----------
    force
        Relative, at each of the travels asked for, shape (m,) [-].
    loaded, free
        Total angles at the setting [rad].
    first_free
        Free angle at the first push of the step card [rad].
    """

    force: Floats
    loaded: float
    free: float
    first_free: float


@lru_cache(maxsize=6)
def standard_normals(draws: int = DRAWS, dimensions: int = _DIMENSIONS) -> Floats:
    """One fixed low-discrepancy set of standard normal draws, the same for page, command, sheet.

    Scrambled Sobol points through the normal quantile; shape (draws, dimensions).
    """
    points = sobol_points(draws, dimensions)
    normals = np.asarray(ndtri(np.clip(points, 1e-6, 1.0 - 1e-6)), dtype=np.float64)
    normals.setflags(write=False)
    return normals


def sample_bend(
    setup: BendSetup,
    spreads: Spreads,
    error: ModelError,
    *,
    travel: float,
    wanted: float,
    loaded: float,
    shares: Floats,
    curve_travel: Floats,
    curve_free: Floats,
    effects: Effects = FITTED,
    off_middle: OffMiddle | None = None,
) -> BendSample:
    """Push the whole sample to one setting and, staged, to one angle.

    Parameters
    ----------
    travel
        Setting, from touch as found, which readings may have shown to be off [mm].
    wanted
        Free angle [rad].
    loaded
        Middle loaded angle at the setting, a start for the solver [rad].
    shares
        Shares of ``travel`` at which the force is asked for; the last two must be the first push
        of the step card and 1, shape (m,).
    curve_travel, curve_free
        Middle stroke curve, which the step card is made from, shape (k,) [mm], [rad].
    effects
        Effects beyond the thin bar that the solver takes.
    off_middle
        Of a nose that may stand off the middle; its effect grows with the square of how far.
    """
    z, figures = _figures(spreads, error)
    draws = np.column_stack([figures[:, :DRAW_COLUMNS], spreads.plateau * _plateau_normals()])
    # Log-normal where a factor must stay positive.
    draws[:, _FACTORS] = np.exp(draws[:, _FACTORS])
    touch, angle_error, back_error = (figures[:, i] for i in (TOUCH, ANGLE, BACK))
    force_factor = 1.0 + figures[:, FORCE]
    off = np.zeros(DRAWS) if off_middle is None else _off_normals() ** 2 / NINETY**2
    inputs, rule = kernel_inputs(setup), rule_for(setup.flow, effects)
    switches = effects.switches
    travels = np.maximum(travel * shares[None, :] + touch[:, None], 0.0)
    at, to = push_draws(
        inputs, switches, rule, draws=draws, travels=travels, angle=wanted, guess=0.5 * loaded
    )
    force = at[:, :, FORCE_OUT] * force_factor[:, None]
    read = at[:, -2, FREE_OUT]
    if off_middle is not None:
        force = force * (1.0 + off[:, None] * off_middle.force)
        read = read + off * off_middle.first_free
    loaded_more, more = (
        (0.0, 0.0) if off_middle is None else (off * off_middle.loaded, off * off_middle.free)
    )
    # The model's error is a normal variable: on a shallow bend it would bend the bar backwards.
    loaded_angle = np.maximum(at[:, -1, LOADED_OUT] + loaded_more + angle_error, 0.0)
    free = np.maximum(at[:, -1, FREE_OUT] + more + angle_error - back_error, 0.0)
    # A model error in angle moves the travel by the local slope of the middle curve.
    slope = float(np.interp(wanted + 1e-3, curve_free, curve_travel)) - float(
        np.interp(wanted - 1e-3, curve_free, curve_travel)
    )
    needed = to[:, TRAVEL_OUT] - touch - (more + angle_error - back_error) * slope / 2e-3
    needed = np.maximum(needed, 0.0)  # no ram pushes back from touch
    # The step card: read the first push, take the difference from the middle curve, push on.  Touch
    # and give are the same in both pushes, so they cancel.
    bias = angle_error - back_error
    rising = int(np.argmax(curve_free > 0.0))
    read = read + bias + spreads.protractor * z[:, _PROTRACTOR]
    extra = np.interp(wanted, curve_free[rising:], curve_travel[rising:]) - np.interp(
        read, curve_free[rising:], curve_travel[rising:]
    )
    second = travels[:, -2] + np.maximum(extra, 0.0)
    after, _ = push_draws(
        inputs, switches, rule, draws=draws, travels=second[:, None], angle=0.0, guess=0.5 * loaded
    )
    return BendSample(
        travel=needed,
        loaded=loaded_angle,
        free=free,
        force=force,
        reading=figures[:, SCALE],
        staged=np.maximum(after[:, 0, FREE_OUT] + more + bias, 0.0),
        thickness=draws[:, THICKNESS],
        zero=figures[:, ZERO],
    )


def _plateau_normals() -> Floats:
    """Draws for the plateau, apart from the others, so that a learned spread keeps its columns."""
    return standard_normals(DRAWS, _DIMENSIONS + 2)[:, -1]


def _off_normals() -> Floats:
    """Draws for where the nose stands, likewise."""
    return standard_normals(DRAWS, _DIMENSIONS + 3)[:, -1]


def _figures(spreads: Spreads, error: ModelError) -> tuple[Floats, Floats]:
    """Return the normal draws and the figures of every draw, shape (n, 13)."""
    if spreads.learned is not None:
        z = standard_normals(DRAWS, _DIMENSIONS + 1)
        return z, spreads.learned.drawn(z[:, [*range(_PROTRACTOR), _DIMENSIONS]])
    z = standard_normals()
    each = np.zeros(FIGURES)
    each[STRENGTH], each[EXPONENT], each[THICKNESS] = (
        spreads.strength,
        spreads.exponent,
        spreads.thickness,
    )
    each[FRICTION], each[UNLOADING] = spreads.friction, spreads.unloading
    each[OPENING], each[GIVE], each[TOUCH] = spreads.opening, spreads.give, spreads.touch
    each[FORCE], each[ANGLE], each[BACK] = (
        error.force / NINETY,
        error.angle / NINETY,
        error.springback / NINETY,
    )
    each[SCALE] = spreads.reading
    figures = np.zeros((z.shape[0], FIGURES))
    figures[:, :_PROTRACTOR] = each[:_PROTRACTOR] * z[:, :_PROTRACTOR]
    return z, figures


def band_of(values: Floats) -> Band:
    """Middle nine tenths of a sample; draws that jammed are left out of the quantiles."""
    low, high = np.nanquantile(values, [0.05, 0.95])
    return Band(low=float(low), high=float(high))
