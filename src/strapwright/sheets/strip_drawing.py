"""One paper strip: outline, marks, holes, joins and their words at true scale."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from attrs import frozen

from strapwright.blank.blank_values import Blank, FlatHole
from strapwright.blank.cut_shapes import cut_points
from strapwright.drawing.bend_sides import nose_side, sighted, turn_words
from strapwright.planning.plan_values import Plan
from strapwright.sheets.paper_figures import Figures
from strapwright.sheets.setup_sheet import Paper
from strapwright.sheets.strip_names import Name, place_names
from strapwright.sheets.strip_tiles import ABOVE, GUTTER, Tile, part_into_tiles
from strapwright.sheets.true_scale import (
    Circle,
    Line,
    Place,
    Room,
    Shape,
    Sheet,
    Stroke,
    Words,
)
from strapwright.shop.part_holes import cut_kind, cut_reach

_CROSS = 4.0  # mm either side of a register point
_TARGET = 2.0  # mm, the circle round a register point: halves are easily seen to meet
_CENTRE = 3.0  # mm that the cross of a hole reaches past its edge
_HEADING = 3.4  # mm from the top of a tile to the base line of its heading
_FACE = 10.0  # pt
_FACE_ROOM = 26.0  # mm of bar without marks that the name of the face takes


@frozen(kw_only=True)
class _Paper:
    """Where a tile lies: turns places on the blank into places on the page."""

    tile: Tile
    shift: float
    middle: float

    def at(self, position: float, across: float) -> Place:
        return position + self.shift, self.middle - across

    def over(self, position: float, stroke: Stroke) -> Line:
        """A line over the whole width that the strip shows."""
        low, high = self.tile.across
        return Line(start=self.at(position, low), end=self.at(position, high), stroke=stroke)

    def along(self, across: float, stroke: Stroke) -> Line:
        start, end = self.tile.window
        return Line(start=self.at(start, across), end=self.at(end, across), stroke=stroke)

    def shows(self, position: float, across: float = 0.0, reach: float = 0.0) -> bool:
        """Whether any of what reaches so far about a place lies in the window."""
        start, end = self.tile.window
        low, high = self.tile.across
        if reach == 0.0:
            return start <= position <= end
        return (
            start < position + reach
            and position - reach < end
            and low < across + reach
            and across - reach < high
        )


def strip_sheets(plan: Plan, blank: Blank, paper: Paper, bar: str = "") -> tuple[Sheet, ...]:
    """Lay the paper strips of a blank on pages.

    Parameters
    ----------
    plan
        With its job.
    blank
        Its blank.
    paper
        ``letter`` or ``a4``.
    bar
        Which bar of a stack the strip is for, and what to cut it to; empty for the only one.

    Returns
    -------
    tuple of Sheet
        In order from end 1.
    """
    room, tiles = part_into_tiles(blank, plan.job.part.bar.width, paper)
    sheets: list[Sheet] = []
    shapes: list[Shape] = []
    top = room.top
    for tile in tiles:
        if shapes and top + tile.height > room.bottom:
            sheets.append(Sheet(room=room, kind="strip", shapes=tuple(shapes)))
            shapes, top = [], room.top
        shapes += _tile(plan, blank, tile, room, top, bar)
        top += tile.height
    sheets.append(Sheet(room=room, kind="strip", shapes=tuple(shapes)))
    return tuple(sheets)


def _tile(plan: Plan, blank: Blank, tile: Tile, room: Room, top: float, bar: str) -> list[Shape]:
    start, end = tile.window
    begin = room.left + (GUTTER if tile.joins[0] is None else 0.0)
    # A strip shorter than its room stands in the middle of it.
    spare = room.right - begin - (end - start) - (0.0 if tile.stops or tile.joins[1] else GUTTER)
    place = _Paper(tile=tile, shift=begin + spare / 2 - start, middle=top + ABOVE + tile.across[1])
    show = Figures(job=plan.job)
    shapes: list[Shape] = [
        *_outline(plan, place),
        *_bend_lines(plan, blank, place),
        *_holes(blank, place, plan.job.part.bar.width),
        *_joins(place),
    ]
    above, below = _names(plan, blank, tile, show)
    low, high = tile.across
    unsaid = False
    for names, across, up in ((above, high, True), (below, low, False)):
        words, whole = place_names(
            names,
            shift=place.shift,
            left=room.left,
            right=room.right,
            edge=place.at(0.0, across)[1],
            up=up,
        )
        shapes += words
        unsaid = unsaid or not whole
    heading = _heading(plan, tile, blank.length, show, bar)
    if unsaid:
        heading += "; labels that did not fit here are on the setup sheet"
    shapes.append(Words(at=(room.left, top + _HEADING), text=heading, size=9.0))
    return shapes + _face(plan, blank, place)


def _heading(plan: Plan, tile: Tile, length: float, show: Figures, bar: str) -> str:
    row = "" if tile.rows == 1 else f", row {tile.row} of {tile.rows} from the far edge"
    start, end = tile.window
    on = f"; the bar goes on to {show.short(length)}" if tile.stops else ""
    return (
        f"{bar}{': ' if bar else ''}Strip {tile.number} of {tile.count}{row}: {_top(plan)}, end 1 "
        f"on the left, far edge above; from {show.short(start)} to {show.short(end)}{on}"
    )


def _outline(plan: Plan, place: _Paper) -> Iterator[Shape]:
    tile = place.tile
    half = plan.job.part.bar.width / 2
    edges = (tile.seams[0] is None, tile.seams[1] is None)
    for across, real in zip((-half, half), edges, strict=True):
        if real:
            yield place.along(across, "outline")
    middle = place.at(0.0, sum(tile.across) / 2)[1] + 1.2
    for index, (name, join) in enumerate(zip(("End 1", "End 2"), tile.joins, strict=True)):
        if join is None:
            end = tile.window[index]
            if index == 1 and tile.stops:  # the bar goes on: the heading says so
                yield place.over(end, "cut")
                continue
            yield place.over(end, "outline")
            x = place.at(end, 0.0)[0] + (-2.0, 2.0)[index]
            yield Words(
                at=(x, middle), text=name, size=10.0, bold=True, anchor=("end", "start")[index]
            )


def _bend_lines(plan: Plan, blank: Blank, place: _Paper) -> Iterator[Shape]:
    for mark in blank.marks:
        for tangent in mark.tangents:
            if mark.hit <= 1 and place.shows(tangent):  # hits of a row share their zone
                yield place.over(tangent, "tangent")
        if sighted(plan) and place.shows(mark.sight):
            yield place.over(mark.sight, "sight")
        if place.shows(mark.nose):
            yield place.over(mark.nose, "nose")
    for saw in blank.saws:
        if place.shows(saw.position):
            yield place.over(saw.position, "saw")
    for at in blank.twist_lines:
        if place.shows(at):
            yield place.over(at, "tangent")


def _cut(hole: FlatHole, place: _Paper, width: float) -> Iterator[Shape]:
    points = cut_points(hole, width)
    for a, b in itertools.pairwise((*points, points[0])):
        if place.shows(a[0]) and place.shows(b[0]):
            yield Line(start=place.at(*a), end=place.at(*b), stroke="hole")


def _holes(blank: Blank, place: _Paper, width: float) -> Iterator[Shape]:
    for hole in blank.drilled_flat:
        radius = hole.diameter / 2
        if cut_kind(hole) != "hole":
            yield from _cut(hole, place, width)
        elif place.shows(hole.position, hole.across, radius):
            x, y = place.at(hole.position, hole.across)
            arm = radius + _CENTRE
            yield Circle(centre=(x, y), radius=radius, stroke="hole")
            yield Line(start=(x - arm, y), end=(x + arm, y), stroke="hole")
            yield Line(start=(x, y - arm), end=(x, y + arm), stroke="hole")


def _joins(place: _Paper) -> Iterator[Shape]:
    tile = place.tile
    crosses = []
    for join in tile.joins:
        if join is not None:
            yield place.over(join, "join")
            crosses += [(join, across) for across in tile.across]
    for seam in tile.seams:
        if seam is not None:
            yield place.along(seam, "join")
            crosses += [(position, seam) for position in tile.window]
    for position, across in crosses:
        x, y = place.at(position, across)
        yield Line(start=(x - _CROSS, y), end=(x + _CROSS, y), stroke="register")
        yield Line(start=(x, y - _CROSS), end=(x, y + _CROSS), stroke="register")
        yield Circle(centre=(x, y), radius=_TARGET, stroke="register")


def _names(plan: Plan, blank: Blank, tile: Tile, show: Figures) -> tuple[list[Name], list[Name]]:
    """Words over the strip (nose, holes, joins) and under it (sight, tangents)."""
    above: list[Name] = []
    below: list[Name] = []
    for mark in blank.marks:
        # Lines of a row stand close: its first hit says what all of them share.
        inner = mark.hit > 1
        said: tuple[str, ...]
        if tile.owns(mark.nose):
            lines = (
                f"Nose {mark.label}",
                turn_words(plan, mark),
                nose_side(plan, mark.bend),
                show.short(mark.nose),
            )
            said = (mark.label,) if inner else lines
            above.append(Name(position=mark.nose, lines=said, stroke="nose"))
        if sighted(plan) and tile.owns(mark.sight) and 0.0 <= mark.sight <= blank.length:
            said = (mark.label,) if inner else (f"Sight {mark.label}", show.short(mark.sight))
            below.append(Name(position=mark.sight, lines=said, stroke="sight"))
        below += [
            Name(position=at, lines=(f"tangent {mark.bend}",), bold=False)
            for at in mark.tangents
            if mark.hit <= 1 and tile.owns(at)
        ]
    below += [
        Name(
            position=saw.position,
            lines=(f"Saw end {saw.end} off here", "after bending", show.short(saw.position)),
            stroke="saw",
        )
        for saw in blank.saws
        if tile.owns(saw.position)
    ]
    below += [
        Name(position=at, lines=(f"Twist leg {one.leg}", word, show.short(at)), stroke="tangent")
        for one in blank.twists
        for at, word in ((one.begin, "from here"), (one.end, "to here"))
        if tile.owns(at)
    ]
    above += [
        Name(
            position=hole.position,
            lines=(
                f"{cut_kind(hole).capitalize()} {hole.hole}",
                f"{show.short(hole.diameter)} {'dia.' if cut_kind(hole) == 'hole' else 'wide'}",
                show.short(hole.position),
            ),
        )
        for hole in blank.drilled_flat
        if tile.owns(hole.position)
    ]
    for join, ends in zip(tile.joins, ((-1, 0), (0, 1)), strict=True):
        if join is not None:
            first, second = (tile.number + step for step in ends)
            above.append(Name(position=join, lines=("Join here", f"strips {first} and {second}")))
    return above, below


def _top(plan: Plan) -> str:
    return "top" if plan.job.part.bar.section == "round" else "top face"


def _face(plan: Plan, blank: Blank, place: _Paper) -> list[Shape]:
    """Name the face on the widest stretch of the strip without marks."""
    tile = place.tile
    start, end = tile.window
    taken = [start, end, *(one for one in tile.joins if one is not None)]
    for mark in blank.marks:
        taken += [mark.nose, *mark.tangents, *([mark.sight] if sighted(plan) else [])]
    taken += [*(saw.position for saw in blank.saws), *blank.twist_lines]
    for hole in blank.drilled_flat:
        reach = cut_reach(hole) + _CENTRE
        taken += [hole.position - reach, hole.position + reach]
    low, high = _widest(sorted(min(max(one, start), end) for one in taken))
    band = tile.across[1] - tile.across[0]
    if high - low < _FACE_ROOM or band < 6.0:
        return []
    x, y = place.at((low + high) / 2, sum(tile.across) / 2)
    return [Words(at=(x, y + 1.2), text=_top(plan).upper(), size=_FACE, anchor="middle")]


def _widest(places: Sequence[float]) -> tuple[float, float]:
    return max(itertools.pairwise(places), key=lambda gap: gap[1] - gap[0])


def off_the_bar(plan: Plan, blank: Blank) -> str:
    """Say which sight lines lie past the end of the bar."""
    if not sighted(plan):
        return ""
    off = [mark.label for mark in blank.marks if not 0.0 <= mark.sight <= blank.length]
    if not off:
        return ""
    if len(off) == 1:
        return f"Sight line {off[0]} is past the end of the bar: use its nose line."
    return f"Sight lines {', '.join(off)} are past the end of the bar: use their nose lines."
