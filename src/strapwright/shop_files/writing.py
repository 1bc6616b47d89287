"""Write a job as a job file: every value it holds, in the order of its keys."""

from __future__ import annotations

from typing import Any

import tomlkit
from tomlkit.items import InlineTable, Table

from strapwright.quantities import Units
from strapwright.shop.bar import Bar
from strapwright.shop.by_hand.handling_minutes import HandlingMinutes
from strapwright.shop.job import HitSettings, Job
from strapwright.shop.part import Hole, Part, Weld
from strapwright.shop.part_limits import Limit
from strapwright.shop_files.exact_text import degrees_text, length_text
from strapwright.shop_files.opening import FORMAT
from strapwright.shop_files.reading_press import press_to_plain
from strapwright.shop_files.reading_tooling import tooling_to_plain
from strapwright.shop_files.reading_values import Plain, value_to_plain
from strapwright.shop_files.ways.reading_other_tooling import other_tooling_to_plain


def write_job(job: Job) -> str:
    """Write a job as a job file.

    Parameters
    ----------
    job
        A job within the ranges that reading allows.

    Returns
    -------
    str
        TOML; ``read_job`` makes the same job of it.  A shaft is written as
        its radius, a gap as its opening, and a shop file's table into the job.
    """
    units = job.units
    document = tomlkit.document()
    document["format"] = FORMAT
    document["units"] = units
    document["part"] = _table(_part(job.part, units))
    lot = value_to_plain(job.part.lot, units)
    if lot:
        document["lot"] = _table(lot)
    if job.press is not None:
        document["press"] = _table(press_to_plain(job.press, units))
    if job.tooling is not None:
        tooling = tooling_to_plain(job.tooling, units)
        members = tooling.pop("members", None)
        document["tooling"] = table = _table(tooling)
        if members is not None:
            table["members"] = _table(members)
    document["blank"] = _table(value_to_plain(job.blank, units))
    if job.handling != HandlingMinutes():
        document["handling"] = _table(value_to_plain(job.handling, units))
    if job.hits != HitSettings():
        document["hits"] = _table(value_to_plain(job.hits, units))
    return tomlkit.dumps(document)


def _part(part: Part, units: Units) -> Plain:
    order: str | list[int] = "natural" if part.natural else "best"
    if part.order is not None:
        order = list(part.order)
    return value_to_plain(
        part,
        units,
        bar=_bar(part.bar, units),
        material=part.material,
        shape=_shape(part, units),
        order=order,
        overall=None if part.overall is None else value_to_plain(part.overall, units),
        close=None
        if part.close is None
        else value_to_plain(part.close, units, absorb=part.close.absorb),
        tolerance=None
        if part.tolerance is None
        else value_to_plain(part.tolerance, units, takes=part.tolerance.takes) or None,
        limit=[_limit(one, units) for one in part.limits] or None,
        finish=[
            value_to_plain(one, units, bend=one.bend, at=degrees_text(one.at))
            for one in part.finishes
        ]
        or None,
        other_tooling=[other_tooling_to_plain(one, units) for one in part.others] or None,
        weld=[value_to_plain(one, units, **_place(one, units)) for one in part.welds] or None,
        hole=[value_to_plain(one, units, **_place(one, units)) for one in part.holes] or None,
    )


def _limit(one: Limit, units: Units) -> Plain:
    if one.length is not None:
        return {"leg": one.leg, "length": length_text(one.length, units)}
    return {"bend": one.bend, "angle": degrees_text(one.angle or 0.0)}


def _shape(part: Part, units: Units) -> list[str]:
    shape = _leg(part, 1, units)
    for number, bend in enumerate(part.bends):
        if roll := part.roll_before(number):
            shape.append(f"roll {'-' if roll < 0 else ''}{degrees_text(abs(roll))}")
        radius = "" if bend.radius is None else f" radius {length_text(bend.radius, units)}"
        shape.append(f"{'up' if bend.side > 0 else 'down'} {degrees_text(bend.angle)}{radius}")
        shape += _leg(part, number + 2, units)
    return shape


def _leg(part: Part, number: int, units: Units) -> list[str]:
    """A 1-based leg; one that follows from the sizes over all is left open again."""
    name = "" if part.overall is None else part.overall.names[number - 1]
    twist = next((one for one in part.twists if one.leg == number), None)
    if twist is not None:
        over = "" if twist.over is None else f" over {length_text(twist.over, units)}"
        beyond = part.legs[number - 1] - twist.middle
        return [
            length_text(twist.middle, units),
            f"twist {'-' if twist.angle < 0 else ''}90{over}",
            length_text(beyond, units),
        ]
    if not name:
        return [length_text(part.legs[number - 1], units)]
    return ["?" if " " in name else f"? {name}"]


def _bar(bar: Bar, units: Units) -> str:
    thickness = length_text(bar.thickness, units)
    if bar.section == "flat":
        return f"flat {thickness} x {length_text(bar.width, units)}"
    return f"{bar.section} {thickness}"


def _place(what: Hole | Weld, units: Units) -> Plain:
    distance = length_text(what.distance, units)
    return {
        "leg": what.leg,
        "from_end": distance if what.from_bend is None else None,
        "from_bend": what.from_bend,
        "distance": None if what.from_bend is None else distance,
    }


def _table(values: Plain) -> Table:
    """A table; tables in it stand in one line, and lists of them below it."""
    table = tomlkit.table()
    table.update({key: _item(value) for key, value in values.items()})
    return table


def _item(value: Any) -> Any:
    if isinstance(value, dict):
        return _inline(value)
    if not isinstance(value, list):
        return value
    if not isinstance(value[0], dict):
        array = tomlkit.array()
        array.extend(value)
        return array
    several = tomlkit.aot()
    for one in value:
        several.append(_table(one))
    return several


def _inline(values: Plain) -> InlineTable:
    table = tomlkit.inline_table()
    table.update({key: _item(value) for key, value in values.items()})
    return table
