"""Why candidates of a proposal were rejected, counted by reason, and which came nearest."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable

from strapwright.proposing.found_values import FellOut, NearMiss
from strapwright.proposing.miss_values import Lack, Miss
from strapwright.proposing.proposal_values import Choice


class Rejections:
    """Why things fell out, and the nearest miss."""

    def __init__(self) -> None:
        self.counts: Counter[Hashable] = Counter()
        self.examples: dict[Hashable, Lack] = {}
        self.nearest: tuple[int, float, NearMiss] | None = None

    def note(self, stage: int, miss: Miss, choice: Choice | None = None, count: int = 1) -> None:
        """Count a miss; the later its stage and the smaller its excess, the nearer it came."""
        kind = miss.lack.kind
        self.counts[kind] += count
        self.examples.setdefault(kind, miss.lack)
        over = float("inf") if miss.over is None else miss.over
        if self.nearest is None or (-stage, over) < self.nearest[:2]:
            near = NearMiss(choice=choice, lack=miss.lack, over=miss.over)
            self.nearest = (-stage, over, near)

    def reasons(self) -> tuple[FellOut, ...]:
        """Reasons, the commonest first."""
        return tuple(
            FellOut(example=self.examples[kind], count=count)
            for kind, count in self.counts.most_common()
        )
