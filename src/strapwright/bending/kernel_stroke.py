"""One position of the ram: the bar as an elastica over two round shoulders under a round nose.

The leg slope alpha (half the loaded bend angle) is the independent variable.  Along the leg the
shoulder force P is constant, so U(M) = U(M_c) + P [sin(delta - theta) + sin phi] is an exact first
integral and the leg's extent follows from quadratures in the moment, elastic part, and in the
logarithm of the curvature, plastic part.  One scalar z is unknown for each alpha: the curvature at
the nose before the bar has wrapped, the wrapped length after.

Axes and signs as in :mod:`strapwright.bending.kernel_frame`.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from strapwright.bending.kernel_frame import (
    NO_ROOT,
    Frame,
    Leg,
    Point,
    friction_angle,
    held,
    nose_curvature,
    nose_zone,
)
from strapwright.bending.kernel_section import (
    ENERGY,
    MOMENT,
    SOFTER,
    Section,
    Table,
    cell_value,
    moment_energy_at,
    section_of,
    softness_at,
)
from strapwright.bending.kernel_springback import release
from strapwright.compiled import jit

Floats = NDArray[np.float64]


# A leg whose push lies across it is no answer; numerical, short of a division by nothing.
_LEAST_V2 = 1e-12


class Rule(NamedTuple):
    """Gauss nodes and weights on 0..1, the first ``elastic`` for the elastic part of a leg.

    One array, shape (2, n): every array that is handed on costs as much as some nodes.
    """

    nodes: Floats
    elastic: int


class Lean(NamedTuple):
    """What the slope of a leg alone decides.

    ``still`` is the share in which the bar clings to the tip of the nose [-]; ``contact`` how far
    out the mid-line meets the shoulder [mm]; delta the direction of the push, phi of its friction.
    """

    alpha: float
    still: float
    contact: float
    sin_delta: float
    cos_delta: float
    sin_phi: float


@jit
def lean_of(frame: Frame, alpha: float) -> Lean:
    """Work out what the slope of a leg alone decides."""
    phi = friction_angle(frame, alpha)
    out = (frame.shoulder + 0.5 * frame.thickness) * math.sin(alpha)
    return Lean(
        alpha=alpha,
        still=held(frame, alpha),
        contact=0.5 * frame.opening - out,
        sin_delta=math.sin(alpha - phi),
        cos_delta=math.cos(alpha - phi),
        sin_phi=math.sin(phi),
    )


@jit
def try_leg(frame: Frame, table: Table, rule: Rule, alpha: float, z: float, kappa_n: float) -> Leg:
    """Integrate the leg for one trial of the unknown z at the slope alpha."""
    return _leg(frame, section_of(table), rule, z, kappa_n, at=lean_of(frame, alpha))


@jit
def _leg(
    frame: Frame,
    table: Section,
    rule: Rule,
    z: float,
    kappa_n: float,
    at: Lean,
) -> Leg:
    """Do the same with what the slope alone decides worked out once."""
    sin_phi = at.sin_phi
    kappa0, wrap = nose_zone(frame, at.still, z, kappa_n)
    beta = kappa0 * wrap
    bad = Leg(
        valid=0,
        miss=-1.0,
        push=0.0,
        curvature=kappa0,
        wrap=wrap,
        beta=beta,
        rise=0.0,
        elastic_sum=0.0,
        plastic_sum=0.0,
        softer_sum=0.0,
        moment_nose=0.0,
        overdriven=0,
    )
    if beta >= at.alpha:
        return bad
    sin_beta = math.sin(beta)
    sigma = at.sin_delta * math.cos(beta) - at.cos_delta * sin_beta + sin_phi
    if sigma <= 1e-12:
        return bad
    log_kappa = math.log(kappa0)
    m0, u0 = moment_energy_at(table, kappa0, log_kappa)
    # Friction acts on the lower face; it leaves the mid-line a moment at the contact.
    arm = 0.5 * frame.thickness * sin_phi
    a_f = arm * arm / (2.0 * table.stiffness)
    push = 2.0 * u0 / (sigma + math.sqrt(sigma * sigma + 4.0 * a_f * u0))
    if push <= 0.0:
        return bad
    m_c = push * arm
    u_c = m_c * m_c / (2.0 * table.stiffness)
    m_y = table.cells[0, MOMENT]
    if m_c >= m0:
        return bad
    # Along the leg dx = (cos delta + sin delta q/v) dM/P and dy = (sin delta - cos delta q/v) dM/P:
    # what is summed is dM, dM q/v and dM M/v.
    per_push = 1.0 / push
    per_stiffness = 0.5 / table.stiffness
    fallen = 0.0
    leaned = 0.0
    i_elastic = 0.0
    i_plastic = 0.0
    i_softer = 0.0
    least = 1.0
    top = min(m_y, m0)
    nodes = rule.nodes
    if m_c < top:
        span = top - m_c
        fallen = span
        for k in range(rule.elastic):
            m = m_c + nodes[0, k] * span
            q = (m * m * per_stiffness - u_c) * per_push - sin_phi
            v2 = 1.0 - q * q
            least = min(least, v2)
            part = nodes[1, k] / math.sqrt(max(v2, _LEAST_V2))
            leaned += part * q
            i_elastic += part * m
        leaned *= span
        i_elastic *= span
    if m0 > m_y:
        reach = (log_kappa - table.start) / table.step
        cells = table.cells
        last = cells.shape[0] - 1
        # The moment bends where the outer fibre leaves a plateau; no rule is carried across.
        pieces = 2 if 0.0 < table.kink < reach else 1
        for piece in range(pieces):
            left = table.kink if piece == 1 else 0.0
            span = (table.kink if piece < pieces - 1 else reach) - left
            for k in range(rule.elastic, nodes.shape[1]):
                along = left + nodes[0, k] * span
                i = min(int(along), last)
                s = along - i
                q = (cell_value(cells, i, ENERGY, s) - u_c) * per_push - sin_phi
                v2 = 1.0 - q * q
                least = min(least, v2)
                rise = cells[i, MOMENT + 1] + s * (
                    2.0 * cells[i, MOMENT + 2] + 3.0 * s * cells[i, MOMENT + 3]
                )
                dm = nodes[1, k] * span * rise
                part = dm / math.sqrt(max(v2, _LEAST_V2))
                fallen += dm
                leaned += part * q
                part *= cell_value(cells, i, MOMENT, s)
                i_plastic += part
                i_softer += part * (cells[i, SOFTER] + s * cells[i, SOFTER + 1] - 1.0)
    if least <= _LEAST_V2:
        return bad
    sin_d, cos_d = at.sin_delta * per_push, at.cos_delta * per_push
    x = cos_d * fallen + sin_d * leaned
    y = sin_d * fallen - cos_d * leaned
    miss = at.contact - x - sin_beta / kappa0
    return Leg(
        valid=1,
        miss=miss,
        push=push,
        curvature=kappa0,
        wrap=wrap,
        beta=beta,
        rise=y,
        elastic_sum=i_elastic * per_push,
        plastic_sum=i_plastic * per_push,
        softer_sum=i_softer * per_push,
        moment_nose=m0,
        overdriven=int(m_c > m_y),
    )


@jit
def solve_slope(
    frame: Frame, table: Table, rule: Rule, alpha: float, guess: float, spread: float
) -> Point:
    """Solve one leg slope.

    Parameters
    ----------
    alpha
        Leg slope, half the loaded angle [rad].
    guess
        Start for z; not positive: the elastic estimate 3 alpha/(W/2).
    spread
        First relative step of the bracket [-].
    """
    return solve_section(frame, section_of(table), rule, alpha, guess, spread=spread, growth=0.0)


@jit
def solve_section(
    frame: Frame,
    section: Section,
    rule: Rule,
    alpha: float,
    guess: float,
    spread: float,
    growth: float,
) -> Point:
    """Solve one leg slope with what it takes of the section's table, see :func:`solve_slope`.

    ``growth`` is how fast the miss is expected to grow with z, as positions beside it showed; 0
    where nothing is known [mm^2].
    """
    kappa_n = nose_curvature(frame)
    at = lean_of(frame, alpha)
    tolerance = 1e-7 * frame.opening
    nothing = Point(
        status=NO_ROOT,
        travel=0.0,
        force=0.0,
        free=0.0,
        curvature=0.0,
        wrap=0.0,
        root=guess,
        steps=0,
        miss=0.0,
        growth=0.0,
    )
    z = guess if guess > 0.0 else 3.0 * alpha / (0.5 * frame.opening)
    # The miss falls from -inf (leg too long) through 0 as z grows: more curvature at the nose,
    # more force, a shorter leg.  A trial that cannot be integrated counts as z too large.
    steps = 1
    leg = _leg(frame, section, rule, z, kappa_n, at)
    if leg.valid and abs(leg.miss) <= tolerance:
        return _closed(frame, section, alpha, leg, z=z, steps=steps, growth=growth)
    # Newton by what was seen beside it, then secants; what does not halve the miss is bracketed.
    while growth > 0.0 and leg.valid:
        nearer = z - leg.miss / growth
        if not 0.5 * z < nearer < 2.0 * z:
            break
        trial = _leg(frame, section, rule, nearer, kappa_n, at)
        steps += 1
        if not trial.valid:
            break
        growth = (trial.miss - leg.miss) / (nearer - z)
        if abs(trial.miss) <= tolerance:
            return _closed(frame, section, alpha, trial, z=nearer, steps=steps, growth=growth)
        if abs(trial.miss) > 0.5 * abs(leg.miss):
            break
        z = nearer
        leg = trial
    low = z
    high = z
    f_low = 0.0
    f_high = 0.0
    leg_high = leg
    step = spread * z
    if leg.valid and leg.miss < 0.0:
        f_low = leg.miss
        found = False
        for _ in range(60):
            high = low + step
            step *= 2.5
            leg_high = _leg(frame, section, rule, high, kappa_n, at)
            steps += 1
            if not leg_high.valid or leg_high.miss >= 0.0:
                found = True
                break
            low = high
            f_low = leg_high.miss
        if not found:
            return nothing
    else:
        found = False
        for _ in range(60):
            high = low
            leg_high = leg
            low = max(high - step, 0.2 * high)
            step *= 2.5
            leg = _leg(frame, section, rule, low, kappa_n, at)
            steps += 1
            if leg.valid and leg.miss < 0.0:
                f_low = leg.miss
                found = True
                break
        if not found:
            return nothing
    # Pull the upper end in until it can be integrated.
    halvings = 0
    while not leg_high.valid:
        middle = 0.5 * (low + high)
        leg = _leg(frame, section, rule, middle, kappa_n, at)
        steps += 1
        halvings += 1
        if leg.valid and leg.miss < 0.0:
            low = middle
            f_low = leg.miss
        else:
            high = middle
            leg_high = leg
        if halvings > 60:
            return nothing
    f_high = leg_high.miss
    beside, beside_miss = high, f_high
    # Illinois: regula falsi that halves the weight of an end that stays.
    side = 0
    for _ in range(80):
        if f_high - f_low <= 0.0:
            break
        z = (low * f_high - high * f_low) / (f_high - f_low)
        if not (low < z < high):
            z = 0.5 * (low + high)
        leg = _leg(frame, section, rule, z, kappa_n, at)
        steps += 1
        if leg.valid:
            growth = (leg.miss - beside_miss) / (z - beside)
            beside, beside_miss = z, leg.miss
        if leg.valid and abs(leg.miss) <= tolerance:
            return _closed(frame, section, alpha, leg, z=z, steps=steps, growth=growth)
        if leg.valid and leg.miss < 0.0:
            low = z
            f_low = leg.miss
            if side == -1:
                f_high *= 0.5
            side = -1
        else:
            high = z
            f_high = leg.miss if leg.valid else f_high
            if side == 1:
                f_low *= 0.5
            side = 1
    return nothing


@jit
def _closed(
    frame: Frame, section: Section, alpha: float, leg: Leg, z: float, steps: int, growth: float
) -> Point:
    softer = softness_at(section, leg.curvature)
    return release(
        frame, section.stiffness, softer, alpha=alpha, leg=leg, z=z, steps=steps, growth=growth
    )
