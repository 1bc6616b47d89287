"""Bends that the tooling jams before: what is refused, and what the rest of the plan stands on.

A jammed bend has no setting and no shape of its own, so the blank follows the handbook line, and
the order goes on without it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from attrs import evolve

from strapwright.findings import Angle, BendAt, Finding, Severity
from strapwright.planning.bend_setups import Known
from strapwright.planning.hits_and_stacks.ordered_bends import Ordered
from strapwright.planning.job_findings import bend_findings
from strapwright.planning.made_bend import JamsError, MadeBend
from strapwright.shop.job import Job
from strapwright.shop.part import Grain

Jams = Mapping[int, JamsError]
"""Jammed bends by their 0-based number."""

_BACK = math.radians(2.0)  # short of the jam, numerical
_TRIES = 10


def as_far_as_it_goes(jams: JamsError, make: Callable[[float], MadeBend]) -> MadeBend:
    """Return the bend short of the jam, for its radius and what it needs of the bar.

    Parameters
    ----------
    jams
        What the solver says of the angle wanted.
    make
        Solves the bend to an angle [rad].

    Raises
    ------
    JamsError
        Where it jams near to its start.
    """
    for k in range(1, _TRIES):
        try:
            return make(jams.reaches - k * _BACK)
        except JamsError:
            continue
    raise jams


def jam_findings(
    jams: Jams, made: Sequence[MadeBend], known: Known, *, grain: Grain
) -> list[Finding]:
    """Refuse each jammed bend, and warn of a nose too sharp for it, which is so at any angle."""
    warned = [
        finding
        for bend in jams
        for finding in bend_findings(made[bend], known, bend + 1, grain=grain, row=False)
        if finding.code == "radius-too-small"
    ]
    return warned + [
        Finding(
            code="bend-jams",
            severity=Severity.REFUSAL,
            about=(BendAt(bend + 1),),
            facts={
                "wanted": Angle(one.angle),
                "jam": Angle(one.jam),
                "reaches": Angle(one.reaches),
            },
        )
        for bend, one in jams.items()
    ]


def without_jammed(ordered: Ordered, jams: Jams) -> Ordered:
    """Return an order with the bends that can be made."""
    kept = [k for k, step in enumerate(ordered.steps) if step.bend not in jams]
    return evolve(
        ordered,
        steps=tuple(ordered.steps[k] for k in kept),
        offs=tuple(ordered.offs[k] for k in kept),
    )


def by_the_book(job: Job) -> Job:
    """Return a job whose blank needs no bend solved."""
    if job.blank.method != "strain":
        return job
    return evolve(job, blank=evolve(job.blank, method="book medium"))
