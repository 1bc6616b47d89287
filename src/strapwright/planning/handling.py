"""What an order costs in handling, and how each bend leaves the tooling, in the shop's words."""

from __future__ import annotations

from itertools import pairwise

from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.order_values import StepCosts
from strapwright.planning.job_order import Ordered
from strapwright.planning.plan_values import ComingOff, Handling
from strapwright.shop.job import Job
from strapwright.shop.press import Axis

# Cost of taking a part in hand again, where all parts get one bend before the next (common
# practice, no source); in the same weights as a flip of 3, an end for end of 2, a stop of 1.
PICK = 1
_VERDICTS = {
    "FREE": "free",
    "TRAPPED": "locked on",
    "NO START": "locked on",
    "TOO CLOSE": "too close to call",
}


def coming_off(off: FreeingResult, axis: Axis) -> ComingOff:
    """Say how a part leaves the nose.

    Parameters
    ----------
    axis
        Of the press: under a nose that points down the part drops where nothing holds it.
    """
    verdict = _VERDICTS[off.verdict]
    if verdict == "free":
        text = {
            "drops": "It drops off the nose; mind your fingers."
            if axis == "down"
            else "It lifts straight off the nose by hand.",
            "slides": "It slides off by hand.",
            "turns": "It comes off by hand when it is turned on the way.",
        }.get(off.how, "It comes off by hand.")
        if off.rides and off.how != "drops":
            text = f"The part rides up on the nose. {text}"
    elif verdict == "locked on":
        text = (
            "It is locked on; draw the nose out endways with the pressure let off."
            if off.drawn_frees
            else f"It is locked on the tooling: {off.text}."
        )
    else:
        text = "Whether it comes off is too close to call: not proven."
    return ComingOff(
        verdict=verdict,  # type: ignore[arg-type]
        how=off.how,
        text=text,
        motion=tuple((p.x, p.y, p.z, p.theta) for p in off.motion),
        held_by=off.held_by,
    )


def handling(job: Job, ordered: Ordered) -> Handling:
    """Compare finishing each part with giving all parts one bend before the next.

    A stop that is moved is paid once for all parts bend by bend, and once a part otherwise; flips
    and turns end for end are paid a part either way; bend by bend each part is taken in hand again
    for every bend but the first.
    """
    if ordered.cost is None:
        return Handling(
            cost=None,
            proven=False,
            part_by_part=None,
            bend_by_bend=None,
            text="The handling was not worked out.",
        )
    weights = StepCosts()
    bends = job.part.bends
    turns = sum(
        weights.move(flip=bends[a.bend].side != bends[b.bend].side, swap=a.end_left != b.end_left)
        for a, b in pairwise(ordered.steps)
    )
    stops = ordered.cost - turns
    count = job.part.quantity
    by_part = count * ordered.cost
    by_bend = stops + count * (turns + PICK * (len(ordered.steps) - 1))
    least = "the least there is" if ordered.proven else "the least found, not proven"
    text = (
        f"Handling counts {ordered.cost} a part, {least} (a flip counts {weights.flip}, an end for "
        f"end {weights.swap}, a stop set {weights.stop})."
    )
    if count > 1 and len(ordered.steps) > 1:
        better, worse = sorted((by_part, by_bend))
        way = (
            "part by part, each one finished before the next"
            if by_part <= by_bend
            else "bend by bend, all parts one bend and then the next"
        )
        text += f" For {count} parts work {way}: {better} against {worse}."
    return Handling(
        cost=ordered.cost,
        proven=ordered.proven,
        part_by_part=by_part,
        bend_by_bend=by_bend,
        text=text,
    )
