"""A quick look whether each bend reaches its angle, before a whole plan is made."""

from __future__ import annotations

from functools import lru_cache

from strapwright.bending.bend_values import BendSetup
from strapwright.bending.solver import state_for_free_angle
from strapwright.errors import InputError, SolverError
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.made_bend import uneven_stroke
from strapwright.shop.job import Job


def reaches(job: Job) -> bool:
    """Whether no bend of a job is known to jam, the nose as far off the middle as it may be.

    Rows of hits are left to the plan.

    Parameters
    ----------
    job
        With its tooling.
    """
    if job.tooling is None:
        return True
    part, toolings = job.part, job.toolings()
    asked = {
        (part.tool_of(number), part.pressed_angle(number))
        for number, bend in enumerate(part.bends, start=1)
        if bend.radius is None
    }
    asked |= {
        (tool, part.bends[one.bend - 1].angle)
        for one in part.finishes
        if one.tooling is not None and (tool := part.tool_named(one.tooling)) is not None
    }
    try:
        known = known_bar(job)
        setups = {tool: bend_setup(job, known, toolings[tool]) for tool, _ in asked}
    except InputError:
        return False
    return all(_reaches(setups[tool], angle, toolings[tool].nose.offset) for tool, angle in asked)


@lru_cache(maxsize=256)
def _reaches(setup: BendSetup, angle: float, offset: float) -> bool:
    try:
        state = state_for_free_angle(setup, angle)
    except (InputError, SolverError):
        return False
    return offset <= 0.0 or bool(uneven_stroke(setup, offset, state.travel))
