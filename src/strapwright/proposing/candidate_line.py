"""Candidates in line: the cheapest first, or the heaviest where the time runs short."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence

from strapwright.proposing.candidate_tooling import tooling_of
from strapwright.proposing.drawn_candidates import DrawingBoard
from strapwright.proposing.judging_candidates import Candidate, Judge
from strapwright.proposing.miss_values import Miss, NotDrawn
from strapwright.proposing.part_plans import OutOfTime
from strapwright.proposing.proposal_values import Proposed

Progress = Callable[[str, int, int], None]
BEST = 3
_TOLD = 20  # candidates from one word about how far it is to the next, numerical


class Found:
    """What stands so far, one proposal of each pair of nose and shoulders.

    Attributes
    ----------
    best, pairs
        The cheapest of their pairs, and these pairs.
    heavy
        What stands and may not be the cheapest of its pair.
    """

    def __init__(self, told: Progress) -> None:
        self.best: list[Proposed] = []
        self.pairs: set[tuple[float, float, bool]] = set()
        self.heavy: list[Proposed] = []
        self.told = told

    def add(self, proposed: Proposed, *, heavy: bool) -> None:
        """Add a proposal, and say so."""
        if heavy:
            self.heavy.append(proposed)
        else:
            self.pairs.add(_pair(proposed))
            self.best.append(proposed)
        known = len(self.best) + len(self.heavy)
        self.told("found", known, max(BEST, known))

    def cheapest(self) -> tuple[Proposed, ...]:
        """Return the cheapest of each pair, at most three, the cheapest first."""
        kept: dict[tuple[float, float, bool], Proposed] = {}
        for one in sorted((*self.best, *self.heavy), key=lambda one: one.cost):
            kept.setdefault(_pair(one), one)
        return tuple(kept.values())[:BEST]


class Line:
    """Candidates waiting to be judged.

    Parameters
    ----------
    candidates
        Each with the least it can cost.
    judge, board
        Judge and draw them.
    rate
        Money for an hour.
    enough
        Pairs of nose and shoulders that end the search.
    """

    def __init__(
        self,
        candidates: Sequence[Candidate],
        judge: Judge,
        board: DrawingBoard,
        rate: float,
        *,
        enough: int = BEST,
    ) -> None:
        self.judge, self.board, self.rate = judge, board, rate
        self.enough = enough
        self.whole = len(candidates)
        self.seen = self._next = 0
        self.line = [(one.key, one) for one in candidates]
        heapq.heapify(self.line)

    @property
    def least(self) -> float | None:
        """What the cheapest that still waits costs at least; ``None`` where none waits."""
        return self.line[0][1].cost if self.line else None

    def cheapest_first(self, found: Found, going: Callable[[], bool]) -> None:
        """Judge the cheapest first, until there are enough or the time is over.

        One is drawn when its least cost comes to the front, and stands back in line with the cost
        that its drawings give; so none that costs more is judged before one that costs less.

        Parameters
        ----------
        found
            Takes what stands.
        going
            Whether there is time left.
        """
        self.judge.planner.going = going
        while self.line and going():
            self._tell(found)
            _, candidate = heapq.heappop(self.line)
            if self._passed_over(candidate, found):
                self.seen += 1
            elif candidate.drawn is None:
                known = self._drawn(candidate)
                if known is not None:
                    heapq.heappush(self.line, (known.key, known))
            else:
                try:
                    stands = self._judged(candidate, found)
                except OutOfTime:
                    heapq.heappush(self.line, (candidate.key, candidate))
                    return
                if stands and len(found.best) >= self.enough and self.judge.prune:
                    return

    def heaviest_first(self, found: Found, going: Callable[[], bool]) -> None:
        """Judge the heaviest first, until one stands or the time is over.

        Parameters
        ----------
        found
            Takes what stands.
        going
            Whether there is time left.
        """
        self.judge.planner.going = going
        left = [one for _, one in self.line]
        for candidate in sorted(left, key=_lightness):
            if not going():
                return
            self._tell(found)
            if self._passed_over(candidate, found):
                continue
            known = candidate if candidate.drawn is not None else self._drawn(candidate)
            try:
                if known is not None and self._judged(known, found, heavy=True):
                    return
            except OutOfTime:  # it waits in line still
                return

    def _tell(self, found: Found) -> None:
        if self.seen >= self._next:
            self._next = self.seen + _TOLD
            found.told("checking", self.seen, self.whole)

    def _passed_over(self, candidate: Candidate, found: Found) -> bool:
        if not self.judge.prune:
            return False
        return _pair(candidate) in found.pairs or self.judge.has_failed(candidate.choice)

    def _drawn(self, candidate: Candidate) -> Candidate | None:
        """The candidate as drawn, or ``None`` with its reason noted."""
        choice = candidate.choice
        if self.judge.fails_early(candidate):
            self.seen += 1
            return None
        drawn = self.board.drawn(tooling_of(choice, candidate.passed.need, self.judge.jobs))
        if drawn.lack is None:
            return candidate.drawn_at(drawn, self.rate)
        lack = NotDrawn(choice=choice, finding=drawn.lack)
        self.judge.rejections.note(3, Miss(lack=lack), choice)
        self.seen += 1
        return None

    def _judged(self, candidate: Candidate, found: Found, *, heavy: bool = False) -> bool:
        proposed = self.judge.judged(candidate)
        self.seen += 1
        if proposed is None or _pair(proposed) in found.pairs:
            return False
        found.add(proposed, heavy=heavy)
        return True


def _pair(one: Candidate | Proposed) -> tuple[float, float, bool]:
    return one.choice.pair


def _lightness(one: Candidate) -> tuple[float, float]:
    choice = one.choice
    plates = choice.carriers.thickness + choice.push_plate.thickness + choice.body.thickness
    return -(plates + choice.nose.thickness + choice.shoulders.thickness), choice.opening
