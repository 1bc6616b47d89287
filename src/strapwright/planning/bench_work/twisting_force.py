"""What a quarter twist of a flat takes: torque, length, strain and springback.

A section turns against its neighbour at the rate k (angle over length).  Sections stay plane but
for the warping of a thin strip (-x y k), so that a fibre at y of the width and z of the thickness
shears by 2 z k and, as its helix is longer than the middle line, stretches by y^2 k^2/2 less what
the run shortens (geometry; elastic: Timoshenko and Goodier, Theory of Elasticity, thin rectangle;
from memory).
"""

from __future__ import annotations

import math

import numpy as np

from strapwright.bending.bend_values import FlowCurve
from strapwright.planning.bench_work.closing_force import flow_stress

LEAST_WIDTHS = 2.0  # widths of a twisted run; practice with bus bars, from memory
GRIP = 0.5  # widths of flat bar that jaws and twisting bar need each; common practice, no source
_CELLS = 40  # across each half of a section, numerical


def length_lost(angle: float, run: float, width: float) -> tuple[float, float]:
    """By how much the twisted run gets shorter.

    Parameters
    ----------
    angle
        Of the twist [rad].
    run, width
        Length of the twisted run, and of the bar across it [mm].

    Returns
    -------
    low, high
        The stretched outer fibres and the shortened middle balance where the run shortens by
        k^2/2 times the median of y^2, (w/4)^2, in a metal that does not harden, and times its mean,
        w^2/12, in one that hardens in proportion.  All metals lie between: a^2 w^2/(32 L) and
        a^2 w^2/(24 L) (geometry and balance, our own derivation) [mm].
    """
    whole = (angle * width) ** 2 / run
    return whole / 32.0, whole / 24.0


def twist_strain(angle: float, run: float, thickness: float, width: float) -> float:
    """Strain of the hardest worked spot.

    Parameters
    ----------
    angle
        Of the twist [rad].
    run, thickness, width
        Of the twisted run and its section [mm].

    Returns
    -------
    float
        sqrt(e^2 + g^2/3) by von Mises, of the stretch at the edge e = k^2 w^2/12 and the shear of
        the wide face g = k t, as if both were largest in one spot [-].
    """
    rate = angle / run
    stretch = rate**2 * width**2 / 12.0
    return math.hypot(stretch, rate * thickness / math.sqrt(3.0))


def least_run(angle: float, thickness: float, width: float, most: float) -> float:
    """Shortest twisted run whose hardest worked spot is strained by no more than ``most`` [mm].

    Parameters
    ----------
    angle
        Of the twist [rad].
    thickness, width
        Of the bar [mm].
    most
        Strain [-].
    """
    # most^2 = k^4 w^4/144 + k^2 t^2/3, a quadratic in k^2.
    a, b = width**4 / 144.0, thickness**2 / 3.0
    rate = math.sqrt((math.sqrt(b * b + 4.0 * a * most * most) - b) / (2.0 * a))
    return angle / rate


def twist_torque(
    flow: FlowCurve, angle: float, run: float, thickness: float, width: float
) -> float:
    """Torque that twists a run to its angle.

    Parameters
    ----------
    flow
        Flow curve of the bar.
    angle
        Of the twist [rad].
    run, thickness, width
        Of the twisted run and its section [mm].

    Returns
    -------
    float
        Work of the flowing section by angle, int s(p) sqrt((2 z)^2/3 + ((y^2 - w^2/12) k)^2) dA,
        too much rather than too little as any assumed motion gives (upper bound theorem), where
        the strain p counts shear and stretch one after the other.  With no stretch and an even
        stress s it is s/sqrt(3) w t^2/2, the sand heap of a thin rectangle (Nadai, from memory)
        [N mm].
    """
    rate = angle / run
    half = (np.arange(_CELLS) + 0.5) / (2.0 * _CELLS)
    y, z = np.meshgrid(half * width, half * thickness)
    off = np.abs(y**2 - width**2 / 12.0)
    shear = 2.0 * z / math.sqrt(3.0)
    strain = shear * rate + 0.5 * off * rate**2
    arm = np.hypot(shear, off * rate)
    stress = np.array([flow_stress(flow, float(one)) for one in strain.ravel()])
    cell = thickness * width / (2.0 * _CELLS) ** 2
    return float(4.0 * cell * np.sum(stress * arm.ravel()))


def twist_springs_back(
    torques: tuple[float, float],
    flow: FlowCurve,
    angle: float,
    run: float,
    thickness: float,
    width: float,
) -> tuple[float, float]:
    """Between which angles a twist springs back.

    Parameters
    ----------
    torques
        That twisted the softest and the strongest bar of its grade [N mm].
    flow
        Flow curve of the bar.
    angle
        Of the twist [rad].
    run, thickness, width
        Of the twisted run and its section [mm].

    Returns
    -------
    low, high
        T L/(G J) at most, of the strongest, with J = w t^3 (1 - 0.63 t/w + 0.052 (t/w)^5)/3
        (rectangle, Timoshenko; from memory), and at least, of the softest, with the stiffness of
        the stretched edges beside it, E t w^5 k^2/180 (our own derivation) [rad].
    """
    modulus = flow.modulus
    shear = modulus / (2.0 * (1.0 + flow.poisson))
    share = thickness / width
    plain = shear * width * thickness**3 * (1.0 - 0.63 * share + 0.052 * share**5) / 3.0
    edges = modulus * thickness * width**5 * (angle / run) ** 2 / 180.0
    soft, strong = torques
    return soft * run / (plain + edges), strong * run / plain
