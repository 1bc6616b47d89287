"""A making as JSON data: mm, rpm, minutes, W and N."""

from __future__ import annotations

from typing import Any

from strapwright.findings import by_severity
from strapwright.making.assembly.assembly_values import Item
from strapwright.making.machining_steps import plate_steps, shaft_steps
from strapwright.making.plate_making import HoleGroup, PlateMaking
from strapwright.making.plate_values import HoleSpec, ShaftDrawing
from strapwright.making.tooling_making import ToolingMaking
from strapwright.report.plan_json import finding_data
from strapwright.wording.reader import in_units
from strapwright.wording.telling import tell_all

Data = dict[str, Any]


def making_to_data(made: ToolingMaking) -> Data:
    """Return plates, shafts and notes as plain data, format 1."""
    return {
        "format": 1,
        "name": made.name,
        "units": made.units,
        "minutes": made.minutes,
        "plates": [_plate(one) for one in made.plates],
        "shafts": [_shaft(one, made) for one in made.shafts],
        "welds": [
            {
                "name": one.name,
                "facts": dict(one.facts),
                "steps": list(one.steps),
                "cautions": list(one.cautions),
            }
            for one in made.welding
        ],
        "parts": [_item(one) for one in made.assembly.items] if made.assembly else [],
        "notes": list(made.notes),
        "findings": [
            finding_data(one) for one in tell_all(by_severity(made.findings), in_units(made.units))
        ],
    }


def _item(item: Item) -> Data:
    return {
        "number": item.number,
        "name": item.name,
        "kind": item.kind,
        "count": item.count,
        "material": item.metal,
        "sizes_mm": list(item.sizes),
        "thread": item.thread or None,
        "use": item.use or None,
        "torque_nmm": None if item.torque is None else list(item.torque),
    }


def _plate(made: PlateMaking) -> Data:
    plate = made.plate
    said = plate_steps(made)
    return {
        "name": plate.name,
        "piece": plate.piece or plate.name,
        "quantity": plate.quantity,
        "metal": plate.metal,
        "steel": plate.steel or None,
        "width_mm": plate.width,
        "height_mm": plate.height,
        "thickness_mm": plate.thickness,
        "datum": plate.corner,
        "marks_mm": [[list(start), list(end)] for start, end in plate.marks],
        "seat_radius_mm": plate.seat or None,
        "tip_mm": made.tip,
        "minutes": made.minutes,
        "possible": made.possible,
        "holes": [
            {
                "label": row.label,
                "x_mm": row.x,
                "y_mm": row.y,
                "touch_x_mm": row.touch_x,
                "touch_y_mm": row.touch_y,
                **_hole(row.hole),
            }
            for row in made.rows
        ],
        "cutters": [_group(one) for one in made.groups],
        "steps": list(said.steps),
        "cautions": list(said.cautions),
        "notes": list(plate.notes),
    }


def _hole(hole: HoleSpec) -> Data:
    return {
        "kind": hole.kind,
        "diameter_mm": hole.diameter,
        "least_mm": hole.least,
        "most_mm": hole.most,
        "fit": hole.fit or None,
        "thread": hole.thread or None,
        "depth_mm": hole.depth,
        "seat_mm": None if hole.counterbore is None else list(hole.counterbore),
        "purpose": hole.purpose or None,
    }


def _group(group: HoleGroup) -> Data:
    return {
        "holes": group.labels,
        "thread_percent": group.making.percent,
        "cuts": [
            {
                "cutter": one.cut.cutter.name,
                "role": one.cut.role,
                "least_mm": one.cut.least,
                "most_mm": one.cut.most,
                "rpm": one.setting.rpm,
                "feed_mm_rev": one.setting.feed,
                "power_W": one.setting.power,
                "thrust_N": one.setting.thrust,
                "minutes": one.setting.minutes,
                "speed_source": one.setting.source,
            }
            for one in group.cuts
        ],
        "ways": [{"kind": one.kind, "text": one.text} for one in group.making.ways],
        "notes": list(group.making.notes),
    }


def _shaft(shaft: ShaftDrawing, made: ToolingMaking) -> Data:
    said = shaft_steps(shaft, made.units)
    return {
        "name": shaft.name,
        "quantity": shaft.quantity,
        "metal": shaft.metal,
        "diameter_mm": shaft.diameter,
        "length_mm": shaft.length,
        "fit": shaft.fit or None,
        "hardened": shaft.hardened,
        "steps": list(said.steps),
        "cautions": list(said.cautions),
        "notes": list(shaft.notes),
    }
