"""A plate as DXF from its datum corner: outline, holes by how they are made, labels."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.plate_making import HoleGroup, PlateMaking
from strapwright.making.plate_outline import outlines
from strapwright.making.shop_lengths import hole_words, size, unit_name
from strapwright.making.tolerances import general_words
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed

if TYPE_CHECKING:
    from ezdxf.document import Drawing

# Layer -> colour index of the format and line type.
LAYERS = {
    "OUTLINE": (7, "CONTINUOUS"),
    "DATUM": (1, "CONTINUOUS"),
    "HOLES-DRILLED": (7, "CONTINUOUS"),
    "HOLES-FITTED": (5, "CONTINUOUS"),
    "HOLES-TAP-DRILL": (3, "CONTINUOUS"),
    "THREADS": (8, "CONTINUOUS"),
    "COUNTERBORES": (4, "CONTINUOUS"),
    "CENTRES": (1, "CONTINUOUS"),
    "MARKS": (6, "CONTINUOUS"),
    "TEXT": (2, "CONTINUOUS"),
}
_LAYER = {
    "plain": "HOLES-DRILLED",
    "clearance": "HOLES-DRILLED",
    "fit": "HOLES-FITTED",
    "tapped": "HOLES-TAP-DRILL",
}
STYLE = "STRAPWRIGHT"
_TEXT = 3.0  # mm, height of type
_INSUNITS = {"inch": 1, "metric": 4}  # codes of the format for inches and millimetres


def plate_dxf(made: PlateMaking) -> bytes:
    """Draw a plate as a DXF file.

    Parameters
    ----------
    made
        Plate, holes, cutters and units.

    Returns
    -------
    bytes
        DXF R2010 text in inches or mm as the job, which header and text say.  Origin at the datum
        corner, x to the right and y up as the face is seen, so that from a right or an upper corner
        places are negative, in the text as in the geometry.  The same plate gives the same bytes.
    """
    plate, units = made.plate, made.units
    per = INCH_MM if units == "inch" else 1.0
    document = dxf_document(units, LAYERS)
    space = document.modelspace()
    x0 = plate.width if plate.corner.endswith("right") else 0.0
    y0 = plate.height if plate.corner.startswith("upper") else 0.0

    def at(x: float, y: float) -> tuple[float, float]:
        return (x - x0) / per, (y - y0) / per

    for corners in outlines(plate):
        points = [(*at(x, y), bulge) for x, y, bulge in corners]
        space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": "OUTLINE"})
    for start, end in plate.marks:
        space.add_line(at(*start), at(*end), dxfattribs={"layer": "MARKS"})
    for end in ((plate.width - x0, y0), (x0, plate.height - y0)):
        space.add_line(at(x0, y0), at(*end), dxfattribs={"layer": "DATUM"})
    for group in made.groups:
        hole = group.hole
        for row in group.rows:
            centre = at(row.hole.x, row.hole.y)
            drilled = _drilled(group)
            space.add_circle(
                centre, radius=drilled / 2 / per, dxfattribs={"layer": _LAYER[hole.kind]}
            )
            if hole.kind == "tapped":
                space.add_arc(
                    centre, radius=hole.diameter / 2 / per, start_angle=15, end_angle=285,
                    dxfattribs={"layer": "THREADS"},
                )  # fmt: skip
            if hole.counterbore is not None:
                space.add_circle(
                    centre, radius=hole.counterbore[0] / 2 / per,
                    dxfattribs={"layer": "COUNTERBORES"},
                )  # fmt: skip
            space.add_point(centre, dxfattribs={"layer": "CENTRES"})
            _text(
                document, row.label, at(row.hole.x + hole.diameter / 2 + 1.0, row.hole.y + 1.0), per
            )
    for number, line in enumerate(_words(made, at)):
        _text(document, line, at(0.0, -4.0 - 1.8 * _TEXT * (number + 1)), per)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode("utf-8")


def _drilled(group: HoleGroup) -> float:
    """Diameter to draw [mm]: the tap drill under a thread where the crib has one."""
    hole = group.hole
    if hole.kind != "tapped":
        return hole.diameter
    drills = [one.cut.least for one in group.cuts if one.cut.role == "tap drill"]
    return drills[0] if drills else find_thread(hole.thread, "thread").hole(75)


def _words(made: PlateMaking, at: Callable[[float, float], tuple[float, float]]) -> list[str]:
    plate, units = made.plate, made.units
    lines = [
        f"{plate.name}, qty {plate.quantity}, {size(plate.thickness, units)} thick, {plate.metal}",
        f"Units: {'inches' if units == 'inch' else 'millimetres'}. Origin: {plate.corner} corner.",
        "A planning estimate. Measure the stock and the shaft before cutting.",
    ]
    lines.append(general_words(max(plate.width, plate.height, plate.thickness), units))
    if plate.edges_rounded:
        r = size(plate.edges_rounded, units)
        lines.append(f"Inner side: upper edge rounded R {r}, from {r} down to {r} in on top.")
    if plate.seat:
        lines.append(f"Inner side: half-round seat R {size(plate.seat, units)} at the upper edge.")
    decimals = 3 if units == "inch" else 2
    for row in made.rows:
        # As they are in the file: negative to the left of the origin and below it.
        x, y = (fixed(one, decimals) for one in at(row.hole.x, row.hole.y))
        lines.append(f"{row.label}: X {x} Y {y} {unit_name(units)}, {hole_words(row.hole, units)}")
    return lines


def _text(document: Drawing, words: str, at: tuple[float, float], per: float) -> None:
    # Two percent signs in a row begin a code of the format.
    plain = re.sub("%(?=%)", "% ", words)
    attributes = {"layer": "TEXT", "style": STYLE, "insert": at}
    document.modelspace().add_text(plain, height=_TEXT / per, dxfattribs=attributes)


def dxf_document(units: Units, layers: Mapping[str, tuple[int, str]]) -> Drawing:
    """Return an empty file in a unit, with layers by colour index and line type."""
    # Takes long to load.  The library exports both without saying so to a type checker.
    from ezdxf import new, options  # type: ignore[attr-defined]  # noqa: PLC0415

    # Dates and random identifiers would make every file a new one.
    options.write_fixed_meta_data_for_testing = True
    document: Drawing = new("R2010", setup=False, units=_INSUNITS[units])
    document.header["$MEASUREMENT"] = 0 if units == "inch" else 1
    document.header["$LUNITS"] = 2  # decimal
    document.header["$LUPREC"] = 3 if units == "inch" else 2
    for name, (colour, line_type) in layers.items():
        document.layers.add(name, color=colour, linetype=line_type)
    document.styles.add(STYLE, font="txt")
    return document
