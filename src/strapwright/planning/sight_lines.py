"""Sight lines that fall beyond the end of the blank."""

from __future__ import annotations

from strapwright.blank.blank_values import Blank
from strapwright.findings import (
    BendAt,
    Count,
    Finding,
    Length,
    Name,
    Severity,
)


def sight_findings(blank: Blank) -> list[Finding]:
    """Say where the end of the bar itself is what can be seen against the tooling."""
    findings = []
    for mark in blank.marks:
        if blank.carries_sight(mark):
            continue
        end = 2 if mark.sight > blank.length else 1
        inside = mark.sight - blank.length if end == 2 else -mark.sight
        findings.append(
            Finding(
                code="sight-off-blank",
                severity=Severity.NOTE,
                about=(BendAt(mark.bend),),
                facts={"mark": Name(mark.label), "end": Count(end), "inside": Length(inside)},
            )
        )
    return findings
