"""What an order costs in handling, and how the part leaves the tooling after each bend."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from strapwright.midline.pose_values import DrawnPose
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.order_values import USUAL_WEIGHTS, StepCosts
from strapwright.planning.bar_hold import Hold, released, weight_of
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered
from strapwright.planning.limits_and_weights.handling_values import Handling
from strapwright.planning.surroundings.off_values import ComingOff, OffVerdict
from strapwright.shop.by_hand.handling_minutes import HandlingMinutes
from strapwright.shop.job import Job

_HUNDREDTH = 0.01  # min; no shop times its handling finer; common practice, no source


def coming_off(off: FreeingResult, hold: Hold, let_go: DrawnPose, opened: float = 0.0) -> ComingOff:
    """Return how a part leaves the nose.

    Parameters
    ----------
    hold
        How the part is held for the bend: the nose is above, below or beside it.
    let_go
        The part after release.
    opened
        Height of the nose's centre above the shoulder tops with both halves fully open [mm].
    """
    verdict: OffVerdict = "locked on"
    held: Literal["overlap", "halves", "closed round", "no way out", ""] = ""
    match off.verdict:
        case "FREE":
            verdict = "free"
        case "TOO CLOSE":
            verdict = "too close to call"
        case "NO TIME":
            verdict = "not decided"
        case "NO START":
            held = "overlap" if off.parts else "halves"
        case "TRAPPED":
            held = "closed round" if off.any_motion else "no way out"
    return ComingOff(
        verdict=verdict,
        how=off.how,
        released=released(hold.nose, off.how if verdict == "free" else ""),
        weight=None if hold.weight is None else weight_of(let_go),
        drawable=off.drawn_frees,
        rides=off.rides,
        spot=off.spot,
        opened=opened,
        held=held,
        motion=tuple((p.x, p.y, p.z, p.theta) for p in off.motion),
        held_by=off.held_by,
    )


def costs_of(minutes: HandlingMinutes) -> StepCosts:
    """Return the minutes of a shop as whole numbers, a hundredth of a minute each.

    Parameters
    ----------
    minutes
        As stated; the usual ones keep the small numbers that stand for them.
    """
    if minutes == HandlingMinutes():
        return USUAL_WEIGHTS
    turn = minutes.half_turn
    return StepCosts(
        flip=round(minutes.turn_over / _HUNDREDTH),
        swap=round(minutes.swap_ends / _HUNDREDTH),
        stop=round(minutes.move_stop / _HUNDREDTH),
        pick=round(minutes.take_again / _HUNDREDTH),
        half_turn=None if turn is None else round(turn / _HUNDREDTH),
        tool=round(minutes.change_tooling / _HUNDREDTH),
        minutes=_HUNDREDTH,
    )


def handling(job: Job, ordered: Ordered, weights: StepCosts) -> Handling:
    """Compare finishing each part with giving all parts one bend before the next.

    A stop that is moved is paid once for all parts bend by bend, and once a part otherwise; flips
    and turns end for end are paid a part either way; bend by bend each part is taken in hand again
    for every bend but the first.
    """
    count, steps = job.part.quantity, len(ordered.steps)
    by_part = by_bend = None
    if ordered.cost is not None:
        bends = job.part.bends
        turns = sum(
            weights.move(
                flip=bends[a.bend].side != bends[b.bend].side, swap=a.end_left != b.end_left
            )
            for a, b in pairwise(ordered.steps)
        )
        by_part = count * ordered.cost
        by_bend = ordered.cost - turns + count * (turns + weights.pick * (steps - 1))
    return Handling(
        cost=ordered.cost,
        proven=ordered.cost is not None and ordered.proven,
        part_by_part=by_part,
        bend_by_bend=by_bend,
        parts=count,
        bends=steps,
        weights=weights,
        tool_change=weights.tool if job.part.several_toolings else 0,
    )
