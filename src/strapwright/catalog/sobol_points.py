"""Fixed points that fill a cube evenly: one set for every band, whoever asks.

The library that makes them takes half a second to load, at each start of a command.  So the few
sets that every plan needs are kept beside this module, as ``.ci/write_sobol_points.py`` writes
them; a test holds them against the library's.
"""

from __future__ import annotations

from importlib import resources

import numpy as np
from numpy.typing import NDArray

SEED = 20_240_519
KEPT_POINTS = 512
KEPT_DIMENSIONS = (13, 14, 15, 16)
SCALE = 2.0**30  # numerical: all coordinates are whole multiples of one part in so many


def sobol_points(count: int, dimensions: int) -> NDArray[np.float64]:
    """Scrambled Sobol points from 0 to 1, the same at each call, shape (count, dimensions).

    Joe and Kuo's directions, scrambled as by Owen (documentation of ``scipy.stats.qmc.Sobol``).
    """
    if count != KEPT_POINTS or dimensions not in KEPT_DIMENSIONS:
        from scipy.stats import qmc  # noqa: PLC0415  slow to load, and few have need of it

        return np.asarray(qmc.Sobol(dimensions, rng=np.random.default_rng(SEED)).random(count))
    data = resources.files("strapwright.catalog") / "data" / "sobol_points.bin"
    every = np.frombuffer(data.read_bytes(), dtype="<u4")
    first = KEPT_POINTS * sum(one for one in KEPT_DIMENSIONS if one < dimensions)
    return every[first : first + count * dimensions].reshape(count, dimensions) / SCALE
