"""Findings of a job's order: coming off, and what of the surroundings was assumed."""

from __future__ import annotations

from strapwright.findings import Finding, Severity
from strapwright.ordering.order_results import FreeingResult
from strapwright.planning.order_words import assumed
from strapwright.planning.surrounding_pieces import Surroundings


def off_findings(bend: int, off: FreeingResult, *, drawable: bool) -> list[Finding]:
    """Warn where a part does not surely come off after a 1-based bend."""
    where = f"bend {bend}"
    if off.verdict == "TOO CLOSE":
        return [
            Finding(
                code="coming-off-too-close",
                severity=Severity.WARNING,
                where=where,
                text="Whether the part comes off the nose after this bend is too close to call; it "
                "is not proven.",
                remedy="Try it with a bare strip first, or use a nose that can be drawn out.",
            )
        ]
    if off.verdict == "TRAPPED" and drawable:
        return [
            Finding(
                code="draw-the-nose",
                severity=Severity.WARNING,
                where=where,
                text="The part is locked on the nose after this bend and comes off only when the "
                "nose is drawn out endways.",
                remedy="Let off the pressure fully before you draw the nose.",
            )
        ]
    return []


def assumed_findings(around: Surroundings) -> list[Finding]:
    """Say what of the surroundings was assumed."""
    if not around.assumed:
        return []
    text, remedy = assumed(around.assumed)
    return [
        Finding(
            code="surroundings-assumed",
            severity=Severity.NOTE,
            where="tooling",
            text=text,
            remedy=remedy,
        )
    ]
