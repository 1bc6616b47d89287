"""Whole strokes and their inverses: a curve of points, the state at a travel or a free angle."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from strapwright.bending.kernel_frame import NO_ROOT, OK, Frame, Point
from strapwright.bending.kernel_section import Table, section_of
from strapwright.bending.kernel_stroke import Rule, solve_section
from strapwright.compiled import jit

Floats = NDArray[np.float64]

TRAVEL = 0
FREE = 1
# Columns of a curve.
COLUMNS = 8
# First step of the bracket over its middle; numerical, the root does not depend on it.
_FIRST_SPREAD = 0.05
# Along a curve it is twice what the extrapolation before was off by, between these; from this point
# on that is through three points.  Numerical likewise.
_LEAST_SPREAD, _NEXT_SPREAD = 1e-5, 0.02
_FROM_THREE = 5


@jit
def stroke_points(
    frame: Frame, table: Table, rule: Rule, slopes: Floats
) -> tuple[Floats, int, int, float]:
    """Solve one point for each leg slope, in order.

    Returns
    -------
    points
        Columns alpha, travel, force, free, curvature, wrap, root, miss, the first at touch; shape
        (n + 1, 8).
    solved
        How many points from the start are answers.
    steps
        Evaluations in all.
    worst
        Largest miss of the closure [mm].
    """
    n = slopes.shape[0]
    out = np.zeros((n + 1, COLUMNS))
    section = section_of(table)
    steps = 0
    worst = 0.0
    a1 = a2 = a3 = z1 = z2 = z3 = g1 = g2 = 0.0
    off = _NEXT_SPREAD
    for i in range(n):
        alpha = slopes[i]
        guess = 0.0
        growth = 0.0
        spread = _FIRST_SPREAD
        if i >= 2:
            rise = (z1 - z2) / (a1 - a2)
            guess = z1 + rise * (alpha - a1)
            if i >= _FROM_THREE:
                bend = (rise - (z2 - z3) / (a2 - a3)) / (a1 - a3)
                guess += bend * (alpha - a1) * (alpha - a2)
            guess = max(guess, 0.5 * z1)
            growth = g1 + (g1 - g2) / (a1 - a2) * (alpha - a1)
            spread = max(min(2.0 * off, _NEXT_SPREAD), _LEAST_SPREAD)
        point = solve_section(frame, section, rule, alpha, guess, spread=spread, growth=growth)
        steps += point.steps
        if point.status == NO_ROOT and guess > 0.0:
            # Where the curve bends sharply, as at an upper yield, what went before leads astray.
            point = solve_section(
                frame, section, rule, alpha, 0.0, spread=_FIRST_SPREAD, growth=0.0
            )
            steps += point.steps
        if point.status != OK:
            return out, i, steps, worst
        out[i + 1, 0] = alpha
        out[i + 1, 1] = point.travel
        out[i + 1, 2] = point.force
        out[i + 1, 3] = point.free
        out[i + 1, 4] = point.curvature
        out[i + 1, 5] = point.wrap
        out[i + 1, 6] = point.root
        out[i + 1, 7] = point.miss
        worst = max(worst, point.miss)
        if guess > 0.0:
            off = abs(point.root / guess - 1.0)
        a3 = a2
        z3 = z2
        a2 = a1
        z2 = z1
        g2 = g1
        a1 = alpha
        z1 = point.root
        g1 = point.growth
    return out, n, steps, worst


@jit
def solve_for(
    frame: Frame,
    table: Table,
    rule: Rule,
    which: int,
    target: float,
    top: float,
    guess: float,
    root: float,
) -> tuple[float, Point, int]:
    """Find the leg slope at which travel or half free angle meets ``target``.

    Parameters
    ----------
    which
        ``TRAVEL`` [mm] or ``FREE`` [rad, half angle].
    top
        Largest slope allowed [rad].
    guess, root
        Start for the slope and its z; zero where nothing is known.

    Returns
    -------
    alpha, point, steps
        ``point.status`` is ``NO_ROOT`` where the target lies beyond ``top``.
    """
    section = section_of(table)
    scale = 1e-9 if which == FREE else 1e-7 * frame.opening
    steps = 0
    low = 0.0
    f_low = -target
    z_low = 0.0
    high = top
    f_high = 0.0
    z_high = 0.0
    have_high = False
    alpha = guess
    if not 0.0 < alpha < top:
        if which == FREE:
            alpha = min(1.05 * target + 0.02, 0.999 * top)
        else:
            alpha = min(1.6 * target / (0.5 * frame.opening), 0.6 * top)
    z = root
    point = Point(
        status=NO_ROOT,
        travel=0.0,
        force=0.0,
        free=0.0,
        curvature=0.0,
        wrap=0.0,
        root=0.0,
        steps=0,
        miss=0.0,
        growth=0.0,
    )
    side = 0
    for _ in range(60):
        point = solve_section(
            frame, section, rule, alpha, z, spread=_FIRST_SPREAD, growth=point.growth
        )
        steps += point.steps
        if point.status != OK:
            # Past the end of what can be solved: the answer, if any, lies below.
            if alpha - low < 1e-10:
                return alpha, point, steps
            high = alpha
            have_high = False
            alpha = 0.5 * (low + alpha)
            z = z_low
            continue
        value = point.travel if which == TRAVEL else point.free
        miss = value - target
        if abs(miss) <= scale:
            return alpha, point, steps
        if miss < 0.0:
            if have_high and side == -1:
                f_high *= 0.5
            side = -1
            low, f_low, z_low = alpha, miss, point.root
            if not have_high and top - alpha < 1e-9:
                break
        else:
            if side == 1:
                f_low *= 0.5
            side = 1
            high, f_high, z_high = alpha, miss, point.root
            have_high = True
        before = alpha
        if have_high:
            alpha = (low * f_high - high * f_low) / (f_high - f_low)
            if not low < alpha < high:
                alpha = 0.5 * (low + high)
        else:
            # Reach upwards by the local slope, never past what failed or the top.
            step = max(-miss, scale) / max(value / max(alpha, 1e-9), 1e-9)
            alpha = min(alpha + 1.3 * step, 0.5 * (alpha + high) if high < top else top)
        if abs(alpha - before) <= 1e-13:
            if have_high:
                return alpha, point, steps
            # Crept up to the last slope that can be solved, and the target lies past it.
            break
        if have_high and z_low > 0.0 and high > low:
            z = z_low + (z_high - z_low) * (alpha - low) / (high - low)
        else:
            z = point.root
    return (
        alpha,
        Point(
            status=NO_ROOT,
            travel=0.0,
            force=0.0,
            free=0.0,
            curvature=0.0,
            wrap=0.0,
            root=0.0,
            steps=steps,
            miss=0.0,
            growth=0.0,
        ),
        steps,
    )
