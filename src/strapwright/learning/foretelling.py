"""What a push will show, between which values, by what is known of it now."""

from __future__ import annotations

import numpy as np
from attrs import frozen

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
from strapwright.learning.band_ends import band_ends, draws
from strapwright.learning.log_readings import Push

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
    figures = known.drawn(draws())
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
        gauge = _figure(shown + push.no_load + figures[:, ZERO])
    return Foretold(
        free=_figure(at[:, FREE_OUT] + figures[:, ANGLE] - figures[:, BACK]),
        loaded=_figure(loaded),
        gauge=gauge,
    )


def _figure(values: Floats) -> Figure:
    """Return the likeliest value, which comes first, with the ends of the others; none below 0."""
    held = np.maximum(values, 0.0)
    return Figure(value=float(held[0]), band=band_ends(held[1:]))
