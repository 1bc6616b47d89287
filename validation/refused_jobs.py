"""What speaks against a refusal: reasons that are not so, and an order that was missed."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.affinity import translate

from job_bars import distances, half_angles, own_gap
from job_sight import CLEARANCE, DEPTH, DRAWN, OWN, ROW_DRAWN, SPARE, Sight
from job_things import FAR
from strapwright.ordering.refusal_values import (
    AtHit,
    Hits,
    InStack,
    Jams,
    MeetsItself,
    NotLaidIn,
    NoWayThere,
    Reason,
    Refusal,
    ShortLeg,
    SmallRadius,
    StaysOn,
    TooNear,
    TooShallow,
)


def check_refused(sight: Sight, refusals: Sequence[Refusal]) -> list[str]:
    """Reasons that are not so, and orders that were missed."""
    wrong = []
    flat = [one for refusal in refusals for one in _plain(refusal)]
    for refusal in flat:
        made = frozenset(bend - 1 for bend in refusal.stage.made)
        ends = (1, 2) if refusal.end_left is None else (refusal.end_left,)
        if not any(_so(sight, made, refusal.stage.bend - 1, end, refusal.reason) for end in ends):
            kind = type(refusal.reason).__name__
            wrong.append(
                f"refused: bend {refusal.stage.bend} after {sorted(made)}: {kind} is not so"
            )
    order = missed_order(sight)
    if order is not None:
        wrong.append(f"refused: the order {order} keeps well clear")
    return wrong


def _plain(refusal: Refusal) -> list[Refusal]:
    if isinstance(refusal.reason, NoWayThere):
        return [one for blocked in refusal.reason.blocked for one in _plain(blocked)]
    return [refusal]


def _so(
    sight: Sight, made: frozenset[int], bend: int, end: int, reason: Reason, number: int = 0
) -> bool:
    """Whether a reason holds by what is drawn here."""
    match reason:
        case InStack():
            return _so(sight, made, bend, end, reason.reason, reason.bar - 1)
        case AtHit():
            return _so_at_hit(sight, made, bend, end, reason)
        case StaysOn():
            return not sight.comes_off_plainly(made, bend, end)
        case NotLaidIn():
            return not sight.goes_in_plainly(made, bend, end)
        case MeetsItself():
            pose = sight.pose(made, bend, end, 0.5 * reason.angle, number)
            gap = own_gap(pose.line, sight.one.thick, sight.reach())
            # Of a stack one bar may meet another: that is left to the reach of the stack as a bar.
            return gap < OWN + DRAWN + (sight.bars - 1) * sight.one.thick
        case Hits() | TooNear():
            so = _so_near(sight, made, bend, end, reason)
        case Jams() | TooShallow() | ShortLeg() | SmallRadius():
            so = _so_bare(sight, made, bend, reason, number)
        case _:
            so = False
    return so


def _so_near(
    sight: Sight, made: frozenset[int], bend: int, end: int, reason: Hits | TooNear
) -> bool:
    """Whether something is as near as is said."""
    if isinstance(reason, Hits):
        held = _near(sight, made, bend, end, 0.5 * reason.angle, resting=reason.phase == "closing")
        return held.get(reason.piece.name, FAR) < CLEARANCE + sight.stand_off + 0.3
    name = "" if reason.piece is None else reason.piece.name
    least = min(
        _near(sight, made, bend, end, float(phi), resting=k == 0).get(name, FAR)
        for k, phi in enumerate(half_angles(sight.one, bend, 80))
    )
    return least < CLEARANCE + sight.stand_off + 0.3


def _so_bare(
    sight: Sight,
    made: frozenset[int],
    bend: int,
    reason: Jams | TooShallow | ShortLeg | SmallRadius,
    number: int,
) -> bool:
    """Whether the bend lacks what is said, whatever stands about."""
    chain = sight.bar(number, bend)[0]
    if isinstance(reason, SmallRadius):
        return chain.radii[bend] < sight.tooling.nose.radius
    jams, deep, _ = sight.lacks(made, bend, SPARE)
    if isinstance(reason, ShortLeg):
        run = sight.runs(chain, made, bend)[reason.towards - 1]
        # A stack as one bar is as long as the middle of it.
        like = 0.5 if sight.bars == 1 else FAR
        return run < reason.needed + 0.3 and abs(run - reason.had) < like
    return jams if isinstance(reason, Jams) else deep


def _so_at_hit(sight: Sight, made: frozenset[int], bend: int, end: int, at: AtHit) -> bool:
    """Whether what is said of one hit holds by what is drawn here."""
    row, reason = sight.rows[bend], at.reason
    if isinstance(reason, ShortLeg):
        return reason.had < reason.needed
    pose = sight.hit(made, row, at.hit - 1, end, reason.angle)
    if isinstance(reason, MeetsItself):
        return own_gap(pose.line, sight.one.thick, sight.reach()) < OWN + ROW_DRAWN
    if isinstance(reason, TooShallow):
        low = float(pose.line[:, 1].min()) - 0.5 * sight.one.thick
        return low < DEPTH + ROW_DRAWN - reason.had
    held = sight.hit_distances(pose, resting=reason.phase == "closing")
    touched = [thing for thing in sight.near if thing.name == reason.piece.name and thing.touches]
    gap = held.get(reason.piece.name, FAR)
    for thing in touched:
        up = pose.nose if thing.side == "nose" else 0.0
        gap = min(gap, pose.whole.distance(translate(thing.outline, 0.0, up)))
    return gap < CLEARANCE + ROW_DRAWN


def _near(
    sight: Sight, made: frozenset[int], bend: int, end: int, phi: float, *, resting: bool
) -> dict[str, float]:
    """Least distance to what bears each name, of all bars of a stack [mm]."""
    found: dict[str, float] = {}
    for number in range(sight.bars):
        pose = sight.pose(made, bend, end, phi, number)
        for thing, d in distances(pose, sight.near, resting=resting, daylight=sight.daylight):
            found[thing.name] = min(found.get(thing.name, FAR), d)
    return found


def missed_order(sight: Sight) -> list[int] | None:
    """Return an order whose every step keeps well clear, 1-based, or None where there is none."""
    n = len(sight.one.turns)
    full = frozenset(range(n))
    finished = sight.pose(full - {0}, 0, 1, 0.5 * abs(sight.one.turns[0]))
    if own_gap(finished.line, sight.one.thick, sight.reach()) < OWN + SPARE:
        return None
    dead: set[frozenset[int]] = set()

    def extend(made: frozenset[int], order: list[int]) -> list[int] | None:
        if len(order) == n:
            return order
        if made in dead:
            return None
        for bend in sorted(full - made):
            if any(sight.keeps_well(made, bend, end) for end in (1, 2)):
                found = extend(made | {bend}, [*order, bend + 1])
                if found is not None:
                    return found
        dead.add(made)
        return None

    return extend(frozenset(), [])
