"""Area that boxes share, compiled: placing words asks for it some thousand times a drawing."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from strapwright.compiled import jit

Floats = NDArray[np.float64]


@jit
def clash(new: Floats, taken: Floats) -> float:
    """Area that new boxes share with what is there.

    Parameters
    ----------
    new, taken
        Rows left, bottom, right, top, shape (n, 4) and (m, 4) [mm].

    Returns
    -------
    float
        Summed over every pair [mm2].
    """
    shared = 0.0
    for i in range(taken.shape[0]):
        left, bottom, right, top = taken[i, 0], taken[i, 1], taken[i, 2], taken[i, 3]
        for k in range(new.shape[0]):
            wide = min(right, new[k, 2]) - max(left, new[k, 0])
            if wide > 0.0:
                high = min(top, new[k, 3]) - max(bottom, new[k, 1])
                if high > 0.0:
                    shared += wide * high
    return shared
