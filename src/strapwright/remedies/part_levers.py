"""What may be changed about the part: a leg left longer, or a bend made part of the way."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import evolve

from strapwright.planning.remedy_values import Named
from strapwright.remedies.levers import EVEN, Lever, fine_step
from strapwright.remedies.named_tooling import named_toolings
from strapwright.shop.job import Job
from strapwright.shop.part_finish import Finish

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


def part_ways(job: Job, bends: Sequence[int]) -> list[Lever]:
    """Return bends made part of the way, finished in a vise or on other tooling at hand.

    Parameters
    ----------
    job
        As stated.
    bends
        0-based, in question.
    """
    part = job.part
    found = [part_way(job, bend) for bend in bends]
    if not part.twists and all(bend.radius is None for bend in part.bends):
        found += [
            part_way(job, bend, named)
            for tool, named in enumerate(named_toolings(job))
            for bend in bends
            if tool != part.tool_of(bend + 1) and part.tool_named(named.name) == tool
        ]
    return [one for one in found if one is not None]


def part_way(job: Job, bend: int, tooling: Named | None = None) -> Lever | None:
    """Return a bend made part of the way and finished in a vise, or on other tooling.

    ``None`` for a row of hits, a closed shape, a rolled bar and bars on each other, which cannot be
    finished so.

    Parameters
    ----------
    bend
        0-based.
    tooling
        That it is finished on; ``None`` for a vise.
    """
    part = job.part
    if part.bends[bend].radius is not None or part.close is not None or part.rolls:
        return None
    if part.stacked > 1:
        return None
    angle = part.bends[bend].angle

    def put(job: Job, less: float) -> Job:
        others = (one for one in job.part.finishes if one.bend != bend + 1)
        own = Finish(bend=bend + 1, at=less)
        if tooling is not None:
            own = evolve(own, by="tooling", tooling=tooling.name)
        finishes = sorted([*others, own], key=lambda one: one.bend)
        return evolve(job, part=evolve(job.part, finishes=tuple(finishes)))

    return Lever(
        what="part of the way",
        numbers=(bend + 1,),
        now=angle,
        start=angle,
        end=LEAST_SHARE * angle,
        step=DEGREE,
        put=put,
        tooling=tooling,
    )
