"""A plate with its holes as seen on its face: labels, outer sizes and the datum corner."""

from __future__ import annotations

from strapwright.drawing.plates.edge_view import end_view, room
from strapwright.making.plate_making import PlateMaking
from strapwright.making.plate_outline import outlines
from strapwright.making.plate_values import HoleRow, HoleSpec, PlateDrawing
from strapwright.making.shop_lengths import fine, size
from strapwright.scene.dimensions import dimension
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import as_fractions, text_width
from strapwright.scene.primitives import Circle, Line, Path, Role, Scene, Shape, Text

_FRAME = Frame(width=680.0, height=470.0, body=17.0)
# Type sizes beside and above the plate, for dimensions and words.
BESIDE, ABOVE = 5.0, 3.0


def plate_scene(made: PlateMaking, frame: Frame = _FRAME) -> Scene:
    """Draw a plate.

    Parameters
    ----------
    made
        Plate, its hole table and units.
    frame
        Room for the drawing.

    Returns
    -------
    Scene
        In mm, the lower left corner at the origin; the datum corner is marked and its two edges
        are heavy, each hole has its label, the plate its two outer sizes.
    """
    plate, body = made.plate, frame.body
    more = room(plate, frame.width)
    scale = min(
        (frame.width - (2 * BESIDE + more.beside) * body) / (plate.width + more.wide),
        (frame.height - (2 * ABOVE + more.below) * body) / (plate.height + more.high),
    )
    px = 1 / scale
    shapes: list[Shape] = [
        *(
            Path(
                points=tuple((x, y) for x, y, _ in corners),
                bulges=tuple(bulge for _, _, bulge in corners),
                role="plate",
                closed=True,
            )
            for corners in outlines(plate)
        ),
        *(Line(start=start, end=end, role="tangent") for start, end in plate.marks),
        *_datum(plate, px, body),
    ]
    boxes: list[tuple[float, float, float, float]] = []
    if plate.ram:
        middle = (plate.width / 2, plate.height / 2)
        shapes.append(Circle(centre=middle, radius=plate.ram / 2, role="assumed"))
        low = middle[1] - plate.ram / 2 + 0.9 * body * px
        shapes.append(_middle(plate, f"ram {size(plate.ram, made.units)}", low, body))
    for hole in plate.holes:
        if hole.exists:
            shapes += _there(hole, px)
            boxes.append(_around(hole))
    for row in made.rows:
        shapes += _hole(row, px)
    for row in made.rows:
        shapes += _label(plate, made.rows, row, px, body, boxes)
    if plate.edges_rounded:
        shapes += _rounded(plate)
        shapes += end_view(made, px, body, more)
    if plate.seat:
        shapes.append(_seat(made, px, body))
    shapes += _sizes(made, px, body)
    beside, above = BESIDE * body * px, ABOVE * body * px
    return Scene(
        title=f"{plate.name}",
        description=_told(made),
        bounds=(
            -beside,
            -above - more.high - more.below * body * px,
            plate.width + more.beside * body * px + more.wide + beside,
            plate.height + above,
        ),
        scale=scale,
        shapes=tuple(shapes),
    )


def height_for(plate: PlateDrawing, wide: float, body: float) -> float:
    """Return how high a drawing is that takes all of its width [px].

    Parameters
    ----------
    plate
        As drawn.
    wide, body
        Of the frame, and the type [px].
    """
    more = room(plate, wide)
    inside = wide - (2 * BESIDE + more.beside) * body
    high = inside * (plate.height + more.high) / (plate.width + more.wide)
    return high + (2 * ABOVE + more.below) * body


def _told(made: PlateMaking) -> str:
    plate = made.plate
    holes = ", ".join(
        f"{row.label} at {fine(row.x, made.units)}, {fine(row.y, made.units)}" for row in made.rows
    )
    edge = ""
    if plate.edges_rounded:
        edge = (
            "; end view: the upper edge of the inner side rounded with "
            f"{size(plate.edges_rounded, made.units)}, from as far down as in"
        )
    sides = (plate.width, plate.height, plate.thickness)
    return (
        f"{plate.name}, {' by '.join(size(one, made.units) for one in sides)}, datum at the "
        f"{plate.corner} corner; holes: {holes or 'none'}{edge}"
    )


def _hole(row: HoleRow, px: float) -> list[Shape]:
    hole, at = row.hole, (row.hole.x, row.hole.y)
    radius = hole.diameter / 2
    shapes: list[Shape] = []
    if hole.counterbore is not None:
        shapes.append(Circle(centre=at, radius=hole.counterbore[0] / 2, role="extension"))
    # A thread is a thin circle at its major diameter about a smaller hole.
    inner = 0.85 * radius if hole.kind == "tapped" else radius
    shapes.append(Circle(centre=at, radius=inner, role="hole"))
    shapes.append(Circle(centre=at, radius=inner, role="paper-rule"))
    if hole.kind == "tapped":
        shapes.append(Circle(centre=at, radius=radius, role="extension"))
    if hole.kind == "fit":  # a second ring, so that it is seen without colour
        shapes.append(Circle(centre=at, radius=radius + 3 * px, role="paper-rule"))
    reach = radius + 6 * px
    shapes += [
        Line(start=(at[0] - reach, at[1]), end=(at[0] + reach, at[1]), role="tangent"),
        Line(start=(at[0], at[1] - reach), end=(at[0], at[1] + reach), role="tangent"),
    ]
    return shapes


def _there(hole: HoleSpec, px: float) -> list[Shape]:
    """A hole that is there already: a thin broken circle about its middle."""
    (x, y), reach = (hole.x, hole.y), 3 * px
    return [
        Circle(centre=(x, y), radius=hole.diameter / 2, role="assumed"),
        Line(start=(x - reach, y), end=(x + reach, y), role="tangent"),
        Line(start=(x, y - reach), end=(x, y + reach), role="tangent"),
    ]


def _label(
    plate: PlateDrawing,
    rows: tuple[HoleRow, ...],
    row: HoleRow,
    px: float,
    body: float,
    boxes: list[tuple[float, float, float, float]],
) -> list[Shape]:
    """Set a label beside its hole where it meets nothing, else beside the plate with a leader."""
    at = (row.hole.x, row.hole.y)
    wide, high = text_width(row.label, body) * px, body * px
    out = row.hole.diameter / 2 * 0.75 + 6 * px
    choices: list[tuple[int, int, tuple[float, float, float, float]]] = []
    for dx, dy in ((1, 1), (-1, 1), (1, -1), (-1, -1), (1, 0), (-1, 0), (0, 1), (0, -1)):
        reach = out if dx and dy else out + row.hole.diameter / 4
        left = at[0] + dx * reach - (wide if dx < 0 else wide / 2 if dx == 0 else 0.0)
        low = at[1] + dy * reach - (high if dy < 0 else high / 2 if dy == 0 else 0.0)
        box = (left, low, left + wide, low + high)
        cost = sum(_meets(box, other) for other in boxes)
        cost += sum(_meets(box, _around(other.hole)) for other in rows)
        cost += 2 * (left < 0 or low < 0 or box[2] > plate.width or box[3] > plate.height)
        choices.append((cost, len(choices), box))
    cost, _, box = min(choices)
    shapes: list[Shape] = []
    if cost:
        # The height is dimensioned on the side away from the datum corner: words go on the other.
        beyond = (
            -0.7 * body * px if plate.corner.endswith("left") else plate.width + 0.7 * body * px
        )
        left = beyond - wide if beyond < 0.0 else beyond
        low = at[1] - high / 2
        while any(_meets((left, low, left + wide, low + high), other) for other in boxes):
            low -= high / 4
        box = (left, low, left + wide, low + high)
        shapes.append(Line(start=(beyond, low + high / 2), end=at, role="leader"))
    boxes.append(box)
    words = Text(at=(box[0], box[1] + 0.16 * high), text=row.label, size=body, role="value")
    return [*shapes, words]


def _around(hole: HoleSpec) -> tuple[float, float, float, float]:
    x, y = hole.x, hole.y
    r = hole.diameter / 2
    return (x - r, y - r, x + r, y + r)


def _meets(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _datum(plate: PlateDrawing, px: float, body: float) -> list[Shape]:
    """Heavy datum edges, a filled corner and the two words."""
    x = plate.width if plate.corner.endswith("right") else 0.0
    y = plate.height if plate.corner.startswith("upper") else 0.0
    into_x, into_y = (-1.0 if x else 1.0), (-1.0 if y else 1.0)
    far_x, far_y = plate.width - x, plate.height - y
    mark = 0.9 * body * px
    role: Role = "mark"
    shapes: list[Shape] = [
        Line(start=(x, y), end=(far_x, y), role=role),
        Line(start=(x, y), end=(x, far_y), role=role),
        Path(
            points=((x, y), (x + into_x * mark, y), (x, y + into_y * mark)),
            role="caution-mark",
            closed=True,
        ),
    ]
    gap = 0.5 * body * px
    words = Text(
        at=(x - into_x * gap, y - into_y * gap - (0.0 if into_y < 0 else 0.75 * body * px)),
        text="datum 0, 0",
        size=body,
        role="value",
        anchor="start" if into_x > 0 else "end",
    )
    return [*shapes, words]


def _rounded(plate: PlateDrawing) -> list[Shape]:
    """Show which edge is rounded: where the round ends; its end view has the radius."""
    low = plate.height - plate.edges_rounded
    return [Line(start=(0.0, low), end=(plate.width, low), role="tangent")]


def _seat(made: PlateMaking, px: float, body: float) -> Text:
    """Say in words what the strip along the upper edge is."""
    plate = made.plate
    # On the line where the seat ends, clear of a hole for a screw in the seat's middle.
    words = f"seat R {size(plate.seat, made.units)}"
    return _middle(plate, words, plate.height - 2 * plate.seat + 0.3 * body * px, body)


def _middle(plate: PlateDrawing, words: str, y: float, body: float) -> Text:
    return Text(
        at=(plate.width / 2, y), text=as_fractions(words), size=body, role="value", anchor="middle"
    )


def _sizes(made: PlateMaking, px: float, body: float) -> list[Shape]:
    """Width and height on the sides away from the datum corner's words."""
    plate = made.plate
    above = plate.corner.startswith("lower")
    right = plate.corner.endswith("left")
    away = 1.6 * body * px
    y = plate.height if above else 0.0
    x = plate.width if right else 0.0
    wide = as_fractions(size(plate.width, made.units))
    high = as_fractions(size(plate.height, made.units))
    clear = 3 * px
    shapes = dimension(
        (0.0, y), (plate.width, y), away if above else -away, wide, size=body, px=px, clear=clear
    )
    # A long figure stands level and must not reach back over the plate.
    away = max(away, (0.5 * text_width(high, body) + 0.5 * body) * px)
    shapes += dimension(
        (x, 0.0), (x, plate.height), -away if right else away, high, size=body, px=px, clear=clear
    )
    return shapes
