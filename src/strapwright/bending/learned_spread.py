"""What readings have taught of one bend: where its figures lie now, and how they hang together.

The figures of one bend are, in this order: strength (logarithm of a factor), exponent (added),
thickness (logarithm), friction (added), unloading modulus (logarithm), opening (added) [mm], give
(added) [mm/N]; then first contact (added to the travel as counted) [mm], and the solver's own error
of force (relative), loaded angle and springback [rad]; then the gauge against the true force
(relative) and its zero [MPa].
"""

from __future__ import annotations

import math

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bend_values import BendSetup, Floats

TOUCH, FORCE, ANGLE, BACK, SCALE, ZERO = range(7, 13)
FIGURES = 13
_LEAST_EXPONENT = 0.005  # as the sample takes it; numerical


@frozen(kw_only=True)
class LearnedSpread:
    """Means and spread of the figures of one bend, jointly normal.

    Attributes
    ----------
    mean
        Of each figure against what the shop states, in the order above.
    root
        Matrix whose square is their covariance, row by row.
    readings
        How many readings it rests on.
    """

    mean: tuple[float, ...]
    root: tuple[tuple[float, ...], ...]
    readings: int

    def drawn(self, normals: Floats) -> Floats:
        """Draws of the figures: the bar's own about nothing, the rest about their means.

        Parameters
        ----------
        normals
            Standard normal draws, shape (n, 13).

        Returns
        -------
        array
            Shape (n, 13).
        """
        middle = np.array(self.mean)
        middle[:TOUCH] = 0.0  # these are in the middle bend already
        found: Floats = middle + normals @ np.array(self.root).T
        return found

    def middle(self, setup: BendSetup) -> BendSetup:
        """Return the bend with the means of the bar, tooling and press put in."""
        m, flow = self.mean, setup.flow
        exponent = flow.exponent
        if exponent > 0.0:
            exponent = max(exponent + m[1], _LEAST_EXPONENT)
        factor = math.exp(m[0])
        return evolve(
            setup,
            thickness=setup.thickness * math.exp(m[2]),
            friction=max(setup.friction + m[3], 0.0),
            unloading_ratio=setup.unloading_ratio * math.exp(m[4]),
            opening=setup.opening + m[5],
            give=max(setup.give + m[6], 0.0),
            flow=evolve(
                flow,
                exponent=exponent,
                # A harder exponent turns the curve about the yield point.
                strength=flow.strength * factor * flow.offset ** (flow.exponent - exponent),
                slope=flow.slope * factor,
                peak=flow.peak * factor,
            ),
        )
