"""Words for a trial bend: how far to push an off-cut, what to read, and what it leaves open."""

from __future__ import annotations

import math

from strapwright.bending.bend_band import NINETY
from strapwright.learning.trial_bend import Trial
from strapwright.wording.caution_words import NEVER_ABOVE
from strapwright.wording.figures import Figures

# A trial that leaves no more than this less open is not worth its bar [deg] (a choice of ours).
_LITTLE = 0.1


def read_words(trial: Trial) -> str:
    """Say what is read of a trial."""
    return "the angle after release and the pressure gauge" if trial.gauge else "the angle"


def trial_words(trial: Trial, off_cut: float, show: Figures) -> str:
    """Say which trial tells most of the bends to come.

    Parameters
    ----------
    trial
        The best one.
    off_cut
        Length of bar that it needs at least [mm].
    """
    before, after = (math.degrees(NINETY * one) for one in (trial.before, trial.after))
    if before - after < _LITTLE:
        return (
            f"No trial is needed: by what is known the first good part comes within {before:.1f}° "
            f"already, and a trial makes that little better. {NEVER_ABOVE}"
        )
    return (
        f"Push an off-cut of at least {show.setting(off_cut)} by {show.setting(trial.travel)} from "
        f"first contact. Read {read_words(trial)}. The first good part then comes within "
        f"{after:.1f}°; without a trial, within {before:.1f}°. {NEVER_ABOVE}"
    )
