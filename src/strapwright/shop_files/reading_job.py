"""Read a job file into a job."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from strapwright.errors import in_file, table_of, told_in
from strapwright.shop.job import BlankSettings, HitSettings, Job
from strapwright.shop.keys import keys_of
from strapwright.shop.on_kept_plates import on_kept_plates, press_for
from strapwright.shop_files.limits.reading_handling import read_handling
from strapwright.shop_files.opening import BEGIN, files_named, open_job, open_table
from strapwright.shop_files.reading_part import read_part
from strapwright.shop_files.reading_press import read_press
from strapwright.shop_files.reading_tooling import read_tooling
from strapwright.shop_files.reading_values import exact_value, read_plain, read_value
from strapwright.shop_files.toml_table import Table
from strapwright.shop_files.ways.reading_other_tooling import check_on_own

__all__ = ["files_named", "read_job"]

_NOTHING: Mapping[str, str] = MappingProxyType({})
# Jobs that are remembered as they were read, and how long their files may be [characters]: a shop
# reads the same few over and over, and a long file must hold no memory (a choice of ours).
_REMEMBERED, _SHORT = 64, 20_000


def read_job(text: str, *, beside: Mapping[str, str] = _NOTHING) -> Job:
    """Read a job file.

    Parameters
    ----------
    text
        The file; lengths and the rest in the units written there.
    beside
        File name -> text of the shop files it names, see :func:`files_named`.

    Returns
    -------
    Job
        With every default filled in; press and tooling are ``None`` where nothing is said of them.

    Raises
    ------
    InputError
        At the first thing that cannot be used, with its key path and line.
    """
    files = tuple(sorted(beside.items()))
    if len(text) + sum(len(one) for _, one in files) > _SHORT:
        return _read(text, dict(files))
    return _remembered(text, files)


@lru_cache(maxsize=_REMEMBERED)
def _remembered(text: str, files: tuple[tuple[str, str], ...]) -> Job:
    return _read(text, dict(files))


def _read(text: str, beside: Mapping[str, str]) -> Job:
    head = open_job(text)
    part = head.child("part")
    if part is None:
        raise head.refuse("part", f"the table {table_of('part')} is missing", BEGIN)
    press = open_table(head, "press", beside)
    tooling = open_table(head, "tooling", beside)
    # Without a stated unit system every figure carries its unit, and sheets read in inches.
    units = head.units or "inch"
    with told_in(units):
        made = read_part(part, open_table(head, "lot", beside))  # its faults are told first
        made_on = None if tooling is None else read_tooling(tooling)
        machine = press_for(made_on, None if press is None else read_press(press))
        _refuse_others(part, tooling)
        if made_on is not None:
            check_on_own(part, made.others, made_on)
        return Job(
            units=units,
            part=made,
            press=machine,
            tooling=on_kept_plates(made_on, machine, units),
            blank=_read_blank(head.child("blank")),
            hits=_read_hits(head.child("hits")),
            handling=read_handling(head.child("handling")),
        )


def _refuse_others(part: Table, tooling: Table | None) -> None:
    """Refuse other tooling where there is none that it differs from, or where it does not hold."""
    if "other_tooling" not in part.data:
        return
    if tooling is None:
        raise part.refuse(
            "other_tooling",
            "other tooling takes what it does not state from the job's own, and there is none",
            f"enter {table_of('tooling')} first",
        )
    if part.data.get("stacked", 1) != 1:
        raise part.refuse(
            "other_tooling",
            "bars on each other stay on one tooling",
            "bend one bar at a time, or leave this out",
        )


def _read_hits(table: Table | None) -> HitSettings:
    return HitSettings() if table is None else read_value(table, HitSettings)


def _read_blank(table: Table | None) -> BlankSettings:
    if table is None:
        return BlankSettings()
    plain = read_plain(table, BlankSettings)
    method = plain["method"]
    found = exact_value(table, keys_of(BlankSettings)["factor"])
    factor = None if found is None else float(found)
    if method == "factor" and factor is None:
        raise table.refuse(
            "factor",
            "this is missing, though method is factor",
            in_file("write for example factor = 0.42, from 0.001 to 1"),
        )
    if method != "factor" and factor is not None:
        raise table.refuse(
            "factor",
            f"this has no effect while method is {method}",
            in_file('write method = "factor", or leave factor out'),
            value=table.data["factor"],
        )
    return BlankSettings(**plain, factor=factor)
