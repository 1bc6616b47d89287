"""What a search for a tooling finds, as plain data that a page is made of."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from attrs import evolve

from strapwright.making.crib_cutters import cutters_of
from strapwright.making.shop_lengths import size
from strapwright.pages import plan_page
from strapwright.planning.member_loads import assess, bench_of
from strapwright.proposing.candidate_line import Progress
from strapwright.proposing.proposal_values import Proposed
from strapwright.proposing.search_rack import propose
from strapwright.proposing.trade_offs import worst_ratio
from strapwright.quantities import Units
from strapwright.service.propose_tooling import proposals_to_data
from strapwright.service.search_clock import LONGER_SECONDS, spent_of
from strapwright.shop.job import Job
from strapwright.shop_files.opening import parse
from strapwright.shop_files.reading_crib import read_crib
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.reading_rack import read_rack
from strapwright.shop_files.updating import tables_text
from strapwright.shop_files.writing import write_job
from strapwright.wording.member_words import member_name

Data = dict[str, Any]
_LENGTH = re.compile(r'"(\d+(?:\.\d+)?) mm"')


def searched(asked: Mapping[str, Any], progress: Progress) -> Data:
    """Search for a tooling.

    Parameters
    ----------
    asked
        ``jobs``, each with its ``id``, ``text`` and the shop files ``beside`` it, and ``rack`` and
        ``crib`` as text; without a ``crib`` a usual set of cutters is taken.
    progress
        Called with a word, how far and of how many.

    Returns
    -------
    dict
        As ``strapwright tooling propose --json`` gives, without the single checks, and with each
        proposal's ``tooling`` as a file says it, its ``weakest`` member and its ``picture``; and
        whose ``jobs`` they are, and whether hours are by the cutters of a ``crib``.

    Raises
    ------
    InputError
        If something cannot be used.
    """
    jobs = [read_job(one["text"], beside=one["beside"]) for one in asked["jobs"]]
    crib = None if asked["crib"] is None else read_crib(asked["crib"], "crib")
    found = propose(
        jobs,
        read_rack(asked["rack"], "rack"),
        progress,
        cutters=None if crib is None else cutters_of(crib),
        saws=() if crib is None else crib.saws,
        spent=spent_of(LONGER_SECONDS),
    )
    units = jobs[0].units
    data = proposals_to_data(found, units)
    data["parts"] = [job.part.name for job in jobs]
    data["jobs"] = [one["id"] for one in asked["jobs"]]
    data["crib"] = crib is not None
    for said, one in zip(data["proposals"], found.best, strict=True):
        del said["checks"]
        said.update(_more(one, jobs, units))
    return data


def _more(one: Proposed, jobs: Sequence[Job], units: Units) -> Data:
    weakest = next((check for check in one.assessment.checks if check.grows > 0.0), None)
    pictures = plan_page.bench_picture(one.plans[0])
    return {
        "tooling": _written(one, jobs[0]),
        "weakest": "" if weakest is None else f"{member_name(weakest.member)}, {weakest.what}",
        "worst_ratio": worst_ratio(one),
        "picture": "" if pictures is None else pictures[1],  # columns are as narrow as a phone
        "units": units,
    }


def _written(one: Proposed, job: Job) -> str:
    """Write a tooling in sizes that can be measured, as long as every check then holds still."""
    exact = write_job(evolve(job, tooling=one.tooling))
    plain = _LENGTH.sub(lambda found: f'"{size(float(found[1]), job.units)}"', exact)
    tooling = read_job(plain).tooling
    if tooling is None or not assess(bench_of(one.plans, tooling, job.press), job.units).holds:
        plain = exact
    return tables_text({"tooling": parse(plain)["tooling"]})
