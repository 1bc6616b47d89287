"""Write the points that `strapwright.catalog.sobol_points` keeps, from the library's."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from scipy.stats import qmc

from strapwright.catalog import sobol_points


def library_points(dimensions: int) -> np.ndarray:
    """Points of the library as whole numbers, shape (KEPT_POINTS, dimensions)."""
    drawn = qmc.Sobol(dimensions, rng=np.random.default_rng(sobol_points.SEED))
    return (drawn.random(sobol_points.KEPT_POINTS) * sobol_points.SCALE).astype("<u4")


def main() -> None:
    """Write them one set after the other."""
    folder = Path(sobol_points.__file__).parent / "data"
    sets = [library_points(dimensions).tobytes() for dimensions in sobol_points.KEPT_DIMENSIONS]
    (folder / "sobol_points.bin").write_bytes(b"".join(sets))


if __name__ == "__main__":
    main()
