"""The referee's bar section: fibres over the depth, each with its own plastic history.

Plane sections; isotropic hardening in every fibre, in either direction, with the exact return to
the flow curve.  So a section that is bent, let go, bent back or bent again remembers what it went
through, and its residual curvature follows from its own fibres.  mm, N, MPa; per mm of width.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
HardeningLaw = Callable[[Array], Array]

FIBRES = 64  # over half the depth, at Gauss points; both halves are mirror images


@dataclass(frozen=True)
class Memory:
    """What the fibres of some sections went through, shape (sections, fibres)."""

    plastic: Array  # plastic strain, with its sign
    path: Array  # plastic strain summed without sign, which hardens


class FibreSection:
    """A rectangle of thickness ``t`` [mm].

    ``modulus`` [MPa], ``poisson`` [-], uniaxial ``law`` Y(p), width state ``w`` from 0 (plane
    stress) to 1 (plane strain); on letting go the modulus has fallen with the plastic strain to
    E [1 - (1 - ``softening[0]``) (1 - exp(-``softening[1]`` p))].
    """

    def __init__(
        self,
        t: float,
        modulus: float,
        poisson: float,
        law: HardeningLaw,
        w: float,
        *,
        softening: tuple[float, float] = (1.0, 0.0),
        fibres: int = FIBRES,
    ) -> None:
        gamma = 1.0 + w * (2.0 / np.sqrt(3.0) - 1.0)
        self.modulus = (1.0 - w) * modulus + w * modulus / (1.0 - poisson**2)
        self.softening = softening
        self.stiffness = self.modulus * t**3 / 12.0
        # Flow stress against the summed plastic strain; a stress of s with p behind it is elastic
        # where s/E + p stays under p + Y(p)/E, else that sum finds the new p.
        self._path = np.concatenate([[0.0], np.geomspace(1e-7, 5.0, 4000)])
        self._sum = self._path + gamma * law(gamma * self._path) / self.modulus
        self._rate = np.diff(self._path) / np.diff(self._sum)
        self.yield_curvature = 2.0 * self._sum[0] / t
        points, weights = np.polynomial.legendre.leggauss(fibres)
        self.depth = t / 4.0 * (points + 1.0)
        self.share = t / 2.0 * weights  # both halves

    def fresh(self, sections: int) -> Memory:
        """Metal as delivered."""
        return Memory(np.zeros((sections, len(self.depth))), np.zeros((sections, len(self.depth))))

    def respond(self, kappa: Array, memory: Memory) -> tuple[Array, Array, Memory]:
        """Moment [N], its slope [N mm] and what the fibres then remember."""
        stress = self.modulus * (kappa[:, None] * self.depth - memory.plastic)
        total = np.abs(stress) / self.modulus + memory.path
        cell = np.clip(np.searchsorted(self._sum, total) - 1, 0, len(self._rate) - 1)
        path = self._path[cell] + self._rate[cell] * (total - self._sum[cell])
        flows = path > memory.path
        path = np.where(flows, path, memory.path)
        change = np.sign(stress) * (path - memory.path)
        stress = stress - self.modulus * change
        tangent = self.modulus * (1.0 - np.where(flows, self._rate[cell], 0.0))
        return (
            stress @ (self.share * self.depth),
            tangent @ (self.share * self.depth**2),
            Memory(memory.plastic + change, path),
        )

    def let_go(self, kappa: Array, memory: Memory) -> Array:
        """Curvature that each section keeps when its moment is taken off [1/mm].

        Along the elastic line, softer where the metal has flowed; then, where fibres would flow
        backwards, on until the moment of the fibres is nothing.
        """
        moment, _, memory = self.respond(kappa, memory)
        left, rate = self.softening
        softer = 1.0 - (1.0 - left) * (1.0 - np.exp(-rate * memory.path))
        stiffness = self.modulus * softer @ (self.share * self.depth**2)
        extra = moment / self.stiffness - moment / stiffness
        kept = kappa - moment / self.stiffness
        for _ in range(20):
            rest, slope, _ = self.respond(kept, memory)
            if np.abs(rest).max() < 1e-9 * self.stiffness * self.yield_curvature:
                break
            kept = kept - rest / slope
        return kept + extra
