"""Sight lines that fall beyond the end of the blank."""

from __future__ import annotations

from strapwright.blank.blank_values import Blank
from strapwright.findings import Finding, Severity, spoken


def sight_findings(blank: Blank) -> list[Finding]:
    """Say where the end of the bar itself is what can be seen against the tooling."""
    findings = []
    for mark in blank.marks:
        if blank.carries_sight(mark):
            continue
        end = 2 if mark.sight > blank.length else 1
        inside = mark.sight - blank.length if end == 2 else -mark.sight
        findings.append(
            spoken(
                code="sight-off-blank",
                severity=Severity.NOTE,
                where=f"bend {mark.bend}",
                text=f"Mark {mark.label} has no sight line: end {end} of the bar lies within the "
                "outer edge of the shoulders.",
                remedy=f"Set end {end} {inside:.1f} mm ({inside / 25.4:.3f} in) inside that edge, "
                "and look that the nose comes down on its mark.",
            )
        )
    return findings
