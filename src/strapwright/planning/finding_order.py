"""Findings in the order in which they are read."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from strapwright.findings import Finding, Severity


def sorted_findings(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """What forbids first, then what warns; one sentence for all bends that it is true of."""
    rank = {Severity.REFUSAL: 0, Severity.WARNING: 1, Severity.NOTE: 2}
    groups: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in sorted(findings, key=lambda f: rank[f.severity]):
        groups.setdefault((finding.code, finding.text, finding.remedy), []).append(finding)
    merged = []
    for group in groups.values():
        places = list(dict.fromkeys(f.where for f in group))
        bends = sorted(int(p.removeprefix("bend ")) for p in places if p.startswith("bend "))
        if len(bends) > 1 and len(bends) == len(places):
            listed = ", ".join(str(b) for b in bends[:-1])
            merged.append(evolve(group[0], where=f"bends {listed} and {bends[-1]}"))
        else:
            merged += [evolve(group[0], where=place) for place in places]
    return tuple(merged)
