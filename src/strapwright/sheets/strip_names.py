"""Words over and under a paper strip, each joined to its mark by a leader."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve, frozen

from strapwright.drawing.blank_strip import spread
from strapwright.scene.lettering import text_width
from strapwright.sheets.true_scale import Line, Shape, Stroke, Words, millimetres

FIRST, REST = 10.0, 8.5  # pt; the name, and what stands under it
_PITCH = (4.0, 3.6)  # mm from the name to the next line, and on
_ASCENT = 0.72  # of capitals, in parts of the size
_STUB, _LEADER = 2.5, 7.0  # mm; straight on from the mark, and in all to the words
_AIR = 2.5  # mm between words


@frozen(kw_only=True)
class Name:
    """What is said of one mark.

    Attributes
    ----------
    position
        From end 1 [mm].
    lines
        The name, then what stands under it.
    stroke
        Of the leader.
    bold
        Whether the name is.
    """

    position: float
    lines: tuple[str, ...]
    stroke: Stroke = "leader"
    bold: bool = True

    @property
    def width(self) -> float:
        """Room it takes along the strip [mm]."""
        sizes = (FIRST, *(REST for _ in self.lines[1:]))
        return max(
            millimetres(text_width(line, size))
            for line, size in zip(self.lines, sizes, strict=True)
        ) + (_AIR)


def place_names(
    names: Sequence[Name], *, shift: float, left: float, right: float, edge: float, up: bool
) -> tuple[list[Shape], bool]:
    """Set words beside a strip, moved apart along it as little as that takes.

    Parameters
    ----------
    names
        In any order.
    shift
        Place on the page of end 1 along the strip [mm].
    left, right
        Between which the words must stand [mm].
    edge
        Of the strip on the page, where the leaders begin [mm].
    up
        Words over the strip, else under it.

    Returns
    -------
    list, bool
        What to draw, and whether all of it is said: where there is no room for whole words the
        names alone stand, and where there is none for these no words do.
    """
    ordered = sorted(names, key=lambda one: one.position)
    for kept in (ordered, [evolve(one, lines=one.lines[:1]) for one in ordered]):
        wanted = [(one.position + shift - left, one.width) for one in kept]
        places = spread(wanted, right - left)
        if places is not None:
            shapes: list[Shape] = []
            for one, middle in zip(kept, places, strict=True):
                shapes += _one(one, one.position + shift, middle + left, edge, up=up)
            return shapes, kept is ordered
    return [], False


def _one(name: Name, mark: float, middle: float, edge: float, *, up: bool) -> list[Shape]:
    way = -1.0 if up else 1.0
    knee, end = edge + way * _STUB, edge + way * _LEADER
    shapes: list[Shape] = [
        Line(start=(mark, edge), end=(mark, knee), stroke=name.stroke),
        Line(start=(mark, knee), end=(middle, end), stroke=name.stroke),
    ]
    drops = [0.0]
    for index in range(1, len(name.lines)):
        drops.append(drops[-1] + _PITCH[min(index - 1, 1)])
    base = end - 1.0 - drops[-1] if up else end + 1.0 + millimetres(FIRST) * _ASCENT
    shapes += [
        Words(
            at=(middle, base + drop),
            text=line,
            size=FIRST if index == 0 else REST,
            anchor="middle",
            bold=index == 0 and name.bold,
        )
        for index, (line, drop) in enumerate(zip(name.lines, drops, strict=True))
    ]
    return shapes
