"""Put what makes a refused part into its job file, and leave the rest as it was typed."""

from __future__ import annotations

from strapwright.errors import InputError
from strapwright.making.shop_lengths import size
from strapwright.pages.apply_fix import with_tooling
from strapwright.pages.fields.part_fields import shape_of, shape_rows
from strapwright.pages.form import raw_job
from strapwright.planning.remedy_values import Remedy
from strapwright.shop.job import Job
from strapwright.shop_files.updating import update_job


def can_be_taken(remedy: Remedy) -> bool:
    """Whether a job file can state it: a bend finished off the tooling it cannot.

    Parameters
    ----------
    remedy
        As found.
    """
    return all(change.what != "part of the way" for change in remedy.changes)


def taken(text: str, job: Job, remedy: Remedy) -> str:
    """Return a job file with a remedy.

    Parameters
    ----------
    text
        The job file.
    job
        As read from it.
    remedy
        Found for it.

    Raises
    ------
    InputError
        If the file cannot be changed so.
    """
    if not can_be_taken(remedy):
        raise InputError(
            "part.shape", "a job file has no key for a bend that is finished by hand", "note it"
        )
    changed = remedy.job.tooling
    if changed is not None and changed != job.tooling:
        text = with_tooling(text, job, changed)
    legs = {
        number: change.new
        for change in remedy.changes
        if change.what == "leg"
        for number in change.numbers
    }
    text = _trimmed(text, job, remedy)
    if not legs:
        return text
    if job.part.rolls:
        raise InputError("part.shape", "a rolled leg has several entries", "change it there")
    at = [row.at for row in shape_rows(shape_of(raw_job(text))) if row.kind == "leg"]
    return update_job(
        text,
        {f"part.shape[{at[leg - 1]}]": size(long, job.units) for leg, long in legs.items()},
    )


def _trimmed(text: str, job: Job, remedy: Remedy) -> str:
    """Put in what end legs are left longer."""
    last = len(job.part.legs)
    changes: dict[str, object] = {
        f"part.trim.end_{1 if number == 1 else 2}": size(change.new, job.units)
        for change in remedy.changes
        if change.what == "trim"
        for number in change.numbers
        if number in (1, last)
    }
    return update_job(text, changes) if changes else text
