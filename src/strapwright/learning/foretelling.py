"""What a push will show, between which values, by what is known of it now."""

from __future__ import annotations

import numpy as np
from attrs import frozen

from strapwright.bending.bend_band import standard_normals
from strapwright.bending.bend_values import Band, Floats
from strapwright.bending.kernel_sample import (
    DRAW_COLUMNS,
    FORCE_OUT,
    FREE_OUT,
    LOADED_OUT,
    STRENGTH,
    THICKNESS,
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
from strapwright.bending.solver_model import FITTED, Effects, kernel_inputs, rule_for
from strapwright.learning.log_readings import Push

DRAWS = 128  # numerical: the ends of a band move by a twentieth of it with fewer
_FACTORS = (STRENGTH, THICKNESS, UNLOADING)


@frozen(kw_only=True)
class Figure:
    """One figure that is foretold [rad] or [MPa].

    Attributes
    ----------
    value
        The likeliest.
    band
        Holds the true one nine times in ten.
    """

    value: float
    band: Band


@frozen(kw_only=True)
class Foretold:
    """What a push will show.

    Attributes
    ----------
    free, loaded
        Angle after release and under load.
    gauge
        Pressure at the end; ``None`` where the press has no bore.
    """

    free: Figure
    loaded: Figure
    gauge: Figure | None


def foretell(
    push: Push, known: LearnedSpread, travel: float, effects: Effects = FITTED
) -> Foretold | None:
    """Foretell a push to a travel; ``None`` where the tooling jams before.

    Parameters
    ----------
    push
        As the shop states it.
    known
        What was learned of it.
    travel
        From first contact as found [mm].
    effects
        Effects beyond the thin bar that the solver takes.
    """
    setup = known.middle(push.setup)
    figures = known.drawn(standard_normals(DRAWS, FIGURES))
    # The first draw is the middle itself.
    figures = np.vstack([np.where(np.arange(FIGURES) < TOUCH, 0.0, known.mean), figures])
    bars = figures[:, :DRAW_COLUMNS].copy()
    bars[:, _FACTORS] = np.exp(bars[:, _FACTORS])
    pushed, _ = push_draws(
        kernel_inputs(setup),
        effects.switches,
        rule_for(setup.flow, effects),
        draws=bars,
        travels=np.maximum(travel + figures[:, [TOUCH]], 0.0),
        angle=0.0,
        guess=0.3,
    )
    at = pushed[:, 0]
    if not np.isfinite(at[0, FREE_OUT]):
        return None
    loaded = at[:, LOADED_OUT] + figures[:, ANGLE]
    force = at[:, FORCE_OUT] * (1.0 + figures[:, FORCE])
    gauge = None
    if push.per_force is not None:
        shown = push.per_force * force * (1.0 + figures[:, SCALE])
        gauge = figure_of(shown + push.no_load + figures[:, ZERO])
    return Foretold(
        free=figure_of(at[:, FREE_OUT] + figures[:, ANGLE] - figures[:, BACK]),
        loaded=figure_of(loaded),
        gauge=gauge,
    )


def figure_of(values: Floats) -> Figure:
    """Return the likeliest value and the middle nine tenths of draws.

    The ends are quantiles by which a small sample is wrong to neither side (Hyndman and Fan 1996,
    type 8; from memory): the k-th of n values stands for (k - 1/3) / (n + 1/3).  Those that divide
    the sample itself lie inward: of 128 normal draws they hold 88.9 of a hundred, these 89.9.

    Parameters
    ----------
    values
        The likeliest, then the draws, all in one unit [rad] or [MPa]; none is taken below 0, and
        draws that jammed (NaN) are left out of the quantiles.
    """
    held = np.maximum(values, 0.0)
    low, high = np.nanquantile(held[1:], [0.05, 0.95], method="median_unbiased")
    return Figure(value=float(held[0]), band=Band(low=float(low), high=float(high)))
