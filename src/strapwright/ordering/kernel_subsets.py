"""Dynamic programming over the sets of made bends: cheapest way into every step."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from strapwright.compiled import jit
from strapwright.ordering.kernel_pieces import Floats, Ints

NEVER = 1 << 30  # no order leads here


@jit
def wing_index(offset: Ints, i: int, made: int, wing: int) -> int:
    """Place of a wing's answer in the tables, which lie one behind the other."""
    if wing == 0:
        return int(offset[0, i]) + (made & ((1 << i) - 1))
    return int(offset[1, i]) + (made >> (i + 1))


@jit
def _least_into(
    best: NDArray[np.int32],
    made: int,
    i: int,
    e: int,
    here: float,
    sign: Ints,
    offset: Ints,
    reach: Floats,
    move: Ints,
    stop: int,
    stop_tolerance: float,
) -> int:
    """Least cost of a possible step over all steps that can come right before it."""
    least = NEVER
    for j in range(sign.size):
        if not made & (1 << j):
            continue
        before = made ^ (1 << j)
        for d in range(2):
            cost = int(best[before, j, d])
            if cost >= least:
                continue
            cost += int(move[1 if sign[i] != sign[j] else 0, 1 if e != d else 0])
            if abs(here - reach[wing_index(offset, j, before, d)]) > stop_tolerance:
                cost += stop
            least = min(least, cost)
    return least


@jit
def costs_into(
    best: NDArray[np.int32],
    first: int,
    last: int,
    possible: Ints,
    sign: Ints,
    offset: Ints,
    flags: Ints,
    reach: Floats,
    move: Ints,
    stop: int,
    stop_tolerance: float,
) -> None:
    """Fill best[made, bend, end left], the least cost up to and including that step.

    ``best`` is ``NEVER`` throughout at first; filled are the sets from ``first`` up to and without
    ``last``, for which those below are filled already.  ``flags[place]`` are the wing tables for
    the left and the right place, ``move[flip, swap]`` the handling costs.  ``NEVER`` stays where no
    order leads to the step.
    """
    n = best.shape[1]
    for made in range(first, last):
        for i in range(n):
            if made & (1 << i) or not possible[i]:
                continue
            one = wing_index(offset, i, made, 0)
            two = wing_index(offset, i, made, 1)
            for e in range(2):
                if not (flags[e, one] and flags[1 - e, two]):
                    continue
                if made == 0:
                    best[made, i, e] = stop
                    continue
                here = reach[one] if e == 0 else reach[two]
                best[made, i, e] = _least_into(
                    best,
                    made,
                    i,
                    e=e,
                    here=here,
                    sign=sign,
                    offset=offset,
                    reach=reach,
                    move=move,
                    stop=stop,
                    stop_tolerance=stop_tolerance,
                )
