"""An independent referee for the stroke solver: half a bar as a chain of rigid links.

Nothing of the quadrature solver is used or repeated here.  The bar is a chain of rigid links
joined by rotational springs; a spring's moment comes from a fibre section summed over the depth,
with elastic unloading from the largest curvature it has seen.  The nose is a circle that the
joints may not enter (penalty), the shoulder a circle that the mid-line touches from above
(exact, one multiplier), both seen at half the bar's thickness; Coulomb friction acts on the bar's
faces, outwards on the shoulder and outwards under the nose.  The nose is driven down in small
steps and each step is solved by Newton on the equations of virtual work.

It is thin-beam theory and nothing else: no shear, no dents, no thinning, plane sections.

Symmetry: the origin is on the middle line at the height of the shoulder tops, y up, and link
``i`` has the slope ``theta[i]``.  mm, N, MPa, rad; forces per mm of width.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

Array = NDArray[np.float64]
HardeningLaw = Callable[[Array], Array]

PENALTY = 1.0e6  # N/mm per mm: the tip of the nose sinks in by under a micrometre per N/mm
LARGEST_CURVATURE = 1.9  # times 1/t, the largest a section can follow


class ChainError(Exception):
    """Newton did not settle: the referee has no answer, and says so."""


class FibreSection:
    """Moment against curvature of a rectangle, summed over fibres.

    Parameters: thickness ``t`` [mm], ``modulus`` [MPa], ``poisson`` [-], uniaxial ``law`` Y(p),
    width state ``w`` from 0 (plane stress) to 1 (plane strain).
    """

    def __init__(
        self, t: float, modulus: float, poisson: float, law: HardeningLaw, w: float
    ) -> None:
        gamma = 1.0 + w * (2.0 / np.sqrt(3.0) - 1.0)
        self.modulus = (1.0 - w) * modulus + w * modulus / (1.0 - poisson**2)
        self.stiffness = self.modulus * t**3 / 12.0
        p = np.concatenate([[0.0], np.geomspace(1e-7, 3.0, 4000)])
        stress = gamma * law(gamma * p)
        strain = p + stress / self.modulus
        self.yield_curvature = 2.0 * strain[0] / t
        # Gauss points over the plastic part of the depth; the elastic core is exact by itself.
        points, weights = np.polynomial.legendre.leggauss(48)
        kappa = np.geomspace(self.yield_curvature, LARGEST_CURVATURE / t, 500)[:, None]
        core = strain[0] / kappa
        z = core + (t / 2.0 - core) * (points + 1.0) / 2.0
        fibre = np.interp(kappa * z, strain, stress)
        plastic = ((t / 2.0 - core) / 2.0 * weights * fibre * z).sum(axis=1)
        elastic = (self.modulus * kappa * core**3 / 3.0)[:, 0]
        self._curve = PchipInterpolator(kappa[:, 0], 2.0 * (plastic + elastic))
        self._slope = self._curve.derivative()

    def moment(self, kappa: Array) -> tuple[Array, Array]:
        """Moment [N] and its slope [N mm] for first loading; odd in the curvature."""
        size = np.abs(kappa)
        bounded = np.clip(size, self.yield_curvature, self._curve.x[-1])
        plastic = size > self.yield_curvature
        moment = np.where(plastic, self._curve(bounded), self.stiffness * size)
        slope = np.where(plastic, self._slope(bounded), self.stiffness)
        return np.sign(kappa) * moment, slope

    def moment_after(self, kappa: Array, largest: Array) -> tuple[Array, Array]:
        """As :meth:`moment`, but elastic below the largest curvature seen so far."""
        moment, slope = self.moment(kappa)
        at_largest, _ = self.moment(largest)
        back = kappa < largest
        moment = np.where(back, at_largest - self.stiffness * (largest - kappa), moment)
        return moment, np.where(back, self.stiffness, slope)


@dataclass
class Chain:
    """The chain, its tooling and its state ``u`` = slopes, height of the middle, shoulder force."""

    section: FibreSection
    t: float
    opening: float
    r_n: float
    r_s: float
    mu: float
    links: Array  # lengths
    penalty: float = PENALTY
    u: Array = field(init=False)
    largest: Array = field(init=False)

    def __post_init__(self) -> None:
        n = len(self.links)
        self.u = np.zeros(n + 2)
        self.u[n] = self.t / 2.0
        self.largest = np.zeros(n)
        # The joint in the middle has half a link on either side, but only one side is modelled.
        self.tributary = np.concatenate(
            [self.links[:1], (self.links[1:] + self.links[:-1]) / 2.0],
        )

    def curvature(self, theta: Array) -> Array:
        bent: Array = np.diff(theta, prepend=-theta[0]) / self.tributary
        return bent

    def nodes(self, u: Array) -> tuple[Array, Array]:
        n = len(self.links)
        x = np.concatenate([[0.0], np.cumsum(self.links * np.cos(u[:n]))])
        y = u[n] + np.concatenate([[0.0], np.cumsum(self.links * np.sin(u[:n]))])
        return x, y

    def shoulder_link(self, u: Array) -> tuple[int, float]:
        """Which link lies on the shoulder, and how far along it the contact is."""
        n = len(self.links)
        x, y = self.nodes(u)
        along = (self.opening / 2.0 - x[:n]) * np.cos(u[:n]) + (-self.r_s - y[:n]) * np.sin(u[:n])
        k = int(np.flatnonzero(along >= 0.0)[-1])
        if k == n - 1:
            raise ChainError("the bar has slid off the shoulder: make the chain longer")
        return k, float(along[k])

    def equations(self, u: Array, travel: float) -> tuple[Array, Array]:
        """Residual of virtual work with the shoulder's gap, and its derivative."""
        n = len(self.links)
        theta, normal = u[:n], u[n + 1]
        cos, sin = np.cos(theta), np.sin(theta)
        x, y = self.nodes(u)
        # d(node)/d(u): row j, column i.
        below = np.tri(n + 1, n, -1)
        jx = np.zeros((n + 1, n + 2))
        jy = np.zeros((n + 1, n + 2))
        jx[:, :n] = -below * (self.links * sin)
        jy[:, :n] = below * (self.links * cos)
        jy[:, n] = 1.0
        residual = np.zeros(n + 2)
        slope = np.zeros((n + 2, n + 2))

        moment, stiff = self.section.moment_after(self.curvature(theta), self.largest)
        residual[:n] += moment
        residual[: n - 1] -= moment[1:]
        spring = stiff / self.tributary
        spring_first = 2.0 * spring[0]
        diagonal = spring.copy()
        diagonal[0] = spring_first
        diagonal[:-1] += spring[1:]
        i = np.arange(n)
        slope[i, i] += diagonal
        slope[i[1:], i[:-1]] -= spring[1:]
        slope[i[:-1], i[1:]] -= spring[1:]

        self._nose(travel, (x, y), (jx, jy), (cos, sin), residual, slope)

        # Shoulder: gap along the normal of the link that lies on it.
        k, s = self.shoulder_link(u)
        reach = self.r_s + self.t / 2.0
        gap = -(x[k] - self.opening / 2.0) * sin[k] + (y[k] + self.r_s) * cos[k] - reach
        gap_slope = -jx[k] * sin[k] + jy[k] * cos[k]
        along = jx[k] * cos[k] + jy[k] * sin[k]
        push = gap_slope.copy()
        push[k] += s
        drag = along.copy()
        drag[k] += self.t / 2.0  # friction acts on the lower face
        lever = -along
        lever[k] -= gap + reach
        residual -= normal * (push + self.mu * drag)
        slope[:, n + 1] -= push + self.mu * drag
        slope[:, k] -= normal * (-along + self.mu * gap_slope)
        slope[k] -= normal * lever
        before = i[:k]
        turned = cos[before] * sin[k] - sin[before] * cos[k]  # -(tau_i . n_k)
        together = -(cos[before] * cos[k] + sin[before] * sin[k])
        slope[before, before] -= normal * self.links[before] * (turned + self.mu * together)
        residual[n + 1] = gap
        slope[n + 1] = push
        return residual, slope

    def _nose(
        self,
        travel: float,
        nodes: tuple[Array, Array],
        moves: tuple[Array, Array],
        turns: tuple[Array, Array],
        residual: Array,
        slope: Array,
    ) -> None:
        (x, y), (jx, jy), (cos, sin) = nodes, moves, turns
        n = len(self.links)
        rx, ry = x, y - (self.t + self.r_n - travel)
        distance = np.hypot(rx, ry)
        depth = self.r_n + self.t / 2.0 - distance
        sum_x, sum_y = np.zeros(n + 1), np.zeros(n + 1)
        for j in np.flatnonzero(depth > 0.0):
            mu = self.mu if j else 0.0  # in the middle the two halves' friction cancels
            ex, ey = rx[j] / distance[j], ry[j] / distance[j]
            fx, fy = -ey, ex
            force = self.penalty * depth[j]
            force_slope = -self.penalty * (ex * jx[j] + ey * jy[j])
            turn = (fx * jx[j] + fy * jy[j]) / distance[j]
            wx, wy = ex + mu * fx, ey + mu * fy
            residual -= force * (wx * jx[j] + wy * jy[j])
            dfx = force_slope * wx + force * turn * (fx - mu * ex)
            dfy = force_slope * wy + force * turn * (fy - mu * ey)
            slope -= np.outer(jx[j], dfx) + np.outer(jy[j], dfy)
            sum_x[j], sum_y[j] = force * wx, force * wy
            if j:
                # Friction acts on the upper face; its couple is shared by the two links.
                residual[j - 1 : j + 1] += mu * force * self.t / 4.0
                slope[j - 1 : j + 1] += mu * self.t / 4.0 * force_slope
        beyond_x = np.cumsum(sum_x[::-1])[::-1][1:]
        beyond_y = np.cumsum(sum_y[::-1])[::-1][1:]
        i = np.arange(n)
        slope[i, i] += self.links * (cos * beyond_x + sin * beyond_y)

    def _check(self, u: Array, travel: float) -> None:
        """Refuse a state whose links, between the joints, cut through the nose."""
        n = len(self.links)
        x, y = self.nodes(u)
        rx, ry = -x[:n], self.t + self.r_n - travel - y[:n]
        along = np.clip(rx * np.cos(u[:n]) + ry * np.sin(u[:n]), 0.0, self.links)
        nearest = np.hypot(rx - along * np.cos(u[:n]), ry - along * np.sin(u[:n])).min()
        if nearest < self.r_n + self.t / 2.0 - 0.01 * self.t or u[n + 1] < 0.0:
            raise ChainError(f"no equilibrium at a travel of {travel:.4f} mm (bar and nose cross)")

    def step(self, travel: float, guess: Array) -> None:
        """Move the nose to ``travel`` [mm] from ``guess``; the state is kept on success only."""
        n = len(self.links)
        u = guess
        scale = np.full(n + 2, self.section.stiffness * self.section.yield_curvature)
        scale[n + 1] = 1.0  # the gap, in mm
        residual, slope = self.equations(u, travel)
        size = np.abs(residual / scale).max()
        for _ in range(40):
            if size < 1e-8:
                self._check(u, travel)
                self.u = u
                self.largest = np.maximum(self.largest, self.curvature(u[:n]))
                return
            change = np.linalg.solve(slope, -residual)
            factor = min(1.0, 0.1 / np.abs(change[:n]).max())
            for _ in range(8):
                trial = u + factor * change
                new_residual, new_slope = self.equations(trial, travel)
                new_size = np.abs(new_residual / scale).max()
                if new_size < size:
                    break
                factor /= 2.0
            # Where no shorter step helps the contacts are changing over: take it all the same.
            size, u, residual, slope = new_size, trial, new_residual, new_slope
        raise ChainError(f"no equilibrium at a travel of {travel:.4f} mm (residual {size:.1e})")

    def advance(self, travel: float, last: float, older: tuple[float, Array] | None) -> None:
        """Step from ``last`` to ``travel``, halving where Newton does not settle."""
        start = self.u
        if older is not None and last > older[0]:
            guess = start + (start - older[1]) * (travel - last) / (last - older[0])
        else:
            guess = start
        try:
            self.step(travel, guess)
        except ChainError:
            if travel - last < 1e-3:
                raise
            half = (last + travel) / 2.0
            self.advance(half, last, None)
            self.advance(travel, half, None)

    def read(self) -> tuple[float, float, float]:
        """Force of the whole nose [N/mm], loaded and free total angle [rad]."""
        n = len(self.links)
        k, _ = self.shoulder_link(self.u)
        alpha, normal = self.u[k], self.u[n + 1]
        force = 2.0 * normal * (np.cos(alpha) + self.mu * np.sin(alpha))
        moment, _ = self.section.moment_after(self.curvature(self.u[:n]), self.largest)
        share = self.tributary.copy()
        share[0] /= 2.0
        back = (moment * share)[: k + 1].sum() / self.section.stiffness
        return float(force), float(2.0 * alpha), float(2.0 * (alpha - back))


@dataclass(frozen=True)
class ChainCurve:
    """Travel from touch [mm], force of the whole nose [N/mm], total angles [rad]."""

    travel: Array
    force: Array
    loaded_angle: Array
    free_angle: Array


def graded_links(length: float, first: float, count: int) -> Array:
    """``count`` lengths in geometric growth from ``first``, of the stated sum."""
    if first * count >= length:
        return np.full(count, length / count)
    low, high = 1.0 + 1e-12, 2.0
    for _ in range(100):
        ratio = (low + high) / 2.0
        if first * (ratio**count - 1.0) / (ratio - 1.0) < length:
            low = ratio
        else:
            high = ratio
    links: Array = first * np.power(ratio, np.arange(count))
    return links


def curve(
    t: float,
    opening: float,
    r_n: float,
    r_s: float,
    mu: float,
    modulus: float,
    poisson: float,
    law: HardeningLaw,
    w: float,
    travels: Array,
    *,
    count: int = 80,
    steps: int = 60,
    first: float = 0.06,
    penalty: float = PENALTY,
) -> ChainCurve:
    """Bend a bar of thickness ``t`` and return what a gauge and a protractor would read.

    ``travels`` [mm] rise from above zero; ``count`` links, the shortest ``first`` thicknesses
    long; about ``steps`` steps to the last travel.
    """
    section = FibreSection(t, modulus, poisson, law, w)
    last_travel = float(travels[-1])
    length = float(np.hypot(opening / 2.0, last_travel)) + max(t, 0.1 * opening)
    chain = Chain(
        section, t, opening, r_n, r_s, mu, graded_links(length, first * t, count), penalty
    )
    rows = []
    here, older = 0.0, None
    for travel in travels:
        pieces = max(1, int(np.ceil((travel - here) / (last_travel / steps))))
        for stop in np.linspace(here, travel, pieces + 1)[1:]:
            before = (here, chain.u)
            chain.advance(float(stop), here, older)
            here, older = float(stop), before
        rows.append(chain.read())
    table = np.array(rows)
    return ChainCurve(np.asarray(travels, dtype=float), table[:, 0], table[:, 1], table[:, 2])
