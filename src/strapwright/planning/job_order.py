"""Put the bends in order: the search's answer, or a stated order held against it.

The search proves the order with the least handling; where it does not apply (rows of hits, rolled
bars, stacks) the natural order is used and said to be not proven.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from attrs import field, frozen

from strapwright.blank.legs import straights
from strapwright.errors import InputError
from strapwright.findings import Finding, Severity
from strapwright.midline.pose_values import End
from strapwright.ordering.geometry import symmetric
from strapwright.ordering.order_results import FreeingResult, OrderResult
from strapwright.ordering.order_values import PartGeometry, SearchSettings
from strapwright.ordering.refusal_reasons import refusal_of
from strapwright.ordering.search import find_order, numbers
from strapwright.ordering.step_oracle import Steps
from strapwright.planning.made_bend import MadeBend
from strapwright.planning.order_words import assumed_findings, off_findings, remedy_for
from strapwright.planning.surrounding_pieces import Surroundings, surroundings
from strapwright.planning.way_off import Asked
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling, from_below

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
    nearest: str = ""
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


def searchable(job: Job) -> str:
    """Why the search does not apply to a job, or an empty text."""
    part = job.part
    if any(bend.radius is not None for bend in part.bends):
        return "a row of hits"
    if any(part.rolls):
        return "a bar that is rolled out of one plane"
    if part.stacked > 1:
        return "stacked bars"
    return ""


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
    why_not = searchable(job)
    if why_not:
        return unsearched(part.order, natural, f"The search does not cover {why_not}")
    asked = _asked(job, tooling, made, keep_going)
    if asked is None:
        return unsearched(part.order, natural, "A leg is too short for the search's even arcs")
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
) -> Asked | None:
    part = job.part
    thickness = made[0].setup.thickness
    # Even arcs of the wrap radius stand for the bends; the corners of the part stay where they are.
    radii = [max(one.radii.wrap, tooling.nose.radius) for one in made]
    try:
        lengths = straights(part, None, inside_radii=radii)
    except InputError:
        return None
    # Below the tops the outside of a bend reaches as far as the nose has travelled.
    deepest = max(one.state.travel for one in made)
    around = surroundings(job, tooling, part.at_once * part.bar.width, deepest)
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
    return Asked(
        around=around,
        geometry=geometry,
        settings=settings,
        nose_radius=tooling.nose.radius,
        drawable=tooling.nose.drawable,
        stays=job.press is None or not from_below(tooling, job.press.axis),
        keep_going=keep_going,
        even=symmetric(around.section),
    )


def _from(asked: Asked, found: OrderResult, findings: Sequence[Finding]) -> Ordered:
    remarks = list(findings)
    if not found.proven:
        remarks.append(
            Finding(
                code="order-not-proven",
                severity=Severity.NOTE,
                where="part.order",
                text="The time ran out: this is the best order found, not proven to be the best.",
                remedy="Plan it again with more time, or state part.order.",
            )
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
        remarks += off_findings(step.bend, off)
    remarks += assumed_findings(asked.around)
    return Ordered(
        steps=steps,
        findings=tuple(remarks),
        cost=found.cost,
        proven=found.proven,
        offs=offs,
        around=asked.around,
    )


def _stated(asked: Asked, order: Sequence[int], *, named: bool) -> Ordered:
    """Check a stated order and compare it with the best one."""
    place = {(bend + 1, tuple(sorted(b + 1 for b in order[:k]))) for k, bend in enumerate(order)}

    def strays(bend: int, end: End, made: tuple[int, ...]) -> bool:
        return (bend, tuple(sorted(made))) not in place or bool(asked.locked(bend, end, made))

    section, geometry, settings = asked.around.section, asked.geometry, asked.settings
    held = find_order(section, geometry, settings, refuse=strays, keep_going=asked.keep_going)
    best = find_order(section, geometry, settings, refuse=asked.locked, keep_going=asked.keep_going)
    if held.feasible:
        remarks = []
        if best.cost is not None and held.cost is not None and best.cost < held.cost and named:
            names = ", ".join(str(step.bend) for step in best.steps)
            remarks.append(
                Finding(
                    code="better-order",
                    severity=Severity.NOTE,
                    where="part.order",
                    text=f"The order {names} takes less handling: {best.cost} against {held.cost} "
                    "(a flip counts 3, an end for end 2, a stop moved 1).",
                    remedy='Write order = "best", or leave it out.',
                )
            )
        return _from(asked, held, remarks)
    remedy = "Lengthen the leg, open the shoulders, or use a nose with a slimmer web."
    if best.feasible:
        remedy = f"Make the bends in the order {', '.join(str(s.bend) for s in best.steps)}."
    reasons = _first_reason(asked, order)
    finding = Finding(
        code="order-cannot-be-made",
        severity=Severity.REFUSAL,
        where="part.order",
        text=f"The {'stated' if named else 'natural'} order cannot be made: {reasons}.",
        remedy=remedy,
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in order),
        findings=(finding, *assumed_findings(asked.around)),
        cost=None,
        proven=False,
        offs=_locked_offs(asked, order),
        around=asked.around,
    )


def _locked_offs(asked: Asked, order: Sequence[int]) -> tuple[FreeingResult | None, ...]:
    """What holds the part after those steps of a refused order that were found to lock it on."""
    offs: list[FreeingResult | None] = []
    for k, bend in enumerate(order):
        made = tuple(sorted(b + 1 for b in order[:k]))
        known = asked.known.get((bend + 1, 1, made))
        held = known is not None and known.verdict in ("TRAPPED", "NO START")
        offs.append(asked.off(bend + 1, 1, made, what_holds=True) if held else None)
    return tuple(offs)


def _first_reason(asked: Asked, order: Sequence[int]) -> str:
    """Why a given order fails: the first of its steps that can be made neither way round."""
    steps = Steps(asked.around.section, asked.geometry, asked.settings)

    def outside(made: int, bend: int, end: int) -> str:
        return asked.locked(bend + 1, 1 if end == 0 else 2, numbers(made))

    made = 0
    for bend in order:
        refusals = [refusal_of(steps, outside, made, bend, end) for end in (0, 1)]
        if refusals[0] is not None and refusals[1] is not None:
            return refusals[0].text
        made |= 1 << bend
    return "one of its bends cannot be made"


def _none_found(asked: Asked, found: OrderResult, natural: Sequence[int]) -> Ordered:
    if found.closes_on_itself:
        text = "The finished part meets itself as drawn."
        remedy = "Check the legs and which way each bend turns."
    else:
        reasons = "; ".join(f"{one.text}" for one in found.refusals)
        text = f"No order makes this part on this tooling: {reasons}."
        remedy = remedy_for(reasons)
    finding = Finding(
        code="no-order",
        severity=Severity.REFUSAL,
        where="part.shape",
        text=text if found.proven else f"{text[:-1]} (not proven, the time ran out).",
        remedy=remedy,
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in natural),
        findings=(finding, *assumed_findings(asked.around)),
        cost=None,
        proven=found.proven,
        offs=_locked_offs(asked, natural),
        around=asked.around,
    )


def unsearched(stated: Sequence[int] | None, natural: Sequence[int], why: str) -> Ordered:
    """Return the stated or natural order with the remark that nothing of it is proven."""
    order = tuple(b - 1 for b in stated) if stated is not None else tuple(natural)
    finding = Finding(
        code="order-not-searched",
        severity=Severity.WARNING,
        where="part.order",
        text=f"{why}: that nothing hits and that the part comes off the tooling is not proven.",
        remedy="Go through each bend with a bare strip first.",
    )
    return Ordered(
        steps=tuple(Placed(bend=b) for b in order),
        findings=(finding,) if len(order) > 1 else (),
        cost=None,
        proven=False,
        offs=(None,) * len(order),
    )
