"""Whole strokes of the referee: in, out, let go and in again."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from chain import PENALTY, Chain, ChainError, Reading
from chain_section import Array, FibreSection, HardeningLaw


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


def new_chain(
    t: float,
    opening: float,
    r_n: float,
    r_s: float,
    mu: float,
    section: FibreSection,
    last_travel: float,
    *,
    count: int = 80,
    first: float = 0.06,
    penalty: float = PENALTY,
    sticking: bool = True,
) -> Chain:
    """A flat bar at touch, long enough for the stroke: ``count`` links, the first ``first`` t."""
    length = float(np.hypot(opening / 2.0, last_travel)) + max(t, 0.1 * opening)
    links = graded_links(length, first * t, count)
    return Chain(section, t, opening, r_n, r_s, mu, links, penalty, sticking)


def push(chain: Chain, travels: Array, step: float) -> list[Reading]:
    """Drive the nose to each of the travels, in either direction, in steps of at most ``step``."""
    rows = []
    for travel in travels:
        here = chain.travel
        pieces = max(1, int(np.ceil(abs(travel - here) / step - 1e-9)))
        for stop in np.linspace(here, travel, pieces + 1)[1:]:
            chain.move(float(stop))
        rows.append(chain.read())
    return rows


def back_off(chain: Chain, share: float, steps: int = 40) -> list[Reading]:
    """Let the nose up until it pushes with ``share`` of its force; what is read on the way.

    The step follows the slope of the way so far, so that each takes off about as much force.
    """
    rows = [chain.read()]
    last = rows[0].force
    each = (1.0 - share) * last / steps
    move = 1e-4 * chain.t
    while rows[-1].force > share * last:
        before = rows[-1]
        try:
            chain.move(before.travel - move)
        except ChainError:
            move /= 4.0
            if move < 1e-7 * chain.t:
                raise
            continue
        rows.append(chain.read())
        fallen = max(before.force - rows[-1].force, 0.1 * each)
        move = min(2.0 * move, move * each / fallen)
    return rows


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
    sticking: bool = True,
) -> ChainCurve:
    """Bend a bar of thickness ``t`` and return what a gauge and a protractor would read.

    ``travels`` [mm] rise from above zero; about ``steps`` steps to the last travel.
    """
    section = FibreSection(t, modulus, poisson, law, w)
    last = float(travels[-1])
    chain = new_chain(
        t, opening, r_n, r_s, mu, section, last,
        count=count, first=first, penalty=penalty, sticking=sticking,
    )  # fmt: skip
    return as_curve(push(chain, travels, last / steps))


def as_curve(rows: list[Reading]) -> ChainCurve:
    """Readings as columns."""
    return ChainCurve(
        np.array([r.travel for r in rows]),
        np.array([r.force for r in rows]),
        np.array([r.loaded for r in rows]),
        np.array([r.free for r in rows]),
    )
