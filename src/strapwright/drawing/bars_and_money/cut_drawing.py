"""Every bar of a cut plan to one scale, with where each cut comes by the tape."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from attrs import field, frozen

from strapwright.cutting.laid_bars import LaidBar
from strapwright.cutting.shop_cuts import SectionCuts
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import as_fractions, shorten, text_width, wrap
from strapwright.scene.primitives import Anchor, Line, Path, Role, Scene, Shape, Text
from strapwright.wording.bars_and_money.cut_words import CutWords

CUT_WIDE = Frame(width=1080.0, height=400.0, body=16.0)
CUT_PHONE = Frame(width=390.0, height=400.0, body=14.0)
_EDGE = 12.0  # px kept free beside the bars
_ROWS = 3  # of positions under a bar
_THICK = 1.5  # of a bar, in sizes of type


@frozen(kw_only=True)
class _Pen:
    words: CutWords
    body: float
    scale: float
    shapes: list[Shape] = field(factory=list)

    @property
    def px(self) -> float:
        return 1.0 / self.scale

    def box(self, left: float, right: float, top: float, high: float, role: Role) -> None:
        corners = ((left, top), (right, top), (right, top - high), (left, top - high))
        self.shapes.append(Path(points=corners, role=role, closed=True))

    def text(self, x: float, y: float, said: str, role: Role, anchor: Anchor = "start") -> None:
        self.shapes.append(Text(at=(x, y), text=said, size=self.body, role=role, anchor=anchor))


def cut_scene(
    cuts: SectionCuts, words: CutWords, labels: Mapping[int, str], frame: Frame = CUT_WIDE
) -> Scene:
    """Draw the bars of one size under one another.

    Parameters
    ----------
    cuts
        The cut plan of the size.
    words
        In whose units.
    labels
        Bar, from 0 -> what to write on its off-cut.
    frame
        Width and type; the height follows from how many bars there are.
    """
    longest = max(bar.length for bar in cuts.bars)
    scale = (frame.width - 2 * _EDGE) / longest
    pen = _Pen(words=words, body=frame.body, scale=scale)
    top = 0.0
    for number in range(len(cuts.bars)):
        top = _bar(pen, cuts, number, labels.get(number), top)
    edge = _EDGE * pen.px
    shown = words.bar_name(cuts.bar)
    return Scene(
        title=f"Cut plan of {shown}",
        description=f"{shown}, {cuts.material}: {words.summary(cuts)}",
        bounds=(-edge, top, longest + edge, 0.0),
        scale=scale,
        shapes=tuple(pen.shapes),
    )


def _bar(
    pen: _Pen,
    cuts: SectionCuts,
    number: int,
    label: str | None,
    top: float,
) -> float:
    """Draw one bar below ``top`` and return where the next begins."""
    bar, longest = cuts.bars[number], max(one.length for one in cuts.bars)
    words, px, body = pen.words, pen.px, pen.body
    longest = max(one.length for one in cuts.bars)
    line = 1.35 * body * px
    top -= line
    head = f"Bar {number + 1}, {words.length(bar.length)}: {words.origin(cuts.sources[bar.kind])}"
    pen.text(0.0, top, as_fractions(shorten(head, body, longest * pen.scale)), "value")
    top -= 0.5 * line
    runs = [(at, list(run)) for at, run in groupby(bar.pieces, key=lambda one: one.number)]
    names, row_ends = [], [-1e9, -1e9]
    for at, run in runs:
        left, right = run[0].start, run[-1].end
        long = words.length(cuts.pieces[at].length)
        said = as_fractions(f"{len(run)} x {long}" if len(run) > 1 else long)
        wide = text_width(said, body) * px
        x = min(max((left + right) / 2, wide / 2), longest - wide / 2)
        row = next((r for r, end in enumerate(row_ends) if end < x - wide / 2), None)
        if row is not None:
            row_ends[row] = x + wide / 2 + 0.6 * body * px
            names.append((x, row, said))
    rows = 1 + max((row for _, row, _ in names), default=0)
    top -= rows * line
    for x, row, said in names:
        pen.text(x, top + (0.25 + row) * line, said, "label", "middle")
    high = _THICK * body * px
    _metal(pen, cuts, bar, top, high)
    return _positions(pen, cuts, bar, label, top - high)


def _metal(pen: _Pen, cuts: SectionCuts, bar: LaidBar, top: float, high: float) -> None:
    pen.box(0.0, bar.length, top, high, "extension")
    if cuts.squaring > 0:
        pen.box(0.0, cuts.squaring, top, high, "veil")
    for piece in bar.pieces:
        pen.box(piece.start, piece.end, top, high, "bar")
        # A cut is thinner than a pixel; the line keeps pieces apart.
        pen.shapes.append(
            Line(start=(piece.end, top), end=(piece.end, top - high), role="mark-on-bar")
        )
    if bar.offcut > 0:
        begin = bar.length - bar.offcut
        pen.box(begin, bar.length, top, high, "ghost" if cuts.keeps(bar) else "veil")


def _positions(pen: _Pen, cuts: SectionCuts, bar: LaidBar, label: str | None, low: float) -> float:
    """Write where each piece ends, as many as there is room for, and what is left."""
    words, px, body = pen.words, pen.px, pen.body
    longest = max(one.length for one in cuts.bars)
    line = 1.3 * body * px
    ends = [-1e9] * _ROWS
    used = 0
    for at, piece in enumerate(bar.pieces):
        last = at + 1 == len(bar.pieces) or bar.pieces[at + 1].number != piece.number
        shown = words.length(piece.end - cuts.squaring)
        said = as_fractions(shown.removesuffix(" in").removesuffix(" mm"))
        wide = text_width(said, body) * px
        x = min(max(piece.end, wide / 2), longest - wide / 2)
        rows = range(_ROWS) if last else range(_ROWS - 1)
        row = next((r for r in rows if ends[r] < x - wide / 2), None)
        if row is None:
            continue
        ends[row] = x + wide / 2 + 0.5 * body * px
        used = max(used, row + 1)
        foot = low - (row + 0.9) * line
        pen.shapes.append(
            Line(start=(piece.end, low), end=(piece.end, foot + 0.75 * body * px), role="leader")
        )
        pen.text(x, foot, said, "marked", "middle")
    low -= (used + 1.0) * line
    left = words.left(cuts, bar)
    if label is not None:
        left = f"{left}; write on it: {label}"
    for said in wrap(as_fractions(left), body, longest * pen.scale):
        pen.text(0.0, low, said, "label")
        low -= line
    return low + 0.1 * line
