"""Regularised least squares on the stroke solver: what a log says of bar, press and tooling."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from attrs import field, frozen

from strapwright.bending.bend_values import Floats
from strapwright.bending.learned_spread import SCALE, LearnedSpread
from strapwright.bending.solver_model import FITTED, Effects
from strapwright.errors import SolverError
from strapwright.learning.latent_values import Latent, matrix, weights
from strapwright.learning.log_readings import Push, Reading
from strapwright.learning.log_spreads import USUAL_LOG, LogSpreads
from strapwright.learning.reading_model import ReadingModel

# Numerical: steps of Gauss and Newton, halvings of one that does not help, when they end.
_MOST_STEPS, _HALVINGS, _SETTLED = 12, 6, 1e-3
# Nothing is believed further from what the shop states than this many of its spreads, however far a
# reading lies off: one wrong figure must not carry a setting away (common practice, no source).
_FURTHEST = 4.0
# A reading further out than this many of its own spreads, foretold by all the others, is shown as
# one that the rest cannot explain: one in 1000 by chance; exact for a normal variable.
OUTLYING = 3.29


@frozen(kw_only=True)
class Outlier:
    """A figure that the other readings do not explain.

    Attributes
    ----------
    entry, kind
        Of which line of the log, and which figure of it.
    value, foretold, spread
        As read; as the others foretell it, with one standard deviation [rad] or [MPa].
    """

    entry: str
    kind: str
    value: float
    foretold: float
    spread: float


@frozen(kw_only=True, eq=False)
class Learned:
    """What the readings say.

    Attributes
    ----------
    latents
        What is learned, shape (p,).
    mean, covariance
        In spreads of the prior, shape (p,) and (p, p).
    moves
        How far each line of the log moved each of them, shape (p, lines); their sum is ``mean``.
    entries
        Lines of the log, in the order of ``moves``.
    not_reached
        Lines that the solver does not reach: it jams before; they teach nothing.
    outliers
        Figures that neither the others nor the prior explain; they are counted until a person
        leaves them out.
    evidence
        Logarithm of how well the prior explains the readings, but for what depends on the readings
        alone (Laplace's approximation) [-].
    """

    latents: tuple[Latent, ...]
    mean: Floats
    covariance: Floats
    moves: Floats
    entries: tuple[str, ...]
    log: LogSpreads
    not_reached: tuple[str, ...] = ()
    outliers: tuple[Outlier, ...] = field(default=())
    evidence: float = 0.0

    def spread(self, push: Push, loaded: float) -> LearnedSpread:
        """Return what is known now of a push.

        Parameters
        ----------
        loaded
            About how far it is bent under load [rad].
        """
        known, other = matrix(self.latents, weights(push, loaded, self.log))
        other[SCALE, SCALE] += self.log.piece**2
        root = _root(known @ self.covariance @ known.T + other)
        return LearnedSpread(
            mean=tuple(float(v) for v in known @ self.mean),
            root=tuple(tuple(float(v) for v in row) for row in root),
            readings=len(self.entries),
        )


def _root(covariance: Floats) -> Floats:
    """Return a matrix whose square is a covariance, the nearest to one that mixes nothing.

    That is the symmetric root of the correlations (textbook).  Before any reading each draw moves
    its own figure, as in the plan's sample, and with more readings the bands move no more than what
    is known does; another root would shuffle the draws with every reading.
    """
    deviation = np.sqrt(np.diag(covariance))
    size = np.where(deviation > 0.0, deviation, 1.0)
    values, vectors = np.linalg.eigh(covariance / np.outer(size, size))
    root: Floats = deviation[:, None] * ((vectors * np.sqrt(np.maximum(values, 0.0))) @ vectors.T)
    return root


def learn(
    readings: Sequence[Reading], log: LogSpreads = USUAL_LOG, effects: Effects = FITTED
) -> Learned:
    """Learn from readings by regularised least squares.

    With standard normal values z, readings y, what they would be f(z) and their noise R there, the
    z that makes |z|^2 + (y - f(z))' R^-1 (y - f(z)) least is found by Gauss and Newton, and the
    covariance is (1 + J' R^-1 J)^-1 there (textbook: Bayesian linear regression about the best
    point).
    Pushes on one piece share its first contact, so it is their differences that teach.

    Parameters
    ----------
    readings
        Those that count.
    log
        How well a person reads.
    effects
        Effects beyond the thin bar that the solver takes.

    Raises
    ------
    SolverError
        Where no step makes the sum of squares less, which means a fault of ours.
    """
    return _learned(tuple(readings), log, effects)


@lru_cache(maxsize=64)
def _learned(readings: tuple[Reading, ...], log: LogSpreads, effects: Effects) -> Learned:
    """Learn from readings; remembered, since one screen at the press asks several times over."""
    model = ReadingModel(readings, log, effects)
    used, not_reached = _parted(model)
    if not used:
        return Learned(
            latents=(),
            mean=np.zeros(0),
            covariance=np.zeros((0, 0)),
            moves=np.zeros((0, 0)),
            entries=(),
            log=log,
            not_reached=not_reached,
        )
    if not_reached:
        model = ReadingModel(used, log, effects)
    y = model.observed.value
    z, read, slopes = _best(model)
    noise = model.noise(read)
    scaled = slopes / noise[:, None]
    covariance = np.asarray(np.linalg.inv(np.eye(len(z)) + scaled.T @ scaled), dtype=np.float64)
    # What the readings said beyond the prior, had the model been straight there.
    beyond = y - read + slopes @ z
    gain = covariance @ (slopes / noise[:, None] ** 2).T
    entries = tuple(dict.fromkeys(one.entry for one in used))
    moves = np.zeros((len(z), len(entries)))
    for row, i in enumerate(model.observed.reading):
        moves[:, entries.index(used[i].entry)] += gain[:, row] * beyond[row]
    for one in (z, covariance, moves):
        one.setflags(write=False)  # whoever asks for the same readings is given the same arrays
    return Learned(
        latents=model.latents,
        mean=z,
        covariance=covariance,
        moves=moves,
        entries=entries,
        log=log,
        not_reached=not_reached,
        outliers=_outliers(model, beyond, read, slopes),
        evidence=-0.5
        * float(
            z @ z
            + np.sum(((y - read) / noise) ** 2)
            + np.linalg.slogdet(np.eye(len(z)) + scaled.T @ scaled)[1]
        )
        - float(np.sum(np.log(noise))),
    )


def reachable(
    readings: Sequence[Reading], log: LogSpreads, effects: Effects
) -> tuple[tuple[Reading, ...], tuple[str, ...]]:
    """Part the readings that the solver reaches from the lines that it does not."""
    return _parted(ReadingModel(readings, log, effects))


def _parted(model: ReadingModel) -> tuple[tuple[Reading, ...], tuple[str, ...]]:
    both = list(zip(model.readings, model.reached, strict=True))
    return tuple(one for one, ok in both if ok), tuple(one.entry for one, ok in both if not ok)


def _best(model: ReadingModel) -> tuple[Floats, Floats, Floats]:
    """Return the best point, what would be read there, and the slopes there."""
    y = model.observed.value

    def misfit(z: Floats, read: Floats) -> float:
        sum_of_squares = float(z @ z + np.sum(((y - read) / noise) ** 2))
        return sum_of_squares if np.isfinite(sum_of_squares) else np.inf

    z = np.zeros(len(model.latents))
    read, slopes = model.at(z)
    noise = model.noise(read)
    for _ in range(_MOST_STEPS):
        now = misfit(z, read)
        scaled = slopes / noise[:, None]
        right = scaled.T @ ((y - read + slopes @ z) / noise)
        full = np.linalg.solve(np.eye(len(z)) + scaled.T @ scaled, right)
        step = np.clip(full, -_FURTHEST, _FURTHEST) - z
        if np.max(np.abs(step), initial=0.0) < _SETTLED:
            return z, read, slopes
        for _ in range(_HALVINGS):
            there, along = model.at(z + step)
            then = misfit(z + step, there)
            if then <= now:
                break
            step = 0.5 * step
        else:
            # Nothing along the way is better: as good as the slopes can tell.
            return z, read, slopes
        z, read, slopes = z + step, there, along
        noise = model.noise(read)
    if not np.isfinite(misfit(z, read)):
        raise SolverError("learning from the log found no answer")
    return z, read, slopes


def _outliers(
    model: ReadingModel, beyond: Floats, read: Floats, slopes: Floats
) -> tuple[Outlier, ...]:
    """Figures that the prior and all the others foretell otherwise, each left out once.

    The worst is set aside before the rest are judged again: one slip makes sound ones look wrong.
    """
    noise, seen = model.noise(read), model.observed
    whole = slopes @ slopes.T + np.diag(noise**2)
    left = list(range(len(beyond)))
    found = []
    while left:
        inverse = np.linalg.inv(whole[np.ix_(left, left)])
        spread = 1.0 / np.sqrt(np.diag(inverse))
        off = (inverse @ beyond[left]) * spread**2
        worst = int(np.argmax(np.abs(off) / spread))
        if abs(off[worst]) <= OUTLYING * spread[worst]:
            break
        i = left.pop(worst)
        found.append(
            Outlier(
                entry=model.readings[seen.reading[i]].entry,
                kind=seen.kind[i],
                value=float(seen.value[i]),
                foretold=float(seen.value[i] - off[worst]),
                spread=float(spread[worst]),
            )
        )
    return tuple(found)
