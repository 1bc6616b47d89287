"""Springback of a closed leg, with travel and force: what is read off it, and the angle let go.

Here the corrections come in that do not change the shape of the elastica.  Each is small; all were
fitted as one set on the reference cases, and all are off for the thin bar of the text books.
"""

from __future__ import annotations

import math

from strapwright.bending.kernel_frame import JAM, OK, Frame, Leg, Point, friction_angle, held
from strapwright.compiled import jit

# Less of the push on a flank than this carries upwards: locked by friction; numerical, short of a
# division by nothing.
_LEAST_GRIP = 0.1
# A straight leg under so many thicknesses is no beam; with its constant fitted on the cases.
LONG_LEG = 1.5


@jit
def release(
    frame: Frame,
    stiffness: float,
    compliance: float,
    alpha: float,
    leg: Leg,
    z: float,
    steps: int,
    growth: float,
) -> Point:
    """Travel, force and free angle of a closed leg; equations (6) and (7) of the formulation.

    Parameters
    ----------
    stiffness
        EI of the bar before it was strained.
    compliance
        How much softer the metal under the nose lets go than it was loaded, 1 and up [-].
    z, steps, growth
        Handed on as they are.
    """
    t = frame.thickness
    force = 2.0 * leg.push * math.cos(alpha - friction_angle(frame, alpha))
    kappa0 = leg.curvature
    past = max(leg.wrap - frame.zone * t, 0.0)
    wrapped = _wrapped(frame, leg)
    gripped = past > 0.0 and _grip(frame, leg) < _LEAST_GRIP
    status = JAM if leg.overdriven or gripped else OK
    drop = moment_drop(frame, alpha, leg)
    # Arm of the leg's push about the middle; near a jam it no longer means much.
    arm = max(2.0 * leg.moment_nose / force, t)
    nose = leg.moment_nose * (leg.wrap + frame.spread * t * t / arm * wrapped) + drop
    back = leg.elastic_sum + leg.plastic_sum + nose
    lasting = max(alpha - back / stiffness, 0.0)
    # Only metal that has yielded comes back along the softer line.
    if leg.plastic_sum > 0.0:
        back += leg.softer_sum + nose * (compliance - 1.0)
    # The factor of softer metal holds well past yield; just past it it would bend the bar
    # backwards, and letting go never does more than straighten it.
    free = max(alpha - back / stiffness, 0.0)

    y_mid = -frame.shoulder + (frame.shoulder + 0.5 * t) * math.cos(alpha)
    y_mid -= leg.rise + (1.0 - math.cos(leg.beta)) / kappa0
    travel = 0.5 * t - y_mid + frame.shear * force - _stand_off(frame, alpha, kappa0, past)
    travel -= frame.flank_gap * frame.friction * t * wrapped
    travel -= _saddle(frame, 2.0 * alpha)
    if frame.squeeze > 0.0:
        travel += frame.squeeze * t / arm * lasting / (lasting + frame.squeeze_slope)
        travel += frame.squeeze_narrow * t / arm * lasting / (lasting + frame.narrow_slope)
    travel += frame.short_leg * _shortness(frame, alpha) ** 2
    # Friction under the nose acts half a thickness from the mid-line, against the bend.
    force *= frame.force * (1.0 + 0.5 * frame.friction * t / arm * frame.grip * wrapped)
    # The inner face of a narrow bar spreads as it turns; a rod flattens where it is pushed.
    force *= 1.0 + frame.turned * math.sin(min(2.0 * alpha, 0.5 * math.pi))
    travel += frame.give * force
    return Point(
        status=status,
        travel=travel,
        force=force,
        free=free,
        curvature=kappa0,
        wrap=leg.wrap,
        root=z,
        steps=steps,
        miss=abs(leg.miss),
        growth=growth,
    )


@jit
def _wrapped(frame: Frame, leg: Leg) -> float:
    """How far the wrapped zone counts: in full once it is about a thickness long [-]."""
    past = max(leg.wrap - frame.zone * frame.thickness, 0.0)
    return 1.0 - math.exp(-past / (0.5 * frame.thickness))


@jit
def _grip(frame: Frame, leg: Leg) -> float:
    """Share of the push on a flank that carries upwards; near 0 friction locks the bar [-]."""
    return math.cos(leg.beta) - frame.friction * math.sin(leg.beta)


@jit
def moment_drop(frame: Frame, alpha: float, leg: Leg) -> float:
    """Int of the moment lost inside the wrapped zone: flank contact and friction on the nose.

    Statics of an arc that rides on its two flanks.  Spread evenly over the arc instead, the push
    and its friction lose half of that, and finite elements show 0.40 to 0.54 of it over five
    bends.  A thin line rides on no flanks and loses nothing.
    """
    kappa0 = leg.curvature
    grip = _grip(frame, leg)
    if leg.wrap <= frame.zone * frame.thickness or grip < _LEAST_GRIP:
        return 0.0
    delta = alpha - friction_angle(frame, alpha)
    n_f = leg.push * math.cos(delta) / grip
    h = -leg.push * math.sin(delta) + n_f * (
        math.sin(leg.beta) + frame.friction * math.cos(leg.beta)
    )
    drop = -frame.friction * n_f * 0.5 * frame.thickness * leg.wrap - (h / kappa0) * (
        math.sin(leg.beta) / kappa0 - leg.wrap * math.cos(leg.beta)
    )
    most = 0.9 * leg.moment_nose * leg.wrap
    return frame.drop * min(0.0, max(drop, -most)) * _wrapped(frame, leg)


@jit
def _stand_off(frame: Frame, alpha: float, kappa0: float, past: float) -> float:
    """How much higher the bar sits than a line that touches the nose [mm].

    Curvature cannot change faster than about t/2 along the bar; spreading a peak kappa0 over a
    length of variance s^2 lifts the middle by kappa0 s^2/2.  A bar without hardening is spread
    further while it clings to the tip, and after that lies on both flanks with straight legs.
    """
    t = frame.thickness
    share = 1.0
    if frame.clinging > 0.0:
        still = held(frame, alpha)
        share += frame.clinging_offset * frame.clinging * still
        share -= frame.clinging * (frame.clinging - still) * min(past / (0.2 * t), 1.0)
    return frame.offset * t * t * kappa0 * share


@jit
def _shortness(frame: Frame, alpha: float) -> float:
    """By how many thicknesses the straight leg falls short of ``LONG_LEG`` [-]."""
    reach = frame.nose + frame.shoulder + frame.thickness
    left = (0.5 * frame.opening - reach * math.sin(alpha)) / math.cos(alpha)
    return max(LONG_LEG - left / frame.thickness, 0.0)


@jit
def _saddle(frame: Frame, total: float) -> float:
    """How much lower a flat bar sits because its section saddles [mm].

    The wrap flattens part of the saddle again; nothing was compared past ``sag_end``.
    """
    low = min(total, frame.sag_cap)
    low -= frame.sag_back * max(min(total, frame.sag_end) - frame.sag_cap, 0.0)
    return frame.sag * low
