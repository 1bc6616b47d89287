"""How many stroke cases carry each constant of the solver, and how far it strays left out.

Printed below the tables of ``validation/leave_one_out.py``.  A case carries a constant where moving
that by a tenth moves a twelfth of its force rows by a tenth of a per cent in the mean, of its angle
rows by 0.015 deg, or its springback by 0.005 deg: a tenth of what the references are trusted to.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from attrs import evolve

from case_files import Floats
from strapwright.bending.solver_model import FITTED, Effects

MOVED = 0.1  # of the constant
FELT = 0.1  # of what the references are trusted to


def carriers(
    names: Sequence[str],
    cases: Sequence[str],
    misses: Callable[[int, Effects], Floats],
) -> Mapping[str, tuple[str, ...]]:
    """Return the cases that carry each constant.

    Parameters
    ----------
    names
        Of the constants.
    cases
        Names of the cases.
    misses
        Errors of the case of a number under some effects, each over what it is trusted to.
    """
    still = [misses(i, FITTED) for i in range(len(cases))]
    found = {}
    for name in names:
        moved = evolve(FITTED, **{name: (1.0 + MOVED) * float(getattr(FITTED, name))})
        felt = [np.abs(misses(i, moved) - still[i]).max() > FELT for i in range(len(cases))]
        found[name] = tuple(case for case, one in zip(cases, felt, strict=True) if one)
    return found


def show_constants(
    carried: Mapping[str, Sequence[str]],
    best: Mapping[str, float],
    left_out: Sequence[Mapping[str, float]],
) -> None:
    """Print each constant with the cases that carry it and its range with one case left out."""
    print("\nConstants, and the cases that carry them")
    print("constant         shipped  re-tuned  left out, from    to  cases")
    for name, cases in carried.items():
        out = [one[name] for one in left_out if name in one]
        print(
            f"{name:<15} {getattr(FITTED, name):8.3f} {best[name]:9.3f} {min(out):15.3f}"
            f" {max(out):5.3f} {len(cases):6d}"
            + (f": {', '.join(cases)}" if len(cases) <= 6 else "")
        )
