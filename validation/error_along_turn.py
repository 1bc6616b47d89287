"""How the solver's own error hangs together along the turn of a bend, by the finite elements.

``validation/error_along_turn.py`` prints, for force and angle, how the errors at two rows of a case
go together by how far they lie apart in the turn, beside the law that the shop log takes.  Each
case is judged by constants that were tuned without it, its errors in what the solver states of it.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence
from functools import cache
from itertools import pairwise

import numpy as np
from attrs import evolve, frozen

import class_widths
import leave_one_out
from case_files import Floats
from strapwright.bending.bend_band import NINETY
from strapwright.bending.model_error import model_error
from strapwright.bending.solver_model import FITTED
from strapwright.learning.log_spreads import USUAL_LOG

FIGURES = ("force", "angle")
# Turns apart [deg] between which pairs of rows are put together.
APART = (0.5, 2.0, 4.0, 6.0, 9.0, 13.0, 18.0, 24.0, 32.0, 45.0, 60.0)
DRAWS, SEED = 400, 17


@frozen(kw_only=True, eq=False)
class OneCase:
    """Errors of a left-out case, in standard deviations as stated.

    Attributes
    ----------
    turns
        Of force and angle: where along the turn under load each row lies [deg], shape (n,).
    errors
        Of force and angle, shape (n,) [-].
    springback
        At the end [-].
    """

    name: str
    turns: tuple[Floats, Floats]
    errors: tuple[Floats, Floats]
    springback: float


@cache
def left_out_errors() -> tuple[OneCase, ...]:
    """Return every case of ours, each by constants that were tuned without it."""
    _, without = class_widths.kept_constants()
    found = []
    for case in leave_one_out.read_cases(leave_one_out.OWN_CASES):
        force, angle, back = leave_one_out.errors(case, evolve(FITTED, **without[case.name]))
        truth = case.truth
        band = model_error(case.setup, math.radians(float(truth.angle.max())))
        at_force = np.interp(truth.force_travel, truth.angle_travel, truth.angle)
        found.append(
            OneCase(
                name=case.name,
                turns=(at_force, np.asarray(truth.angle, dtype=np.float64)),
                errors=(
                    NINETY * force / band.force,
                    NINETY * angle / math.degrees(band.angle),
                ),
                springback=NINETY * back / math.degrees(band.springback),
            )
        )
    return tuple(found)


def products(case: OneCase, figure: int, low: float, high: float) -> tuple[float, float] | None:
    """Mean product of the errors of two rows so far apart [deg], and their mean square."""
    turn, error = case.turns[figure], case.errors[figure]
    apart = np.abs(turn[:, None] - turn[None, :])
    used = (apart >= low) & (apart < high)
    if not used.any():
        return None
    square = 0.5 * (error[:, None] ** 2 + error[None, :] ** 2)
    return float(np.mean(np.outer(error, error)[used])), float(np.mean(square[used]))


def together(cases: Sequence[OneCase], figure: int, low: float, high: float) -> tuple[float, float]:
    """How errors so far apart [deg] go together, a case weighing as much as any other.

    Returns
    -------
    float, float
        The correlation about zero, and its standard error by drawing the cases anew [-].
    """
    pairs = [products(case, figure, low, high) for case in cases]
    known = np.array([pair for pair in pairs if pair is not None])
    rng = np.random.default_rng(SEED)
    drawn = known[rng.integers(0, len(known), (DRAWS, len(known)))].sum(axis=1)
    whole = known.sum(axis=0)
    return float(whole[0] / whole[1]), float(np.std(drawn[:, 0] / drawn[:, 1]))


def main() -> int:
    """Print the table and return the exit code."""
    cases = left_out_errors()
    laws = (USUAL_LOG.force_error, USUAL_LOG.angle_error)
    print(f"{len(cases)} finite-element cases, each by constants that were tuned without it")
    for figure, (name, law) in enumerate(zip(FIGURES, laws, strict=True)):
        print(f"\n{name:<8} turns apart   together   by the law")
        for low, high in pairwise(APART):
            found, spread = together(cases, figure, low, high)
            middle = law.together(math.radians(0.5 * (low + high)))
            print(f"{low:>12.1f} - {high:4.1f}   {found:5.2f} +- {spread:4.2f}   {middle:5.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
