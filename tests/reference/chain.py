"""An independent referee for the stroke solver: half a bar as a chain of rigid links.

Nothing of the quadrature solver is used or repeated here.  The bar is a chain of rigid links
joined by rotational springs; a spring's moment comes from fibres that keep their own plastic
history (:mod:`chain_section`).  The nose is a circle that the joints may not enter (penalty), the
shoulder a circle that the mid-line touches from above (exact, one multiplier), both seen at half
the bar's thickness.  The nose is driven down and up again in small steps and each step is solved
by Newton on the equations of virtual work.  The free bend is what the sections keep.

Coulomb friction acts on the bar's faces and follows their slip on the tooling, up to its limit, in
either direction: so it finds by itself where the bar is drawn in, and turns round as the ram goes
out and the bar slides back.  Without ``sticking`` it is all there on the way in, outwards on the
shoulder and under the nose, whatever the slip: the usual assumption, to see what it costs.

It is thin-beam theory and nothing else: no shear, no dents, no thinning, plane sections.

Symmetry: the origin is on the middle line at the height of the shoulder tops, y up, and link
``i`` has the slope ``theta[i]``.  mm, N, MPa, rad; forces per mm of width.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from chain_section import Array, FibreSection, Memory

PENALTY = 1.0e6  # N/mm per mm: the tip of the nose sinks in by under a micrometre per N/mm
# N/mm per mm of slip: friction is all there after a few tenths of a micrometre on the shoulder, and
# after some micrometres on the nose, where stiffer joints would chatter.
SHOULDER_GRIP, NOSE_GRIP = 1.0e5, 1.0e4


class ChainError(Exception):
    """Newton did not settle: the referee has no answer, and says so."""


@dataclass(frozen=True)
class Slip:
    """Where the faces stood on the tooling and what friction was there, one entry a contact."""

    place: Array
    friction: Array
    touching: Array


@dataclass(frozen=True)
class Step:
    """The equations at one state, and what is kept if it is the answer."""

    residual: Array
    slope: Array
    memory: Memory
    shoulder: Slip
    nose: Slip
    nose_force: Array  # x and y on the bar, summed over its half


@dataclass(frozen=True)
class Reading:
    """What gauge and protractor would show; force [N/mm], total angles [rad], travel [mm].

    ``work`` [N] is what the sections of both halves have taken up; ``slip`` [mm] how far the lower
    face has passed inwards over the shoulder and ``friction`` what pulls on it, over its limit,
    positive outwards.
    """

    travel: float
    force: float
    loaded: float
    free: float
    work: float
    slip: float
    friction: float


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
    sticking: bool = True
    travel: float = 0.0
    u: Array = field(init=False)
    memory: Memory = field(init=False)
    shoulder: Slip = field(init=False)
    nose: Slip = field(init=False)
    work: float = field(init=False, default=0.0)
    moment: Array = field(init=False)
    _before: tuple[float, Array] | None = field(init=False, default=None)

    def __post_init__(self) -> None:
        n = len(self.links)
        self.u = np.zeros(n + 2)
        self.u[n] = self.t / 2.0
        self.moment = np.zeros(n)
        self.memory = self.section.fresh(n)
        # The joint in the middle has half a link on either side, but only one side is modelled.
        self.tributary = np.concatenate(
            [self.links[:1], (self.links[1:] + self.links[:-1]) / 2.0],
        )
        self.share = self.tributary.copy()
        self.share[0] /= 2.0
        k, s = self.shoulder_link(self.u)
        place = np.array([self.links[:k].sum() + s])
        self.shoulder = Slip(place, np.zeros(1), np.ones(1, dtype=bool))
        self.nose = Slip(np.zeros(n + 1), np.zeros(n + 1), np.zeros(n + 1, dtype=bool))

    def curvature(self, theta: Array) -> Array:
        """Curvature at each joint."""
        bent: Array = np.diff(theta, prepend=-theta[0]) / self.tributary
        return bent

    def nodes(self, u: Array) -> tuple[Array, Array]:
        """Where the joints are."""
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

    def equations(self, u: Array, travel: float, *, inwards: bool) -> Step:
        """Residual of virtual work with the shoulder's gap, and its derivative."""
        n = len(self.links)
        residual = np.zeros(n + 2)
        slope = np.zeros((n + 2, n + 2))
        moment, stiff, memory = self.section.respond(self.curvature(u[:n]), self.memory)
        residual[:n] += moment
        residual[: n - 1] -= moment[1:]
        spring = stiff / self.tributary
        diagonal = spring.copy()
        diagonal[0] = 2.0 * spring[0]
        diagonal[:-1] += spring[1:]
        i = np.arange(n)
        slope[i, i] += diagonal
        slope[i[1:], i[:-1]] -= spring[1:]
        slope[i[:-1], i[1:]] -= spring[1:]

        below = np.tri(n + 1, n, -1)
        jx = np.zeros((n + 1, n + 2))
        jy = np.zeros((n + 1, n + 2))
        jx[:, :n] = -below * (self.links * np.sin(u[:n]))
        jy[:, :n] = below * (self.links * np.cos(u[:n]))
        jy[:, n] = 1.0
        full = inwards and not self.sticking
        nose, force = self._nose(u, travel, (jx, jy), residual, slope, full=full)
        shoulder = self._shoulder(u, (jx, jy), residual, slope, full=full)
        return Step(residual, slope, memory, shoulder, nose, force)

    def _shoulder(
        self, u: Array, moves: tuple[Array, Array], residual: Array, slope: Array, *, full: bool
    ) -> Slip:
        """Gap along the normal of the link that lies on the shoulder, and friction below it."""
        jx, jy = moves
        n = len(self.links)
        normal = u[n + 1]
        x, y = self.nodes(u)
        k, s = self.shoulder_link(u)
        cos, sin = np.cos(u[k]), np.sin(u[k])
        reach = self.r_s + self.t / 2.0
        gap = -(x[k] - self.opening / 2.0) * sin + (y[k] + self.r_s) * cos - reach
        gap_slope = -jx[k] * sin + jy[k] * cos
        along = jx[k] * cos + jy[k] * sin
        push = gap_slope.copy()
        push[k] += s
        drag = along.copy()
        drag[k] += self.t / 2.0  # friction acts on the lower face
        # How much metal has passed the point of contact, which itself rolls round the shoulder.
        place = self.links[:k].sum() + s + self.r_s * u[k]
        passed = -along
        passed[k] -= gap + self.t / 2.0
        limit = self.mu * normal
        friction = limit
        by_normal, by_place = self.mu, 0.0
        if not full:
            trial = self.shoulder.friction[0] + SHOULDER_GRIP * (place - self.shoulder.place[0])
            if abs(trial) < limit:
                friction, by_normal, by_place = trial, 0.0, SHOULDER_GRIP
            else:
                friction, by_normal = np.sign(trial) * limit, np.sign(trial) * self.mu
        residual -= normal * push + friction * drag
        slope[:, n + 1] -= push + by_normal * drag
        if by_place:
            slope -= by_place * np.outer(drag, passed)
        slope[:, k] -= -normal * along + friction * gap_slope
        lever = -along
        lever[k] -= gap + reach
        slope[k] -= normal * lever
        before = np.arange(k)
        turned = np.cos(u[:k]) * sin - np.sin(u[:k]) * cos  # -(tau_i . n_k)
        together = -(np.cos(u[:k]) * cos + np.sin(u[:k]) * sin)
        slope[before, before] -= self.links[:k] * (normal * turned + friction * together)
        residual[n + 1] = gap
        slope[n + 1] = push
        return Slip(np.array([place]), np.array([friction]), np.ones(1, dtype=bool))

    def _nose(
        self,
        u: Array,
        travel: float,
        moves: tuple[Array, Array],
        residual: Array,
        slope: Array,
        *,
        full: bool,
    ) -> tuple[Slip, Array]:
        jx, jy = moves
        n = len(self.links)
        x, y = self.nodes(u)
        rx, ry = x, y - (self.t + self.r_n - travel)
        distance = np.hypot(rx, ry)
        depth = self.r_n + self.t / 2.0 - distance
        touching = depth > 0.0
        # The upper face at a joint, against the nose: it goes round with the joint and turns.
        mean = np.zeros(n + 1)
        mean[1:n] = (u[: n - 1] + u[1:n]) / 2.0
        place = (self.r_n + self.t / 2.0) * np.arctan2(rx, -ry) - self.t / 2.0 * mean
        friction = np.zeros(n + 1)
        sum_x, sum_y = np.zeros(n + 1), np.zeros(n + 1)
        for j in np.flatnonzero(touching):
            ex, ey = rx[j] / distance[j], ry[j] / distance[j]
            fx, fy = -ey, ex  # outwards along the nose
            force = self.penalty * depth[j]
            by_depth = -self.penalty * (ex * jx[j] + ey * jy[j])
            turn = (fx * jx[j] + fy * jy[j]) / distance[j]
            drag = np.zeros(n + 2)
            by_slip = np.zeros(n + 2)
            if j:  # in the middle the two halves' friction cancels
                limit, by_limit = self.mu * force, self.mu * by_depth
                start = self.nose.friction[j] if self.nose.touching[j] else 0.0
                since = self.nose.place[j] if self.nose.touching[j] else place[j]
                trial = start - NOSE_GRIP * (place[j] - since)
                if full or abs(trial) >= limit:
                    sign = 1.0 if full else np.sign(trial)
                    friction[j], by_slip = sign * limit, sign * by_limit
                elif self.nose.touching[j]:
                    friction[j] = trial
                    by_slip = -NOSE_GRIP * (self.r_n + self.t / 2.0) * turn
                    by_slip[j - 1 : j + 1] += NOSE_GRIP * self.t / 4.0
                # Friction acts on the upper face; its couple is shared by the two links.
                residual[j - 1 : j + 1] += friction[j] * self.t / 4.0
                slope[j - 1 : j + 1] += self.t / 4.0 * by_slip
                drag = fx * jx[j] + fy * jy[j]
            residual -= force * (ex * jx[j] + ey * jy[j]) + friction[j] * drag
            dfx = by_depth * ex + by_slip * fx + turn * (force * fx - friction[j] * ex)
            dfy = by_depth * ey + by_slip * fy + turn * (force * fy - friction[j] * ey)
            slope -= np.outer(jx[j], dfx) + np.outer(jy[j], dfy)
            sum_x[j] = force * ex + friction[j] * fx
            sum_y[j] = force * ey + friction[j] * fy
        beyond_x = np.cumsum(sum_x[::-1])[::-1][1:]
        beyond_y = np.cumsum(sum_y[::-1])[::-1][1:]
        i = np.arange(n)
        slope[i, i] += self.links * (np.cos(u[:n]) * beyond_x + np.sin(u[:n]) * beyond_y)
        return Slip(place, friction, touching), np.array([sum_x.sum(), sum_y.sum()])

    def _check(self, u: Array, travel: float) -> None:
        """Refuse a state whose links, between the joints, cut through the nose."""
        n = len(self.links)
        x, y = self.nodes(u)
        rx, ry = -x[:n], self.t + self.r_n - travel - y[:n]
        along = np.clip(rx * np.cos(u[:n]) + ry * np.sin(u[:n]), 0.0, self.links)
        nearest = np.hypot(rx - along * np.cos(u[:n]), ry - along * np.sin(u[:n])).min()
        if nearest < self.r_n + self.t / 2.0 - 0.01 * self.t or u[n + 1] < 0.0:
            raise ChainError(f"no equilibrium at a travel of {travel:.4f} mm (bar and nose cross)")

    def _step(self, travel: float, guess: Array) -> None:
        """Move the nose to ``travel`` [mm] from ``guess``; the state is kept on success only."""
        n = len(self.links)
        inwards = travel > self.travel
        u = guess
        scale = np.full(n + 2, self.section.stiffness * self.section.yield_curvature)
        scale[n + 1] = 1.0  # the gap, in mm
        at = self.equations(u, travel, inwards=inwards)
        size = np.abs(at.residual / scale).max()
        for _ in range(40):
            if size < 1e-8:
                self._check(u, travel)
                self._keep(u, travel, at)
                return
            change = np.linalg.solve(at.slope, -at.residual)
            factor = min(1.0, 0.1 / np.abs(change[:n]).max())
            for _ in range(8):
                trial = u + factor * change
                new = self.equations(trial, travel, inwards=inwards)
                new_size = np.abs(new.residual / scale).max()
                if new_size < size:
                    break
                factor /= 2.0
            # Where no shorter step helps the contacts are changing over: take it all the same.
            size, u, at = new_size, trial, new
        raise ChainError(f"no equilibrium at a travel of {travel:.4f} mm (residual {size:.1e})")

    def _keep(self, u: Array, travel: float, at: Step) -> None:
        n = len(self.links)
        turned = (self.curvature(u[:n]) - self.curvature(self.u[:n])) * self.share
        moment, _, _ = self.section.respond(self.curvature(u[:n]), self.memory)
        self.work += float((moment + self.moment) @ turned)  # mean moment, both halves
        self._before = (self.travel, self.u)
        self.u, self.travel, self.moment = u, travel, moment
        self.memory, self.shoulder, self.nose = at.memory, at.shoulder, at.nose

    def move(self, travel: float) -> None:
        """Bring the nose to ``travel`` in one step, or in halves where Newton does not settle."""
        here, u, before = self.travel, self.u, self._before
        guess = u
        if before is not None and (travel - here) * (here - before[0]) > 0.0:
            guess = u + (u - before[1]) * (travel - here) / (here - before[0])
        try:
            self._step(travel, guess)
        except ChainError:
            if abs(travel - here) < 1e-3:
                raise
            self._before = None
            self.move((here + travel) / 2.0)
            self.move(travel)

    def let_go(self) -> Array:
        """Curvature that each joint keeps once nothing holds the bar [1/mm]."""
        return self.section.let_go(self.curvature(self.u[: len(self.links)]), self.memory)

    def read(self) -> Reading:
        """What there is to read at this position, and after letting go of it."""
        n = len(self.links)
        k, _ = self.shoulder_link(self.u)
        alpha, normal = self.u[k], self.u[n + 1]
        friction = float(self.shoulder.friction[0])
        force = 2.0 * (normal * np.cos(alpha) + friction * np.sin(alpha))
        limit = self.mu * normal
        return Reading(
            travel=self.travel,
            force=float(force),
            loaded=float(2.0 * alpha),
            free=float(2.0 * self.let_go() @ self.share),
            work=self.work,
            slip=float(self.shoulder.place[0]),
            friction=friction / limit if limit > 0.0 else 0.0,
        )
