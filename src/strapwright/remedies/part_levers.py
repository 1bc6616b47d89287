"""What may be changed about the part: a leg left longer, or a bend made part of the way."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import evolve

from strapwright.blank.blank_values import Blank
from strapwright.planning.plan import plan
from strapwright.remedies.levers import EVEN, Lever, fine_step
from strapwright.shop.job import Job

DEGREE = math.radians(1.0)
LEAST_SHARE = 0.2  # of its angle that a bend made part of the way is worth pressing for


def trim_levers(job: Job, legs: Sequence[int]) -> list[Lever]:
    """Return end legs left longer for bending and sawn off after, which keeps the part as it is.

    Parameters
    ----------
    legs
        0-based, in question; those between two bends are left out.
    """
    if job.part.close is not None:
        return []
    ends = [leg for leg in legs if _is_end(job, leg)]
    return [_trim(job, group) for group in _groups(job, ends)]


def leg_levers(job: Job, legs: Sequence[int]) -> list[Lever]:
    """Return longer legs between two bends, of a closed shape all, those of one length first.

    Parameters
    ----------
    legs
        0-based, in question.
    """
    kept = [leg for leg in legs if job.part.close is not None or not _is_end(job, leg)]
    return [_legs(job, group) for group in _groups(job, kept)]


def _is_end(job: Job, leg: int) -> bool:
    return leg in (0, len(job.part.legs) - 1)


def _groups(job: Job, legs: Sequence[int]) -> list[tuple[int, ...]]:
    """Legs of one length together, then each by itself."""
    groups: list[tuple[int, ...]] = []
    for leg in legs:
        alike = tuple(k for k in legs if abs(job.part.legs[k] - job.part.legs[leg]) < EVEN)
        if alike not in groups:
            groups.append(alike)
    return [*groups, *((leg,) for leg in legs if (leg,) not in groups)]


def _room(job: Job) -> float:
    """Furthest that a longer leg is tried [mm]."""
    return 0.0 if job.tooling is None else 2.0 * job.tooling.shoulders.opening


def _trim(job: Job, group: tuple[int, ...]) -> Lever:
    part = job.part
    left = [part.trim_1 if leg == 0 else part.trim_2 for leg in group]
    now = max(one or 0.0 for one in left)

    def put(job: Job, length: float) -> Job:
        part = job.part
        if 0 in group:
            part = evolve(part, trim_1=length)
        if len(part.legs) - 1 in group:
            part = evolve(part, trim_2=length)
        return evolve(job, part=part)

    return Lever(
        what="trim",
        numbers=tuple(k + 1 for k in group),
        now=now or None,
        start=now,
        end=now + _room(job),
        step=fine_step(job),
        put=put,
    )


def _legs(job: Job, group: tuple[int, ...]) -> Lever:
    now = job.part.legs[group[0]]

    def put(job: Job, length: float) -> Job:
        part = job.part
        legs = tuple(length if k in group else leg for k, leg in enumerate(part.legs))
        return evolve(job, part=evolve(part, legs=legs))

    return Lever(
        what="leg",
        numbers=tuple(k + 1 for k in group),
        now=now,
        start=now,
        end=now + _room(job),
        step=fine_step(job),
        put=put,
    )


def part_way(job: Job, bend: int) -> Lever | None:
    """Return a bend made part of the way, the bar being marked for the whole bend.

    ``None`` for a row of hits and for a closed shape, whose marks hang on more than one bend.

    Parameters
    ----------
    bend
        0-based.
    """
    if job.part.bends[bend].radius is not None or job.part.close is not None:
        return None
    angle = job.part.bends[bend].angle

    def put(job: Job, less: float) -> Job:
        return _marked_as(plan(job, search=False).blank, _turned_by(job, bend, less))

    return Lever(
        what="part of the way",
        numbers=(bend + 1,),
        now=angle,
        start=angle,
        end=LEAST_SHARE * angle,
        step=DEGREE,
        put=put,
    )


def _turned_by(job: Job, bend: int, angle: float) -> Job:
    bends = list(job.part.bends)
    bends[bend] = evolve(bends[bend], angle=angle)
    # Holes and welds are held against the whole bends by the plan of the whole part.
    return evolve(job, part=evolve(job.part, bends=tuple(bends), holes=(), welds=()))


def _marked_as(blank: Blank | None, job: Job) -> Job:
    """Return the job with its legs such that its marks lie where a blank has them.

    A leg goes into the distance of its marks one to one, so once is enough.
    """
    now = plan(job, search=False).blank
    if now is None or blank is None:
        return job
    wanted, had = _between_marks(blank), _between_marks(now)
    legs = tuple(
        leg + want - have for leg, want, have in zip(job.part.legs, wanted, had, strict=True)
    )
    return evolve(job, part=evolve(job.part, legs=legs))


def _between_marks(blank: Blank) -> list[float]:
    """Distances from end 1 over the marks to end 2 [mm]."""
    bends = sorted({mark.bend for mark in blank.marks})
    places = [0.0, *(blank.marks_of(bend)[0].nose for bend in bends), blank.length]
    return [b - a for a, b in pairwise(places)]
