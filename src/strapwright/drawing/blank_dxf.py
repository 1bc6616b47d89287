"""The flat blank as DXF: outline, bend lines and holes to cut and mark by, on layers by purpose."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from attrs import frozen

from strapwright.blank.blank_values import Blank
from strapwright.blank.cut_shapes import cut_points
from strapwright.drawing.bend_sides import nose_side, sighted, turn_words
from strapwright.errors import InputError
from strapwright.planning.plan_values import Plan
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.job import Units
from strapwright.shop.part_holes import cut_kind

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

# Layer -> colour index of the format and line type.
LAYERS = {
    "OUTLINE": (7, "CONTINUOUS"),
    "BEND-MIDDLE": (1, "CENTRE-LINE"),
    "TANGENTS": (3, "DOTS"),
    "SIGHT": (6, "DASHES"),
    "HOLES": (7, "CONTINUOUS"),
    "SAW-AFTER": (5, "DASHES"),
    "TWIST": (6, "DASHES"),
    "TEXT": (2, "CONTINUOUS"),
    "DIMENSIONS": (4, "CONTINUOUS"),
}
STYLE = "STRAPWRIGHT"
_LINE_TYPES = {  # total length, then dash (+) and gap (-) [mm]
    "CENTRE-LINE": ("Long and short dashes", (10.0, 6.0, -1.5, 1.0, -1.5)),
    "DOTS": ("Dots", (2.0, 0.0, -2.0)),
    "DASHES": ("Dashes", (4.5, 3.0, -1.5)),
}
_TEXT = 3.5  # mm, height of type
_WIDTH = 0.95  # of a letter, in parts of the height; wide, for fonts differ
_STEP = 9.0  # mm between dimension lines
_INSUNITS = {"inch": 1, "metric": 4}  # codes of the format for inches and millimetres
_DECIMALS = {"inch": 3, "metric": 2}


@frozen(kw_only=True)
class _Pen:
    """Draws in the unit of the file; everything handed to it is in mm."""

    space: Modelspace
    size: float

    def at(self, x: float, y: float) -> tuple[float, float]:
        return x / self.size, y / self.size

    def line(self, start: tuple[float, float], end: tuple[float, float], layer: str) -> None:
        self.space.add_line(self.at(*start), self.at(*end), dxfattribs={"layer": layer})

    def text(self, words: str, x: float, y: float) -> None:
        # Two percent signs in a row begin a code of the format.
        plain = re.sub("%(?=%)", "% ", words)
        attributes = {"layer": "TEXT", "style": STYLE, "insert": self.at(x, y)}
        self.space.add_text(plain, height=_TEXT / self.size, dxfattribs=attributes)

    def dimension(self, start: float, end: float, edge: float, line: float, *, turn: float) -> None:
        """Measure along x (``turn`` 0) or y (90 deg) from ``start`` to ``end``."""
        first, last, base = (
            ((start, edge), (end, edge), (start, line))
            if turn == 0.0
            else ((edge, start), (edge, end), (line, start))
        )
        self.space.add_linear_dim(
            base=self.at(*base),
            p1=self.at(*first),
            p2=self.at(*last),
            angle=turn,
            dimstyle=STYLE,
            dxfattribs={"layer": "DIMENSIONS"},
        ).render()


def blank_dxf(plan: Plan) -> bytes:
    """Draw the flat blank as a DXF file.

    Parameters
    ----------
    plan
        With a blank.

    Returns
    -------
    bytes
        DXF R2010 text (AutoCAD 2010, version code AC1024) in mm for a metric job and in inches for
        an inch job, which header and a line of text say.  Origin at end 1 on the near edge, x along
        the bar, y across.  The same plan gives the same bytes.

    Raises
    ------
    InputError
        Where the plan has no blank.
    """
    blank = plan.blank
    if blank is None:
        raise InputError(
            "part.inside_radius",
            "there is no blank to draw",
            "give an inside radius or the tooling",
        )
    units = plan.job.units
    size = INCH_MM if units == "inch" else 1.0
    document = _document(units, size)
    pen = _Pen(space=document.modelspace(), size=size)
    width = plan.job.part.bar.width
    corners = ((0.0, 0.0), (blank.length, 0.0), (blank.length, width), (0.0, width))
    pen.space.add_lwpolyline(
        [pen.at(*corner) for corner in corners], close=True, dxfattribs={"layer": "OUTLINE"}
    )
    _bends(pen, plan, blank, width)
    for hole in blank.drilled_flat:
        if cut_kind(hole) != "hole":
            points = [pen.at(x, width / 2 + y) for x, y in cut_points(hole, width)]
            pen.space.add_lwpolyline(points, close=True, dxfattribs={"layer": "HOLES"})
            continue
        pen.space.add_circle(
            pen.at(hole.position, width / 2 + hole.across),
            radius=hole.diameter / 2 / size,
            dxfattribs={"layer": "HOLES"},
        )
    _dimensions(pen, blank, width)
    _words(pen, plan, blank, width)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode("utf-8")


def _document(units: Units, size: float) -> Drawing:
    # Takes long to load.  The library exports both without saying so to a type checker.
    from ezdxf import new, options  # type: ignore[attr-defined]  # noqa: PLC0415

    # Dates and random identifiers would make every file a new one.
    options.write_fixed_meta_data_for_testing = True
    document: Drawing = new("R2010", setup=False, units=_INSUNITS[units])
    document.header["$MEASUREMENT"] = 0 if units == "inch" else 1
    document.header["$LUNITS"] = 2  # decimal
    document.header["$LUPREC"] = _DECIMALS[units]
    for name, (words, pattern) in _LINE_TYPES.items():
        document.linetypes.add(name, [one / size for one in pattern], description=words)
    for name, (colour, line_type) in LAYERS.items():
        document.layers.add(name, color=colour, linetype=line_type)
    document.styles.add(STYLE, font="txt")
    style = document.dimstyles.new(STYLE)
    for key, value in {
        "dimlfac": 1.0,  # the stock style of the library shows a hundred times the length
        "dimscale": 1.0,
        "dimtxt": _TEXT / size,
        "dimtxsty": STYLE,
        "dimasz": 2.5 / size,
        "dimexo": 1.0 / size,
        "dimexe": 1.5 / size,
        "dimgap": 1.0 / size,
        "dimtad": 1,  # above the line
        "dimtih": 0,
        "dimtoh": 0,
        "dimlunit": 2,
        "dimdec": _DECIMALS[units],
        "dimzin": 8,  # no zeros at the end
        "dimdsep": ord("."),
        "dimpost": "<>",
    }.items():
        style.set_dxf_attrib(key, value)
    document.header["$DIMSTYLE"] = STYLE
    return document


def _bends(pen: _Pen, plan: Plan, blank: Blank, width: float) -> None:
    for mark in blank.marks:
        pen.line((mark.nose, 0.0), (mark.nose, width), "BEND-MIDDLE")
        for at in mark.tangents if mark.hit <= 1 else ():  # hits of a row share their zone
            pen.line((at, 0.0), (at, width), "TANGENTS")
        if sighted(plan) and 0.0 <= mark.sight <= blank.length:
            pen.line((mark.sight, 0.0), (mark.sight, width), "SIGHT")
    for saw in blank.saws:
        pen.line((saw.position, 0.0), (saw.position, width), "SAW-AFTER")
    for at in blank.twist_lines:
        pen.line((at, 0.0), (at, width), "TWIST")


def _dimensions(pen: _Pen, blank: Blank, width: float) -> None:
    """Everything from end 1: bend middles over the bar, holes under it, then the whole."""
    over = [(mark.nose, width) for mark in blank.marks]
    under = [(hole.position, width / 2 + hole.across) for hole in blank.drilled_flat]
    under += [(saw.position, 0.0) for saw in blank.saws]
    under += [(at, 0.0) for at in blank.twist_lines]
    top = _stacked(pen, over, width + 1.5 * _STEP, _STEP)
    _stacked(pen, under, -1.5 * _STEP, -_STEP)
    pen.dimension(0.0, blank.length, width, top, turn=0.0)
    pen.dimension(0.0, width, blank.length, blank.length + _STEP, turn=90.0)
    for hole in blank.drilled_flat:
        if hole.across:
            y = width / 2 + hole.across
            pen.dimension(0.0, y, hole.position, hole.position + _STEP, turn=90.0)


def _stacked(pen: _Pen, points: Sequence[tuple[float, float]], first: float, step: float) -> float:
    """Put dimensions from end 1 on lines of their own; return where the next one would go."""
    line = first
    for x, edge in sorted(points):
        pen.dimension(0.0, x, edge, line, turn=0.0)
        line += step
    return line


def _words(pen: _Pen, plan: Plan, blank: Blank, width: float) -> None:
    for mark in blank.marks:
        words = f"{mark.label} {turn_words(plan, mark)}, {nose_side(plan, mark.bend)}"
        height = min(_TEXT, width / (_WIDTH * len(words)))
        attributes = {
            "layer": "TEXT",
            "style": STYLE,
            "rotation": 90.0,
            "insert": pen.at(mark.nose - 0.3 * height, 0.02 * width),
        }
        coded = words.replace("\N{DEGREE SIGN}", "%%d")  # a code of the format
        pen.space.add_text(coded, height=height / pen.size, dxfattribs=attributes)
    part = plan.job.part
    unit = "inches" if plan.job.units == "inch" else "millimetres"
    lines: tuple[str, ...] = (
        f"{part.name}, qty {part.quantity}, {part.material}",
        f"Units: {unit}. Seen on the top face, end 1 at the left, far edge above.",
        "Bend lines are for marking, not for cutting. A planning estimate.",
    )
    if blank.saws:
        lines = (*lines, "Dashed lines named SAW-AFTER: saw off after bending, not before.")
    if blank.twists:
        lines = (*lines, "Between the lines named TWIST: a quarter twist, scribed and not cut.")
    under = len(blank.drilled_flat) + len(blank.saws) + len(blank.twist_lines)
    low = -1.5 * _STEP - _STEP * under - 4.0
    for index, line in enumerate(lines):
        pen.text(line, 0.0, low - 1.8 * _TEXT * index)
    pen.text("END 1", -5.5 * _TEXT, width / 2 - _TEXT / 2)
    pen.text("END 2", blank.length + 2.5 * _STEP, width / 2 - _TEXT / 2)
