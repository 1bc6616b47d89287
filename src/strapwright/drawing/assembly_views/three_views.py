"""Three views of the tooling on the press in third-angle projection, with the sizes to set."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from strapwright.drawing.assembly_views.solid_lines import solid_lines
from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.assembly.placed_pieces import BASES
from strapwright.making.assembly.solid_values import Point3, Solid
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.scene.dimensions import dimension
from strapwright.scene.hidden_lines import FRONT, RIGHT, TOP, Picture, View
from strapwright.scene.lettering import as_fractions
from strapwright.scene.primitives import Circle, Line, Path, Point, Scene, Shape, Text

WIDE, HIGH, TYPE = 680.0, 800.0, 14.0
# In type sizes: from one row of dimensions to the next, and room about and between the views.
_ROW, _LEFT, _RIGHT, _ABOVE, _BELOW, _ACROSS, _UP = 2.2, 11.0, 2.0, 4.0, 7.0, 4.0, 3.0
_RAM = 0.12  # of the height, how much of the ram is drawn
Box = tuple[float, float, float, float]


@frozen(kw_only=True)
class _Sheet:
    """What every view needs: units, type size [px], one pixel [mm]."""

    units: Units
    body: float
    px: float

    @property
    def row(self) -> float:
        """From one row of dimensions to the next [mm]."""
        return _ROW * self.body * self.px


def three_views(made: Assembly, units: Units, name: str) -> Scene:
    """Draw the tooling from the front, from the right and from above.

    Parameters
    ----------
    made
        Put together.
    units
        In which sizes are told.
    name
        Of the job.

    Returns
    -------
    Scene
        In mm: third-angle projection, ISO 5456-2; the view from above stands over the one from the
        front, that from the right beside it.  The nose is at first contact.
    """
    solids = [*(one.solid for one in made.parts), made.bar]
    boxes = [_bounds(solids, view) for view in (FRONT, RIGHT, TOP)]
    front, right, top = boxes
    ram = _RAM * made.plate_high
    wide = front[2] - front[0] + right[2] - right[0]
    high = front[3] + ram + top[3] - top[1]
    scale = min(
        (WIDE - (_LEFT + _ACROSS + _RIGHT) * TYPE) / wide,
        (HIGH - (_ABOVE + _UP + _BELOW) * TYPE) / high,
    )
    sheet = _Sheet(units=units, body=TYPE, px=1 / scale)
    em = TYPE / scale
    beside = front[2] + _ACROSS * em - right[0]  # where the right view's zero comes to be
    above = front[3] + ram + _UP * em - top[1]
    bar = len(solids) - 1
    shapes: list[Shape] = [
        *solid_lines(Picture(solids, FRONT), bar=bar),
        *solid_lines(Picture(solids, RIGHT), (beside, 0.0), bar=bar),
        *solid_lines(Picture(solids, TOP), (0.0, above), bar=bar),
        *_press(made, ram, (front[0], front[2]), 0.0),
        *_press(made, ram, (right[0] + beside, right[2] + beside), beside),
        *_riser(made, FRONT, 0.0),
        *_riser(made, RIGHT, beside),
        *_front_sizes(made, front, sheet),
        *_right_sizes(made, beside, sheet),
        *_top_sizes(made, top, above, sheet),
    ]
    low = -6.2 * em
    shapes += [
        _words("From the front", (front[0], low), sheet),
        _words("From the right", (right[0] + beside, low), sheet),
    ]
    said = ["From above", "", *_said(made, units)]
    start = (max(front[2], top[2]) + 2 * em, top[3] + above - em)
    shapes += [
        _words(line, (start[0], start[1] - 1.35 * k * em), sheet)
        for k, line in enumerate(said)
        if line
    ]
    bounds = (
        min(front[0], top[0]) - _LEFT * em,
        -_BELOW * em,
        max(right[2] + beside, start[0] + 20 * em) + _RIGHT * em,
        top[3] + above + _ABOVE * em,
    )
    return Scene(
        title=f"{name}: the tooling on the press",
        description=_told(made, units),
        bounds=bounds,
        scale=scale,
        shapes=tuple(shapes),
    )


def _told(made: Assembly, units: Units) -> str:
    tops, opening, low = (size(one, units) for one in (made.tops, made.opening, made.plate_low))
    count = sum(one.count for one in made.items)
    return (
        f"Three views in third-angle projection of {count} parts; shoulder tops {tops} above the "
        f"bed, opening {opening}, push plate {low} above the bed at first contact"
    )


def _said(made: Assembly, units: Units) -> list[str]:
    """What a reader of the views must know, a line each."""
    lines = [
        "Third-angle projection, ISO 5456-2",
        f"Sizes in {'inches' if units == 'inch' else 'millimetres'}",
        "The nose is at first contact with the bar",
        "Dashed: bed and ram of the press",
    ]
    if made.riser > 0:
        lines.append(f"Dashed under the floor: riser of {size(made.riser, units)}")
    return [as_fractions(one) for one in lines]


def _bounds(solids: Sequence[Solid], view: View) -> Box:
    points = [view.flat(one) for solid in solids for one in corners(solid)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def corners(solid: Solid) -> tuple[Point3, ...]:
    """Return every corner of a solid [mm]."""
    return tuple(solid.at(one, deep) for one in solid.outline for deep in (0.0, solid.depth))


def _press(made: Assembly, ram: float, span: tuple[float, float], middle: float) -> list[Shape]:
    """Draw the bed as a line, and the end of the ram on the push plate."""
    shapes: list[Shape] = [Line(start=(span[0], 0.0), end=(span[1], 0.0), role="assumed")]
    top = made.plate_high
    if made.ram is not None:
        half = made.ram / 2
        corner = ((-half, top), (-half, top + ram), (half, top + ram), (half, top))
        shapes.append(Path(points=tuple((middle + x, y) for x, y in corner), role="assumed"))
    shapes.append(Line(start=(middle, -3.0), end=(middle, top + ram + 3.0), role="sight"))
    return shapes


def _riser(made: Assembly, view: View, beside: float) -> list[Shape]:
    """Draw what the floor sits on and that is not made here, as large as the floor."""
    floors = {one.number for one in made.items if one.name in BASES}
    solids = [one.solid for one in made.parts if one.item in floors]
    if made.riser <= 0 or not solids:
        return []
    left, _, right, _ = _bounds(solids, view)
    corner = ((left, 0.0), (left, made.riser), (right, made.riser), (right, 0.0))
    return [
        Path(points=tuple((beside + x, y) for x, y in corner), role="assumed", closed=True)
    ]  # fmt: skip


def _dim(
    start: Point, end: Point, away: float, sheet: _Sheet, *, before: str = ""
) -> list[Shape]:  # fmt: skip
    length = max(abs(end[0] - start[0]), abs(end[1] - start[1]))
    words = as_fractions(f"{before}{size(length, sheet.units)}")
    return dimension(start, end, away, words, size=sheet.body, px=sheet.px, clear=3 * sheet.px)


def _front_sizes(made: Assembly, box: Box, sheet: _Sheet) -> list[Shape]:
    left, row = box[0], sheet.row
    half, clear = made.opening / 2, made.clear / 2
    shapes = [
        *_dim((left, made.tops), (left, 0.0), -row, sheet),
        *_dim((left, made.plate_low), (left, made.contact), -row, sheet),
        *_dim((left, made.plate_high), (left, 0.0), -3.2 * row, sheet),
    ]
    if clear > 0:
        shapes += _dim((-clear, 0.0), (clear, 0.0), -row, sheet)
    shapes += _dim((-half, 0.0), (half, 0.0), -2 * row, sheet)
    return shapes


def _right_sizes(made: Assembly, beside: float, sheet: _Sheet) -> list[Shape]:
    """Gap between the carriers, and over both, with their lines carried down to the bed."""
    if made.gap is None or made.carrier is None:
        return []
    half, row = made.gap / 2, sheet.row
    out = half + made.carrier
    shapes = _dim((beside - half, 0.0), (beside + half, 0.0), -row, sheet)
    if made.carriers > 1:
        shapes += _dim((beside - out, 0.0), (beside + out, 0.0), -2 * row, sheet)
    return shapes + [
        Line(start=(beside + y, 0.0), end=(beside + y, made.plate_low), role="extension")
        for y in (-half, half)
    ]


def _top_sizes(made: Assembly, box: Box, above: float, sheet: _Sheet) -> list[Shape]:
    row = sheet.row
    shapes: list[Shape] = []
    for holes, rank in ((made.ram_holes, 1.0), (made.guide_holes, 2.4)):
        if not holes:
            continue
        xs, ys = [x for x, _ in holes], [y for _, y in holes]
        if max(xs) - min(xs) > 1e-6:
            at = above + box[3]
            shapes += _dim((min(xs), at), (max(xs), at), row, sheet)
        if max(ys) - min(ys) > 1e-6:
            shapes += _dim((box[0], above + max(ys)), (box[0], above + min(ys)), -rank * row, sheet)
        shapes += [
            one
            for x, y in holes
            for one in (
                Line(start=(x - 4, above + y), end=(x + 4, above + y), role="sight"),
                Line(start=(x, above + y - 4), end=(x, above + y + 4), role="sight"),
            )
        ]
    shapes.append(Circle(centre=(0.0, above), radius=0.6, role="dot"))
    return shapes


def _words(text: str, at: Point, sheet: _Sheet) -> Text:
    return Text(at=at, text=text, size=sheet.body, role="label")
