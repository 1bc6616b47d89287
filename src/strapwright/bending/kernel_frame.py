"""What the stroke kernels share: tooling and effects of a bend, and how the bar lies on the nose.

The bar first rests on the nose at one place, where an even curvature over a zone of length l_c
stands for the load that spreads through the thickness.  Once that curvature reaches the nose's, the
zone grows instead.  The change-over is rounded: the load is spread, so one part of the bar meets
the nose before another.

Right half, origin on the symmetry line at the height of the shoulder tops, x right, y up; moments
are positive where they turn the legs up.  Forces per mm of width (rectangle) or whole (round).
"""

from __future__ import annotations

import math
from typing import NamedTuple

from strapwright.compiled import jit

OK = 0
JAM = 1
NO_ROOT = 2
# Likewise for the friction on the shoulders to turn round: the bar clings to them until its push
# along them has changed by twice the friction, which takes the longer the more friction there is.
_TURNING = 0.5


class Frame(NamedTuple):
    """Everything of a bend but its section law.

    Attributes
    ----------
    thickness, opening, nose, shoulder
        [mm]
    friction
        [-]
    turning
        Leg slope up to which the bar's lower face slides outwards over the shoulder, as the bar
        turns about it, and from which it is drawn in [rad].
    offset
        lambda: how far the mid-line stands off the nose, in t^2 kappa [-].
    zone
        l_c/t, even curvature under the nose [-].
    rounding
        Exponent of the change-over to wrapping; 0 for a sharp one [-].
    clinging
        Share, 0 to 1, in which the bar keeps its single contact at the tip instead of wrapping:
        1 without hardening, nothing where it hardens much [-].
    letting_go, letting
        Leg slope at which it lets go [rad], and the share of it over which it does so [-].
    clinging_offset
        Further offset while it clings, in ``offset`` [-].
    shear, give
        C_e of the bar and give of the machine [mm per unit force].
    squeeze, squeeze_slope, squeeze_narrow, narrow_slope
        Plastic shear and squeeze through the thickness: travel reached on an arm of one thickness
        [mm], and the slope that would last at which half of it has come [rad]; of every bar, and
        further of a narrow one.
    sag, sag_cap, sag_back, sag_end
        Saddle of a flat bar [mm/rad], up to ``sag_cap`` [rad]; the share taken back past it [-], up
        to ``sag_end`` [rad].
    grip
        Share of the friction under the nose that counts once the bar is wrapped [-].
    flank_gap
        Gap that this friction leaves under the tip, in mu t [-].
    spread
        Length of bar by which the push on the flanks, spread through the thickness, adds to the
        springback once wrapped, in t times t over the arm of the push [-].
    drop
        Share of the moment lost by the statics of two flanks that is lost [-].
    short_leg
        Travel that is missing where the straight leg falls short by one thickness [mm].
    turned
        What the force of a narrow bar gains by a right angle [-].
    force
        Factor of the section [-].
    """

    thickness: float
    opening: float
    nose: float
    shoulder: float
    friction: float
    turning: float
    offset: float
    zone: float
    rounding: float
    clinging: float
    letting_go: float
    letting: float
    clinging_offset: float
    shear: float
    give: float
    squeeze: float
    squeeze_slope: float
    squeeze_narrow: float
    narrow_slope: float
    sag: float
    sag_cap: float
    sag_back: float
    sag_end: float
    grip: float
    flank_gap: float
    spread: float
    drop: float
    short_leg: float
    turned: float
    force: float


class Point(NamedTuple):
    """A solved position.

    ``status``; ``travel`` from touch, machine give included [mm]; ``force`` of the whole nose;
    ``free`` half angle after letting go [rad]; ``curvature`` under the nose [1/mm]; ``wrap`` length
    of the zone under the nose, one side [mm]; ``root`` the unknown z; ``steps`` evaluations;
    ``miss`` of the closure [mm]; ``growth`` of the miss with z at the root, 0 where it was not seen
    [mm^2].
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
    growth: float


class Leg(NamedTuple):
    """One trial of z: the leg between shoulder and nose.

    ``elastic_sum`` and ``plastic_sum`` are Int M dl over metal that has not and that has yielded;
    ``softer_sum`` is what the softer unloading of each place adds to the latter.
    """

    valid: int
    miss: float
    push: float
    curvature: float
    wrap: float
    beta: float
    rise: float
    elastic_sum: float
    plastic_sum: float
    softer_sum: float
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
def friction_angle(frame: Frame, alpha: float) -> float:
    """Angle of friction on the shoulder, positive where it holds the bar outwards [rad].

    Early in the stroke the lower face moves outwards and friction pulls the other way.
    """
    full = math.atan(frame.friction)
    if frame.turning <= 0.0:
        return full
    width = _TURNING * max(frame.friction, 0.02)
    return full * math.tanh((alpha / frame.turning - 1.0) / width)


@jit
def held(frame: Frame, alpha: float) -> float:
    """Share in which the bar still clings to the tip of the nose at the slope alpha [-]."""
    if frame.clinging <= 0.0:
        return 0.0
    past = math.log(max(alpha, 1e-9) / frame.letting_go) / frame.letting
    if past > 40.0:
        return 0.0
    return frame.clinging / (1.0 + math.exp(past))


@jit
def nose_zone(frame: Frame, still: float, z: float, kappa_n: float) -> tuple[float, float]:
    """Curvature under the nose [1/mm] and length of its zone [mm] for the unknown z.

    A small z is the curvature itself; what it exceeds the nose's by becomes wrapped length, but for
    the share ``still`` in which the bar clings to the tip.
    """
    ratio = z / kappa_n
    if frame.rounding > 0.0:
        taken = ratio * math.pow(1.0 + math.pow(ratio, frame.rounding), -1.0 / frame.rounding)
    else:
        taken = min(ratio, 1.0)
    taken += still * (ratio - taken)
    return taken * kappa_n, frame.zone * frame.thickness + (ratio - taken) / kappa_n
