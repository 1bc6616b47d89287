"""One line of the blank: a piece of the strip with its marks and their running dimensions."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve, frozen

from strapwright.blank.blank_values import Blank, FlatHole, Mark
from strapwright.blank.cut_shapes import cut_points
from strapwright.drawing import drawn_figures
from strapwright.drawing.blank_breaks import Map
from strapwright.planning.plan_values import Plan
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import text_width
from strapwright.scene.placing import Layout, Row
from strapwright.scene.primitives import Anchor, Circle, Line, Path, Point, Role, Text
from strapwright.shop.part_holes import cut_kind

_LONGEST_ROW = 12  # hits that all have their words
_THINNEST, _THICKEST = 36.0, 72.0  # px the width of a strip takes
_RISE = 26.0  # px between the strip and its words


@frozen(kw_only=True)
class Item:
    """One running dimension.

    Attributes
    ----------
    position
        From end 1 [mm].
    rows
        Its words, the figure first.
    width
        Room they take side by side [px].
    role, on_bar
        Of the line outside the strip and across it.
    """

    position: float
    rows: tuple[Row, ...]
    width: float
    role: Role
    on_bar: Role


_ON_BAR: dict[Role, Role] = {
    "mark": "mark-on-bar",
    "sight": "sight-on-bar",
    "tangent": "tangent-on-bar",
}


def items_of(plan: Plan, blank: Blank, frame: Frame) -> tuple[list[Item], list[Item]]:
    """Running dimensions above the strip (nose, holes) and below it (sight, tangents, saw)."""
    body, reading = frame.body, frame.reading

    def item(position: float, word: str, size: float, figure: Role, role: Role) -> Item:
        rows: tuple[Row, ...] = (
            (drawn_figures.bare_length(plan.job, position), size, figure),
            (word, body, "label"),
        )
        width = max(text_width(text, height) for text, height, _ in rows) + 0.6 * body
        return Item(position=position, rows=rows, width=width, role=role, on_bar=_ON_BAR[role])

    named = [mark for mark in blank.marks if mark not in quiet_hits(blank)]
    above = [item(m.nose, f"nose {m.label}", reading, "marked", "mark") for m in named]
    above += [
        item(
            h.position,
            f"{cut_kind(h)} {drawn_figures.stated_length(plan.job, h.diameter)}",
            body,
            "value",
            "sight",
        )
        for h in blank.drilled_flat
    ]
    on_bar = [m for m in named if blank.carries_sight(m)]
    below = [item(m.sight, f"sight {m.label}", reading, "marked", "sight") for m in on_bar]
    # The hits of a row share their zone.
    below += [
        item(at, "tangent", body, "label", "tangent")
        for m in blank.marks
        if m.hit <= 1
        for at in m.tangents
    ]
    below += [item(saw.position, "saw after", reading, "marked", "sight") for saw in blank.saws]
    below += [item(at, "twist", reading, "marked", "tangent") for at in blank.twist_lines]
    return sorted(above, key=_place), sorted(below, key=_place)


def quiet_hits(blank: Blank) -> tuple[Mark, ...]:
    """Hits of a long row that are drawn without words: all but its first two and its last."""
    return tuple(
        mark
        for mark in blank.marks
        if mark.hit > 2
        and len(blank.marks_of(mark.bend)) > _LONGEST_ROW
        and mark is not blank.marks_of(mark.bend)[-1]
    )


def _cut(hole: FlatHole, x: float, bar: tuple[float, float], width: float) -> Circle | Path:
    """A hole, a slot or a notch on the bar as drawn, between its lower and its upper edge."""
    floor, roof = bar
    across = (roof + floor) / 2 + hole.across * (roof - floor) / width
    if cut_kind(hole) == "hole":
        radius = min(hole.diameter / 2, 0.42 * (roof - floor))
        return Circle(centre=(x, across), radius=radius, role="hole")
    points = cut_points(evolve(hole, position=x), width)
    drawn = tuple((a, (roof + floor) / 2 + b * (roof - floor) / width) for a, b in points)
    return Path(points=drawn, role="hole", closed=True)


def _place(item: Item) -> float:
    return item.position


def spread(wanted: Sequence[tuple[float, float]], room: float) -> list[float] | None:
    """Move words apart along a line as little as that takes.

    Words that touch form a group about the mean of their wanted places; groups grow until none
    touch (pool adjacent violators, least squares under an order).

    Parameters
    ----------
    wanted
        Middle and width of each, in order along the line [px].
    room
        Length of the line [px].

    Returns
    -------
    list or None
        Middles [px], or ``None`` where they do not fit at all.
    """
    if sum(width for _, width in wanted) > room:
        return None
    groups: list[tuple[float, list[tuple[float, float]]]] = []  # left edge, members

    def settled(members: list[tuple[float, float]]) -> float:
        before, lefts = 0.0, []
        for middle, width in members:
            lefts.append(middle - width / 2 - before)
            before += width
        left = sum(lefts) / len(lefts)
        return min(max(left, 0.0), room - before)

    for one in wanted:
        members = [one]
        left = settled(members)
        while groups and groups[-1][0] + sum(width for _, width in groups[-1][1]) > left:
            members = groups.pop()[1] + members
            left = settled(members)
        groups.append((left, members))
    places = []
    for left, members in groups:
        at = left
        for _, width in members:
            places.append(at + width / 2)
            at += width
    return places


def draw_strip(
    layout: Layout,
    plan: Plan,
    blank: Blank,
    frame: Frame,
    strip: Map,
    items: tuple[Sequence[Item], Sequence[Item]],
    *,
    window: tuple[float, float],
    top: float,
) -> float:
    """Draw the piece of the strip in ``window``.

    Parameters
    ----------
    items
        What stands above the strip and below it.
    window
        Drawn places, from end 1 [mm].
    top
        Where the line may begin [mm].

    Returns
    -------
    float
        Bottom of what was drawn [mm].
    """
    px = layout.px
    start, end = window
    first, last = start <= 0.0, end >= strip.length * (1 - 1e-12)
    words = (0.8 * frame.reading + 1.5 * frame.body + _RISE) * px
    width = plan.job.part.bar.width
    high = min(max(width * layout.scale, _THINNEST), _THICKEST) * px

    def here(place: float) -> bool:
        return start <= place < end or (last and place >= end)

    over, under = ([item for item in side if here(strip.drawn(item.position))] for side in items)
    roof = top - (words if over else 0.5 * frame.body * px)
    floor = roof - high
    _metal(layout, end - start, (floor, roof), cut=(not first, not last))
    for hole in blank.drilled_flat:
        if here(strip.drawn(hole.position)):
            layout.draw(_cut(hole, strip.drawn(hole.position) - start, (floor, roof), width))
    for mark in quiet_hits(blank):
        if here(strip.drawn(mark.nose)):
            x = strip.drawn(mark.nose) - start
            layout.draw(Line(start=(x, floor), end=(x, roof), role="mark-on-bar"))
            layout.add(Line(start=(x, roof), end=(x, roof + 9 * px), role="mark"))
    for place in strip.breaks:
        if here(place):
            _break(layout, place - start, (floor, roof))
    _side(layout, strip, over, start, (floor, roof), frame, room=end - start, up=True)
    free = _side(layout, strip, under, start, (floor, roof), frame, room=end - start, up=False)
    bottom = floor - (words if under else 0.0)
    lowest = bottom
    for shows, name, x, beside in (
        (first, "end 1", 0.0, free[0]),
        (last, "end 2", end - start, free[1]),
    ):
        if shows:
            close = floor if beside > 4 * frame.body else bottom
            lowest = min(lowest, _end(layout, name, (x, close), frame))
    return lowest - frame.body * px


def _side(
    layout: Layout,
    strip: Map,
    shown: Sequence[Item],
    start: float,
    span: Point,
    frame: Frame,
    *,
    room: float,
    up: bool,
) -> tuple[float, float]:
    """Draw the marks that have their words on one side, and the words.

    Returns
    -------
    float, float
        What the words leave free on their left and right [px].
    """
    floor, roof = span
    long = room * layout.scale
    at = [strip.drawn(item.position) - start for item in shown]
    wanted = [(x * layout.scale, item.width) for x, item in zip(at, shown, strict=True)]
    places = spread(wanted, long) or [middle for middle, _ in wanted]
    for item, x, place in zip(shown, at, places, strict=True):
        layout.draw(Line(start=(x, floor), end=(x, roof), role=item.on_bar))
        _flag(layout, item, x, place * layout.px, roof if up else floor, frame, up=up)
    if not shown:
        return long, long
    return places[0] - shown[0].width / 2, long - places[-1] - shown[-1].width / 2


def _end(layout: Layout, name: str, at: Point, frame: Frame) -> float:
    """Name an end of the blank under ``at``; return the bottom of the word [mm]."""
    y = at[1] - 1.3 * frame.body * layout.px
    anchor: Anchor = "start" if at[0] == 0.0 else "end"
    layout.add(Text(at=(at[0], y), text=name, size=frame.body, role="label", anchor=anchor))
    return y - 0.3 * frame.body * layout.px


def _rungs(span: Point, x: float, tooth: float) -> list[Point]:
    """Ragged line across the strip."""
    floor, roof = span
    return [
        (x + (0.0 if k in (0, 6) else tooth if k % 2 else -tooth), roof + (floor - roof) * k / 6)
        for k in range(7)
    ]


def _metal(layout: Layout, long: float, span: Point, cut: tuple[bool, bool]) -> None:
    """Draw the strip, its ends square or broken off where it goes on in another line."""
    tooth = 5 * layout.px
    right = _rungs(span, long, tooth * cut[1])
    left = _rungs(span, 0.0, tooth * cut[0])
    layout.draw(Path(points=tuple(right + left[::-1]), role="bar", closed=True))


def _break(layout: Layout, x: float, span: Point) -> None:
    """Draw a gap with two ragged edges, where a plain stretch is cut short."""
    px = layout.px
    left, right = _rungs(span, x - 5 * px, 4 * px), _rungs(span, x + 5 * px, 4 * px)
    layout.draw(Path(points=tuple(left + right[::-1]), role="hole", closed=True))


def _flag(
    layout: Layout, item: Item, x: float, label: float, edge: float, frame: Frame, *, up: bool
) -> None:
    """Lead from a mark at ``x`` to its words at ``label``, the figure with its word under it."""
    px = layout.px
    sign = 1.0 if up else -1.0
    knee = edge + sign * 9 * px
    layout.draw(
        Line(start=(x, edge), end=(x, knee), role=item.role),
        Line(start=(x, knee), end=(label, edge + sign * (_RISE - 4) * px), role="leader"),
    )
    (figure, size, role), (word, body, quiet) = item.rows
    far, gap = edge + sign * _RISE * px, 1.15 * body * px
    base = far + 0.2 * frame.body * px + gap if up else far - 0.78 * frame.reading * px
    layout.add(
        Text(at=(label, base), text=figure, size=size, role=role, anchor="middle"),
        Text(at=(label, base - gap), text=word, size=body, role=quiet, anchor="middle"),
    )
