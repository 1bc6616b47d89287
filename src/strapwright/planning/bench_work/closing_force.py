"""What it takes to close a bend off the tooling: moment, force and how far to go past.

The bent zone turns at its fully plastic moment: stress times b t^2/4 for a rectangle, d^3/6 for a
round (strength of materials, any text; from memory).  Stress is that of the flow curve at the
strain of the outer face, so all of the section counts as strained as its outside: too much rather
than too little.  A wide bar resists 2/sqrt(3) more (plane strain, von Mises).
"""

from __future__ import annotations

import math
from typing import Literal

from strapwright.bending.bend_values import FlowCurve

PLANE_STRAIN = 2.0 / math.sqrt(3.0)  # exact, after von Mises
HAND = 400.0  # N a person pulls steadily (90 lbf); common practice, no source


def outer_stress(flow: FlowCurve, thickness: float, radius: float) -> float:
    """Stress of the outer face of a bend.

    Parameters
    ----------
    flow
        Flow curve of the bar.
    thickness, radius
        Of the bar, and inside radius of the bend [mm].

    Returns
    -------
    float
        K (e0 + e)^n + H e at the strain e = ln(1 + (t/2)/(r + t/2)) [MPa].
    """
    half = 0.5 * thickness
    return flow_stress(flow, math.log(1.0 + half / (radius + half)))


def flow_stress(flow: FlowCurve, strain: float) -> float:
    """Stress at which a metal flows at a plastic strain, K (e0 + e)^n + H e [MPa]."""
    hard: float = flow.strength * (flow.offset + strain) ** flow.exponent + flow.slope * strain
    return max(hard, flow.yield_stress)


def plastic_moment(
    section: Literal["flat", "square", "round"], thickness: float, width: float, stress: float
) -> float:
    """Moment at which the whole section flows.

    Parameters
    ----------
    section
        Of the bar.
    thickness, width
        In the plane of the bend and across it [mm]; of a round both are its diameter.
    stress
        At which it flows [MPa].

    Returns
    -------
    float
        2/sqrt(3) x stress x b t^2/4; of a round stress x d^3/6 [N mm].
    """
    if section == "round":
        return stress * thickness**3 / 6.0
    return PLANE_STRAIN * stress * width * thickness**2 / 4.0


def squeezing_force(moment: float, leg: float, angle: float) -> float:
    """Force that presses two legs towards each other, at the tip of the shorter one.

    Parameters
    ----------
    moment
        That closes the bend [N mm].
    leg
        Straight length from the bend to where the face touches [mm].
    angle
        Bend angle at which it begins, where it takes most [rad].

    Returns
    -------
    float
        M/(L cos(i/2)) with the included angle i = pi - angle: each leg stands at i/2 to the middle
        plane, and the force is square to that plane (statics) [N].
    """
    return moment / (leg * math.sin(0.5 * angle))


def goes_past(moment: float, zone: float, section_stiffness: float) -> float:
    """How far a bend opens again once it is let go.

    Parameters
    ----------
    moment
        That closed it [N mm].
    zone
        Length of bar that bends [mm].
    section_stiffness
        E I of the section [N mm2].

    Returns
    -------
    float
        M l/(E I): the bent length unloads elastically (beam theory) [rad].
    """
    return moment * zone / section_stiffness


def stiffness(
    section: Literal["flat", "square", "round"], thickness: float, width: float, modulus: float
) -> float:
    """E I of a section: b t^3/12, or pi d^4/64 [N mm2]."""
    if section == "round":
        return modulus * math.pi * thickness**4 / 64.0
    return modulus * width * thickness**3 / 12.0
