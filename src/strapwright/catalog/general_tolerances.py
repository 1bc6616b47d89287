"""ISO 2768-1: what a size without limits of its own may be out by."""

from __future__ import annotations

# ISO 2768-1:1989, table 1, class m: sizes up to [mm], deviation to either side [mm] (from
# memory).
CLASS = "ISO 2768-m"
STEPS = ((6.0, 0.1), (30.0, 0.2), (120.0, 0.3), (400.0, 0.5), (1000.0, 0.8), (2000.0, 1.2))


def general_tolerance(size: float) -> float:
    """Return what a size without limits may be out by, to either side [mm].

    Parameters
    ----------
    size
        [mm]; one above 2 m is held as one of 2 m.
    """
    return next((out for most, out in STEPS if size <= most), STEPS[-1][1])
