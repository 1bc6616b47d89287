"""Each figure that is learned: before, now, and which lines of the log moved it."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.bend_band import NINETY
from strapwright.bending.bend_values import Band
from strapwright.learning.latent_values import Latent, Owner, weights
from strapwright.learning.learn import Learned
from strapwright.learning.log_readings import Push

# Moves smaller than this, in spreads of the prior, are not worth telling (a choice of ours).
_LEAST_MOVE = 0.1


@frozen(kw_only=True)
class LearnedFigure:
    """One figure, against what the shop states: added, or a logarithm of a factor.

    Attributes
    ----------
    owner
        ``lot``, ``press`` or ``tooling``.
    figure
        Its place in a learned spread.
    before, now
        Nine-in-ten bands.
    value
        The likeliest now.
    moved
        Lines of the log with how far each moved it, the one that moved it most first.
    """

    owner: Owner
    figure: int
    before: Band
    now: Band
    value: float
    moved: tuple[tuple[str, float], ...]


def learned_figures(learned: Learned, push: Push, loaded: float) -> tuple[LearnedFigure, ...]:
    """Return the figures of a job's lot, press and tooling that readings could have moved.

    Parameters
    ----------
    learned
        From the log.
    push
        A bend of the job.
    loaded
        About how far it is bent under load [rad].
    """
    place = {latent: i for i, latent in enumerate(learned.latents)}
    found = []
    for latent, (figure, spread) in weights(push, loaded, learned.log).items():
        if latent not in place or not _told(latent, spread):
            continue
        i = place[latent]
        half = NINETY * float(learned.covariance[i, i]) ** 0.5 * spread
        value = float(learned.mean[i]) * spread
        moves = [float(move) for move in learned.moves[i]]
        order = sorted(zip(learned.entries, moves, strict=True), key=_size, reverse=True)
        found.append(
            LearnedFigure(
                owner=latent.owner,
                figure=figure,
                before=Band(low=-NINETY * spread, high=NINETY * spread),
                now=Band(low=value - half, high=value + half),
                value=value,
                moved=tuple(
                    (entry, move * spread) for entry, move in order if abs(move) > _LEAST_MOVE
                ),
            )
        )
    return tuple(sorted(found, key=lambda one: (one.owner, one.figure)))


def _size(moved: tuple[str, float]) -> float:
    return abs(moved[1])


def _told(latent: Latent, spread: float) -> bool:
    """Whether it is a figure of a thing that stays; the solver's own error is none."""
    return spread > 0.0 and latent.owner in ("lot", "press", "tooling")
