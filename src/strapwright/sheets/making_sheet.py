"""The making sheets: a plate a page for the bench, drawing, hole table, steps; shafts and notes."""

from __future__ import annotations

from typing import Any, Literal

from strapwright.drawing.assembly_views.taken_apart import taken_apart
from strapwright.drawing.assembly_views.three_views import three_views
from strapwright.drawing.plate_drawing import height_for, plate_scene
from strapwright.findings import by_severity
from strapwright.making.assembly.piece_steels import metal_words
from strapwright.making.machining_steps import plate_steps, shaft_steps
from strapwright.making.plate_making import HoleGroup, PlateMaking
from strapwright.making.plate_values import ESTIMATE, ShaftDrawing
from strapwright.making.shop_lengths import hole_words, place, size, unit_name
from strapwright.making.tolerances import form_words, general_words, place_words, shaft_words
from strapwright.making.tooling_making import ToolingMaking
from strapwright.quantities import Units
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import as_fractions
from strapwright.scene.svg import to_svg
from strapwright.wording.parts_list_words import HEADS, list_notes, parts_list
from strapwright.wording.reader import in_units
from strapwright.wording.severity_words import severity_label
from strapwright.wording.telling import Told, tell_all

Data = dict[str, Any]
# 680 px over 180 mm; wide plates take less height.
_WIDE, _HIGH, _LOW, _HIGHEST, _TYPE = 680.0, 262.0, 200.0, 380.0, 17.0
_LINES = 22  # of text beside a drawing of full height
_FEW, _LESS = 14, 320.0  # beside the highest one, and how high with more to say
_MANY, _FLAT = 18, 222.0  # of a plate that is wider than high
_MM = 180 / 680  # of paper in a px


def making_sheet(made: ToolingMaking, *, paper: Literal["letter", "a4"] | None = None) -> bytes:
    """Lay out the sheets for the bench.

    Parameters
    ----------
    made
        As worked out.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for inches and A4 for millimetres.

    Returns
    -------
    bytes
        PDF; the same value gives the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    # The layout engine takes long to load.
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415

    chosen = paper or ("letter" if made.units == "inch" else "a4")
    scenes = [plate_scene(one, _frame(one)) for one in made.plates]
    drawings = {
        f"plate-{number}.svg": to_svg(one, "paper") for number, one in enumerate(scenes, start=1)
    }
    together = _together(made, drawings)
    data = {
        "together": together,
        "paper": {"letter": "us-letter", "a4": "a4"}[chosen],
        "name": made.name,
        "unit": unit_name(made.units),
        "estimate": ESTIMATE,
        "found": [
            _found(one) for one in tell_all(by_severity(made.findings), in_units(made.units))
        ],
        "plates": [
            {
                **_plate(one, made.units),
                "drawing": f"plate-{number}.svg",
                "high": (scene.bounds[3] - scene.bounds[1]) * scene.scale * _MM,
            }
            for number, (one, scene) in enumerate(zip(made.plates, scenes, strict=True), start=1)
        ],
        "welds": [
            {
                "name": one.name,
                "facts": [[name, as_fractions(value)] for name, value in one.facts],
                "steps": [as_fractions(step) for step in one.steps],
                "cautions": list(one.cautions),
            }
            for one in made.welding
        ],
        "shafts": [_shaft(one, made.units) for one in made.shafts],
        "notes": [as_fractions(one) for one in made.notes],
    }
    return compile_pdf("making.typ", data, drawings)


def _together(made: ToolingMaking, drawings: dict[str, str]) -> Data | None:
    """Drawings and parts list of the whole; the drawings are added to the others."""
    whole = made.assembly
    if whole is None:
        return None
    drawings["together.svg"] = to_svg(three_views(whole, made.units, made.name), "paper")
    drawings["apart.svg"] = to_svg(taken_apart(whole, made.name), "paper")
    return {
        "heads": HEADS,
        "rows": [[as_fractions(cell) for cell in row] for row in parts_list(whole, made.units)],
        "notes": [as_fractions(one) for one in list_notes(whole, made.units)],
    }


def _found(one: Told) -> list[str]:
    return [severity_label(one.severity), as_fractions(one.sentence)]


def _frame(made: PlateMaking) -> Frame:
    plate = made.plate
    high = height_for(plate, _WIDE, _TYPE)
    # A plate a page, unless there is so much to say, or the plate is so upright, that its drawing
    # would be too small to read: then the text goes on overleaf.
    said = plate_steps(made)
    lines = len(said.steps) + len(said.cautions) + len(plate.notes) + len(made.rows)
    short = lines <= _LINES and plate.height <= plate.width
    upright = _LESS if _FEW < lines <= _LINES else _HIGHEST
    level = _FLAT if lines > _MANY else _HIGH
    most = level if short else upright
    return Frame(width=_WIDE, height=max(_LOW, min(most, high)), body=_TYPE)


def _plate(made: PlateMaking, units: Units) -> Data:
    plate = made.plate
    said = plate_steps(made)
    sizes = f"{size(plate.width, units)} x {size(plate.height, units)}"
    facts = [
        ["Quantity", str(plate.quantity)],
        ["Size", f"{sizes}, {size(plate.thickness, units)} {'deep' if plate.piece else 'thick'}"],
        ["Material", metal_words(plate, units)],
        ["Time", f"about {_minutes(made.minutes)} each"],
    ]
    if plate.piece:
        facts.insert(0, ["Face of", f"the {plate.piece}"])
    return {
        "name": plate.title,
        "limits": [
            general_words(max(plate.width, plate.height, plate.thickness), units),
            form_words(plate, units),
        ],
        "facts": [[name, as_fractions(value)] for name, value in facts],
        "tip": as_fractions(size(made.tip, units)),
        "rows": [
            [
                row.label,
                place(row.x, units),
                place(row.y, units),
                place(row.touch_x, units),
                place(row.touch_y, units),
                place_words(row.hole, plate, units),
                as_fractions(
                    hole_words(row.hole, units)
                    + (f": {row.hole.purpose}" if row.hole.purpose else "")
                ),
            ]
            for row in made.rows
        ],
        "cutters": [[label, as_fractions(words)] for label, words in map(_cutters, made.groups)],
        "steps": [as_fractions(one) for one in said.steps],
        "notes": [as_fractions(one) for one in plate.notes],
        "cautions": [as_fractions(one) for one in said.cautions],
    }


def _cutters(group: HoleGroup) -> tuple[str, str]:
    labels = group.labels
    label = labels[0] if len(labels) == 1 else f"{labels[0]} to {labels[-1]}"
    if not group.cuts:
        return label, "no cutter in the tool crib, see the steps"
    words = ", ".join(one.cut.cutter.name for one in group.cuts)
    percent = group.making.percent
    return label, words + ("" if percent is None else f" ({percent:.0f} % of thread)")


def _shaft(shaft: ShaftDrawing, units: Units) -> Data:
    said = shaft_steps(shaft, units)
    return {
        "name": shaft.name,
        "size": as_fractions(shaft_words(shaft, units)),
        "steps": [as_fractions(one) for one in (*said.steps, *shaft.notes)],
        "cautions": [as_fractions(one) for one in said.cautions],
    }


def _minutes(minutes: float) -> str:
    """Rough: to five minutes, or to a quarter of an hour above one."""
    if minutes < 60:
        return f"{max(5, 5 * round(minutes / 5))} min"
    return f"{round(minutes / 15) / 4:g} h"
