"""A quick look whether each bend reaches its angle, before a whole plan is made."""

from __future__ import annotations

from functools import lru_cache

from strapwright.bending.bend_values import BendSetup
from strapwright.bending.solver import state_for_free_angle
from strapwright.errors import InputError, SolverError
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.shop.job import Job


def reaches(job: Job) -> bool:
    """Whether no bend of a job is known to jam; rows of hits are left to the plan.

    Parameters
    ----------
    job
        With its tooling.
    """
    if job.tooling is None:
        return True
    part, toolings = job.part, job.toolings()
    try:
        setups = [bend_setup(job, known_bar(job), one) for one in toolings]
    except InputError:
        return False
    asked = {
        (part.tool_of(number), part.pressed_angle(number))
        for number, bend in enumerate(part.bends, start=1)
        if bend.radius is None
    }
    return all(_reaches(setups[tool], angle) for tool, angle in asked)


@lru_cache(maxsize=256)
def _reaches(setup: BendSetup, angle: float) -> bool:
    try:
        state_for_free_angle(setup, angle)
    except (InputError, SolverError):
        return False
    return True
