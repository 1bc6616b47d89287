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
    Table,
    cubic_slope,
    cubic_value,
    moment_energy,
    softness,
)
from strapwright.bending.kernel_springback import release
from strapwright.compiled import jit

Floats = NDArray[np.float64]


class Rule(NamedTuple):
    """Gauss nodes and weights on 0..1 for the elastic and the plastic part of a leg."""

    elastic_x: Floats
    elastic_w: Floats
    plastic_x: Floats
    plastic_w: Floats


@jit
def try_leg(frame: Frame, table: Table, rule: Rule, alpha: float, z: float, kappa_n: float) -> Leg:
    """Integrate the leg for one trial of the unknown z at the slope alpha."""
    phi = friction_angle(frame, alpha)
    return _leg(frame, table, rule, alpha, z, kappa_n, phi=phi, still=held(frame, alpha))


@jit
def _leg(
    frame: Frame,
    table: Table,
    rule: Rule,
    alpha: float,
    z: float,
    kappa_n: float,
    phi: float,
    still: float,
) -> Leg:
    """Do the same with what the slope alone decides worked out once: friction, hold of the tip."""
    t = frame.thickness
    delta = alpha - phi
    kappa0, wrap = nose_zone(frame, still, z, kappa_n)
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
    if beta >= alpha:
        return bad
    sin_phi = math.sin(phi)
    sigma = math.sin(delta - beta) + sin_phi
    if sigma <= 1e-12:
        return bad
    m0, u0 = moment_energy(table, kappa0)
    # Friction acts on the lower face; it leaves the mid-line a moment at the contact.
    arm = 0.5 * t * sin_phi
    a_f = arm * arm / (2.0 * table.stiffness)
    push = 2.0 * u0 / (sigma + math.sqrt(sigma * sigma + 4.0 * a_f * u0))
    if push <= 0.0:
        return bad
    m_c = push * arm
    u_c = m_c * m_c / (2.0 * table.stiffness)
    m_y = table.moment[0]
    if m_c >= m0:
        return bad
    sin_d = math.sin(delta)
    cos_d = math.cos(delta)
    x = 0.0
    y = 0.0
    i_elastic = 0.0
    i_plastic = 0.0
    i_softer = 0.0
    top = min(m_y, m0)
    if m_c < top:
        span = top - m_c
        for k in range(rule.elastic_x.shape[0]):
            m = m_c + rule.elastic_x[k] * span
            q = (m * m / (2.0 * table.stiffness) - u_c) / push - sin_phi
            v2 = 1.0 - q * q
            if v2 <= 1e-12:
                return bad
            v = math.sqrt(v2)
            dl = rule.elastic_w[k] * span / (push * v)
            x += dl * (cos_d * v + sin_d * q)
            y += dl * (sin_d * v - cos_d * q)
            i_elastic += dl * m
    if m0 > m_y:
        reach = (math.log(kappa0) - table.start) / table.step
        last = table.moment.shape[0] - 2
        # The moment bends where the outer fibre leaves a plateau; no rule is carried across.
        pieces = 2 if 0.0 < table.kink < reach else 1
        for piece in range(pieces):
            left = table.kink if piece == 1 else 0.0
            span = (table.kink if piece < pieces - 1 else reach) - left
            for k in range(rule.plastic_x.shape[0]):
                at = left + rule.plastic_x[k] * span
                i = min(int(at), last)
                s = at - i
                u = cubic_value(table.energy, table.energy_rise, i, s, table.step)
                q = (u - u_c) / push - sin_phi
                v2 = 1.0 - q * q
                if v2 <= 1e-12:
                    return bad
                v = math.sqrt(v2)
                slope = cubic_slope(table.moment, table.rise, i, s, table.step)
                dl = rule.plastic_w[k] * span * table.step * slope / (push * v)
                x += dl * (cos_d * v + sin_d * q)
                y += dl * (sin_d * v - cos_d * q)
                here, after = table.compliance[i], table.compliance[i + 1]
                part = dl * cubic_value(table.moment, table.rise, i, s, table.step)
                i_plastic += part
                i_softer += part * (here + s * (after - here) - 1.0)
    contact = 0.5 * frame.opening - (frame.shoulder + 0.5 * t) * math.sin(alpha)
    miss = contact - x - math.sin(beta) / kappa0
    return Leg(
        valid=1,
        miss=miss,
        push=push,
        curvature=kappa0,
        wrap=wrap,
        beta=beta,
        rise=y,
        elastic_sum=i_elastic,
        plastic_sum=i_plastic,
        softer_sum=i_softer,
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
    kappa_n = nose_curvature(frame)
    phi, still = friction_angle(frame, alpha), held(frame, alpha)
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
    )
    z = guess if guess > 0.0 else 3.0 * alpha / (0.5 * frame.opening)
    # The miss falls from -inf (leg too long) through 0 as z grows: more curvature at the nose,
    # more force, a shorter leg.  A trial that cannot be integrated counts as z too large.
    steps = 1
    leg = _leg(frame, table, rule, alpha, z, kappa_n, phi=phi, still=still)
    if leg.valid and abs(leg.miss) <= tolerance:
        return _closed(frame, table, alpha, leg, z, steps)
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
            leg_high = _leg(frame, table, rule, alpha, high, kappa_n, phi=phi, still=still)
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
            leg = _leg(frame, table, rule, alpha, low, kappa_n, phi=phi, still=still)
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
        leg = _leg(frame, table, rule, alpha, middle, kappa_n, phi=phi, still=still)
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
    # Illinois: regula falsi that halves the weight of an end that stays.
    side = 0
    for _ in range(80):
        if f_high - f_low <= 0.0:
            break
        z = (low * f_high - high * f_low) / (f_high - f_low)
        if not (low < z < high):
            z = 0.5 * (low + high)
        leg = _leg(frame, table, rule, alpha, z, kappa_n, phi=phi, still=still)
        steps += 1
        if leg.valid and abs(leg.miss) <= tolerance:
            return _closed(frame, table, alpha, leg, z, steps)
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
def _closed(frame: Frame, table: Table, alpha: float, leg: Leg, z: float, steps: int) -> Point:
    softer = softness(table, leg.curvature)
    return release(frame, table.stiffness, softer, alpha=alpha, leg=leg, z=z, steps=steps)
