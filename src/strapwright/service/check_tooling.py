"""Check a tooling from the job file that names it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from attrs import evolve

from strapwright.errors import InputError, table_of
from strapwright.findings import Severity
from strapwright.planning.checked_tooling import Checked
from strapwright.planning.member_loads import assess, bench_of
from strapwright.planning.plan import plan
from strapwright.service.file_access import read_text_file
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import within
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack
from strapwright.shop.tooling import Tooling
from strapwright.shop_files.reading_rack import read_rack
from strapwright.strength.check_values import Bench
from strapwright.strength.fixing.fixes import Again


def load_rack(path: Path) -> Rack:
    """Load a rack from its file.

    Parameters
    ----------
    path
        Where it lies.

    Raises
    ------
    InputError
        If it cannot be read, or something in it cannot be used.
    """
    return read_rack(read_text_file(path, "rack file"), path.name)


def check_tooling(path: Path, rack: Path | None = None) -> Checked:
    """Check the tooling of a job.

    Parameters
    ----------
    path
        Of the job file.
    rack
        Of the rack that sizes are proposed from; usual sizes where not given.

    Raises
    ------
    InputError
        If a file cannot be used, or the job states no tooling.
    """
    shop = None if rack is None else load_rack(rack)
    made = plan(load_job(path), keep_going=within())
    tooling = made.job.tooling
    if tooling is None:
        raise InputError(
            "tooling",
            "no tooling is entered, so there is nothing to check",
            f"write {table_of('tooling')} with its nose and shoulders, or let one be proposed from "
            "a rack",
        )
    bench = bench_of([made], tooling, made.job.press)
    again = planning_on(made.job)
    found = assess(bench, made.job.units, shop, again)
    return Checked(plan=made, bench=bench, assessment=found)


def planning_on(job: Job, going: Callable[[], bool] | None = None) -> Again:
    """Plan a job on another tooling for what it then asks of its members.

    Parameters
    ----------
    job
        Whose part and press stay.
    going
        Asked whether there is time left for one more; each has its own time where not given.
    """

    def again(tooling: Tooling) -> Bench | None:
        if going is not None and not going():
            return None
        try:
            made = plan(evolve(job, tooling=tooling), keep_going=going or within(), rate=False)
        except InputError:
            return None
        if any(one.severity == Severity.REFUSAL for one in made.findings):
            return None
        return bench_of([made], tooling, job.press)

    return again
