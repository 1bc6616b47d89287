"""Ends of a band from few draws: a smooth surface through them, drawn many times.

The ends of 128 draws are off by up to a tenth of the band, of 512 by up to a twenty-fifth, and
always to the same side, since the draws are fixed.  What a push shows is smooth in what moves it,
so a surface of second order goes through few draws, and costs next to nothing to draw thousands of
times (textbook: response surface).
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from strapwright.bending.bend_band import standard_normals
from strapwright.bending.bend_values import Band, Floats
from strapwright.bending.learned_spread import FIGURES

DRAWS = 256  # that the solver is asked for; twice as many as the surface has figures and more
_MANY = 8192  # of the surface: its ends are off by a hundredth of half the band; numerical
_NINE_TENTHS = (0.05, 0.95)


def draws() -> Floats:
    """Return the draws whose values ``band_ends`` takes, shape (``DRAWS``, figures)."""
    return standard_normals(DRAWS, FIGURES)


def band_ends(values: Floats) -> Band:
    """Return what holds the middle nine tenths.

    Of draws of which some jammed (NaN) or show nothing (0), which no smooth surface meets, the
    ends are quantiles of those that did not jam, by which a sample is wrong to neither side
    (Hyndman and Fan 1996, type 8; from memory): the k-th of n stands for (k - 1/3) / (n + 1/3).

    Parameters
    ----------
    values
        One for each of ``draws``, none below 0, shape (``DRAWS``,) [rad] or [MPa].
    """
    if np.all(values > 0.0):  # false for NaN
        values = _drawn_again(values)
    low, high = np.nanquantile(values, _NINE_TENTHS, method="median_unbiased")
    return Band(low=max(float(low), 0.0), high=float(high))


def _drawn_again(values: Floats) -> Floats:
    """Many draws of the surface through few, with what it leaves of each."""
    few, through = _fit()
    surface = through @ values
    left = values - few @ surface
    # A fit takes part of the scatter with it: as many shares of it as it has figures.
    left *= np.sqrt(len(values) / (len(values) - few.shape[1]))
    z = standard_normals(_MANY, FIGURES)
    straight, products = surface[1 : 1 + FIGURES], np.zeros((FIGURES, FIGURES))
    products[np.triu_indices(FIGURES)] = surface[1 + FIGURES :]
    again: Floats = surface[0] + np.sum(z * (straight + z @ products.T), axis=1)
    return again + np.resize(left, _MANY)


@lru_cache(maxsize=1)
def _fit() -> tuple[Floats, Floats]:
    """Constant, each figure and all products of two at the draws, and their least squares.

    Shapes (draws, 105) and (105, draws).
    """
    z = draws()
    first, second = np.triu_indices(FIGURES)
    few = np.hstack([np.ones((len(z), 1)), z, z[:, first] * z[:, second]])
    return few, np.asarray(np.linalg.pinv(few), dtype=np.float64)
