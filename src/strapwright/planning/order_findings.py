"""Findings of a job's order: coming off, and what of the surroundings was assumed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from strapwright.findings import BendAt, Choice, Count, Finding, KeyAt, Severity, Yes
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.refusal_values import Refusal
from strapwright.planning.surroundings.surrounding_pieces import Surroundings

UNDECIDED = frozenset({"coming-off-too-close", "coming-off-no-time", "laying-in-not-proven"})
"""Of these the plan does not say yes or no, so that it must not pass for one that holds."""


def off_findings(bend: int, off: FreeingResult) -> list[Finding]:
    """Warn where a part does not surely come off after a 1-based bend."""
    about = (BendAt(bend),)
    if off.verdict == "TOO CLOSE":
        return [Finding(code="coming-off-too-close", severity=Severity.WARNING, about=about)]
    if off.verdict == "NO TIME":
        return [Finding(code="coming-off-no-time", severity=Severity.WARNING, about=about)]
    if off.drawn_frees:
        return [Finding(code="draw-the-nose", severity=Severity.WARNING, about=about)]
    return []


def into_findings(bend: int, into: FreeingResult) -> list[Finding]:
    """Warn where the bar cannot surely be laid in for a 1-based bend."""
    if into.verdict not in ("TOO CLOSE", "NO TIME"):
        return []
    return [
        Finding(
            code="laying-in-not-proven",
            severity=Severity.WARNING,
            about=(BendAt(bend),),
            facts={"why": Choice("too close" if into.verdict == "TOO CLOSE" else "no time")},
        )
    ]


def undecided(findings: Iterable[Finding]) -> bool:
    """Whether a plan leaves open that the part comes off, or that the bar goes in, after a look."""
    return any(
        one.code in UNDECIDED
        or (one.code == "order-not-searched" and one.one(Choice, "why").value == "no time")
        for one in findings
    )


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


def no_order(refusals: Sequence[Refusal], *, closes: bool, proven: bool) -> Finding:
    """Say that no order makes the part, and why each bend cannot be the last one."""
    return Finding(
        code="no-order",
        severity=Severity.REFUSAL,
        about=(KeyAt("part.shape"),),
        facts={
            "closes_on_itself": Yes(closes),
            "proven": Yes(proven),
            "refusals": tuple(refusals),
        },
    )


def cannot_be_made(refusal: Refusal | None, best: Sequence[int], *, stated: bool) -> Finding:
    """Say why an order cannot be made, and the 1-based one that can, empty for none."""
    return Finding(
        code="order-cannot-be-made",
        severity=Severity.REFUSAL,
        about=(KeyAt("part.order"),),
        facts={
            "stated": Yes(stated),
            "refusals": () if refusal is None else (refusal,),
            "best": tuple(Count(bend) for bend in best),
        },
    )
