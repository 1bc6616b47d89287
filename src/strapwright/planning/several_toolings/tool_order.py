"""Put the bends of a part in order that is made on several toolings."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import field, frozen

from strapwright.findings import Finding, KeyAt, Severity
from strapwright.ordering.cheapest_order import end_of, numbers
from strapwright.ordering.nearest_piece import nearest_piece
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.refusal_values import Reason
from strapwright.planning.hits_and_stacks.order_or_refusal import made_before, order_or_refusal
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered, Placed
from strapwright.planning.order_findings import (
    assumed_findings,
    into_findings,
    off_findings,
)
from strapwright.planning.several_toolings.tool_steps import ToolSteps
from strapwright.planning.surroundings.way_off import Asked

State = tuple[int, int, int]


@frozen(kw_only=True)
class OnTools:
    """A part on several toolings, ready to be put in order.

    Attributes
    ----------
    asked
        One a tooling, all with the same part.
    tools
        Place of each bend's tooling in ``asked``, shape (bends,).
    """

    asked: Sequence[Asked]
    tools: Sequence[int]
    steps: ToolSteps = field(init=False, eq=False)

    def __attrs_post_init__(self) -> None:
        """Hold every bend against its own tooling."""
        first = self.asked[0]
        steps = ToolSteps(
            [one.section for one in self.asked], first.geometry, first.settings, self.tools
        )
        object.__setattr__(self, "steps", steps)

    def of(self, bend: int) -> Asked:
        """What is asked of the tooling of a 0-based bend."""
        return self.asked[self.tools[bend]]

    def locked(self, made: int, bend: int, end: int) -> Reason | None:
        """What speaks against a step: the part locked on the tooling, or the bar not laid in."""
        return self.of(bend).outside(made, bend, end)


def tools_in_order(
    part: OnTools, stated: Sequence[int] | None, natural: Sequence[int], *, named: bool
) -> Ordered:
    """Find the order with the least handling, each change of tooling counted with it.

    Parameters
    ----------
    stated
        0-based order to keep to, or ``None``.
    natural
        0-based order that is shown where none is found.
    named
        Whether the stated order was written by the shop.
    """
    steps, first = part.steps, part.asked[0]
    found, finding = order_or_refusal(
        steps,
        part.locked,
        stated,
        settings=first.settings,
        keep_going=first.keep_going,
        named=named,
    )
    if finding is None:
        return _found(part, found.order, found.cost, proven=found.proven)
    order = natural if stated is None else stated
    return Ordered(
        steps=tuple(Placed(bend=bend) for bend in order),
        findings=(finding, *assumed_findings(first.around)),
        cost=None,
        proven=found.proven,
        offs=_locked_offs(part, order),
        around=first.around,
        arounds=tuple(part.of(bend).around for bend in order),
    )


def _locked_offs(part: OnTools, order: Sequence[int]) -> tuple[FreeingResult | None, ...]:
    """What holds the part after those steps of a refused order that were found to lock it on."""
    offs: list[FreeingResult | None] = []
    for place in range(len(order)):
        made, bend = made_before(order, place)
        asked, before = part.of(bend), numbers(made)
        known = asked.known.get((bend + 1, 1, before))
        held = known is not None and known.verdict in ("TRAPPED", "NO START")
        offs.append(asked.off(bend + 1, 1, before, what_holds=True) if held else None)
    return tuple(offs)


def _found(part: OnTools, order: Sequence[State], cost: int, *, proven: bool) -> Ordered:
    findings: list[Finding] = []
    if not proven:
        findings.append(
            Finding(code="order-not-proven", severity=Severity.NOTE, about=(KeyAt("part.order"),))
        )
    placed, offs = [], []
    for state in order:
        made, bend, end = state
        asked, before = part.of(bend), numbers(made)
        off = asked.off(bend + 1, end_of(end), before, what_holds=True)
        found = [nearest_piece(part.steps, made, bend, end)]
        found += [one.nearest(made, bend, end) for one in asked.beside]
        clearance, nearest = min(found, key=lambda one: one[0])
        placed.append(
            Placed(
                bend=bend,
                end_left=end_of(end),
                clearance=clearance,
                nearest=nearest,
                reach=part.steps.reach(*state),
                off_middle=bool(asked.beside),
            )
        )
        offs.append(off)
        findings += off_findings(bend + 1, off)
        findings += into_findings(bend + 1, asked.laid_in(bend + 1, end_of(end), before))
    return Ordered(
        steps=tuple(placed),
        findings=(*findings, *assumed_findings(part.asked[0].around)),
        cost=cost,
        proven=proven,
        offs=tuple(offs),
        around=part.asked[0].around,
        arounds=tuple(part.of(bend).around for _, bend, _ in order),
    )
