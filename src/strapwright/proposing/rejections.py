"""Why candidates of a proposal were rejected, counted by reason, and which came nearest."""

from __future__ import annotations

from collections import Counter

from strapwright.proposing.cheap_tests import Miss
from strapwright.proposing.proposal_values import Choice, FellOut, NearMiss


class Rejections:
    """Why things fell out, and the nearest miss."""

    def __init__(self) -> None:
        self.counts: Counter[str] = Counter()
        self.examples: dict[str, Miss] = {}
        self.nearest: tuple[int, float, NearMiss] | None = None

    def note(self, stage: int, miss: Miss, choice: Choice | None = None, count: int = 1) -> None:
        """Count a miss; the later its stage and the smaller its excess, the nearer it came."""
        self.counts[miss.reason] += count
        self.examples.setdefault(miss.reason, miss)
        over = float("inf") if miss.over is None else miss.over
        if self.nearest is None or (-stage, over) < self.nearest[:2]:
            near = NearMiss(choice=choice, text=miss.text, over=miss.over, finding=miss.finding)
            self.nearest = (-stage, over, near)

    def reasons(self) -> tuple[FellOut, ...]:
        """Reasons, the commonest first."""
        return tuple(
            FellOut(
                reason=reason,
                count=count,
                example=self.examples[reason].text,
                finding=self.examples[reason].finding,
            )
            for reason, count in self.counts.most_common()
        )
