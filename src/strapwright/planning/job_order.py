"""Put the bends in order: the search's answer, or a stated order held against it.

The search proves the order with the least handling; where it does not apply (rows of hits, rolled
bars, stacks) the natural order is used and said to be not proven.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from attrs import field, frozen

from strapwright.blank.legs import straights
from strapwright.errors import InputError
from strapwright.findings import (
    Choice,
    Count,
    Finding,
    KeyAt,
    Severity,
    Yes,
)
from strapwright.midline.pose_values import End
from strapwright.ordering.backward import numbers
from strapwright.ordering.freeing.verdict import comes_off
from strapwright.ordering.order_results import FreeingResult, OrderResult
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings
from strapwright.ordering.refusal_reasons import refusal_of
from strapwright.ordering.refusal_values import Refusal
from strapwright.ordering.search import find_order
from strapwright.ordering.step_oracle import Steps
from strapwright.planning.made_bend import MadeBend
from strapwright.planning.order_findings import assumed_findings, off_findings
from strapwright.planning.surrounding_pieces import Surroundings, surroundings
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling

WhyNot = Literal["row", "rolled", "stacked", "short leg", "not yet", "jams"]
"""Why no order was searched; ``not yet`` while it is being searched, ``jams`` where a bend does."""

KeepGoing = Callable[[], bool]


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
    """

    bend: int
    end_left: End = 1
    clearance: float | None = None
    nearest: Piece | None = None
    reach: float | None = None


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
    """

    steps: tuple[Placed, ...]
    findings: tuple[Finding, ...]
    cost: int | None
    proven: bool
    offs: tuple[FreeingResult | None, ...]
    around: Surroundings | None = field(default=None, eq=False)

    @property
    def order(self) -> tuple[int, ...]:
        """0-based bends in the order of making."""
        return tuple(step.bend for step in self.steps)


@frozen(kw_only=True)
class _Asked:
    """The search's inputs, with coming off remembered for each state."""

    around: Surroundings
    geometry: PartGeometry
    settings: SearchSettings
    nose_radius: float
    drawable: bool
    keep_going: KeepGoing
    known: dict[tuple[int, End, tuple[int, ...]], FreeingResult] = field(factory=dict)

    def off(
        self, bend: int, end: End, made: tuple[int, ...], *, what_holds: bool = False
    ) -> FreeingResult:
        """Coming off after a 1-based bend is made on top of the bends made before."""
        key = (bend, end, made)
        known = self.known.get(key)
        if known is None or (what_holds and known.verdict == "TRAPPED"):
            self.known[key] = comes_off(
                self.around.section.pieces,
                self.geometry,
                bend,
                self.nose_radius,
                made=tuple(sorted((*made, bend))),
                end_left=end,
                keep_going=self.keep_going,
                what_holds=what_holds,
            )
        return self.known[key]

    def locked(self, bend: int, end: End, made: tuple[int, ...]) -> bool:
        """Whether a step leaves the part locked on the tooling; a nose that is drawn frees it."""
        if self.drawable:
            return False
        return self.off(bend, end, made).verdict in ("TRAPPED", "NO START")


def why_not_searched(job: Job) -> WhyNot | None:
    """Why the search does not apply to a job, or None where it does."""
    part = job.part
    if any(bend.radius is not None for bend in part.bends):
        return "row"
    if any(part.rolls):
        return "rolled"
    return "stacked" if part.stacked > 1 else None


def put_in_order(
    job: Job,
    tooling: Tooling,
    made: Sequence[MadeBend],
    natural: Sequence[int],
    keep_going: KeepGoing,
) -> Ordered:
    """Order the bends of a job.

    Parameters
    ----------
    made
        Each bend as solved.
    natural
        0-based order to use where the search does not apply or finds none.
    keep_going
        Asked now and then; once it says no, the best found so far is used and said to be so.
    """
    part = job.part
    why_not = why_not_searched(job)
    if why_not is not None:
        return unsearched(part.order, natural, why_not)
    asked = _asked(job, tooling, made, keep_going)
    if asked is None:
        return unsearched(part.order, natural, "short leg")
    if part.order is not None or part.natural:
        order = tuple(b - 1 for b in part.order) if part.order is not None else tuple(natural)
        return _stated(asked, order, named=part.order is not None)
    found = find_order(
        asked.around.section,
        asked.geometry,
        asked.settings,
        refuse=asked.locked,
        keep_going=keep_going,
    )
    if found.feasible:
        return _from(asked, found, ())
    return _none_found(asked, found, natural)


def _asked(
    job: Job, tooling: Tooling, made: Sequence[MadeBend], keep_going: KeepGoing
) -> _Asked | None:
    part = job.part
    thickness = made[0].setup.thickness
    # Even arcs of the wrap radius stand for the bends; the corners of the part stay where they are.
    radii = [max(one.radii.wrap, tooling.nose.radius) for one in made]
    try:
        lengths = straights(part, None, inside_radii=radii)
    except InputError:
        return None
    around = surroundings(job, tooling, part.at_once * part.bar.width)
    geometry = PartGeometry(
        straights=lengths,
        angles=tuple(bend.side * bend.angle for bend in part.bends),
        radii=tuple(radii),
        thickness=thickness,
        z=around.along,
    )
    settings = SearchSettings(
        springback=tuple(one.state.loaded_angle - one.state.free_angle for one in made)
    )
    return _Asked(
        around=around,
        geometry=geometry,
        settings=settings,
        nose_radius=tooling.nose.radius,
        drawable=tooling.nose.drawable,
        keep_going=keep_going,
    )


def _from(asked: _Asked, found: OrderResult, findings: Sequence[Finding]) -> Ordered:
    remarks = list(findings)
    if not found.proven:
        remarks.append(
            Finding(code="order-not-proven", severity=Severity.NOTE, about=(KeyAt("part.order"),))
        )
    steps = tuple(
        Placed(
            bend=step.bend - 1,
            end_left=step.end_left,
            clearance=step.clearance,
            nearest=step.nearest,
            reach=step.reach,
        )
        for step in found.steps
    )
    offs = tuple(
        asked.off(step.bend, step.end_left, step.made, what_holds=True) for step in found.steps
    )
    for step, off in zip(found.steps, offs, strict=True):
        remarks += off_findings(step.bend, off, drawable=asked.drawable)
    remarks += assumed_findings(asked.around)
    return Ordered(
        steps=steps,
        findings=tuple(remarks),
        cost=found.cost,
        proven=found.proven,
        offs=offs,
        around=asked.around,
    )


def _stated(asked: _Asked, order: Sequence[int], *, named: bool) -> Ordered:
    """Check a stated order and compare it with the best one."""
    place = {(bend + 1, tuple(sorted(b + 1 for b in order[:k]))) for k, bend in enumerate(order)}

    def strays(bend: int, end: End, made: tuple[int, ...]) -> bool:
        return (bend, tuple(sorted(made))) not in place or asked.locked(bend, end, made)

    section, geometry, settings = asked.around.section, asked.geometry, asked.settings
    held = find_order(section, geometry, settings, refuse=strays, keep_going=asked.keep_going)
    best = find_order(section, geometry, settings, refuse=asked.locked, keep_going=asked.keep_going)
    if held.feasible:
        remarks = []
        if best.cost is not None and held.cost is not None and best.cost < held.cost and named:
            remarks.append(
                Finding(
                    code="better-order",
                    severity=Severity.NOTE,
                    about=(KeyAt("part.order"),),
                    facts={
                        "order": tuple(Count(step.bend) for step in best.steps),
                        "cost": Count(best.cost),
                        "stated_cost": Count(held.cost),
                        "flip": Count(settings.costs.flip),
                        "swap": Count(settings.costs.swap),
                        "stop": Count(settings.costs.stop),
                    },
                )
            )
        return _from(asked, held, remarks)
    refusal = _first_refusal(asked, order)
    finding = Finding(
        code="order-cannot-be-made",
        severity=Severity.REFUSAL,
        about=(KeyAt("part.order"),),
        facts={
            "stated": Yes(named),
            "refusals": () if refusal is None else (refusal,),
            "best": tuple(Count(step.bend) for step in best.steps),
        },
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in order),
        findings=(finding, *assumed_findings(asked.around)),
        cost=None,
        proven=False,
        offs=_locked_offs(asked, order),
        around=asked.around,
    )


def _locked_offs(asked: _Asked, order: Sequence[int]) -> tuple[FreeingResult | None, ...]:
    """What holds the part after those steps of a refused order that were found to lock it on."""
    offs: list[FreeingResult | None] = []
    for k, bend in enumerate(order):
        made = tuple(sorted(b + 1 for b in order[:k]))
        known = asked.known.get((bend + 1, 1, made))
        held = known is not None and known.verdict in ("TRAPPED", "NO START")
        offs.append(asked.off(bend + 1, 1, made, what_holds=True) if held else None)
    return tuple(offs)


def _first_refusal(asked: _Asked, order: Sequence[int]) -> Refusal | None:
    """Why a given order fails: the first of its steps that can be made neither way round."""
    steps = Steps(asked.around.section, asked.geometry, asked.settings)

    def outside(made: int, bend: int, end: int) -> bool:
        return asked.locked(bend + 1, 1 if end == 0 else 2, numbers(made))

    made = 0
    for bend in order:
        refusals = [refusal_of(steps, outside, made, bend, end) for end in (0, 1)]
        if refusals[0] is not None and refusals[1] is not None:
            return refusals[0]
        made |= 1 << bend
    return None


def _none_found(asked: _Asked, found: OrderResult, natural: Sequence[int]) -> Ordered:
    finding = Finding(
        code="no-order",
        severity=Severity.REFUSAL,
        about=(KeyAt("part.shape"),),
        facts={
            "closes_on_itself": Yes(found.closes_on_itself),
            "proven": Yes(found.proven),
            "refusals": tuple(found.refusals),
        },
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in natural),
        findings=(finding, *assumed_findings(asked.around)),
        cost=None,
        proven=found.proven,
        offs=_locked_offs(asked, natural),
        around=asked.around,
    )


def unsearched(stated: Sequence[int] | None, natural: Sequence[int], why: WhyNot) -> Ordered:
    """Return the stated or natural order with the remark that nothing of it is proven."""
    order = tuple(b - 1 for b in stated) if stated is not None else tuple(natural)
    finding = Finding(
        code="order-not-searched",
        severity=Severity.WARNING,
        about=(KeyAt("part.order"),),
        facts={"why": Choice(why)},
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in order),
        findings=(finding,) if len(order) > 1 else (),
        cost=None,
        proven=False,
        offs=(None,) * len(order),
    )
