"""Put the bends of a part with rows of hits in order, every hit held against what stands there."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from attrs import field, frozen

from strapwright.blank.hit_spacing import Row
from strapwright.findings import Finding, KeyAt, Severity
from strapwright.ordering.cheapest_order import end_of, numbers
from strapwright.ordering.nearest_piece import nearest_piece
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.order_values import PartGeometry, SearchSettings
from strapwright.ordering.refusal_values import Reason
from strapwright.planning.hits_and_stacks.hit_clearance import Kept
from strapwright.planning.hits_and_stacks.lying_hit import hits_apart, lying_at
from strapwright.planning.hits_and_stacks.order_or_refusal import made_before, order_or_refusal
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered, Placed
from strapwright.planning.hits_and_stacks.row_steps import Rows, RowSteps
from strapwright.planning.order_findings import (
    assumed_findings,
    into_findings,
    off_findings,
)
from strapwright.planning.surroundings.surrounding_pieces import Surroundings
from strapwright.planning.surroundings.way_off import Opening, against, holders_wanted

KeepGoing = Callable[[], bool]
State = tuple[int, int, int]


@frozen(kw_only=True)
class RowPart:
    """A part with rows of hits, ready to be put in order.

    Attributes
    ----------
    geometry
        A row stands there as the arc that it stands in for.
    """

    around: Surroundings
    geometry: PartGeometry
    settings: SearchSettings
    rows: Rows
    opening: Opening
    known: dict[State, FreeingResult] = field(factory=dict, eq=False)
    laid: dict[State, FreeingResult] = field(factory=dict, eq=False)

    def off(self, made: int, bend: int, end: int, *, what_holds: bool = False) -> FreeingResult:
        """How the part comes off after a 0-based bend, of a row after its last hit."""
        key = (made, bend, end)
        known = self.known.get(key)
        if known is None or holders_wanted(known, what_holds=what_holds):
            row = self.rows.rows[bend]
            done = numbers(made)
            found = (
                self.opening.off(
                    self.geometry, bend + 1, (*done, bend + 1), end_of(end), what_holds=what_holds
                )
                if row is None
                else self._off_last_hit(done, bend, end, row, what_holds=what_holds)
            )
            self.known[key] = found if known is None or found.verdict != "NO TIME" else known
        return self.known[key]

    def _off_last_hit(
        self, made: tuple[int, ...], bend: int, end: int, row: Row, *, what_holds: bool
    ) -> FreeingResult:
        last = row.hits - 1
        pose = self.rows.laid([j - 1 for j in made], bend, end, last, row.angle)
        return self.opening.off(
            self.geometry,
            bend + 1,
            (*made, bend + 1),
            end_of(end),
            what_holds=what_holds,
            lies=lying_at(self.geometry, bend, row, last, pose),
        )

    def laid_in(self, made: int, bend: int, end: int) -> FreeingResult:
        """How the bar is laid in for a 0-based bend, of a row for the first hit that bars it."""
        key = (made, bend, end)
        if key not in self.laid:
            row = self.rows.rows[bend]
            self.laid[key] = (
                self.opening.into(self.geometry, bend + 1, numbers(made), end_of(end))
                if row is None
                else self._into_hits(numbers(made), bend, end, row)
            )
        return self.laid[key]

    def _into_hits(self, made: tuple[int, ...], bend: int, end: int, row: Row) -> FreeingResult:
        into = None
        for hit in range(row.hits):
            pose = self.rows.laid([j - 1 for j in made], bend, end, hit, 0.0)
            lies = lying_at(self.geometry, bend, row, hit, pose)
            part, done = self.geometry, made
            if hit:
                part = hits_apart(part, bend, row, hit)
                done = (*(j if j <= bend else j + 1 for j in made), bend + 1)
            into = self.opening.into(part, bend + 1, done, end_of(end), lies=lies)
            if into.verdict != "FREE":
                break
        if into is None:
            raise ValueError(f"the row of bend {bend + 1} has no hits")
        return into

    @property
    def keep_going(self) -> KeepGoing:
        """Asked now and then."""
        return self.opening.keep_going

    def locked(self, made: int, bend: int, end: int) -> Reason | None:
        """What speaks against a step: the part locked on the tooling, or the bar not laid in."""
        return against(self.off(made, bend, end), lambda: self.laid_in(made, bend, end))


def rows_in_order(
    part: RowPart, stated: Sequence[int] | None, natural: Sequence[int], *, named: bool
) -> Ordered:
    """Find the order with the least handling, or hold a stated one against the tooling.

    Parameters
    ----------
    stated
        0-based order to keep to, or ``None``.
    natural
        0-based order that is shown where none is found.
    named
        Whether the stated order was written by the shop.

    Raises
    ------
    OutOfTimeError
        Where the time ran out before every hit was held against the tooling.
    """
    steps = RowSteps(part.around.section, part.geometry, part.settings, part.rows, part.keep_going)
    found, finding = order_or_refusal(
        steps, part.locked, stated, settings=part.settings, keep_going=part.keep_going, named=named
    )
    if finding is None:
        return _found(part, steps, found.order, found.cost, proven=found.proven)
    order = natural if stated is None else stated
    return Ordered(
        steps=tuple(Placed(bend=bend) for bend in order),
        findings=(finding, *assumed_findings(part.around)),
        cost=None,
        proven=found.proven,
        offs=_locked_offs(part, order),
        around=part.around,
    )


def _locked_offs(part: RowPart, order: Sequence[int]) -> tuple[FreeingResult | None, ...]:
    """What holds the part after those steps of a refused order that were found to lock it on."""
    offs: list[FreeingResult | None] = []
    for place in range(len(order)):
        made, bend = made_before(order, place)
        known = part.known.get((made, bend, 0))
        held = known is not None and known.verdict in ("TRAPPED", "NO START")
        offs.append(part.off(made, bend, 0, what_holds=True) if held else None)
    return tuple(offs)


def _found(
    part: RowPart, steps: RowSteps, order: Sequence[State], cost: int, *, proven: bool
) -> Ordered:
    findings: list[Finding] = []
    if not proven:
        findings.append(
            Finding(code="order-not-proven", severity=Severity.NOTE, about=(KeyAt("part.order"),))
        )
    placed, offs = [], []
    for state in order:
        made, bend, end = state
        row = part.rows.rows[bend]
        off = part.off(*state, what_holds=True)
        kept = steps.row(*state) if row is not None else None
        if isinstance(kept, Kept):
            clearance, nearest = kept.clearance, kept.nearest
        else:
            clearance, nearest = nearest_piece(steps, made, bend, end)
        placed.append(
            Placed(
                bend=bend,
                end_left=end_of(end),
                clearance=clearance,
                nearest=nearest,
                # Every hit of a row has a stop of its own.
                reach=None if row is not None else steps.reach(*state),
            )
        )
        offs.append(off)
        findings += off_findings(bend + 1, off) + into_findings(bend + 1, part.laid_in(*state))
    stops = sum(row.hits - 1 for row in part.rows.rows if row is not None)
    return Ordered(
        steps=tuple(placed),
        findings=(*findings, *assumed_findings(part.around)),
        cost=cost + stops * part.settings.costs.stop,
        proven=proven,
        offs=tuple(offs),
        around=part.around,
    )
