"""Moment of a section whose metal has an upper yield, levelled where it would fall.

With an upper yield the moment of a section can fall as it is bent on.  No bar follows that: the
yielded part spreads along it instead, at the moment that does the same work (the rule of equal
areas, textbook stability).  What the bar does before the yielded part has spread is not known from
any of the reference cases; the band says so.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from strapwright.compiled import jit

Floats = NDArray[np.float64]

_HALVINGS = 40  # numerical


@jit
def level(moment: Floats, rise: Floats, start: float, step: float, least: float) -> None:
    """Level a moment that falls, in place, and leave it rising by ``least`` of itself.

    Parameters
    ----------
    moment, rise
        At nodes uniform in ln(curvature), and its rise per unit of that, shape (nodes,).
    start, step
        First node and distance in ln(curvature) [-].
    least
        Share of the moment by which it still rises per unit of ln(curvature) [-].
    """
    n = moment.shape[0]
    top = 0
    while top < n - 1 and moment[top + 1] >= moment[top]:
        top += 1
    if top == n - 1:
        return
    low = top
    for i in range(top, n):
        if moment[i] < moment[low]:
            low = i
    under, over = float(moment[low]), float(moment[top])
    first = top
    last = n - 1
    middle = over
    for _ in range(_HALVINGS):
        middle = 0.5 * (under + over)
        first = top
        while first > 0 and moment[first - 1] >= middle:
            first -= 1
        last = low
        while last < n - 1 and moment[last + 1] <= middle:
            last += 1
        area = 0.0
        for i in range(first, last):
            width = math.exp(start + (i + 1) * step) - math.exp(start + i * step)
            area += (0.5 * (moment[i] + moment[i + 1]) - middle) * width
        if area > 0.0:
            under = middle
        else:
            over = middle
    for i in range(first, last + 1):
        moment[i] = middle * math.exp(least * (i - first) * step)
        rise[i] = least * moment[i]
    for i in range(last + 1, n):
        moment[i] = max(moment[i], moment[i - 1] * math.exp(least * step))
        rise[i] = max(rise[i], least * moment[i])
