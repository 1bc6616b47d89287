"""The cheapest order, looked for from the finished part backwards.

States are steps (made before, bend, end left); a step refused on the way (the part meets itself,
or the caller says no) is dropped and the search goes on, so each refusal costs one look and the
answer is the same as forbidding the step and starting again.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable

from attrs import frozen

from strapwright.ordering.kernel_subsets import NEVER
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import End
from strapwright.ordering.time_given import KeepGoing, always

State = tuple[int, int, int]
Refuses = Callable[[int, int, int], bool]
PROOF_STATES = 100_000  # without tables the proof is given up here, in any case
REASON_STATES = 300  # looked at to explain why a part cannot be made
DIVE_STATES = 4000  # states looked at for some order once the proof is given up
# Of those, times the bends, once the time is up: straight down takes one a bend.
LATE_STATES = 2


def numbers(made: int) -> tuple[int, ...]:
    """1-based bends in a bit set."""
    return tuple(j + 1 for j in range(made.bit_length()) if made >> j & 1)


def end_of(end: int) -> End:
    """1-based number of an end of the bar, from 0 or 1."""
    return 1 if end == 0 else 2


@frozen(kw_only=True)
class Found:
    """Outcome of one search.

    Attributes
    ----------
    order
        Steps in the order of making; empty where none was found.
    cost
        ``NEVER`` without an order.
    proven
        The cost is the least, or no order exists.
    visited
        States taken off the queue.
    deepest
        The state reached with the fewest bends made, from which no order led on.
    """

    order: tuple[State, ...]
    cost: int
    proven: bool
    visited: int
    deepest: State | None


def _predecessors(state: State, bends: int) -> Iterable[State]:
    made = state[0]
    for j in range(bends):
        if made >> j & 1:
            for end in (0, 1):
                yield made ^ (1 << j), j, end


def search(
    steps: Steps,
    refuses: Refuses,
    last_bends: Iterable[int],
    keep_going: KeepGoing,
) -> Found:
    """Find the cheapest order that ends with one of ``last_bends`` (0-based).

    ``steps.into`` bounds from below what a step costs with all before it; with full tables it is
    exact but for refused steps, and the search runs straight to the optimum.
    """
    n = steps.part.bends
    full = (1 << n) - 1
    finals = [(full ^ (1 << i), i, end) for i in last_bends for end in (0, 1)]
    proof = _run(steps, refuses, finals, keep_going, limit=PROOF_STATES, dive=False)
    if proof.proven:
        return proof
    dive = _run(steps, refuses, finals, keep_going, limit=DIVE_STATES, dive=True)
    return Found(
        order=dive.order,
        cost=dive.cost,
        proven=dive.proven and dive.cost >= NEVER,
        visited=proof.visited + dive.visited,
        deepest=dive.deepest,
    )


def furthest_back(
    steps: Steps, refuses: Refuses, last_bend: int, keep_going: KeepGoing
) -> State | None:
    """Return the state with the fewest bends made that a short look back from one end reaches."""
    full = (1 << steps.part.bends) - 1
    finals = [(full ^ (1 << last_bend), last_bend, end) for end in (0, 1)]
    return _run(steps, refuses, finals, keep_going, limit=REASON_STATES, dive=True).deepest


class _Queue:
    """States to look at, best first or, diving, those with the fewest bends left first."""

    def __init__(self, steps: Steps, *, dive: bool) -> None:
        self.steps = steps
        self.dive = dive
        self.heap: list[tuple[tuple[int, int], int, State, State | None]] = []
        self.closed: dict[State, State | None] = {}

    def push(self, state: State, after: int, following: State | None) -> None:
        """Add a state behind which ``after`` has still to be paid."""
        bound = self.steps.into(*state)
        if bound < NEVER and state not in self.closed:
            depth = state[0].bit_count()
            key = (depth, after + bound) if self.dive else (after + bound, depth)
            heapq.heappush(self.heap, (key, after, state, following))

    def pop(self) -> tuple[int, State] | None:
        """Take the next state that was not looked at yet."""
        while self.heap:
            _, after, state, following = heapq.heappop(self.heap)
            if state not in self.closed:
                self.closed[state] = following
                return after, state
        return None

    def order(self, state: State) -> tuple[State, ...]:
        """Steps from ``state`` to the finished part."""
        order = [state]
        while (further := self.closed[order[-1]]) is not None:
            order.append(further)
        return tuple(order)


def _run(
    steps: Steps,
    refuses: Refuses,
    finals: list[State],
    keep_going: KeepGoing,
    *,
    limit: int,
    dive: bool,
) -> Found:
    queue = _Queue(steps, dive=dive)
    for final in finals:
        queue.push(final, 0, None)
    deepest: State | None = None
    visited = 0
    while (taken := queue.pop()) is not None:
        after, state = taken
        visited += 1
        if not keep_going():
            limit = min(limit, visited + LATE_STATES * steps.part.bends if dive else 0)
            keep_going = always
        if visited > limit:
            return Found(order=(), cost=NEVER, proven=False, visited=visited, deepest=deepest)
        if refuses(*state):
            continue
        if deepest is None or state[0].bit_count() < deepest[0].bit_count():
            deepest = state
        if state[0] == 0:
            return Found(
                order=queue.order(state),
                cost=after + steps.settings.costs.stop,
                proven=True,
                visited=visited,
                deepest=None,
            )
        for before in _predecessors(state, steps.part.bends):
            if steps.into(*before) < NEVER:
                queue.push(before, after + steps.change(before, state), state)
    return Found(order=(), cost=NEVER, proven=True, visited=visited, deepest=deepest)
