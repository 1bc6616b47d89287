"""Put what makes a refused part into its job file, and leave the rest as it was typed."""

from __future__ import annotations

import math

from strapwright.errors import InputError
from strapwright.making.shop_lengths import size
from strapwright.pages.apply_fix import with_tooling
from strapwright.pages.fields.part_fields import shape_of, shape_rows
from strapwright.pages.form import raw_job
from strapwright.planning.remedy_values import Remedy
from strapwright.shop.job import Job
from strapwright.shop_files.updating import update_job


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
    changed = remedy.job.tooling
    if changed is not None and changed != job.tooling:
        text = with_tooling(text, job, changed)
    legs = {
        number: change.new
        for change in remedy.changes
        if change.what == "leg"
        for number in change.numbers
    }
    text = _moved(_finished(_trimmed(text, job, remedy), remedy), job, remedy)
    if not legs:
        return text
    if job.part.rolls or job.part.twists:
        raise InputError(
            "part.shape", "a rolled or twisted leg has several entries", "change it there"
        )
    at = {row.number: row.at for row in shape_rows(shape_of(raw_job(text))) if row.kind == "leg"}
    if not legs.keys() <= at.keys():
        raise InputError("part.shape", "this leg belongs to a joggle", "change the joggle there")
    if job.part.overall is not None and legs.keys() & set(job.part.overall.open_legs()):
        raise InputError(
            "part.overall", "this leg follows from the sizes over all", "change them there"
        )
    return update_job(
        text,
        {f"part.shape[{at[leg]}]": size(long, job.units) for leg, long in legs.items()},
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


def _moved(text: str, job: Job, remedy: Remedy) -> str:
    """Put in which bends are made on other tooling."""
    both = zip(job.part.others, remedy.job.part.others, strict=True)
    changes: dict[str, object] = {
        f"part.other_tooling[{number}].bends": list(after.bends)
        for number, (before, after) in enumerate(both, start=1)
        if before.bends != after.bends
    }
    return update_job(text, changes) if changes else text


def _finished(text: str, remedy: Remedy) -> str:
    """Put in which bends the press makes part of the way."""
    for change in remedy.changes:
        if change.what != "part of the way":
            continue
        (bend,) = change.numbers
        part = raw_job(text).get("part", {})
        listed = [one.get("bend") for one in part.get("finish", [])]
        number = listed.index(bend) if bend in listed else len(listed)
        at = f"part.finish[{number + 1}]"
        on = None if change.tooling is None else change.tooling.name
        changes: dict[str, object] = {
            f"{at}.bend": bend,
            f"{at}.at": round(math.degrees(change.new)),
            f"{at}.by": "vise" if on is None else "tooling",
        }
        if on is not None or bend in listed:
            changes[f"{at}.tooling"] = on
        text = update_job(text, changes)
    return text
