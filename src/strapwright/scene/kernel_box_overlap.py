"""Area that boxes share, compiled: placing words asks for it some thousand times a drawing."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from strapwright.compiled import jit

Floats = NDArray[np.float64]


@jit
def clash(
    first: tuple[float, float, float, float], way: tuple[float, float], count: int, taken: Floats
) -> float:
    """Area that a row of equal boxes shares with what is there.

    Parameters
    ----------
    first
        Left, bottom, width and height of the first box [mm].
    way
        From the first box to the last, along and up [mm].
    count
        Of boxes, evenly spaced.
    taken
        Rows left, bottom, right, top, shape (m, 4) [mm].

    Returns
    -------
    float
        Summed over every pair [mm2].
    """
    left, bottom, wide, high = first
    shared = 0.0
    for i in range(taken.shape[0]):
        for k in range(count):
            share = k / (count - 1) if count > 1 else 0.0
            x, y = left + share * way[0], bottom + share * way[1]
            met_wide = min(taken[i, 2], x + wide) - max(taken[i, 0], x)
            if met_wide > 0.0:
                met_high = min(taken[i, 3], y + high) - max(taken[i, 1], y)
                if met_high > 0.0:
                    shared += met_wide * met_high
    return shared
