"""Does the part come off, and does the bar go in: what the search and the plan ask."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from attrs import evolve
from shapely.geometry import Point, Polygon

from strapwright.ordering.freeing.bar_under_nose import (
    Lying,
    StackedBar,
    laid_in,
    lying,
    on_nose,
)
from strapwright.ordering.freeing.deciding import NO_TIME, FreeingJob, decide, job_of
from strapwright.ordering.freeing.opened import (
    Opened,
    after_bend,
    before_bend,
    let_go_height,
    open_height,
)
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.order_values import PartGeometry, Piece, ToolSection
from strapwright.ordering.refusal_values import End, NotLaidIn, StaysOn
from strapwright.ordering.time_given import KeepGoing, always

# Numerical: how finely is looked; too coarse misses a holder.
HOLDER_LOOKS = 1  # of the looks, with one body taken away


def comes_off(
    pieces: tuple[Piece, ...],
    part: PartGeometry,
    last_bend: int,
    nose_radius: float,
    *,
    made: tuple[int, ...] | None = None,
    end_left: End = 1,
    section: ToolSection | None = None,
    lies: Lying | None = None,
    stack: Sequence[StackedBar] = (),
    stays: bool = True,
    keep_going: KeepGoing = always,
    what_holds: bool = True,
) -> FreeingResult:
    """Say whether the part comes off the tooling after ``last_bend``.

    Parameters
    ----------
    pieces
        Nose side, in nose coordinates; other pieces count by ``section`` alone [mm].
    part
        Finished part; ``part.z`` is its place along the nose [mm].
    last_bend
        1-based; it sits on the nose, wings up.
    nose_radius
        [mm]
    made
        1-based bends made so far, ``last_bend`` among them; all where left out.
    end_left
        Which end of the bar points left on the nose.
    section
        Both halves: they open, and all that stands there counts.  ``None`` for a nose alone.
    lies
        How the part lies as the nose lets go; ``None`` where ``last_bend`` was made by one stroke,
        and its middle is upright.
    stack
        The bars of a stack, of which ``part`` is all as one: each is held by itself.
    stays
        Gravity holds the part on the shoulders rather than on the nose.
    keep_going
        Asked within slices; once it says no, what is not decided by then is ``NO TIME``.
    what_holds
        Also look for the bodies of which one, taken away, frees a trapped part.

    Returns
    -------
    FreeingResult
        ``FREE`` and ``TRAPPED`` are proven for motion in the plane with sliding along the nose;
        ``TOO CLOSE`` and ``NO TIME`` are not decided.
    """
    if not keep_going():
        return NO_TIME
    done = tuple(range(1, part.bends + 1)) if made is None else tuple(sorted(made))
    rows = (
        on_nose(part, done, last_bend, nose_radius, end_left)
        if lies is None
        else lying(part, done, last_bend, lies, end_left)
    )
    bars = rows
    if stack:
        bars = np.vstack(
            [on_nose(b.part, done, last_bend, nose_radius + b.above, end_left) for b in stack]
        )

    def job(missing: str) -> FreeingJob:
        if section is None:
            nose_side = (p for p in pieces if p.side == "nose" and p.owner != missing)
            return job_of(rows, bars, Opened(pieces=tuple(nose_side)), part, keep_going)
        left = evolve(section, pieces=tuple(p for p in section.pieces if p.owner != missing))
        let_go = let_go_height(section, part, last_bend) if lies is None else lies.nose
        opened = after_bend(left, part, bars, let_go, stays=stays)
        return job_of(rows, bars, opened, part, keep_going)

    return _answer(job, what_holds=what_holds)


def goes_in(
    section: ToolSection,
    part: PartGeometry,
    bend: int,
    *,
    made: tuple[int, ...],
    end_left: End = 1,
    lies: Lying | None = None,
    stack: Sequence[StackedBar] = (),
    keep_going: KeepGoing = always,
) -> FreeingResult:
    """Say whether the bar can be laid on the shoulders for a ``bend`` with the halves open.

    Parameters
    ----------
    section
        Both halves; a nose that is put in endways is not there yet.
    bend
        1-based; ``made`` are those made before it.
    lies
        How the bar lies; ``None`` where it lies level, the middle of ``bend`` under the nose.
    stack
        The bars of a stack, of which ``part`` is all as one.

    Returns
    -------
    FreeingResult
        Of the same motion backwards: the way off from where the bar lies.
    """
    if not keep_going():
        return NO_TIME
    still = evolve(section, pieces=tuple(p for p in section.pieces if not p.drawn))
    height = open_height(section, part.thickness)
    done = tuple(sorted(made))
    rows = (
        laid_in(part, done, bend, height, end_left)
        if lies is None
        else lying(part, done, bend, evolve(lies, nose=height), end_left)
    )
    bars = rows
    if stack:
        bars = np.vstack([laid_in(b.part, done, bend, height - b.beneath, end_left) for b in stack])
    opened = before_bend(still, part, bars)
    return _answer(lambda _: job_of(rows, bars, opened, part, keep_going), what_holds=False)


def quickly_off(
    pieces: tuple[Piece, ...],
    part: PartGeometry,
    last_bend: int,
    nose_radius: float,
    keep_going: KeepGoing = always,
) -> bool:
    """Whether a short search finds the finished part free; a no is not proven."""
    nose_side = tuple(p for p in pieces if p.side == "nose")
    rows = on_nose(part, tuple(range(1, part.bends + 1)), last_bend, nose_radius)
    job = job_of(rows, rows, Opened(pieces=nose_side), part, keep_going)
    return decide(job, finest=HOLDER_LOOKS)[0].verdict == "FREE"


def _answer(job: Callable[[str], FreeingJob], *, what_holds: bool) -> FreeingResult:
    whole_job = job("")
    result, reach = decide(whole_job)
    if result.verdict != "TRAPPED" or not what_holds:
        return result
    owners = dict.fromkeys(p.owner for p in whole_job.pieces if _within(p, reach))
    held = tuple(
        owner
        for owner in owners
        if whole_job.keep_going() and decide(job(owner), finest=HOLDER_LOOKS)[0].verdict == "FREE"
    )
    return evolve(result, held_by=held)


def _within(piece: Piece, reach: Polygon | None) -> bool:
    """Whether a piece stands where the part can get to at all; what does not holds nothing."""
    if reach is None:
        return True
    shape = Polygon(piece.polygon) if piece.centre is None else Point(piece.centre)
    return bool(shape.distance(reach) <= piece.radius)


def locks_on(
    section: ToolSection, part: PartGeometry
) -> Callable[[int, End, tuple[int, ...]], StaysOn | NotLaidIn | None]:
    """Return what :func:`~strapwright.ordering.order_search.find_order` asks of a step.

    Only a step before which the bar can be laid in, and after which the part is proven to come
    off, passes.
    """

    def refuse(bend: int, end_left: End, made: tuple[int, ...]) -> StaysOn | NotLaidIn | None:
        if goes_in(section, part, bend, made=made, end_left=end_left).verdict != "FREE":
            return NotLaidIn()
        off = comes_off(
            section.pieces,
            part,
            bend,
            section.nose_radius,
            made=(*made, bend),
            end_left=end_left,
            section=section,
            what_holds=False,
        )
        return None if off.verdict == "FREE" else StaysOn()

    return refuse
