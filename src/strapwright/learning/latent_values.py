"""What is not known and is learned: each a standard normal value with a name and a spread.

A lot has strength, hardening, thickness and unloading modulus; a tooling friction, effective
opening and first contact; a press its give, its gauge against the true force and the gauge's zero;
each mounting of a tooling and each piece its own part of the first contact; each shape of bend the
solver's own error, in part even and in part smooth along the turn of the bar.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np
from attrs import frozen

from strapwright.bending.bend_band import NINETY
from strapwright.bending.bend_values import BendSetup, Floats
from strapwright.bending.learned_spread import (
    ANGLE,
    BACK,
    FIGURES,
    FORCE,
    SCALE,
    TOUCH,
    ZERO,
)
from strapwright.bending.model_error import model_error
from strapwright.learning.log_readings import Push
from strapwright.learning.log_spreads import LogSpreads

Owner = Literal["lot", "tooling", "press", "mounting", "part", "shape"]

# Figure of a bend -> whose it is, by its place in a learned spread.
_OWNERS: tuple[Owner, ...] = (
    "lot",
    "lot",
    "lot",
    "tooling",
    "lot",
    "tooling",
    "press",
    "tooling",
    "shape",
    "shape",
    "shape",
    "press",
    "press",
)


@frozen(kw_only=True)
class Latent:
    """One value that is learned.

    Attributes
    ----------
    owner, key
        Whose it is.
    figure
        Its place in a learned spread.
    knot
        Of the solver's own error, which of its values along the turn; else 0.
    """

    owner: Owner
    key: str
    figure: int
    knot: int = 0


def shape_key(setup: BendSetup, way: str = "") -> str:
    """Name that tells one shape of bend from another."""
    figures = (
        setup.thickness,
        setup.width,
        setup.opening,
        setup.nose_radius,
        setup.shoulder_radius,
    )
    return f"{setup.section} " + " ".join(f"{value:.4g}" for value in figures) + way


def weights(push: Push, loaded: float, log: LogSpreads) -> dict[Latent, tuple[int, float]]:
    """Return what moves the figures of a push -> the figure and how much a unit moves it.

    Parameters
    ----------
    loaded
        Angle under load, about; the solver's own error depends on it [rad].
    log
        How well a person reads.
    """
    setup, s, at = push.setup, push.spreads, push.places
    keys: dict[Owner, str] = {
        "lot": at.lot,
        "press": at.press,
        "tooling": at.tooling,
        "mounting": f"{at.tooling} {at.mounting}",
        "part": f"{at.tooling} {at.mounting} {at.part}",
        "shape": shape_key(setup, push.way),
    }
    touch = s.touch * math.sqrt(log.kept)
    plain = {
        0: s.strength,
        1: s.exponent,
        2: s.thickness,
        3: s.friction,
        4: s.unloading,
        5: s.opening,
        6: s.give,
        TOUCH: touch,
        SCALE: s.reading,
        ZERO: log.gauge_zero,
    }
    found = {
        Latent(owner=_OWNERS[figure], key=keys[_OWNERS[figure]], figure=figure): (figure, spread)
        for figure, spread in plain.items()
    }
    new = s.touch * math.sqrt(1.0 - log.kept)
    found[Latent(owner="mounting", key=keys["mounting"], figure=TOUCH)] = (TOUCH, new)
    found[Latent(owner="part", key=keys["part"], figure=TOUCH)] = (TOUCH, log.stop)
    error = model_error(setup, loaded)
    for figure, spread, law in (
        (FORCE, math.hypot(error.force / NINETY, push.more_force), log.force_error),
        (ANGLE, error.angle / NINETY, log.angle_error),
        (BACK, error.springback / NINETY, log.angle_error),
    ):
        for knot, share in law.weights(loaded).items():
            latent = Latent(owner="shape", key=keys["shape"], figure=figure, knot=knot)
            found[latent] = (figure, spread * share)
    return found


def matrix(
    latents: Sequence[Latent], moved: dict[Latent, tuple[int, float]]
) -> tuple[Floats, Floats]:
    """Return how the known latents move the figures, shape (13, p), and what the others add.

    The second is the covariance of the figures by what no reading has touched, shape (13, 13).
    """
    place = {latent: i for i, latent in enumerate(latents)}
    known = np.zeros((FIGURES, len(latents)))
    other = np.zeros((FIGURES, FIGURES))
    for latent, (figure, weight) in moved.items():
        if latent in place:
            known[figure, place[latent]] += weight
        else:
            other[figure, figure] += weight * weight
    return known, other
