"""A blank longer than the paper: how it is parted into strips that overlap and register."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from attrs import frozen

from strapwright.blank.blank_values import Blank
from strapwright.sheets.setup_sheet import Paper
from strapwright.sheets.true_scale import Room
from strapwright.shop.part_holes import cut_reach

OVERLAP = 20.0  # mm of strip drawn twice, half on each side of a join
GUTTER = 14.0  # mm beside an end of the bar for its name
ABOVE, BELOW = 29.0, 17.0  # mm for the words over and under a strip
_NUDGES = (0.0, 4.0, -4.0, 8.0, -8.0)  # mm
_TAIL = 15.0  # mm of strip behind the last mark
_LEAST_SAVED = 25.0  # mm of bar; a strip that ends nearer to end 2 goes on to it
_CLEAR = 5.0  # mm from a join to the nearest mark, where a nudge can find that


@frozen(kw_only=True)
class Tile:
    """One piece of paper strip.

    Attributes
    ----------
    number, count
        1-based along the bar, and of how many.
    row, rows
        1-based from the far edge; more than one where the bar is wider than the paper.
    window
        Drawn from where to where, from end 1 [mm].
    joins
        Where it is joined to the strip before and after, ``None`` at an end of the bar [mm].
    across
        Drawn from where to where, from the middle of the width, far side positive [mm].
    seams
        Where it is joined to the row on the near and on the far side, ``None`` at an edge [mm].
    stops
        Whether the only strip ends before end 2, behind the last mark.
    """

    number: int
    count: int
    row: int
    rows: int
    window: tuple[float, float]
    joins: tuple[float | None, float | None]
    across: tuple[float, float]
    seams: tuple[float | None, float | None]
    stops: bool = False

    @property
    def height(self) -> float:
        """On paper with its words [mm]."""
        return ABOVE + self.across[1] - self.across[0] + BELOW

    def owns(self, position: float) -> bool:
        """Whether words about a place from end 1 [mm] stand on this strip."""
        before, after = self.joins
        return (before is None or position > before) and (after is None or position <= after)


def part_into_tiles(blank: Blank, width: float, paper: Paper) -> tuple[Room, tuple[Tile, ...]]:
    """Part a blank into strips.

    Parameters
    ----------
    blank
        With its marks and holes.
    width
        Of the bar [mm].
    paper
        ``letter`` or ``a4``.

    Returns
    -------
    Room, tuple of Tile
        Whichever way of the paper takes the fewest joins, since each may add an error, and of these
        the fewest pages, upright if both; rows from the far edge, and in each the strips from
        end 1.  One strip that ends behind the last mark, where that saves all joins.
    """
    rooms = [Room(paper=paper, landscape=way) for way in (False, True)]
    ways = [_tiles(blank, width, room) for room in rooms]
    best = min(ways, key=lambda way: (way[1][0].rows, len(way[1]), _pages(*way)))
    if len(best[1]) == 1:
        return best
    last = _last(blank)
    for room in rooms:
        end = min(last + _TAIL, room.width - GUTTER)
        saves = end + _LEAST_SAVED <= blank.length
        if saves and end >= last + _CLEAR and ABOVE + width + BELOW <= room.height:
            return room, (_only(width, end),)
    return best


def _last(blank: Blank) -> float:
    """Where the last mark, hole or saw cut of a blank ends, from end 1 [mm]."""
    places = [0.0, *(saw.position for saw in blank.saws), *blank.twist_lines]
    for mark in blank.marks:
        places += [mark.nose, *mark.tangents]
        if mark.sight <= blank.length:
            places.append(mark.sight)
    places += [hole.position + cut_reach(hole) for hole in blank.drilled_flat]
    return max(places)


def _only(width: float, end: float) -> Tile:
    return Tile(
        number=1,
        count=1,
        row=1,
        rows=1,
        window=(0.0, end),
        joins=(None, None),
        across=(-width / 2, width / 2),
        seams=(None, None),
        stops=True,
    )


def _pages(room: Room, tiles: Sequence[Tile]) -> int:
    """Count the pages that strips of one height take, one under another."""
    return math.ceil(len(tiles) / max(1, int(room.height / tiles[0].height)))


def _tiles(blank: Blank, width: float, room: Room) -> tuple[Room, tuple[Tile, ...]]:
    most = room.height - ABOVE - BELOW
    rows = 1 if width <= most else math.ceil(width / (most - OVERLAP))
    seams = [width / 2 - width * row / rows for row in range(1, rows)]
    joins = _joins(blank, room.width)
    bars = list(_windows(0.0, blank.length, joins))
    # Counted from the far edge, so both axes are turned round for the rows.
    bands = list(_windows(-width / 2, width / 2, [-seam for seam in seams]))
    tiles = []
    for row, (band, (over, under)) in enumerate(bands, 1):
        for number, (window, ends) in enumerate(bars, 1):
            tiles.append(
                Tile(
                    number=number,
                    count=len(bars),
                    row=row,
                    rows=rows,
                    window=window,
                    joins=ends,
                    across=(-band[1], -band[0]),
                    seams=(_turned(under), _turned(over)),
                )
            )
    return room, tuple(tiles)


def _turned(value: float | None) -> float | None:
    return None if value is None else -value


Ends = tuple[float | None, float | None]


def _windows(
    start: float, end: float, joins: Sequence[float]
) -> list[tuple[tuple[float, float], Ends]]:
    """Pieces between joins, drawn half an overlap past each."""
    edges: list[float | None] = [None, *joins, None]
    return [
        (
            (
                start if before is None else before - OVERLAP / 2,
                end if after is None else after + OVERLAP / 2,
            ),
            (before, after),
        )
        for before, after in itertools.pairwise(edges)
    ]


def _joins(blank: Blank, room: float) -> list[float]:
    """Even joins, each moved a little where a mark or a hole would lie under it."""
    if blank.length + 2 * GUTTER <= room:
        return []
    nudge = 2 * max(_NUDGES)  # both joins of a strip may move away from each other
    spare = max(OVERLAP, OVERLAP / 2 + GUTTER) + nudge
    count = max(2, math.ceil(blank.length / (room - spare)))
    taken = [place for mark in blank.marks for place in (mark.nose, mark.sight, *mark.tangents)]
    taken += [
        hole.position + side * cut_reach(hole) for hole in blank.drilled_flat for side in (-1, 0, 1)
    ]

    def clear(place: float) -> float:
        return min((abs(place - other) for other in taken), default=math.inf)

    joins = []
    for number in range(1, count):
        choices = [blank.length * number / count + nudge for nudge in _NUDGES]
        joins.append(
            next((one for one in choices if clear(one) >= _CLEAR), max(choices, key=clear))
        )
    return joins
