"""Bars turned about themselves between bends."""

from __future__ import annotations

import math

from strapwright.findings import (
    Angle,
    Finding,
    KeyAt,
    Severity,
)
from strapwright.shop.part import Part


def turned(part: Part) -> tuple[float, ...]:
    """How far the bar is turned from the drawn face for each bend, shape (bends,) [rad].

    The sum of all rolls before it, within half a turn.
    """
    found = []
    total = 0.0
    for bend in range(len(part.bends)):
        total = math.remainder(total + part.roll_before(bend), 2.0 * math.pi)
        found.append(total)
    return tuple(found)


def roll_findings(part: Part) -> list[Finding]:
    """Say which way to roll, and what is not proven of a part out of one plane."""
    if not part.rolls:
        return []
    return [
        Finding(
            code="out-of-plane",
            severity=Severity.WARNING,
            about=(KeyAt("part.shape"),),
            facts={"turned": tuple(Angle(turn) for turn in turned(part))},
        )
    ]
