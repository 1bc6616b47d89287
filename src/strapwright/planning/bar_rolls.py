"""Bars turned about themselves between bends."""

from __future__ import annotations

import math

from strapwright.findings import (
    Angle,
    Finding,
    KeyAt,
    Severity,
)
from strapwright.midline.pose_values import End
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


def roll_words(roll: float, end_left: End = 1) -> str:
    """Say a turn of the bar about itself, e.g. ``roll 90 deg towards you``; empty for none.

    Parameters
    ----------
    roll
        Positive turns the top towards the viewer where end 1 is on the left [rad].
    end_left
        Which end points left; from behind, the same turn goes the other way.
    """
    degrees = math.degrees(roll)
    if abs(degrees) < 1e-6:
        return ""
    if abs(abs(degrees) - 180.0) < 1e-6:
        return "roll 180 deg, top face down"
    towards = (degrees > 0.0) == (end_left == 1)
    return f"roll {abs(degrees):.4g} deg {'towards' if towards else 'away from'} you"


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
