"""Findings of a job's order: coming off, and what of the surroundings was assumed."""

from __future__ import annotations

from strapwright.findings import BendAt, Finding, KeyAt, Severity
from strapwright.ordering.order_results import FreeingResult
from strapwright.planning.surrounding_pieces import Surroundings


def off_findings(bend: int, off: FreeingResult) -> list[Finding]:
    """Warn where a part does not surely come off after a 1-based bend."""
    about = (BendAt(bend),)
    if off.verdict == "TOO CLOSE":
        return [Finding(code="coming-off-too-close", severity=Severity.WARNING, about=about)]
    if off.drawn_frees:
        return [Finding(code="draw-the-nose", severity=Severity.WARNING, about=about)]
    return []


def assumed_findings(around: Surroundings) -> list[Finding]:
    """Say what of the surroundings was assumed."""
    if not around.assumed:
        return []
    return [
        Finding(
            code="surroundings-assumed",
            severity=Severity.NOTE,
            about=(KeyAt("tooling"),),
            facts={"assumed": tuple(around.assumed)},
        )
    ]
