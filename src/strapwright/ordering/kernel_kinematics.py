"""How the bar moves while it is bent over two shoulders, symmetrically.

``phi`` is half the bend angle, W the opening, A = ri + t + rs.  y = 0 at the shoulder tops; the
arc's centre stands at (0, arc_centre).  The wings leave the arc as straight lines and touch the
shoulder circles, so all of this follows from the right triangle of arc centre, shoulder centre
and contact.
"""

from __future__ import annotations

import math

from strapwright.compiled import jit

JAM_SHARE = 0.95  # of (W/2)/A: past it the wing slips off the shoulder (common practice, no source)


@jit
def arc_centre(phi: float, half_opening: float, a: float, shoulder_radius: float) -> float:
    """Height of the arc's centre above the shoulder tops [mm]."""
    return -shoulder_radius + (a - half_opening * math.sin(phi)) / math.cos(phi)


@jit
def sinking(phi_end: float, half_opening: float, a: float) -> float:
    """Fastest sinking of the arc's centre over the stroke [mm/rad].

    (W/2 - A sin phi)/cos^2 phi has no maximum inside the stroke, so its ends decide.
    """
    c = math.cos(phi_end)
    return max(half_opening, (half_opening - a * math.sin(phi_end)) / (c * c))


@jit
def contact_run(phi: float, half_opening: float, a: float) -> float:
    """Straight between the arc's end and the contact on the shoulder [mm]."""
    return half_opening / math.cos(phi) - a * math.tan(phi)


def straight_needed(
    phi_end: float, half_opening: float, a: float, rho: float, phi_begin: float = 0.0
) -> float:
    """Straight material a bend needs on each side of its middle [mm].

    The largest of contact_run + rho phi over the stroke; that sum falls, then rises, so the two
    ends decide.
    """
    return max(contact_run(phi, half_opening, a) + rho * phi for phi in (phi_begin, phi_end))


def jam_angle(half_opening: float, a: float) -> float:
    """Half angle at which the stroke must have ended [rad]."""
    return math.asin(min(1.0, JAM_SHARE * half_opening / a))
