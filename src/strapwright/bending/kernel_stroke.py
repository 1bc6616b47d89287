"""One position of the ram: the bar as an elastica over two round shoulders under a round nose.

The leg slope alpha (half the loaded bend angle) is the independent variable.  Along the leg the
shoulder force P is constant, so U(M) = U(M_c) + P [sin(delta - theta) + sin phi] is an exact first
integral and the leg's extent follows from quadratures in the moment, elastic part, and in the
logarithm of the curvature, plastic part.  One scalar z is unknown for each alpha: the curvature at
the nose before the bar has wrapped, the wrapped length after.

Right half, origin on the symmetry line at the height of the shoulder tops, x right, y up; moments
are positive where they turn the legs up.  Forces per mm of width (rectangle) or whole (round).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from strapwright.bending.kernel_section import (
    Table,
    cubic_slope,
    cubic_value,
    moment_energy,
)
from strapwright.compiled import jit

Floats = NDArray[np.float64]

OK = 0
JAM = 1
NO_ROOT = 2


class Frame(NamedTuple):
    """Everything of a bend but its section law.

    ``thickness``, ``opening``, ``nose``, ``shoulder`` [mm]; ``friction`` [-]; ``offset`` lambda and
    ``zone`` l_c/t of the two-dimensional effects [-]; ``shear`` C_e and ``give`` of the machine
    [mm per unit force]; ``sag`` [mm/rad] up to ``sag_cap`` [rad]; ``dent`` [mm]; ``unloading``
    modulus on letting go over E, ``springback`` factor on what springs back and ``force`` factor
    on the force [-].
    """

    thickness: float
    opening: float
    nose: float
    shoulder: float
    friction: float
    offset: float
    zone: float
    shear: float
    give: float
    sag: float
    sag_cap: float
    dent: float
    unloading: float
    springback: float
    force: float


class Rule(NamedTuple):
    """Gauss nodes and weights on 0..1 for the elastic and the plastic part of a leg."""

    elastic_x: Floats
    elastic_w: Floats
    plastic_x: Floats
    plastic_w: Floats


class Point(NamedTuple):
    """A solved position.

    ``status``; ``travel`` from touch, machine give included [mm]; ``force`` of the whole nose;
    ``free`` half angle after letting go [rad]; ``curvature`` under the nose [1/mm]; ``wrap`` length
    of the zone under the nose, one side [mm]; ``root`` the unknown z; ``steps`` evaluations;
    ``miss`` of the closure [mm].
    """

    status: int
    travel: float
    force: float
    free: float
    curvature: float
    wrap: float
    root: float
    steps: int
    miss: float


class Leg(NamedTuple):
    """One trial of z: the leg between shoulder and nose."""

    valid: int
    miss: float
    push: float
    curvature: float
    wrap: float
    beta: float
    rise: float
    elastic_sum: float
    plastic_sum: float
    moment_nose: float
    overdriven: int


@jit
def nose_curvature(frame: Frame) -> float:
    """Mid-line curvature of a bar that follows the nose, with the contact offset [1/mm]."""
    a = frame.nose + 0.5 * frame.thickness
    b = frame.offset * frame.thickness**2
    if b <= 0.0:
        return 1.0 / a
    return (math.sqrt(a * a + 4.0 * b) - a) / (2.0 * b)


@jit
def jam_slope(frame: Frame) -> float:
    """Leg slope alpha at which nose and shoulder would grip the bar between them [rad]."""
    reach = frame.shoulder + frame.nose + frame.thickness
    reach += frame.offset * frame.thickness**2 * nose_curvature(frame)
    share = 0.5 * frame.opening / reach
    if share >= 1.0:
        return 0.5 * math.pi
    return math.asin(share)


@jit
def try_leg(frame: Frame, table: Table, rule: Rule, alpha: float, z: float, kappa_n: float) -> Leg:
    """Integrate the leg for one trial of the unknown z at the slope alpha."""
    t = frame.thickness
    phi = math.atan(frame.friction)
    delta = alpha - phi
    if z <= kappa_n:
        kappa0 = z
        wrap = frame.zone * t
    else:
        kappa0 = kappa_n
        wrap = frame.zone * t + (z - kappa_n) / (kappa_n * kappa_n)
    beta = kappa0 * wrap
    bad = Leg(0, -1.0, 0.0, kappa0, wrap, beta, 0.0, 0.0, 0.0, 0.0, 0)
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
        for k in range(rule.plastic_x.shape[0]):
            at = rule.plastic_x[k] * reach
            i = min(int(at), last)
            s = at - i
            u = cubic_value(table.energy, table.energy_rise, i, s, table.step)
            q = (u - u_c) / push - sin_phi
            v2 = 1.0 - q * q
            if v2 <= 1e-12:
                return bad
            v = math.sqrt(v2)
            slope = cubic_slope(table.moment, table.rise, i, s, table.step)
            dl = rule.plastic_w[k] * reach * table.step * slope / (push * v)
            x += dl * (cos_d * v + sin_d * q)
            y += dl * (sin_d * v - cos_d * q)
            i_plastic += dl * cubic_value(table.moment, table.rise, i, s, table.step)
    contact = 0.5 * frame.opening - (frame.shoulder + 0.5 * t) * math.sin(alpha)
    miss = contact - x - math.sin(beta) / kappa0
    return Leg(1, miss, push, kappa0, wrap, beta, y, i_elastic, i_plastic, m0, int(m_c > m_y))


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
    tolerance = 1e-7 * frame.opening
    nothing = Point(NO_ROOT, 0.0, 0.0, 0.0, 0.0, 0.0, guess, 0, 0.0)
    z = guess if guess > 0.0 else 3.0 * alpha / (0.5 * frame.opening)
    # The miss falls from -inf (leg too long) through 0 as z grows: more curvature at the nose,
    # more force, a shorter leg.  A trial that cannot be integrated counts as z too large.
    steps = 1
    leg = try_leg(frame, table, rule, alpha, z, kappa_n)
    if leg.valid and abs(leg.miss) <= tolerance:
        return _finish(frame, table.stiffness, alpha, leg, z, steps)
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
            leg_high = try_leg(frame, table, rule, alpha, high, kappa_n)
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
            leg = try_leg(frame, table, rule, alpha, low, kappa_n)
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
        leg = try_leg(frame, table, rule, alpha, middle, kappa_n)
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
        leg = try_leg(frame, table, rule, alpha, z, kappa_n)
        steps += 1
        if leg.valid and abs(leg.miss) <= tolerance:
            return _finish(frame, table.stiffness, alpha, leg, z, steps)
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
def _finish(frame: Frame, stiffness: float, alpha: float, leg: Leg, z: float, steps: int) -> Point:
    """Travel, force and free angle of a closed leg; equations (6) and (7) of the formulation."""
    t = frame.thickness
    phi = math.atan(frame.friction)
    delta = alpha - phi
    force = 2.0 * leg.push * math.cos(delta)
    kappa0 = leg.curvature
    y_mid = -frame.shoulder + (frame.shoulder + 0.5 * t) * math.cos(alpha)
    y_mid -= leg.rise + (1.0 - math.cos(leg.beta)) / kappa0
    travel = 0.5 * t - y_mid - frame.offset * t * t * kappa0 + frame.shear * force
    travel -= frame.sag * min(2.0 * alpha, frame.sag_cap)
    travel += frame.dent
    status = JAM if leg.overdriven else OK
    # Moment drop in the wrapped zone: flank contact and friction on the nose.
    drop = 0.0
    past = leg.wrap - frame.zone * t
    if past > 0.0:
        grip = math.cos(leg.beta) - frame.friction * math.sin(leg.beta)
        if grip < 0.1:
            status = JAM
        else:
            n_f = leg.push * math.cos(delta) / grip
            h = -leg.push * math.sin(delta) + n_f * (
                math.sin(leg.beta) + frame.friction * math.cos(leg.beta)
            )
            drop = -frame.friction * n_f * 0.5 * t * leg.wrap - (h / kappa0) * (
                math.sin(leg.beta) / kappa0 - leg.wrap * math.cos(leg.beta)
            )
            drop *= 1.0 - math.exp(-past / (0.5 * t))
            drop = min(0.0, max(drop, -0.9 * leg.moment_nose * leg.wrap))
    # Only metal that has yielded comes back along the softer line.
    nose = leg.moment_nose * leg.wrap + drop
    back = leg.elastic_sum / stiffness
    if leg.plastic_sum > 0.0:
        back += (leg.plastic_sum + nose) / (frame.unloading * stiffness)
    else:
        back += nose / stiffness
    # A softer return holds for metal that has flowed well past yield; just past it the same factor
    # would bend the bar backwards, and letting go never does more than straighten it.
    free = max(alpha - frame.springback * back, 0.0)
    force *= frame.force
    travel += frame.give * force
    return Point(status, travel, force, free, kappa0, leg.wrap, z, steps, abs(leg.miss))
