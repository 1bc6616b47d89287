"""How the solver's own error hangs together along the turn of one bend.

What the solver is off by at one angle says something of the next angle and less of one far away.
Three shares of its variance add up to one: what is the same at every turn, what dies out over some
degrees, and, of the force, what dies out at once.
"""

from __future__ import annotations

import math

import numpy as np
from attrs import field, frozen, validators

from strapwright.bending.bend_values import Floats

_SHARE = [validators.ge(0.0), validators.le(1.0)]
# Turns at which the part that dies out has values of its own [rad]: no further apart than it stays
# much the same; numerical.
_KNOTS = np.radians(np.arange(0.0, 150.0, 10.0))
# The same of what dies out at once: neighbours 2 deg apart say nothing of each other.
_QUICK_APART = math.radians(2.0)
_EVEN_KNOT = len(_KNOTS)


@frozen(kw_only=True)
class ErrorAlongTurn:
    """How errors at two turns go together.

    Attributes
    ----------
    even
        Share of the variance that is the same at every turn [-].
    quick
        Share that dies out within 2 deg [-]; the rest dies out over ``reach``.
    reach
        Turn of the bar [rad] over which that rest dies out, by exp(-(x / reach)^2 / 2).
    """

    even: float = field(validator=_SHARE)
    quick: float = field(default=0.0, validator=_SHARE)
    reach: float = field(validator=validators.gt(0.0))

    def __attrs_post_init__(self) -> None:
        if self.even + self.quick > 1.0:
            raise ValueError("shares of one variance add up to one at most")

    def together(self, apart: float) -> float:
        """Correlation of the errors so far apart in the turn [rad], by the law itself [-].

        Of what dies out at once nothing is left there.
        """
        rest = 1.0 - self.even - self.quick
        return self.even + rest * math.exp(-0.5 * (apart / self.reach) ** 2)

    def weights(self, turn: float) -> dict[int, float]:
        """Return how much each value of its own counts at a turn.

        Parameters
        ----------
        turn
            Of the bar under load [rad].

        Returns
        -------
        dict
            Number of the value -> weight [-]; their squares add up to one, and products of the
            weights at two turns add up to how the errors there go together.
        """
        rest = math.sqrt(1.0 - self.even - self.quick)
        found = {knot: rest * float(share) for knot, share in enumerate(self._dying_out(turn))}
        found[_EVEN_KNOT] = math.sqrt(self.even)
        if self.quick > 0.0:
            below, beyond = divmod(max(turn, 0.0) / _QUICK_APART, 1.0)
            first = _EVEN_KNOT + 1 + int(below)
            # By cosine and sine, so that its size is the same between two values.
            found[first] = math.sqrt(self.quick) * math.cos(0.5 * math.pi * beyond)
            found[first + 1] = math.sqrt(self.quick) * math.sin(0.5 * math.pi * beyond)
        return found

    def _dying_out(self, turn: float) -> Floats:
        """Weights of the knots, of unit length: neighbours in the turn go together."""
        apart = (_KNOTS[:, None] - _KNOTS[None, :]) / self.reach
        between = np.exp(-0.5 * apart**2) + 1e-9 * np.eye(len(_KNOTS))
        here = np.exp(-0.5 * ((turn - _KNOTS) / self.reach) ** 2)
        share = np.linalg.solve(np.linalg.cholesky(between), here)
        unit: Floats = share / np.linalg.norm(share)
        return unit
