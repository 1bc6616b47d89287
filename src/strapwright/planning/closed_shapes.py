"""Close a shape: the absorbing leg as it becomes, and what to mind at the last bend."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import evolve

from strapwright.bending.bend_values import ReleasedBend
from strapwright.blank.closing import close_shape
from strapwright.blank.legs import bar_thickness, setbacks
from strapwright.errors import InputError
from strapwright.findings import Finding, Severity, spoken
from strapwright.quantities import show_both
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
        :func:`strapwright.blank.closing.close_shape`.
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
    where = "against the face of leg 1" if closed.corner else "in line"
    beside = "one thickness beside each other and " if closing.kind == "overlap" else ""
    findings = [
        spoken(
            code="closing-leg",
            severity=Severity.NOTE,
            where="part.close",
            text=f"Leg {closing.absorb} goes from {show_both(before, 2)} to {show_both(after, 2)} "
            f"measured {part.measured}, so that the ends come {beside}{where} with the stated "
            f"{closing.kind} of {show_both(closing.size, 2)}; sideways they miss by "
            f"{show_both(closed.sideways, 2)}.",
        )
    ]
    return evolve(job, part=closed.part), findings


def last_bend_finding(job: Job, bend: int) -> list[Finding]:
    """Say that the last bend closes the shape around the tooling; 1-based number of that bend."""
    if job.part.close is None:
        return []
    drawable = job.tooling is not None and job.tooling.nose.drawable
    return [
        spoken(
            code="closes-around-nose",
            severity=Severity.WARNING,
            where=f"bend {bend}",
            text="This last bend closes the shape, with the nose and what carries it inside; that "
            "it comes off the tooling is not proven.",
            remedy="Draw the nose out endways, or spring the ends apart by hand; try it with a "
            "bare strip first."
            if drawable
            else "Try it with a bare strip first, make the last bend part of the way and finish it "
            "off the tooling, or use a nose that can be drawn out.",
        )
    ]
