"""Close a shape: the absorbing leg as it becomes, and what to mind at the last bend."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import evolve

from strapwright.bending.bend_values import ReleasedBend
from strapwright.blank.closing_leg import close_shape
from strapwright.blank.leg_straights import bar_thickness, setbacks
from strapwright.errors import InputError
from strapwright.findings import (
    BendAt,
    Choice,
    Count,
    Finding,
    KeyAt,
    Length,
    Severity,
    Yes,
)
from strapwright.shop.job import Job


def closed_job(
    job: Job, bends: Sequence[ReleasedBend] | None, inside_radii: Sequence[float]
) -> tuple[Job, list[Finding]]:
    """Return the job with the absorbing leg as it became, and what became of it.

    Parameters
    ----------
    bends, inside_radii
        As in :func:`strapwright.blank.flat_layout.lay_out`.

    Raises
    ------
    InputError
        Where the ends cannot meet as stated, see
        :func:`strapwright.blank.closing_leg.close_shape`.
    """
    part = job.part
    closing = part.close
    if closing is None:
        return job, []
    if part.rolls:
        raise InputError(
            "part.close",
            "a shape that is rolled out of one plane cannot be closed here",
            "leave close out and fit the last leg by hand, or leave the rolls out",
        )
    ends = setbacks(part, bends, inside_radii=inside_radii)
    if bends is None:
        thickness = bar_thickness(part)
        apexes = [
            (radius + 0.5 * thickness) * math.tan(0.5 * bend.angle)
            for bend, radius in zip(part.bends, inside_radii, strict=True)
        ]
    else:
        apexes = [bend.apex_distance for bend in bends]
    closed = close_shape(part, ends, apexes)
    before, after = (p.legs[closing.absorb - 1] for p in (part, closed.part))
    findings = [
        Finding(
            code="closing-leg",
            severity=Severity.NOTE,
            about=(KeyAt("part.close"),),
            facts={
                "leg": Count(closing.absorb),
                "before": Length(before),
                "after": Length(after),
                "measured": Choice(part.measured),
                "ends": Choice("corner" if closed.corner else "in line"),
                "kind": Choice(closing.kind),
                "size": Length(closing.size),
                "sideways": Length(closed.sideways),
            },
        )
    ]
    return evolve(job, part=closed.part), findings


def last_bend_finding(job: Job, bend: int) -> list[Finding]:
    """Say that the last bend closes the shape around the tooling; 1-based number of that bend."""
    if job.part.close is None:
        return []
    drawable = job.tooling is not None and job.tooling.nose.drawable
    return [
        Finding(
            code="closes-around-nose",
            severity=Severity.WARNING,
            about=(BendAt(bend),),
            facts={"drawable": Yes(drawable)},
        )
    ]
