"""Which trial push tells most of the bends to come, before any is made."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.solver_model import FITTED
from strapwright.learning.learn import learn, reachable
from strapwright.learning.log_readings import Push, Reading
from strapwright.learning.log_spreads import USUAL_LOG, LogSpreads
from strapwright.learning.reading_model import ReadingModel

SHARES = (0.4, 0.6, 0.8, 1.0)  # of the setting at which a trial may stop (a choice of ours)


@frozen(kw_only=True)
class Trial:
    """One trial push, and what it would leave open.

    Attributes
    ----------
    travel
        [mm]
    gauge
        Whether the pressure is read beside the angle.
    before, after
        Deviation of the angle of the bend to come, before and after it [rad].
    """

    travel: float
    gauge: bool
    before: float
    after: float


def trials(
    push: Push,
    setting: float,
    known: Sequence[Reading] = (),
    log: LogSpreads = USUAL_LOG,
    *,
    gauge_step: float = 0.0,
) -> tuple[Trial, ...]:
    """Return trial pushes with what each would leave open of the bend at its setting, best first.

    The deviation of a figure to come is that of a linear model about what is known: what the
    trial's readings explain of it is taken off (textbook: conditional variance of normal
    variables).

    Parameters
    ----------
    push
        The bend to come.
    setting
        Its travel [mm].
    known
        Readings there are already; those that the solver does not reach say nothing.
    log
        How well a person reads.
    gauge_step
        Smallest division of the gauge [MPa].

    Returns
    -------
    tuple of Trial
        Empty where the solver reaches no trial, or not the bend to come.
    """
    known, _ = reachable(known, log, FITTED)
    learned = learn(known, log)
    likeliest = dict(zip(learned.latents, learned.mean, strict=True))
    to_come = Reading(entry="to come", push=push, travel=setting, free=0.0)
    found = []
    for share in SHARES:
        for gauge in (False, True):
            if gauge and push.per_force is None:
                continue
            trial = Reading(
                entry="trial",
                push=evolve(push, places=evolve(push.places, part="trial")),
                travel=share * setting,
                free=0.0,
                gauge=1.0 if gauge else None,
                gauge_step=gauge_step,
            )
            model = ReadingModel([*known, trial, to_come], log, FITTED)
            about = np.array([likeliest.get(latent, 0.0) for latent in model.latents])
            read, slopes = model.at(about)
            if not np.all(np.isfinite(read)):
                continue  # the tooling jams before
            noise = model.noise(read)
            aim, rest = slopes[-1], slopes[:-1]
            old = len(rest) - (2 if gauge else 1)
            before, after = (_left(aim, rest[:rows], noise[:rows]) for rows in (old, len(rest)))
            found.append(Trial(travel=share * setting, gauge=gauge, before=before, after=after))
    return tuple(sorted(found, key=lambda one: one.after))


def _left(aim: np.ndarray, rest: np.ndarray, noise: np.ndarray) -> float:
    whole = float(aim @ aim)
    if len(rest):
        both = rest @ aim
        whole -= float(both @ np.linalg.solve(rest @ rest.T + np.diag(noise**2), both))
    return float(np.sqrt(max(whole, 0.0)))
