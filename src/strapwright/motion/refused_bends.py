"""What a plan refuses: which bends get no figures to stop at, and where each of them clashes."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.findings import BendAt, Finding, Severity
from strapwright.ordering.refusal_values import (
    AtHit,
    Hits,
    InStack,
    MeetsItself,
    NoWayThere,
    Refusal,
    TooNear,
    TooShallow,
)
from strapwright.planning.plan_values import Plan, Step

# Something collides, the bar cracks, or no order leads to the part: to stop at a figure would make
# scrap or worse.
# Where a limit of press or tooling is passed, the figure itself says by how much, and stays.
_NOWHERE_TO_STOP = frozenset(
    {
        "no-order",
        "order-cannot-be-made",
        "bend-jams",
        "nose-off-middle",
        "cracks-cold",
        "halves-collide",
        "pieces-overlap",
        "leg-off-shoulder",
        "too-shallow",
        "finish-blocked",
        "finish-nose-too-round",
        "finish-too-little",
    }
)


def refusals_of(plan: Plan) -> tuple[Finding, ...]:
    """Return the findings that refuse the part as stated, in their order."""
    return tuple(one for one in plan.findings if one.severity is Severity.REFUSAL)


def is_refused(plan: Plan) -> bool:
    """Whether a plan holds a refusal."""
    return bool(refusals_of(plan))


def has_no_stop(plan: Plan, step: Step) -> bool:
    """Whether a bend gets no travel, block or gauge to stop at.

    That is so for a bend that collides, for every bend of a part without an order, and for a bend
    that cannot be pushed on to its angle: begun, it would be scrap.
    """
    if any(is_refused(stroke.made) for stroke in plan.second_strokes if stroke.bend == step.bend):
        return True
    for one in refusals_of(plan):
        if one.code not in _NOWHERE_TO_STOP:
            continue
        bends = [place.number for place in one.about if isinstance(place, BendAt)]
        if not bends or step.bend in bends:
            return True
    return False


def clash_of(plan: Plan, step: Step) -> Refusal | None:
    """Return what a bend runs into, ``None`` where it runs into nothing that can be drawn.

    Where it was refused on several stages of the bar, that of the plan's own order comes first.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    """
    found = [one for one in _reasons_at(plan, step) if _drawable(one)]
    return found[0] if found else None


def reason_at(plan: Plan, step: Step) -> Refusal | None:
    """Return why a bend cannot be made; ``None`` where another bend is in the way.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    """
    found = _reasons_at(plan, step)
    return clash_of(plan, step) or (found[0] if found else None)


def _reasons_at(plan: Plan, step: Step) -> list[Refusal]:
    before = {one.bend for one in plan.steps if one.order < step.order}
    found = [
        refusal
        for finding in refusals_of(plan)
        for refusal in reasons_of(finding)
        if refusal.stage.bend == step.bend
    ]
    # Keeps the order of the search among those of one kind.
    return sorted(found, key=lambda one: set(one.stage.made) != before)


def reasons_of(finding: Finding) -> tuple[Refusal, ...]:
    """Return what is in the way in the end, each on the stage of the bar where it is."""
    facts = (one if isinstance(one, tuple) else (one,) for one in finding.facts.values())
    stated = (one for several in facts for one in several if isinstance(one, Refusal))
    return tuple(refusal for one in stated for refusal in _in_the_end(one))


def _in_the_end(refusal: Refusal) -> Iterator[Refusal]:
    if not isinstance(refusal.reason, NoWayThere):
        yield refusal
        return
    for one in refusal.reason.blocked:
        yield from _in_the_end(one)


def _drawable(refusal: Refusal) -> bool:
    reason = refusal.reason
    while isinstance(reason, AtHit | InStack):
        reason = reason.reason
    if isinstance(reason, Hits | TooNear):
        # A pose is drawn with the nose in the middle, where nothing of this is met.
        return reason.off_middle == 0.0
    return isinstance(reason, MeetsItself | TooShallow)
