"""Plan many jobs: take what is kept already, plan the rest, keep every result at once."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from attrs import frozen

from strapwright.errors import InputError
from strapwright.service.file_access import write_files
from strapwright.service.many_jobs.case_values import Case
from strapwright.service.many_jobs.cluster import plan_on_cluster
from strapwright.service.many_jobs.kept_results import KeptResults
from strapwright.service.many_jobs.local_processes import plan_locally
from strapwright.service.many_jobs.planning_a_case import program_digest

_MOST_PROCESSES = 256  # more on one machine is a slip (common practice, no source)


@frozen(kw_only=True)
class HowToRun:
    """Where and how jobs are planned.

    Attributes
    ----------
    folder
        Of the results.
    processes
        How many at once on this machine; ``None`` for one on each of its processors.
    scheduler
        Address of a scheduler in place of this machine's processes.
    afresh
        Whether to forget what an earlier run kept.
    """

    folder: Path
    processes: int | None = None
    scheduler: str | None = None
    afresh: bool = False


def run_many(
    cases: Sequence[Case], how: HowToRun, progress: Callable[[int, int], None]
) -> list[dict[str, Any]]:
    """Plan jobs and keep each result as it comes.

    Parameters
    ----------
    cases
        The jobs, each with a name of its own.
    how
        Where.
    progress
        Told how many are done and how many of these were kept from an earlier run.

    Returns
    -------
    list of dict
        The results as kept, in the order of ``cases``.

    Raises
    ------
    InputError
        If the folder cannot be written or the scheduler not be used; what was kept stays kept.
    """
    processes = usable_processors() if how.processes is None else how.processes
    if not 1 <= processes <= _MOST_PROCESSES:
        raise InputError(
            "--processes", f"this is not from 1 to {_MOST_PROCESSES}", "leave it out",
            value=str(how.processes),
        )  # fmt: skip
    digest = program_digest()
    by_name = {one.name: one for one in cases}
    found: dict[str, dict[str, Any]] = {}
    with KeptResults(how.folder, digest, afresh=how.afresh) as kept:
        for one in cases:
            before = kept.of(one)
            if before is not None:
                found[one.name] = before
        from_before = len(found)
        progress(from_before, from_before)
        left = [one for one in cases if one.name not in found]
        if left and how.scheduler is not None:
            results = plan_on_cluster(left, how.scheduler, digest)
        else:
            results = plan_locally(left, min(processes, max(len(left), 1)), digest)
        for result in results:
            if result.files:  # before the line that says they are there
                write_files(how.folder / result.name, result.files)
            found[result.name] = kept.keep(by_name[result.name], result)
            progress(len(found), from_before)
    return [found[one.name] for one in cases]


def usable_processors() -> int:
    """How many processors this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
