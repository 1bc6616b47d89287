"""A bar under a nose off the middle, integrated along its length: a referee for the two legs.

Nothing of the quadrature solver is used: no first integral, no halves of even bends, no table in
the logarithm of the curvature.  Each leg is walked from its shoulder inwards in small steps of arc
length (scipy's integrator), its moment by statics from the push of the shoulder, its curvature from
a section of fibres; where both legs meet the nose, place, slope and moment are made to agree by a
root finder.  A bar that has wrapped leaves the nose on each side where its moment is that of the
nose's curvature.

Thin beam, monotone bending: mm, N, MPa, rad; forces per mm of width.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.optimize import root

from strapwright.bending import BendSetup

Array = NDArray[np.float64]


@dataclass(frozen=True)
class UnevenReading:
    """Force along the ram [N/mm], total angle under it [rad], pushes of near and far shoulder."""

    force: float
    loaded: float
    near_push: float
    across: float
    wrapped: bool


class Section:
    """Moment against curvature, by fibres in plane strain (w = 1) or plane stress (w = 0)."""

    def __init__(self, setup: BendSetup, fibres: int = 400) -> None:
        flow, w = setup.flow, float(setup.width_state or 0.0)
        self.t = setup.thickness
        gamma = 1.0 + w * (2.0 / math.sqrt(3.0) - 1.0)
        self.modulus = flow.modulus * (1.0 - w) + w * flow.modulus / (1.0 - flow.poisson**2)
        p = np.concatenate([[0.0], np.geomspace(1e-7, 1.0, 6000)])
        swift = flow.strength * (flow.offset + gamma * p) ** flow.exponent
        stress = gamma * (swift + flow.slope * gamma * p)
        strain = p + stress / self.modulus
        y = (np.arange(fibres) + 0.5) / fibres * 0.5 * self.t
        self.kappa = np.concatenate([[0.0], np.geomspace(1e-6, 1.5 / self.t, 1500)])

        def moment(kappa: float) -> float:
            e = kappa * y
            s = np.where(e < strain[0], self.modulus * e, np.interp(e, strain, stress))
            return float(2.0 * np.sum(s * y) * 0.5 * self.t / fibres)

        self.moment = np.array([moment(k) for k in self.kappa])

    def curvature(self, moment: float) -> float:
        """Curvature under a moment [1/mm]."""
        return float(np.interp(moment, self.moment, self.kappa))

    def moment_at(self, kappa: float) -> float:
        """Moment at a curvature [N mm/mm]."""
        return float(np.interp(kappa, self.kappa, self.moment))


@dataclass(frozen=True)
class _Leg:
    """Where a walk along a leg has come to; x towards its shoulder from the nose's line."""

    x: float
    y: float
    slope: float
    moment: float


class UnevenBar:
    """A bend with its nose ``offset`` off the middle, pushed to a travel."""

    def __init__(self, setup: BendSetup, offset: float, travel: float) -> None:
        self.setup, self.section = setup, Section(setup)
        self.phi = math.atan(setup.friction)
        self.sides = (0.5 * setup.opening - offset, 0.5 * setup.opening + offset)
        self.ball = setup.nose_radius + 0.5 * setup.thickness
        self.centre = setup.thickness + setup.nose_radius - travel

    def walk(self, out: float, alpha: float, push: float, length: float | None) -> _Leg:
        """From the shoulder inwards for a length, or until the moment is that of the nose."""
        s, t = self.setup, self.setup.thickness
        ball = s.shoulder_radius + 0.5 * t
        x0, y0 = out - ball * math.sin(alpha), -s.shoulder_radius + ball * math.cos(alpha)
        px, py = -push * math.sin(alpha - self.phi), push * math.cos(alpha - self.phi)
        own = push * math.sin(self.phi) * 0.5 * t  # friction acts on the lower face

        def moment(x: float, y: float) -> float:
            return own + (x0 - x) * py - (y0 - y) * px

        def along(_: float, at: Array) -> list[float]:
            bend = self.section.curvature(moment(at[0], at[1]))
            return [-math.cos(at[2]), -math.sin(at[2]), -bend]

        def full(_: float, at: Array) -> float:
            return moment(at[0], at[1]) - self.section.moment_at(1.0 / self.ball)

        full.terminal = length is None  # type: ignore[attr-defined]
        end = 3.0 * s.opening if length is None else length
        found = solve_ivp(
            along, (0.0, end), [x0, y0, alpha], events=full, rtol=1e-7, atol=1e-8, max_step=2.0
        )
        x, y, slope = (float(v) for v in found.y[:, -1])
        return _Leg(x, y, slope, moment(x, y))

    def _on_ball(self, leg: _Leg, slope: float) -> list[float]:
        """How far a place is from where a bar of that slope touches the nose, over its radius."""
        return [
            (leg.x - self.ball * math.sin(slope)) / self.ball,
            (leg.y - self.centre + self.ball * math.cos(slope)) / self.ball,
        ]

    def wrapped(self, near: tuple[float, float], far: tuple[float, float]) -> UnevenReading:
        """Each leg by itself, from slope and push to start from."""
        found = []
        for out, (alpha, push) in zip(self.sides, (near, far), strict=True):

            def miss(v: Array, out: float = out, push: float = push) -> list[float]:
                leg = self.walk(out, float(v[0]), float(v[1]) * push, None)
                return self._on_ball(leg, leg.slope)

            answer = root(miss, [alpha, 1.0], tol=1e-9)
            assert max(map(abs, miss(answer.x))) < 1e-6, answer.message
            found.append((float(answer.x[0]), float(answer.x[1]) * push))
        return self._reading(found, wrapped=True)

    def single(
        self,
        near: tuple[float, float, float],
        far: tuple[float, float, float],
        tilt: float,
    ) -> UnevenReading:
        """Both legs meet at one place of the nose; start from slope, push, length and tilt."""
        start = (*near, *far)

        def misses(v: Array) -> list[float]:
            a, b = (
                self.walk(out, *(float(v[3 * k + j]) * start[3 * k + j] for j in range(3)))
                for k, out in enumerate(self.sides)
            )
            turn = float(v[6])
            scale = self.section.moment_at(1.0 / self.ball)
            return [
                *self._on_ball(a, turn),
                *self._on_ball(b, -turn),
                a.slope - turn,
                b.slope + turn,
                (a.moment - b.moment) / scale,
            ]

        answer = root(misses, [1.0] * 6 + [tilt], tol=1e-9)
        assert max(map(abs, misses(answer.x))) < 1e-6, answer.message
        v = [float(one) * size for one, size in zip(answer.x[:6], start, strict=True)]
        return self._reading([(v[0], v[1]), (v[3], v[4])], wrapped=False)

    def _reading(self, found: list[tuple[float, float]], *, wrapped: bool) -> UnevenReading:
        (a, p), (b, q) = found
        near, far = p * math.cos(a - self.phi), q * math.cos(b - self.phi)
        across = p * math.sin(a - self.phi) - q * math.sin(b - self.phi)
        return UnevenReading(near + far, a + b, near, across, wrapped)
