"""What goes into the stroke solver and what comes out of it.

Units inside: mm, N, MPa, rad.  'Total' angles count both legs: 90 deg is a square bracket.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

Floats = NDArray[np.float64]
SectionState = Literal["slice", "flat", "square", "round"]
# xi of steels lies between about 30 and 100 (from memory, form after Yoshida and Uemori).
UNLOADING_RATE = 50.0


@frozen(kw_only=True)
class FlowCurve:
    """Uniaxial true stress against plastic strain, Y(p) = K (e0 + q)^n + H q.

    Swift's law has ``H = 0``; linear hardening has ``n = 0``, ``K`` = yield, ``e0 = 1``.  The metal
    flows at its yield up to the end of the plateau; q is the plastic strain past that.

    Attributes
    ----------
    modulus
        Young's modulus E [MPa].
    poisson
        [-]
    strength
        K [MPa].
    offset
        e0 [-].
    exponent
        n [-].
    slope
        H [MPa].
    plateau
        Plastic strain up to which it flows at its yield, the Lueders strain [-].
    peak, peak_gone
        How much the upper yield lies above the plateau at first yield [MPa]; it falls evenly, and
        is gone at this plastic strain [-].
    """

    modulus: float
    poisson: float
    strength: float
    offset: float
    exponent: float
    slope: float = 0.0
    plateau: float = 0.0
    peak: float = 0.0
    peak_gone: float = 1.0

    @property
    def yield_stress(self) -> float:
        """Stress of the plateau, or of first yield without one; the upper yield left out [MPa]."""
        return float(self.strength * self.offset**self.exponent)


@frozen(kw_only=True)
class BendSetup:
    """One bar on one pair of shoulders under one nose.

    Attributes
    ----------
    section
        ``slice``: one mm of width in the stated ``width_state``; else the real section.
    thickness, width
        [mm]; ``width`` is 1 for a slice.
    width_state
        0 plane stress .. 1 plane strain for a slice; ``None``: from the width rule.
    opening, nose_radius, shoulder_radius
        [mm]
    friction
        [-]
    flow
        Flow curve of the bar.
    unloading_ratio
        Modulus on letting go over E, once the metal is well strained [-].
    unloading_rate
        xi: how fast it falls to there with the plastic strain, E_u/E = 1 - (1 - ratio)
        (1 - exp(-xi p)) [-].
    give
        Machine give [mm/N].
    bars
        Bars side by side; forces are totals over all of them.
    """

    section: SectionState
    thickness: float
    width: float
    opening: float
    nose_radius: float
    shoulder_radius: float
    friction: float
    flow: FlowCurve
    width_state: float | None = None
    unloading_ratio: float = 1.0
    unloading_rate: float = UNLOADING_RATE
    give: float = 0.0
    bars: int = 1


@frozen(kw_only=True)
class Solved:
    """How the solver got there."""

    converged: bool
    iterations: int
    residual: float


@frozen(kw_only=True)
class StrokeState:
    """One position of the ram.

    Attributes
    ----------
    travel
        From touch, machine give included [mm].
    force
        On the nose, all bars [N].
    loaded_angle, free_angle
        Total, under the ram and after springback [rad].
    nose_curvature
        Curvature under the nose [1/mm].
    wrap_length
        Length of the zone that follows the nose, one side [mm].
    wrapped
        Whether the bar has taken the nose's curvature.
    straight_left
        Straight leg between nose contact and shoulder contact [mm].
    """

    travel: float
    force: float
    loaded_angle: float
    free_angle: float
    nose_curvature: float
    wrap_length: float
    wrapped: bool
    straight_left: float
    solved: Solved


@frozen(kw_only=True)
class StrokeCurve:
    """A whole stroke from touch; arrays of one length n, travel rising.

    Attributes
    ----------
    travel, force, loaded_angle, free_angle, nose_curvature, wrap_length
        As in :class:`StrokeState`, shape (n,).
    jam_angle
        Total loaded angle at which this tooling jams [rad].
    jammed
        Whether the curve ends at the jam.
    """

    travel: Floats
    force: Floats
    loaded_angle: Floats
    free_angle: Floats
    nose_curvature: Floats
    wrap_length: Floats
    jam_angle: float
    jammed: bool
    solved: Solved


@frozen(kw_only=True)
class ReleasedBend:
    """Shape of one bend after it is let go, as the blank needs it.

    Attributes
    ----------
    angle
        Free total angle [rad].
    thickness
        [mm]
    wrap_radius
        Inside radius of the wrapped zone, for the table methods and drawings [mm].
    apex_distance
        On the mid-line: from the apex of the two straight legs to where a leg is straight [mm].
    outside_reach
        From where the leg is straight, along the leg, to the farthest point of the outer face
        [mm]; the outside dimension of a bend past 90 deg ends there.
    flat_length
        Length in the flat between the two points where the legs are straight [mm].
    """

    angle: float
    thickness: float
    wrap_radius: float
    apex_distance: float
    outside_reach: float
    flat_length: float


@frozen(kw_only=True)
class Band:
    """The interval that holds the true value nine times in ten."""

    low: float
    high: float
