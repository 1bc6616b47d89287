"""Why a bend cannot be made in a state of the bar, in the words of the press."""

from __future__ import annotations

import math
from collections.abc import Callable

from attrs import evolve

from strapwright.ordering.backward import furthest_back
from strapwright.ordering.geometry import Wing
from strapwright.ordering.kernel_pieces import X
from strapwright.ordering.nearest_piece import first_hit, nearest_piece
from strapwright.ordering.order_results import End, Reason, Refusal
from strapwright.ordering.step_oracle import Steps

Outside = Callable[[int, int, int], bool | str]


def _numbers(made: int) -> tuple[int, ...]:
    return tuple(j + 1 for j in range(made.bit_length()) if made >> j & 1)


def _when(steps: Steps, made: int, bend: int) -> str:
    """'bend 3 last', 'bend 3 first' or 'bend 3 after 1 and 2'."""
    if made.bit_count() == steps.part.bends - 1:
        return f"bend {bend + 1} last"
    if made == 0:
        return f"bend {bend + 1} first"
    names = [str(b) for b in _numbers(made)]
    joined = names[0] if len(names) == 1 else ", ".join(names[:-1]) + " and " + names[-1]
    return f"bend {bend + 1} after {joined}"


def refusal_of(steps: Steps, outside: Outside, made: int, bend: int, end: int) -> Refusal | None:
    """Say what forbids one step, or None where nothing does."""
    when = _when(steps, made, bend)
    basic = _bare(steps, made, bend, when) or _hit(steps, made, bend, end, when)
    if basic is not None:
        return basic
    own = steps.self_hit(made, bend)
    if own is not None:
        angle = 2.0 * own[0]
        text = f"{when}: the part hits itself at {math.degrees(angle):.0f} deg, overbend included"
        return _refusal(made, bend, "self", text, piece="the part", angle=angle)
    why = outside(made, bend, end)
    if why:
        text = f"{when}: {why if isinstance(why, str) else 'it does not come off the tooling'}"
        return _refusal(made, bend, "outside", text, end=end)
    return None


def _bare(steps: Steps, made: int, bend: int, when: str) -> Refusal | None:
    """What the bend lacks whatever stands around: depth, opening, straight beside it."""
    local = steps.local[bend]
    if local is not None:
        return _refusal(made, bend, local[0], f"{when}: {local[1]}")
    needed = steps.strokes[bend].needed
    wings: tuple[tuple[Wing, str], ...] = ((0, "end 1"), (1, "end 2"))
    for wing, towards in wings:
        run = float(steps.rows(made, bend, wing)[1, X])
        if run < needed:
            text = (
                f"{when}: {run:.1f} mm of straight towards {towards}, {needed:.1f} mm needed "
                "from the middle of the bend"
            )
            return _refusal(made, bend, "leg", text)
    return None


def _hit(steps: Steps, made: int, bend: int, end: int, when: str) -> Refusal | None:
    """What the wings hit."""
    hit = first_hit(steps, made, bend, end)
    if hit is not None:
        place = {
            "closing": "while the nose side comes down",
            "rest": "as it is laid in",
            "stroke": f"at {math.degrees(hit.angle):.0f} deg",
        }[hit.phase]
        text = f"{when}: the {hit.wing} wing hits the {hit.piece} {place}"
        return _refusal(made, bend, "hit", text, piece=hit.piece, angle=hit.angle, end=end)
    if not steps.clear(made, bend, end):
        clearance, piece = nearest_piece(steps, made, bend, end)
        text = f"{when}: the {piece} is only {clearance:.1f} mm away on the way"
        return _refusal(made, bend, "hit", text, piece=piece, end=end)
    return None


def _refusal(
    made: int,
    bend: int,
    reason: Reason,
    text: str,
    *,
    piece: str = "",
    angle: float | None = None,
    end: int | None = None,
) -> Refusal:
    end_left: End | None = None if end is None else 1 if end == 0 else 2
    return Refusal(
        bend=bend + 1,
        made=_numbers(made),
        end_left=end_left,
        reason=reason,
        piece=piece,
        angle=angle,
        text=text,
    )


class Reasons:
    """Explains refused steps of one part; answers are remembered between questions."""

    def __init__(self, steps: Steps, outside: Outside) -> None:
        self.steps = steps
        self.outside = outside
        # The tables' exact bound would rule out every state of a part without an order.
        self.plain = steps.untabled()

    def refused_at_last(self, bend: int) -> Refusal:
        """Say why no order ends with the 0-based ``bend``.

        Where the bend itself could be made last, the part is taken apart backwards as far as it
        goes, and what is in the way there is named.
        """
        made = ((1 << self.steps.part.bends) - 1) ^ (1 << bend)
        refusals = [self._of(made, bend, end) for end in (0, 1)]
        if refusals[0] is not None and refusals[1] is not None:
            return evolve(refusals[0], end_left=None)
        return self._blocked_before(made, bend)

    def _of(self, made: int, bend: int, end: int) -> Refusal | None:
        return refusal_of(self.steps, self.outside, made, bend, end)

    def _refuses(self, made: int, bend: int, end: int) -> bool:
        return self.steps.meets_itself(made, bend) or bool(self.outside(made, bend, end))

    def _blocked_before(self, made: int, bend: int) -> Refusal:
        furthest, last = made, bend
        deepest = furthest_back(self.plain, self._refuses, bend)
        if deepest is not None:
            furthest, last, _ = deepest
        blocked = [
            self._of(furthest ^ (1 << j), j, 0) or self._of(furthest ^ (1 << j), j, 1)
            for j in range(self.steps.part.bends)
            if furthest >> j & 1
        ]
        reasons = "; ".join(r.text for r in blocked if r is not None)
        start = f"bend {bend + 1} last can itself be made, but no order leads to it"
        if furthest != made:
            start += f"; furthest back stands {_when(self.steps, furthest, last)}"
        text = f"{start}: {reasons}" if reasons else start
        return _refusal(made, bend, "before", text)
