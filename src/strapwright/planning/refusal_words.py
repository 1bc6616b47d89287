"""The search speaks in millimetres; a person reads the units of the job."""

from __future__ import annotations

import re
from collections.abc import Iterable

from attrs import evolve

from strapwright.findings import Finding
from strapwright.planning.figures import figures_for
from strapwright.shop.job import Job

# Not where the inches follow in brackets anyway.
_LENGTH = re.compile(r"(\d+(?:\.\d+)?) mm(?! \()")


def in_job_units(job: Job, findings: Iterable[Finding]) -> list[Finding]:
    """Write the lengths within findings of the search in the job's units."""
    if job.units == "metric":
        return list(findings)
    show = figures_for(job)
    return [
        evolve(one, text=_LENGTH.sub(lambda found: show.length(float(found[1])), one.text))
        for one in findings
    ]
