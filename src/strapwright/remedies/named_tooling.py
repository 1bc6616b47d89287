"""Bends of a refused part made on other tooling that the job names."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from strapwright.planning.remedy_values import Named
from strapwright.remedies.levers import Lever
from strapwright.shop.job import Job
from strapwright.shop.part_finish import MAIN_TOOLING

_LONGEST_RUN = 4  # bends in a row that are tried together; numerical


def named_toolings(job: Job) -> list[Named]:
    """Return the toolings of a job by name, its own first, as ``part.tool_of`` counts them."""
    names = (MAIN_TOOLING, *(one.name for one in job.part.others))
    return [
        Named(name=name, nose_radius=one.nose.radius, opening=one.shoulders.opening)
        for name, one in zip(names, job.toolings(), strict=False)
    ]


def named_tooling_levers(job: Job, bends: Sequence[int]) -> list[Lever]:
    """Return bends made on another of the toolings of a job: all in question, and fewer.

    None for bars on each other and for a part with a series of hits, which stay on one tooling.

    Parameters
    ----------
    job
        With its toolings.
    bends
        0-based, in question.
    """
    part = job.part
    if part.stacked > 1 or any(one.radius is not None for one in part.bends):
        return []
    levers = []
    for group in _groups(bends):
        for tool, named in enumerate(named_toolings(job)):
            moved = tuple(bend + 1 for bend in group if part.tool_of(bend + 1) != tool)
            if not moved or len(moved) < len(group):
                continue  # the rest of the group is a group of its own
            levers.append(_lever(job, moved, tool, named))
    return levers


def _groups(bends: Sequence[int]) -> list[tuple[int, ...]]:
    """All together, those between the first and the last, each by itself, then runs of them."""
    count = len(bends)
    runs = [
        tuple(bends[first : first + long])
        for long in range(2, min(count, _LONGEST_RUN))
        for first in range(count - long + 1)
    ]
    wanted = [tuple(bends), tuple(bends[1:-1]), *((bend,) for bend in bends), *runs]
    return [group for group in dict.fromkeys(wanted) if group]


def _lever(job: Job, bends: tuple[int, ...], tool: int, named: Named) -> Lever:
    """Return the one step from where the bends are made now to another tooling."""

    def put(job: Job, value: float) -> Job:
        return on_tool(job, bends, round(value))

    return Lever(
        what="tooling",
        numbers=bends,
        now=float(job.part.tool_of(bends[0])),
        start=tool - 1.0,
        end=float(tool),
        step=1.0,
        put=put,
        tooling=named,
    )


def on_tool(job: Job, bends: Sequence[int], tool: int) -> Job:
    """Return a job with bends made on one of its toolings.

    Parameters
    ----------
    job
        As stated.
    bends
        1-based.
    tool
        0 for its own tooling, else the place in ``part.others`` from 1.
    """
    others = []
    for place, one in enumerate(job.part.others, start=1):
        kept = {bend for bend in one.bends if bend not in bends}
        others.append(evolve(one, bends=tuple(sorted(kept | set(bends if place == tool else ())))))
    return evolve(job, part=evolve(job.part, others=tuple(others)))
