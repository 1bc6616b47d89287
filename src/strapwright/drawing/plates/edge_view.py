"""The end view of a block with a rounded edge, beside its face: where the round begins and ends."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.making.plate_making import PlateMaking
from strapwright.making.plate_values import PlateDrawing
from strapwright.making.shop_lengths import size
from strapwright.scene.dimensions import dimension
from strapwright.scene.lettering import as_fractions, text_width
from strapwright.scene.primitives import Line, Path, Shape, Text

# Type sizes from the face to its end view beside or below it, for the dimensions of both.
APART, BELOW = 11.0, 7.0
NARROW = 500.0  # px; a drawing of less has its end view below the face
AWAY = 1.6  # type sizes from a side to its dimension line
_CORNER = math.tan(math.pi / 8)  # bulge of a quarter of a round, exact


@frozen(kw_only=True)
class Room:
    """How much more room a drawing takes for an end view, in mm and in type sizes.

    Attributes
    ----------
    wide, beside
        Across, beside the face.
    high, below
        Downwards, below it.
    """

    wide: float = 0.0
    beside: float = 0.0
    high: float = 0.0
    below: float = 0.0


def room(plate: PlateDrawing, across: float) -> Room:
    """Return the room for the end view of a plate, nothing where no edge is rounded.

    Parameters
    ----------
    plate
        As drawn.
    across
        Of the whole drawing [px].
    """
    if not plate.edges_rounded:
        return Room()
    if across < NARROW:
        return Room(high=plate.height, below=BELOW, wide=max(0.0, plate.thickness - plate.width))
    return Room(wide=plate.thickness, beside=APART)


def end_view(made: PlateMaking, px: float, body: float, given: Room) -> list[Shape]:
    """Draw the end of a block, its inner side to the left as in a view from the right.

    Parameters
    ----------
    made
        With a plate that has a rounded edge.
    px, body
        One pixel [mm], and the type [px].
    given
        The room for it.
    """
    plate, units, radius = made.plate, made.units, made.plate.edges_rounded
    left = plate.width + given.beside * body * px if given.beside else 0.0
    low = -(given.high + given.below * body * px) if given.below else 0.0
    high = low + plate.height
    right, away, clear = left + plate.thickness, AWAY * body * px, 3 * px
    outline = Path(
        points=((left, low), (right, low), (right, high), (left + radius, high),
                (left, high - radius)),
        bulges=(0.0, 0.0, 0.0, _CORNER, 0.0),
        role="plate",
        closed=True,
    )  # fmt: skip
    r, thick = (as_fractions(size(one, units)) for one in (radius, plate.thickness))
    half = (0.5 * text_width(r, body) + 0.5 * body) * px
    shapes: list[Shape] = [outline]
    shapes += dimension((left, high), (left + radius, high), away, r, size=body, px=px, clear=clear)
    shapes += dimension(
        (left, high - radius), (left, high), max(away, half), r, size=body, px=px, clear=clear
    )
    shapes += dimension((left, low), (right, low), -away, thick, size=body, px=px, clear=clear)
    # The leader goes to the middle of the arc, from a word below it in the block.
    at = (left + 0.45 * plate.thickness, high - radius - 2.0 * body * px)
    on = radius * (1 - math.cos(math.pi / 4))
    shapes += [
        Line(start=(at[0], at[1] + body * px), end=(left + on, high - on), role="leader"),
        Text(at=at, text=as_fractions(f"R {r}"), size=body, role="value", anchor="middle"),
        Text(at=(right, high + 0.6 * body * px), text="end view", size=body, role="value",
             anchor="end"),
    ]  # fmt: skip
    return shapes
