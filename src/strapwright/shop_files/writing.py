"""Write a job as a job file: every value it holds, in the order of the known keys."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.items import AoT, Array, InlineTable, Table

from strapwright.quantities import Units
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import BlankSettings, HitSettings, Job
from strapwright.shop.members import Members
from strapwright.shop.part import Closing, Hole, Part, Weld
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Obstacle, Rod, Shoulders, Tooling
from strapwright.shop_files.exact_text import (
    degrees_text,
    flow_text,
    force_text,
    length_text,
    plain_decimal,
    pressure_text,
    strength_text,
)
from strapwright.shop_files.opening import FORMAT
from strapwright.shop_files.reading_members import members_to_plain

Value = str | int | float | Array | InlineTable | AoT | Table | None
_Show = Callable[[float, Units], str]
_GIVE_AT = 10_000  # N; the force at which the travel lost is told


def write_job(job: Job) -> str:
    """Write a job as a job file.

    Parameters
    ----------
    job
        A job within the ranges that reading allows.

    Returns
    -------
    str
        TOML; ``read_job`` makes the same job of it.  A hand pump is written as its flow, a shaft as
        its radius, a gap as its opening, and a shop file's table into the job.
    """
    units = job.units
    document = tomlkit.document()
    document["format"] = FORMAT
    document["units"] = units
    document["part"] = _table(_part(job.part, units))
    lot = _present(_lot(job.part.lot, units))
    if lot:
        document["lot"] = _table(lot)
    if job.press is not None:
        document["press"] = _table(_press(job.press, units))
    if job.tooling is not None:
        document["tooling"] = _table(_tooling(job.tooling, units))
    document["blank"] = _table(_blank(job.blank))
    if job.hits != HitSettings():
        document["hits"] = _table({"tolerance": length_text(job.hits.tolerance, units)})
    return tomlkit.dumps(document)


def _part(part: Part, units: Units) -> dict[str, Value]:
    shape = tomlkit.array()
    shape.append(length_text(part.legs[0], units))
    for number, (bend, leg) in enumerate(zip(part.bends, part.legs[1:], strict=True)):
        if roll := part.roll_before(number):
            shape.append(f"roll {'-' if roll < 0 else ''}{degrees_text(abs(roll))}")
        radius = "" if bend.radius is None else f" radius {length_text(bend.radius, units)}"
        shape.append(f"{'up' if bend.side > 0 else 'down'} {degrees_text(bend.angle)}{radius}")
        shape.append(length_text(leg, units))
    order: Value = "natural" if part.natural else "best"
    if part.order is not None:
        order = tomlkit.array()
        order.extend(part.order)
    holes = tomlkit.aot()
    for hole in part.holes:
        holes.append(_table(_hole(hole, units)))
    welds = tomlkit.aot()
    for weld in part.welds:
        welds.append(_table(_place(weld, units)))
    return {
        "name": part.name,
        "quantity": part.quantity,
        "bar": _bar(part.bar, units),
        "material": part.material,
        "measured": part.measured,
        "shape": shape,
        "inside_radius": _maybe(length_text, part.inside_radius, units),
        "order": order,
        "at_once": part.at_once,
        "stacked": part.stacked,
        "close": None if part.close is None else _close(part.close, units),
        "grain": part.grain,
        "edges": part.edges,
        "weld": welds if part.welds else None,
        "hole": holes if part.holes else None,
    }


def _bar(bar: Bar, units: Units) -> str:
    thickness = length_text(bar.thickness, units)
    if bar.section == "flat":
        return f"flat {thickness} x {length_text(bar.width, units)}"
    return f"{bar.section} {thickness}"


def _hole(hole: Hole, units: Units) -> dict[str, Value]:
    return {
        **_place(hole, units),
        "diameter": length_text(hole.diameter, units),
        "across": length_text(hole.across, units),
    }


def _place(what: Hole | Weld, units: Units) -> dict[str, Value]:
    distance = length_text(what.distance, units)
    return {
        "leg": what.leg,
        "from_end": distance if what.from_bend is None else None,
        "from_bend": what.from_bend,
        "distance": None if what.from_bend is None else distance,
    }


def _close(close: Closing, units: Units) -> InlineTable:
    size = length_text(close.size, units)
    return _inline({"kind": close.kind, "size": size, "absorb": close.absorb})


def _lot(lot: Lot, units: Units) -> dict[str, Value]:
    return {
        "yield": _maybe(strength_text, lot.yield_strength, units),
        "tensile": _maybe(strength_text, lot.tensile_strength, units),
        "exponent": lot.exponent,
        "unloading_ratio": lot.unloading_ratio,
        "thickness": _maybe(length_text, lot.thickness, units),
    }


def _press(press: Press, units: Units) -> dict[str, Value]:
    return {
        "bore": _maybe(length_text, press.bore, units),
        "rod": _maybe(length_text, press.rod, units),
        "relief": _maybe(pressure_text, press.relief, units),
        "stroke": _maybe(length_text, press.stroke, units),
        "pump": _maybe(flow_text, press.flow, units),
        "efficiency": press.efficiency,
        "no_load": pressure_text(press.no_load, units),
        "give": _inline({"travel": _give(press.give), "at": f"{_GIVE_AT} N"}),
        "gauge_step": _maybe(pressure_text, press.gauge_step, units),
        "axis": press.axis,
        "daylight": _maybe(length_text, press.daylight, units),
        "columns": None if press.columns_apart is None else _columns(press, units),
        "bed_width": _maybe(length_text, press.bed_width, units),
    }


def _columns(press: Press, units: Units) -> InlineTable:
    return _inline(
        {
            "apart": _maybe(length_text, press.columns_apart, units),
            "width": _maybe(length_text, press.column_width, units),
        }
    )


def _give(give: float) -> str:
    # Shifted as a decimal: a product of floats would not always read back the same.
    return f"{plain_decimal(Decimal(repr(give)) * _GIVE_AT)} mm"


def _tooling(tooling: Tooling, units: Units) -> dict[str, Value]:
    return {
        "ram_side": tooling.ram_side,
        "friction": tooling.friction,
        "touch_error": length_text(tooling.touch_error, units),
        "rating": _maybe(force_text, tooling.rating, units),
        "plate": None if tooling.plate_width is None else _plate(tooling, units),
        "nose": _inline(_nose(tooling.nose, units)),
        "shoulders": _inline(_shoulders(tooling.shoulders, units)),
        "rod": _list([_rod(one, units) for one in tooling.rods]),
        "obstacle": _list([_obstacle(one, units) for one in tooling.obstacles]),
        "members": None if tooling.members is None else _members(tooling.members, units),
    }


def _members(members: Members, units: Units) -> Table:
    plain: dict[str, Any] = members_to_plain(members, units)
    table = tomlkit.table()
    for key, value in plain.items():
        if isinstance(value, dict):
            table[key] = _inline(value)
        elif isinstance(value, list):
            several = tomlkit.aot()
            for one in value:
                several.append(_table(one))
            table[key] = several
        else:
            table[key] = value
    return table


def _plate(tooling: Tooling, units: Units) -> InlineTable:
    return _inline(
        {
            "width": _maybe(length_text, tooling.plate_width, units),
            "thick": _maybe(length_text, tooling.plate_thickness, units),
            "length": _maybe(length_text, tooling.plate_length, units),
        }
    )


def _rod(rod: Rod, units: Units) -> dict[str, Value]:
    return {
        "out": length_text(rod.out, units),
        "along": length_text(rod.along, units),
        "diameter": length_text(rod.diameter, units),
    }


def _obstacle(one: Obstacle, units: Units) -> dict[str, Value]:
    box = tomlkit.array()
    box.extend([length_text(mm, units) for mm in one.box])
    along = None
    if one.along is not None:
        along = tomlkit.array()
        along.extend([length_text(mm, units) for mm in one.along])
    return {"name": one.name, "side": one.side, "box": box, "along": along}


def _list(rows: list[dict[str, Value]]) -> AoT | None:
    tables = tomlkit.aot()
    for row in rows:
        tables.append(_table(row))
    return tables if rows else None


def _nose(nose: Nose, units: Units) -> dict[str, Value]:
    web = _present(
        {
            "thick": _maybe(length_text, nose.web_thickness, units),
            "height": _maybe(length_text, nose.web_height, units),
        }
    )
    return {
        "radius": length_text(nose.radius, units),
        "reach": _maybe(length_text, nose.reach, units),
        "held": nose.held,
        "drawable": nose.drawable,
        "groove": nose.groove,
        "span": _maybe(length_text, nose.span, units),
        "web": _inline(web) if web else None,
    }


def _shoulders(shoulders: Shoulders, units: Units) -> dict[str, Value]:
    vee = shoulders.vee_angle
    return {
        "radius": length_text(shoulders.radius, units),
        "opening": length_text(shoulders.opening, units),
        "depth": _maybe(length_text, shoulders.depth, units),
        "floor": shoulders.floor,
        "vee_angle": None if vee is None else degrees_text(vee),
        "channel_width": _maybe(length_text, shoulders.channel_width, units),
        "channel_walls": _maybe(length_text, shoulders.channel_walls, units),
        "height": _maybe(length_text, shoulders.height, units),
        "outer_edge": _maybe(length_text, shoulders.outer_edge, units),
        "length": _maybe(length_text, shoulders.length, units),
    }


def _blank(blank: BlankSettings) -> dict[str, Value]:
    return {"method": blank.method, "factor": blank.factor, "reading": blank.reading}


def _maybe(show: _Show, value: float | None, units: Units) -> str | None:
    return None if value is None else show(value, units)


def _present(values: dict[str, Value]) -> dict[str, Value]:
    return {key: value for key, value in values.items() if value is not None}


def _table(values: dict[str, Value]) -> Table:
    table = tomlkit.table()
    table.update(_present(values))
    return table


def _inline(values: dict[str, Value]) -> InlineTable:
    table = tomlkit.inline_table()
    table.update(_present(values))
    return table
