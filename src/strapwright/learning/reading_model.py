"""What the readings would be for given values of what is learned, by the stroke solver."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import BendSetup, Floats
from strapwright.bending.kernel_sample import (
    DRAW_COLUMNS,
    FORCE_OUT,
    FREE_OUT,
    LOADED_OUT,
    STRENGTH,
    THICKNESS,
    UNLOADING,
    push_draws,
)
from strapwright.bending.learned_spread import ANGLE, BACK, FIGURES, FORCE, SCALE, TOUCH, ZERO
from strapwright.bending.solver_model import Effects, kernel_inputs, rule_for
from strapwright.learning.latent_values import Latent, matrix, weights
from strapwright.learning.log_readings import Reading
from strapwright.learning.log_spreads import LogSpreads

# Differences for the slopes: in spreads of a figure, and of the travel [mm]; numerical.
_STEP, _TRAVEL_STEP = 0.3, 0.05
_LEAST_GAUGE = 0.05  # MPa below which a gauge is read no better; numerical
_LOGARITHMS = (STRENGTH, THICKNESS, UNLOADING)
KINDS = ("free", "loaded", "gauge")


@frozen(kw_only=True)
class Observed:
    """Everything that was read, one row a figure.

    Attributes
    ----------
    reading
        Which reading, shape (n,).
    kind
        Which of ``KINDS``.
    value
        As read [rad] or [MPa].
    noise
        How well an angle is read [rad], or the smallest division of the gauge [MPa].
    """

    reading: tuple[int, ...]
    kind: tuple[str, ...]
    value: Floats
    noise: Floats


def observed(readings: Sequence[Reading], log: LogSpreads) -> Observed:
    """Gather what was read, with how well it was."""
    rows: list[tuple[int, str, float, float]] = []
    for i, one in enumerate(readings):
        if one.free is not None:
            # Of independent looks the mean (textbook: deviation of a mean).
            noise = log.protractor / (one.hits * math.sqrt(one.looks))
            rows.append((i, "free", one.free, noise))
        if one.loaded is not None:
            rows.append((i, "loaded", one.loaded, log.loaded))
        if one.gauge is not None and one.push.per_force is not None:
            rows.append((i, "gauge", one.gauge, one.gauge_step))
    return Observed(
        reading=tuple(row[0] for row in rows),
        kind=tuple(row[1] for row in rows),
        value=np.array([row[2] for row in rows]),
        noise=np.array([row[3] for row in rows]),
    )


def gauge_noise(gauge: float, step: float, log: LogSpreads) -> float:
    """Return how well a pressure is read, one deviation [MPa].

    Parameters
    ----------
    gauge, step
        The reading, and the smallest division of the gauge [MPa].
    log
        How well a person reads, and how pieces of a lot differ.
    """
    # A reading between two divisions is anywhere between them: an even distribution.
    between = step / math.sqrt(12.0)
    return math.hypot(log.gauge * gauge, log.piece * gauge, between)


class ReadingModel:
    """Readings as a function of what is learned.

    Parameters
    ----------
    readings
        Of the log.
    log
        How well a person reads.
    effects
        Effects beyond the thin bar that the solver takes.

    Attributes
    ----------
    latents
        What the readings can teach.
    """

    def __init__(self, readings: Sequence[Reading], log: LogSpreads, effects: Effects) -> None:
        self.readings = readings
        self.log = log
        self.effects = effects
        self.observed = observed(readings, log)
        # With the shop's own figures: how far each bends, which of them jam, where to begin.
        self._stated = self._solved([np.zeros(FIGURES)] * len(readings))
        turns = self._stated[:, 1, 0]
        moved = [
            weights(one.push, float(turn) if np.isfinite(turn) else 0.0, log)
            for one, turn in zip(readings, turns, strict=True)
        ]
        self.latents: tuple[Latent, ...] = tuple(dict.fromkeys(key for one in moved for key in one))
        self._move = [matrix(self.latents, one)[0] for one in moved]

    @property
    def reached(self) -> tuple[bool, ...]:
        """Which readings the solver reaches with the shop's own figures."""
        return tuple(bool(ok) for ok in np.isfinite(self._stated[:, 1, 0]))

    def at(self, z: Floats) -> tuple[Floats, Floats]:
        """Return what would be read and its slopes.

        Parameters
        ----------
        z
            Standard normal value of each latent, shape (p,).

        Returns
        -------
        read
            Shape (n,); NaN where the tooling jams before it.
        slopes
            Shape (n, p).
        """
        figures = [move @ z for move in self._move]
        solved = self._solved(figures) if np.any(z) else self._stated
        rows, slopes = [], []
        for i, kind in zip(self.observed.reading, self.observed.kind, strict=True):
            value, slope = _read(kind, self.readings[i], figures[i], solved[i])
            rows.append(value)
            slopes.append(slope @ self._move[i])
        return np.array(rows), np.array(slopes).reshape(len(rows), len(self.latents))

    def noise(self, read: Floats) -> Floats:
        """Return how well each figure is read where it would read so, shape (n,).

        The eye is off by a share of what the gauge shows.  Taken of what was read instead, a
        pressure read too low would count for more than one read too high, and every mean came out
        low.
        """
        seen = self.observed
        return np.array(
            [
                gauge_noise(max(float(shown), _LEAST_GAUGE), noise, self.log)
                if kind == "gauge"
                else noise
                for kind, shown, noise in zip(seen.kind, read, seen.noise, strict=True)
            ]
        )

    def _solved(self, figures: Sequence[Floats]) -> Floats:
        """Free angle, loaded angle and force of each reading with their slopes.

        Shape (readings, 3, 1 + 8): value, then slopes by the seven figures of the bend and by the
        first contact.
        """
        found = np.full((len(self.readings), 3, 2 + DRAW_COLUMNS), np.nan)
        groups: dict[tuple[BendSetup, tuple[float, ...]], list[int]] = {}
        for i, one in enumerate(self.readings):
            key = (one.push.setup, tuple(figures[i][:DRAW_COLUMNS]))
            groups.setdefault(key, []).append(i)
        for (setup, bar), members in groups.items():
            travels = np.array([self.readings[i].travel + figures[i][TOUCH] for i in members])
            steps = _steps(self.readings[members[0]])
            found[members] = self._pushed(setup, np.array(bar), steps, travels)
        return found

    def _pushed(self, setup: BendSetup, bar: Floats, steps: Floats, travels: Floats) -> Floats:
        inputs, rule = kernel_inputs(setup), rule_for(setup.flow, self.effects)
        draws = np.tile(bar, (1 + 2 * DRAW_COLUMNS, 1))
        for column in range(DRAW_COLUMNS):
            draws[1 + 2 * column, column] += steps[column]
            draws[2 + 2 * column, column] -= steps[column]
        draws[:, _LOGARITHMS] = np.exp(draws[:, _LOGARITHMS])

        def push(rows: Floats, at: Floats) -> Floats:
            answers, _ = push_draws(
                inputs,
                self.effects.switches,
                rule,
                draws=rows,
                travels=np.tile(np.maximum(at, 0.0), (len(rows), 1)),
                angle=0.0,
                guess=0.3,
            )
            kept: Floats = answers[:, :, (FREE_OUT, LOADED_OUT, FORCE_OUT)]
            return kept

        answers = push(draws, travels)
        near = push(draws[:1], np.concatenate([travels + _TRAVEL_STEP, travels - _TRAVEL_STEP]))[0]
        out = np.empty((len(travels), 3, 2 + DRAW_COLUMNS))
        out[:, :, 0] = answers[0]
        for column in range(DRAW_COLUMNS):
            rise = answers[1 + 2 * column] - answers[2 + 2 * column]
            step = 2.0 * steps[column]
            out[:, :, 1 + column] = rise / step if step > 0.0 else 0.0
        out[:, :, 1 + DRAW_COLUMNS] = (near[: len(travels)] - near[len(travels) :]) / (
            2.0 * _TRAVEL_STEP
        )
        # A slope past the jam is none; the value itself stays NaN there.
        out[:, :, 1:] = np.nan_to_num(out[:, :, 1:])
        return out


def _steps(reading: Reading) -> Floats:
    s = reading.push.spreads
    spreads = (s.strength, s.exponent, s.thickness, s.friction, s.unloading, s.opening, s.give)
    return _STEP * np.array(spreads)


def _read(kind: str, reading: Reading, figures: Floats, solved: Floats) -> tuple[float, Floats]:
    """Return one figure as read and its slopes by the figures of the bend."""
    slope = np.zeros(FIGURES)
    if kind == "gauge":
        per_force = reading.push.per_force or 0.0
        error, scale = 1.0 + figures[FORCE], 1.0 + figures[SCALE]
        pressure = per_force * solved[2, 0]
        slope[: TOUCH + 1] = per_force * error * scale * solved[2, 1:]
        slope[FORCE], slope[SCALE], slope[ZERO] = pressure * scale, pressure * error, 1.0
        return float(pressure * error * scale + reading.push.no_load + figures[ZERO]), slope
    row = 0 if kind == "free" else 1
    slope[: TOUCH + 1] = solved[row, 1:]
    slope[ANGLE] = 1.0
    value = solved[row, 0] + figures[ANGLE]
    if kind == "free":
        slope[BACK] = -1.0
        value -= figures[BACK]
    return float(value), slope
