"""A plan without tooling: blank and marks only."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import evolve

from strapwright.bending.bend_values import Band
from strapwright.blank.flat_layout import lay_out
from strapwright.blank.hit_spacing import Row
from strapwright.blank.length_band import length_band
from strapwright.findings import (
    Finding,
    KeyAt,
    Severity,
    by_severity,
)
from strapwright.midline.bar_poses import arc_zone, finished_in_space, finished_line, zone_points
from strapwright.midline.dimension_points import dimension_points
from strapwright.planning.bar_limits import weld_findings
from strapwright.planning.bar_rolls import turned
from strapwright.planning.bend_setups import Known
from strapwright.planning.closed_shapes import closed_job
from strapwright.planning.job_findings import CAUTIONS, hole_findings, press_findings
from strapwright.planning.limits_and_weights.weights import lifting_findings, weights_of
from strapwright.planning.plan_values import Plan
from strapwright.shop.job import Job

# Half band of the thickness, relative: nine in ten of hot-rolled flat, rounded up (common practice,
# no source).
_THICKNESS_TOLERANCE = 0.03


def plan_without_tooling(
    job: Job,
    known: Known,
    rows: Sequence[Row | None],
    findings: list[Finding],
    radius_share: float,
) -> Plan:
    """Plan blank and marks from the stated inside radii.

    Parameters
    ----------
    rows
        Row of hits of each bend, or ``None``.
    findings
        What was found so far.
    radius_share
        Half band of the radius over the smallest one [-].

    Raises
    ------
    InputError
        Where a leg is shorter than its bends, or a shape does not close.
    """
    part = job.part
    stated = part.inside_radius if part.assumed_radius is None else part.assumed_radius
    if stated is None and None in rows:
        findings.append(
            Finding(
                code="radius-unknown",
                severity=Severity.WARNING,
                about=(KeyAt("part.inside_radius"),),
            )
        )
        return Plan(
            job=job,
            blank=None,
            length_band=None,
            finished=np.zeros((0, 2)),
            steps=(),
            findings=by_severity(findings),
            cautions=CAUTIONS,
        )
    settings = job.blank
    if settings.method == "strain":
        settings = evolve(settings, method="book medium")
        findings.append(
            Finding(code="blank-by-book", severity=Severity.NOTE, about=(KeyAt("blank.method"),))
        )
    # A bend without a row has the stated radius, or the plan ended above.
    radii = [(stated or 0.0) if row is None else row.radius for row in rows]
    job, remarks = closed_job(job, None, radii)
    findings += remarks
    part = job.part
    blank = lay_out(
        part,
        None,
        settings,
        inside_radii=radii,
        sight_offset=0.0,
        hits=[0 if row is None else row.hits for row in rows],
    )
    weighed = weights_of(part, blank.length)
    findings += lifting_findings(weighed)
    low, high = length_band(
        part,
        None,
        settings,
        inside_radii=radii,
        thickness_tolerance=_THICKNESS_TOLERANCE * known.thickness,
        radius_tolerance=radius_share * min(radii),
    )
    zones = [
        arc_zone(
            *blank.zone(number),
            angle=bend.angle,
            radius=radius + 0.5 * known.thickness,
            side=bend.side,
            turned=turn,
        )
        for number, (bend, radius, turn) in enumerate(
            zip(part.bends, radii, turned(part), strict=True), start=1
        )
    ]
    finished = finished_line(blank.length, zones)
    findings += hole_findings(blank, known.thickness) + weld_findings(blank)
    findings += press_findings(job.press, [])
    return Plan(
        job=job,
        blank=blank,
        length_band=Band(low=min(low, blank.length), high=max(high, blank.length)),
        finished=finished,
        steps=(),
        weights=weighed,
        findings=by_severity(findings),
        cautions=CAUTIONS,
        dimension_points=dimension_points(part, known.thickness, finished, zone_points(zones)),
        finished_3d=finished_in_space(blank.length, zones),
        zones=tuple(zones),
    )
