"""What stands against a refused job: the reasons of its refusals, by bend."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import frozen

from strapwright.findings import BendAt, Count, Finding, Severity, Yes
from strapwright.ordering.refusal_values import (
    Hits,
    Jams,
    NoWayThere,
    Refusal,
    ShortLeg,
    SmallRadius,
    TooNear,
    TooShallow,
)
from strapwright.planning.plan_values import Plan

_FINDINGS = {
    "too-shallow": "shallow",
    "bottoms-before-angle": "shallow",
    "stroke-too-short": "travel",
    "bend-jams": "jam",
    "nose-off-middle": "jam",  # the near leg jams while that of a nose in the middle would not
    "press-too-weak": "force",
    "tooling-too-weak": "force",
    "outside-cracks": "sharp nose",
}
_AT_WORK = frozenset({"shallow", "jam"})


@frozen(kw_only=True)
class Obstruction:
    """One thing that stands against a bend.

    Attributes
    ----------
    kind
        A key of :data:`~strapwright.remedies.tooling_levers.AGAINST`, or another piece's kind.
    bend
        0-based; ``None`` where it is no single one.
    legs
        0-based legs that are too short for it.
    beside
        0-based bends that stand in its way once they are made, less so part of the way.
    at_work
        It happens in the stroke or after it, so a smaller angle may keep clear of it.
    """

    kind: str
    bend: int | None
    legs: tuple[int, ...] = ()
    beside: tuple[int, ...] = ()
    at_work: bool = False


def obstructions(refused: Plan) -> list[Obstruction]:
    """Return what stands against a plan's job, each once, in the order found."""
    found: dict[Obstruction, None] = {}
    for finding in refused.findings:
        if finding.severity == Severity.REFUSAL:
            found |= dict.fromkeys(_of_finding(finding, len(refused.job.part.bends)))
    return list(found)


def is_refused(planned: Plan) -> bool:
    """Whether a plan holds a refusal."""
    return any(finding.severity == Severity.REFUSAL for finding in planned.findings)


def closes_on_itself(planned: Plan) -> bool:
    """Whether the finished part meets itself as drawn, which no tooling mends."""
    return any(
        one.code == "no-order" and one.one(Yes, "closes_on_itself").value
        for one in planned.findings
    )


def _of_finding(finding: Finding, bends: int) -> Iterator[Obstruction]:
    if finding.code in ("no-order", "order-cannot-be-made"):
        yield from _of_refusals(finding.several(Refusal, "refusals"), bends)
        return
    about = [place.number - 1 for place in finding.about if isinstance(place, BendAt)]
    bend = about[0] if about else None
    if finding.code == "leg-off-shoulder" and bend is not None:
        leg = bend if finding.one(Count, "end").value == 1 else bend + 1
        yield Obstruction(kind="short leg", bend=bend, legs=(leg,))
    elif finding.code in _FINDINGS:
        kind = _FINDINGS[finding.code]
        yield Obstruction(kind=kind, bend=bend, at_work=kind in _AT_WORK)


def _of_refusals(refusals: Iterable[Refusal], bends: int) -> Iterator[Obstruction]:
    for refusal in refusals:
        reason, bend = refusal.reason, refusal.stage.bend - 1
        # Legs between two bends; past them the bar lies as it lies.
        between = tuple(k for k in (bend, bend + 1) if 0 < k < bends)
        match reason:
            case NoWayThere():
                yield from _of_refusals(reason.blocked, bends)
            case ShortLeg():
                first = reason.towards == 1
                leg = bend if first else bend + 1
                beside = _beside(refusal, bend - 1 if first else bend + 1)
                yield Obstruction(kind="short leg", bend=bend, legs=(leg,), beside=beside)
            case Hits():
                near = between if reason.piece.kind in ("shoulder", "nose web") else ()
                at_work = reason.phase == "stroke"
                beside = () if at_work else _beside(refusal, bend - 1, bend + 1)
                yield Obstruction(
                    kind=reason.piece.kind, bend=bend, legs=near, beside=beside, at_work=at_work
                )
            case TooNear():
                kind = "tooling" if reason.piece is None else reason.piece.kind
                yield Obstruction(kind=kind, bend=bend, at_work=True)
            case TooShallow():
                yield Obstruction(kind="shallow", bend=bend, at_work=True)
            case Jams():
                yield Obstruction(kind="jam", bend=bend, at_work=True)
            case SmallRadius():
                yield Obstruction(kind="small radius", bend=bend)
            case _:
                yield Obstruction(kind="part", bend=bend, at_work=True)


def _beside(refusal: Refusal, *bends: int) -> tuple[int, ...]:
    """Those of 0-based bends that are made by then."""
    return tuple(bend for bend in bends if bend + 1 in refusal.stage.made)
