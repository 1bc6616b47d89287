"""Answers 'can this bend be made now, and what does it cost', from tables or one at a time."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from strapwright.ordering.kernel_pieces import Floats, Outward, Stroke, Tool
from strapwright.ordering.kernel_self import self_contact
from strapwright.ordering.kernel_subsets import NEVER, costs_into
from strapwright.ordering.kernel_wings import (
    wing_answer,
    wing_begun,
    wing_outside,
    wing_rows,
    wing_table,
)
from strapwright.ordering.order_arrays import (
    Shape,
    Wing,
    lacking,
    outward_of,
    shapes_of,
    stroke_of,
    symmetric,
    tool_arrays,
)
from strapwright.ordering.order_values import PartGeometry, SearchSettings, ToolSection
from strapwright.ordering.refusal_values import Reason
from strapwright.ordering.time_given import KeepGoing, OutOfTimeError, ask

# Numerical: sets between two looks at the time, a few ms.
SETS_AT_ONCE = 1024  # of a wing
COSTS_AT_ONCE = 4096


class Steps:
    """Everything about single steps of one part in one tooling.

    A step is (made, bend, end): the bit set of bends made before, the 0-based bend, and which end
    of the bar points left (0 for end 1).
    """

    def __init__(self, section: ToolSection, part: PartGeometry, settings: SearchSettings) -> None:
        n = part.bends
        self.section = section
        self.part = part
        self.settings = settings
        self.symmetric = symmetric(section)
        self.lacks = [lacking(section, part, settings, i) for i in range(n)]
        self.strokes: list[Stroke] = [stroke_of(section, part, settings, i) for i in range(n)]
        self.outward: list[tuple[Outward, Outward]] = [
            (outward_of(part, i, 0), outward_of(part, i, 1)) for i in range(n)
        ]
        self.shapes: list[tuple[tuple[Shape, ...], tuple[Shape, ...]]] = [
            (
                shapes_of(section, part, i, mirrored=True),
                shapes_of(section, part, i, mirrored=False),
            )
            for i in range(n)
        ]
        self.tools: list[tuple[Tool, Tool]] = [
            (tool_arrays(left), tool_arrays(right)) for left, right in self.shapes
        ]
        self._answers: dict[tuple[int, int, int, int], tuple[int, float]] = {}
        self._outsides: dict[tuple[int, int, int], bool] = {}
        self._meets: dict[tuple[int, int], bool] = {}

    def untabled(self) -> Steps:
        """Return the same answers with the plain bound of :meth:`into`."""
        return _Untabled(self)

    def made_whole(self, bend: int) -> bool:
        """Whether a bend is not made by one stroke with both wings apart, see below."""
        del bend
        return False

    def whole_refusal(self, made: int, bend: int, end: int) -> Reason | None:
        """Why a bend that is made whole cannot be made, the part itself included."""
        del made, bend, end
        return None

    def sub(self, made: int, bend: int, wing: Wing) -> int:
        """Made bends of one wing as that wing counts them."""
        return made & ((1 << bend) - 1) if wing == 0 else made >> (bend + 1)

    def place(self, end: int, wing: Wing) -> int:
        """0 where the wing points left, 1 where it points right."""
        return 1 - (wing == end)

    def answer(self, made: int, bend: int, end: int, wing: Wing) -> tuple[int, float]:
        """Flag and reach of one wing in one step."""
        place = 1 if self.symmetric else self.place(end, wing)
        key = (bend, wing, place, self.sub(made, bend, wing))
        if key not in self._answers:
            s = self.settings
            flags, reach = wing_answer(
                self.outward[bend][wing],
                self.strokes[bend],
                self.tools[bend][place],
                s.clearance,
                s.tolerance,
                key[3],
            )
            self._answers[key] = int(flags), float(reach)
        return self._answers[key]

    def clear(self, made: int, bend: int, end: int) -> bool:
        """Whether the step keeps clear of the tooling; the part itself is left out."""
        if self.lacks[bend] is not None:
            return False
        return all(self.answer(made, bend, end, w)[0] for w in (0, 1))

    def reach(self, made: int, bend: int, end: int) -> float:
        """How far the left wing reaches, 0 where it hits something [mm]."""
        return self.answer(made, bend, end, 0 if end == 0 else 1)[1]

    def rows(self, made: int, bend: int, wing: Wing) -> Floats:
        """Element rows of one wing."""
        rows: Floats = wing_rows(
            self.outward[bend][wing], self.strokes[bend], self.sub(made, bend, wing)
        )
        return rows

    def stroke_at(self, bend: int, place: int) -> Stroke:
        """Stroke of the wing that points left (0) or right (1); here both are alike."""
        del place
        return self.strokes[bend]

    def rows_at(self, made: int, bend: int, wing: Wing, end: int) -> Floats:
        """Element rows of one wing with an end of the bar pointing left; here all the same."""
        del end
        return self.rows(made, bend, wing)

    def meets_itself(self, made: int, bend: int) -> bool:
        """Whether the part comes too near to itself during the stroke."""
        key = (made, bend)
        if key not in self._meets:
            apart = all(self._outside(made, bend, w) for w in (0, 1))
            self._meets[key] = not apart and self.self_hit(made, bend) is not None
        return self._meets[key]

    def _outside(self, made: int, bend: int, wing: Wing) -> bool:
        key = (bend, wing, self.sub(made, bend, wing))
        if key not in self._outsides:
            self._outsides[key] = bool(
                wing_outside(
                    self.outward[bend][wing],
                    self.strokes[bend],
                    self.tools[bend][1],
                    self.settings.self_clearance,
                    key[2],
                )
            )
        return self._outsides[key]

    def self_hit(self, made: int, bend: int) -> tuple[float, int, int] | None:
        """Half angle and rows at which the part meets itself, left being the wing to end 1."""
        phi, a, b = self_contact(
            self.rows(made, bend, 0),
            self.rows(made, bend, 1),
            self.strokes[bend],
            self.settings.self_clearance,
        )
        return None if phi < 0.0 else (float(phi), int(a), int(b))

    def change(self, before: tuple[int, int, int], after: tuple[int, int, int]) -> int:
        """Cost of laying the bar for ``after`` where it lay for ``before``."""
        s = self.settings
        cost = s.costs.move(
            flip=(self.part.angles[before[1]] > 0.0) != (self.part.angles[after[1]] > 0.0),
            swap=before[2] != after[2],
        )
        if abs(self.reach(*before) - self.reach(*after)) > s.stop_tolerance:
            cost += s.costs.stop
        return cost

    def into(self, made: int, bend: int, end: int) -> int:
        """Lower bound of the cost up to and including the step; NEVER where it is impossible."""
        if not self.clear(made, bend, end):
            return NEVER
        costs = self.settings.costs
        bound = costs.stop
        own = self.part.angles[bend] > 0.0
        if any(made >> j & 1 and (a > 0.0) != own for j, a in enumerate(self.part.angles)):
            bound += (
                costs.move(flip=True, swap=False)
                if costs.half_turn is None
                else min(costs.flip, costs.half_turn)
            )
        return bound


class _Untabled(Steps):
    """The answers of other steps, without their exact bound."""

    def __init__(self, steps: Steps) -> None:
        self.__dict__.update(steps.__dict__)
        self._steps = steps

    def answer(self, made: int, bend: int, end: int, wing: Wing) -> tuple[int, float]:
        """Flag and reach of one wing in one step."""
        return self._steps.answer(made, bend, end, wing)


class TabledSteps(Steps):
    """The same, answered from full tables, with the exact least cost into every step."""

    def __init__(
        self,
        section: ToolSection,
        part: PartGeometry,
        settings: SearchSettings,
        keep_going: KeepGoing,
    ) -> None:
        super().__init__(section, part, settings)
        n = part.bends
        sizes = np.array([[1 << i for i in range(n)], [1 << (n - 1 - i) for i in range(n)]])
        starts = np.concatenate(([0], np.cumsum(sizes.ravel())))
        self._offset = starts[:-1].reshape(2, n)
        self._flags = np.zeros((2, int(starts[-1])), dtype=np.int64)
        self._reach = np.zeros((2, int(starts[-1])))
        self.complete = False
        self.best: NDArray[np.int32] | None = None
        try:
            self._fill(sizes, keep_going)
            self.complete = True
            self.best = self._costs(keep_going)
        except OutOfTimeError:
            return  # what was not tabled is answered one at a time

    def _fill(self, sizes: NDArray[np.int64], keep_going: KeepGoing) -> None:
        s = self.settings
        wings: tuple[Wing, Wing] = (0, 1)
        for i in range(self.part.bends):
            if self.lacks[i] is not None:
                continue
            for wing in wings:
                cut = slice(int(self._offset[wing, i]), int(self._offset[wing, i] + sizes[wing, i]))
                for place in (1,) if self.symmetric else (0, 1):
                    wanted = self.outward[i][wing], self.strokes[i], self.tools[i][place]
                    stack = wing_begun(*wanted, s.clearance, s.tolerance)
                    top = 1
                    while stack is not None and top:
                        ask(keep_going)
                        top = wing_table(
                            *wanted,
                            clearance=s.clearance,
                            tolerance=s.tolerance,
                            flags=self._flags[place, cut],
                            reach=self._reach[place, cut],
                            stack=stack,
                            top=top,
                            most=SETS_AT_ONCE,
                        )
                if self.symmetric:
                    self._flags[0, cut] = self._flags[1, cut]
                    self._reach[0, cut] = self._reach[1, cut]

    def _costs(self, keep_going: KeepGoing) -> NDArray[np.int32]:
        c = self.settings.costs
        n = self.part.bends
        best = np.full((1 << n, n, 2), NEVER, dtype=np.int32)
        possible = np.array([v is None for v in self.lacks], dtype=np.int64)
        sign = np.array([1 if a > 0.0 else -1 for a in self.part.angles], dtype=np.int64)
        reach = self._reach.max(axis=0)
        move = np.array([[c.move(flip=f, swap=s) for s in (False, True)] for f in (False, True)])
        for first in range(0, 1 << n, COSTS_AT_ONCE):
            ask(keep_going)
            costs_into(
                best,
                first,
                min(first + COSTS_AT_ONCE, 1 << n),
                possible,
                sign,
                offset=self._offset,
                flags=self._flags,
                reach=reach,
                move=move,
                stop=c.stop,
                stop_tolerance=self.settings.stop_tolerance,
            )
        return best

    def answer(self, made: int, bend: int, end: int, wing: Wing) -> tuple[int, float]:
        """Flag and reach of one wing in one step."""
        if not self.complete:
            return super().answer(made, bend, end, wing)
        at = int(self._offset[wing, bend]) + self.sub(made, bend, wing)
        place = self.place(end, wing)
        return int(self._flags[place, at]), float(self._reach[place, at])

    def into(self, made: int, bend: int, end: int) -> int:
        """Least cost up to and including the step, self-collision left out."""
        if self.best is None:
            return super().into(made, bend, end)
        return int(self.best[made, bend, end])
