"""Finds why a bend cannot be made in a state of the bar."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from attrs import evolve

from strapwright.ordering.cheapest_order import end_of, furthest_back, numbers
from strapwright.ordering.kernel_pieces import X
from strapwright.ordering.nearest_piece import first_hit, nearest_piece
from strapwright.ordering.order_arrays import Wing
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import (
    MeetsItself,
    NoWayThere,
    Reason,
    Refusal,
    ShortLeg,
    Stage,
    TooNear,
)
from strapwright.ordering.time_given import KeepGoing

Outside = Callable[[int, int, int], Reason | None]


def refusal_of(steps: Steps, outside: Outside, made: int, bend: int, end: int) -> Refusal | None:
    """Find what forbids one step, or None where nothing does."""
    stage = _stage(steps, made, bend)
    if steps.made_whole(bend):
        whole = steps.whole_refusal(made, bend, end) or outside(made, bend, end)
        return None if whole is None else Refusal(stage=stage, reason=whole, end_left=end_of(end))
    either_way: Reason | None = _bare(steps, made, bend)
    if either_way is not None:
        return Refusal(stage=stage, reason=either_way)
    this_way = _in_the_way(steps, made, bend, end)
    if this_way is not None:
        return Refusal(stage=stage, reason=this_way, end_left=end_of(end))
    own = steps.self_hit(made, bend)
    if own is not None:
        return Refusal(stage=stage, reason=MeetsItself(angle=2.0 * own[0]))
    why = outside(made, bend, end)
    return None if why is None else Refusal(stage=stage, reason=why, end_left=end_of(end))


def _stage(steps: Steps, made: int, bend: int) -> Stage:
    last = made.bit_count() == steps.part.bends - 1
    return Stage(bend=bend + 1, made=numbers(made), last=last)


def _bare(steps: Steps, made: int, bend: int) -> Reason | None:
    """What the bend lacks whatever stands around: depth, opening, straight beside it."""
    lacks = steps.lacks[bend]
    if lacks is not None:
        return lacks
    needed = steps.strokes[bend].needed
    wings: tuple[Wing, Wing] = (0, 1)
    for wing in wings:
        run = float(steps.rows(made, bend, wing)[1, X])
        if run < needed:
            return ShortLeg(towards=end_of(wing), had=run, needed=needed)
    return None


def _in_the_way(steps: Steps, made: int, bend: int, end: int) -> Reason | None:
    """What the wings hit, or come too near to."""
    hit = first_hit(steps, made, bend, end)
    if hit is None and not steps.clear(made, bend, end):
        clearance, piece = nearest_piece(steps, made, bend, end)
        return TooNear(piece=piece, had=clearance)
    return hit


def first_refusal(steps: Steps, outside: Outside, order: Sequence[int]) -> Refusal | None:
    """Find why an order of 0-based bends fails: its first step that can be made neither way."""
    made = 0
    for bend in order:
        refusals = [refusal_of(steps, outside, made, bend, end) for end in (0, 1)]
        if refusals[0] is not None and refusals[1] is not None:
            return refusals[0]
        made |= 1 << bend
    return None


class Reasons:
    """Explains refused steps of one part; answers are remembered between questions."""

    def __init__(self, steps: Steps, outside: Outside, keep_going: KeepGoing) -> None:
        self.steps = steps
        self.outside = outside
        self.keep_going = keep_going
        # The tables' exact bound would rule out every state of a part without an order.
        self.plain = steps.untabled()

    def refused_at_any(self, bends: Iterable[int]) -> tuple[Refusal, ...]:
        """Find why no order ends with each of some 0-based bends, as far as the time goes."""
        return tuple(self.refused_at_last(bend) for bend in bends if self.keep_going())

    def refused_at_last(self, bend: int) -> Refusal:
        """Find why no order ends with the 0-based ``bend``.

        Where the bend itself could be made last, the part is taken apart backwards as far as it
        goes, and what is in the way there is named.
        """
        made = ((1 << self.steps.part.bends) - 1) ^ (1 << bend)
        refusals = [self._of(made, bend, end) for end in (0, 1)]
        if refusals[0] is not None and refusals[1] is not None:
            return evolve(refusals[0], end_left=None)
        return Refusal(
            stage=_stage(self.steps, made, bend), reason=self._blocked_before(made, bend)
        )

    def _of(self, made: int, bend: int, end: int) -> Refusal | None:
        return refusal_of(self.steps, self.outside, made, bend, end)

    def _refuses(self, made: int, bend: int, end: int) -> bool:
        return self.steps.meets_itself(made, bend) or self.outside(made, bend, end) is not None

    def _blocked_before(self, made: int, bend: int) -> NoWayThere:
        furthest, last = made, bend
        deepest = furthest_back(self.plain, self._refuses, bend, self.keep_going)
        if deepest is not None:
            furthest, last, _ = deepest
        blocked = [
            self._of(furthest ^ (1 << j), j, 0) or self._of(furthest ^ (1 << j), j, 1)
            for j in range(self.steps.part.bends)
            if furthest >> j & 1 and self.keep_going()
        ]
        return NoWayThere(
            furthest=None if furthest == made else _stage(self.steps, furthest, last),
            blocked=tuple(one for one in blocked if one is not None),
        )
