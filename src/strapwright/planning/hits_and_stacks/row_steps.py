"""Steps of a part of which a bend is made by a row of hits, for the search of the order.

A bend made by one stroke is answered as in every other part, a finished row standing there as the
arc that it stands in for.  A row is answered hit by hit.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial

from attrs import evolve, frozen

from strapwright.blank.blank_values import Blank
from strapwright.blank.hit_spacing import Row
from strapwright.midline.pose_values import DrawnPose, Zone
from strapwright.ordering.order_arrays import Wing, meets_along
from strapwright.ordering.order_values import PartGeometry, SearchSettings, ToolSection
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import AtHit, End, Reason, ShortLeg
from strapwright.ordering.time_given import ask
from strapwright.planning.hits_and_stacks.hit_clearance import Kept, hold_hit
from strapwright.planning.hits_and_stacks.hit_rows import hit_pose
from strapwright.planning.made_bend import MadeBend
from strapwright.planning.natural_order import Need, bare_bar


@frozen(kw_only=True)
class Rows:
    """The rows of a part as they lie in its blank.

    Attributes
    ----------
    rows, made, zones, sides, needs
        One a bend: its row or ``None``, its bend or one hit of it as solved, its zone once made,
        +1 where it turns up as drawn, and the straight bar that it needs.
    """

    blank: Blank
    rows: Sequence[Row | None]
    made: Sequence[MadeBend]
    zones: Sequence[Zone]
    sides: Sequence[int]
    needs: Sequence[Need]

    def laid(self, before: Sequence[int], bend: int, end: int, hit: int, angle: float) -> DrawnPose:
        """Lay the bar on the shoulders at an angle of one hit [rad].

        Parameters
        ----------
        before
            0-based bends made before.
        bend, end, hit
            0-based; end 1 points left for 0.
        """
        row = self.rows[bend]
        if row is None:
            raise ValueError(f"bend {bend + 1} is no series of hits")
        return hit_pose(
            self.blank.length,
            [self.zones[j] for j in before],
            self.blank.zone(bend + 1),
            row,
            self.made[bend].setup,
            hit=hit,
            side=self.sides[bend],
            turned=0.0,
            end_left=1 if end == 0 else 2,
            loaded=angle,
        )


class RowSteps(Steps):
    """Single steps of a part with rows."""

    def __init__(
        self,
        section: ToolSection,
        part: PartGeometry,
        settings: SearchSettings,
        rows: Rows,
        keep_going: Callable[[], bool],
    ) -> None:
        stand_off = max((row.stand_off for row in rows.rows if row is not None), default=0.0)
        # The corners of a finished row stand off the arc that it stands in for.
        super().__init__(section, part, evolve(settings, clearance=settings.clearance + stand_off))
        self.row_settings = settings
        self.of_rows = rows
        self._keep_going = keep_going
        self._rows: dict[tuple[int, int, int], AtHit | Kept] = {}
        self.pieces = tuple(piece for piece in section.pieces if meets_along(piece, part))

    def row(self, made: int, bend: int, end: int) -> AtHit | Kept:
        """What comes of the row of a bend, hit by hit.

        Raises
        ------
        OutOfTimeError
            Where nobody waits for the answer any longer.
        """
        key = (made, bend, 0 if self.symmetric else end)
        if key not in self._rows:
            self._rows[key] = self._row(*key)
        return self._rows[key]

    def untabled(self) -> RowSteps:
        """Return these answers, which need no tables."""
        return self

    def made_whole(self, bend: int) -> bool:
        """Whether a bend is made by a row of hits."""
        return self.of_rows.rows[bend] is not None

    def whole_refusal(self, made: int, bend: int, end: int) -> Reason | None:
        """Why the row of a bend cannot be made."""
        found = self.row(made, bend, end)
        return None if isinstance(found, Kept) else found

    def clear(self, made: int, bend: int, end: int) -> bool:
        """Whether the step keeps clear of the tooling; of itself too, where it is a row."""
        if self.of_rows.rows[bend] is None:
            return super().clear(made, bend, end)
        return isinstance(self.row(made, bend, end), Kept)

    def reach(self, made: int, bend: int, end: int) -> float:
        """How far the left wing reaches; of a row at its first hit [mm]."""
        if self.of_rows.rows[bend] is None:
            return super().reach(made, bend, end)
        marks = self.of_rows.blank.marks_of(bend + 1)
        first = marks[0].nose
        return first if end == 0 else self.of_rows.blank.length - first

    def meets_itself(self, made: int, bend: int) -> bool:
        """Whether the part comes too near to itself during the stroke."""
        if self.of_rows.rows[bend] is None:
            return super().meets_itself(made, bend)
        return False  # held in clear()

    def _row(self, made: int, bend: int, end: int) -> AtHit | Kept:
        rows = self.of_rows
        row, this = rows.rows[bend], rows.made[bend]
        if row is None:
            raise ValueError(f"bend {bend + 1} is no series of hits")
        before = [j for j in range(self.part.bends) if made >> j & 1]
        needed = rows.needs[bend].straight
        ends: tuple[End, End] = (1, 2)
        for room, towards in zip(bare_bar(rows.blank, bend, before), ends, strict=True):
            if room < needed:
                short = ShortLeg(towards=towards, had=room, needed=needed)
                return AtHit(hit=1 if towards == 1 else row.hits, hits=row.hits, reason=short)
        least = Kept(clearance=math.inf, nearest=None)

        def posed(hit: int, angle: float) -> DrawnPose:
            ask(self._keep_going)
            return rows.laid(before, bend, end, hit, angle)

        for hit in range(row.hits):
            found = hold_hit(
                partial(posed, hit),
                this.state.loaded_angle,
                this.setup.thickness,
                self.section,
                self.pieces,
                self.row_settings,
            )
            if not isinstance(found, Kept):
                return AtHit(hit=hit + 1, hits=row.hits, reason=found)
            least = min(least, found, key=lambda one: one.clearance)
        return least

    def answer(self, made: int, bend: int, end: int, wing: Wing) -> tuple[int, float]:
        """Flag and reach of one wing in one step made by one stroke."""
        if self.of_rows.rows[bend] is not None:
            raise ValueError(f"the wings of bend {bend + 1} are not apart: it is a series of hits")
        return super().answer(made, bend, end, wing)
