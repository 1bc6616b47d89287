"""The order of a job as the plan uses it: each bend as it is laid in, and how it comes off."""

from __future__ import annotations

from attrs import field, frozen

from strapwright.findings import Finding
from strapwright.midline.pose_values import End
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.order_values import Piece
from strapwright.planning.surroundings.surrounding_pieces import Surroundings


@frozen(kw_only=True)
class Placed:
    """One bend of the order as it is laid in.

    Attributes
    ----------
    bend
        0-based.
    end_left
        Which end of the blank points left.
    clearance, nearest
        Least distance over closing and stroke and the piece it is to; ``None`` where not searched
        [mm].
    reach
        How far the part reaches left of the bend's middle, where an end stop stands [mm].
    off_middle
        A nose as far off the middle as it may stand was looked at too.
    """

    bend: int
    end_left: End = 1
    clearance: float | None = None
    nearest: Piece | None = None
    reach: float | None = None
    off_middle: bool = False


@frozen(kw_only=True)
class Ordered:
    """The order of a job and what was found on the way.

    Attributes
    ----------
    steps
        In the order of making.
    cost
        Handling of one part, made part by part; ``None`` where not searched.
    proven
        Whether no order costs less.
    offs
        How each step comes off, shape (steps,); ``None`` where not looked at.
    around, arounds
        What stands about the job's own tooling, and about that of each step where it is made on
        several, else empty; ``None`` for a step that is not looked at.
    """

    steps: tuple[Placed, ...]
    findings: tuple[Finding, ...]
    cost: int | None
    proven: bool
    offs: tuple[FreeingResult | None, ...]
    around: Surroundings | None = field(default=None, eq=False)
    arounds: tuple[Surroundings | None, ...] = field(default=(), eq=False)

    def around_step(self, place: int) -> Surroundings | None:
        """What stands about the tooling of a step by its 0-based place."""
        return self.arounds[place] if self.arounds else self.around

    @property
    def order(self) -> tuple[int, ...]:
        """0-based bends in the order of making."""
        return tuple(step.bend for step in self.steps)


@frozen(kw_only=True)
class FoundOrder:
    """An order that an earlier search of the same part found.

    Attributes
    ----------
    bends
        1-based, in the order of making.
    proven
        Whether that search looked at every other one.
    """

    bends: tuple[int, ...]
    proven: bool
