"""Why a bend cannot be made in a state of the bar, in the words of the press."""

from __future__ import annotations

import math
from collections.abc import Callable

from strapwright.ordering.backward import furthest_back
from strapwright.ordering.nearest import first_hit
from strapwright.ordering.oracle import Steps
from strapwright.ordering.results import End, Refusal

Outside = Callable[[int, int, int], bool]


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
    end_left: End = 1 if end == 0 else 2
    when = _when(steps, made, bend)
    local = steps.local[bend]
    if local is not None:
        return Refusal(
            bend=bend + 1,
            made=_numbers(made),
            end_left=None,
            reason=local[0],
            piece="",
            angle=None,
            text=f"{when}: {local[1]}",
        )
    needed = steps.strokes[bend].needed
    for wing, towards in ((0, "end 1"), (1, "end 2")):
        run = float(steps.rows(made, bend, 0 if wing == 0 else 1)[1, 1])
        if run < needed:
            return Refusal(
                bend=bend + 1,
                made=_numbers(made),
                end_left=None,
                reason="leg",
                piece="",
                angle=None,
                text=f"{when}: {run:.1f} mm of straight towards {towards}, {needed:.1f} mm needed "
                "from the middle of the bend",
            )
    hit = first_hit(steps, made, bend, end)
    if hit is not None:
        place = {
            "closing": "while the nose side comes down",
            "rest": "as it is laid in",
            "stroke": f"at {math.degrees(hit.angle):.0f} deg",
        }[hit.phase]
        return Refusal(
            bend=bend + 1,
            made=_numbers(made),
            end_left=end_left,
            reason="hit",
            piece=hit.piece,
            angle=hit.angle,
            text=f"{when}: the {hit.wing} wing hits the {hit.piece} {place}",
        )
    own = steps.self_hit(made, bend)
    if own is not None:
        return Refusal(
            bend=bend + 1,
            made=_numbers(made),
            end_left=None,
            reason="self",
            piece="the part",
            angle=2.0 * own[0],
            text=f"{when}: the part hits itself at {math.degrees(2.0 * own[0]):.0f} deg, "
            "overbend included",
        )
    if outside(made, bend, end):
        return Refusal(
            bend=bend + 1,
            made=_numbers(made),
            end_left=end_left,
            reason="outside",
            piece="",
            angle=None,
            text=f"{when}: it does not come off the tooling",
        )
    return None


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
            return refusals[0]
        return self._blocked_before(made, bend)

    def _of(self, made: int, bend: int, end: int) -> Refusal | None:
        return refusal_of(self.steps, self.outside, made, bend, end)

    def _refuses(self, made: int, bend: int, end: int) -> bool:
        return self.steps.meets_itself(made, bend) or self.outside(made, bend, end)

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
        return Refusal(
            bend=bend + 1,
            made=_numbers(made),
            end_left=None,
            reason="before",
            piece="",
            angle=None,
            text=f"{start}: {reasons}" if reasons else start,
        )
