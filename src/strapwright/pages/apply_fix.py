"""Put the change that fixes a member into the job file, and leave the rest as it was typed."""

from __future__ import annotations

from typing import Any

from attrs import evolve

from strapwright.errors import InputError
from strapwright.making.shop_lengths import size
from strapwright.pages.form import raw_job
from strapwright.pages.strength_page import check_text
from strapwright.pages.workshop import Workshop
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed
from strapwright.shop.job import Job
from strapwright.shop.members import SEVERAL, SINGLE
from strapwright.shop.tooling import Tooling
from strapwright.shop_files.opening import parse
from strapwright.shop_files.updating import update_job
from strapwright.shop_files.writing import write_job
from strapwright.wording.fix_words import fix_order

_ROOT = "tooling.members"
_WEB = "tooling.nose.web"
Changes = dict[str, object]
Plain = dict[str, object]


def with_fix(shop: Workshop, text: str, key: str) -> tuple[str, str]:
    """Return a job file with a fix for a member and the fixes it builds on, and the fix in words.

    Parameters
    ----------
    shop
        Where plans and the rack are kept.
    text
        The job file.
    key
        Which fix, as :attr:`strapwright.strength.fixing.fix_values.Fix.key` has it.

    Raises
    ------
    InputError
        If no such fix is found any more, or the file cannot be changed.
    """
    job = shop.read(text)
    for fix in check_text(shop, text).assessment.fixes:
        if fix.key == key:
            return with_tooling(text, job, fix.tooling), fix_order(fix, job.units)
    raise InputError(
        _ROOT, "what you entered since needs another change", "look at what fixes it now"
    )


def with_tooling(text: str, job: Job, tooling: Tooling) -> str:
    """Return a job file with another tooling; what does not differ stays as it was typed.

    Parameters
    ----------
    text
        The job file.
    job
        As read from it, with a tooling.
    tooling
        To be put into it.

    Raises
    ------
    InputError
        If the file cannot be changed.
    """
    old, new = _written(job), _written(evolve(job, tooling=tooling))
    changes = _members(old.pop("members", {}), new.pop("members", {}), job.units)
    before, after = _flat(old), _flat(new)
    for name in {**before, **after}:
        if before.get(name) != after.get(name):
            changes[f"tooling.{name}"] = _tidy(after.get(name), job.units)
    if changes.get(f"{_WEB}.thick", "") is None:  # a web is stated whole or not at all
        changes = {k: v for k, v in changes.items() if not k.startswith(_WEB)} | {_WEB: None}
    stated = raw_job(text).get("tooling")
    stated = stated if isinstance(stated, dict) else {}
    # A file may state a nose by its diameter, and shoulders by the gap between them.
    for path, table, key in (
        ("tooling.nose.radius", "nose", "shaft"),
        ("tooling.shoulders.opening", "shoulders", "gap"),
    ):
        if path in changes and key in stated.get(table, {}):
            changes[f"tooling.{table}.{key}"] = None
    return update_job(text, changes)


def _written(job: Job) -> Any:
    return parse(write_job(job)).unwrap()["tooling"]


def _flat(table: Plain, above: str = "") -> Plain:
    """Return a table's values by key path; a list of tables stands for itself."""
    found: Plain = {}
    for key, value in table.items():
        path = f"{above}{key}"
        if isinstance(value, dict):
            found |= _flat(value, f"{path}.")
        else:
            found[path] = value
    return found


def _members(old: Any, new: Any, units: Units) -> Changes:
    changes: Changes = {}
    for key in ("off_centre", "side_load"):
        if old.get(key) != new.get(key):
            changes[f"{_ROOT}.{key}"] = new.get(key)
    for key in SINGLE:
        changes |= _table(f"{_ROOT}.{key}", old.get(key, {}), new.get(key, {}), units)
    for key in SEVERAL:
        was, now = old.get(key, []), new.get(key, [])
        for number, one in enumerate(now, start=1):
            there = was[number - 1] if number <= len(was) else {}
            changes |= _table(f"{_ROOT}.{key}[{number}]", there, one, units)
        for number in range(len(was), len(now), -1):
            changes[f"{_ROOT}.{key}[{number}]"] = None
    return changes


def _table(path: str, old: Plain, new: Plain, units: Units) -> Changes:
    return {
        f"{path}.{name}": _tidy(new.get(name), units)
        for name in {**old, **new}
        if old.get(name) != new.get(name)
    }


def _tidy(value: object, units: Units) -> object:
    """Write a worked-out length as a person would; it differs by less than 0.1 um."""
    if not isinstance(value, str) or not value.endswith(" mm"):
        return value
    mm = float(value.removesuffix(" mm"))
    parts = mm / INCH_MM * 64
    if units == "inch" and parts >= 1 and abs(parts - round(parts)) < 1e-6:
        return size(mm, units)
    return f"{fixed(mm, 4).rstrip('0').rstrip('.')} mm"
