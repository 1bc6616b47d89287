"""A drawing while it is laid out: what is drawn and the room it takes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeAlias

import numpy as np
from attrs import define, field
from numpy.typing import ArrayLike

from strapwright.bending.bend_values import Floats
from strapwright.scene.boxes import Box, around, room_of, rows_along, shape_box, text_box
from strapwright.scene.lettering import ASCENT
from strapwright.scene.primitives import Anchor, Point, Role, Shape, Text

_NOTHING = np.empty((0, 4))
_WORST = 25.0  # a word on a line is worse than a word far away
_STRAY = 0.25  # of the cost of a far place: less than a word met, more than a smaller drawing

Candidate: TypeAlias = tuple[float, Sequence[Shape]]
Row: TypeAlias = tuple[str, float, Role]


@define(kw_only=True)
class Layout:
    """Shapes so far, and boxes that words keep clear of.

    Attributes
    ----------
    scale
        [px/mm]
    words, lined, solid
        Rows of boxes around words, thin lines and the bar, shape (n, 4) each [mm].  Extension
        lines may meet all but words.
    """

    scale: float
    shapes: list[Shape] = field(factory=list)
    words: list[Floats] = field(factory=list)
    lined: list[Floats] = field(factory=list)
    solid: list[Floats] = field(factory=list)
    _stacks: dict[tuple[Row, ...], tuple[Box, tuple[float, ...]]] = field(factory=dict)

    @property
    def px(self) -> float:
        """One pixel [mm]."""
        return 1.0 / self.scale

    def add(self, *shapes: Shape) -> None:
        """Draw shapes; words and lines keep their room."""
        self.shapes.extend(shapes)
        for shape in shapes:
            kept = self.words if isinstance(shape, Text) else self.lined
            room = room_of(shape, self.scale)
            if room is not None:
                kept.append(room.rows())

    def keep_clear(self, points: ArrayLike, half: float) -> None:
        """Keep words off a polyline, ``half`` to each side [mm]."""
        self.solid.append(rows_along(points, half, half))

    def draw(self, *shapes: Shape) -> None:
        """Draw shapes that words may cross."""
        self.shapes.extend(shapes)

    def draw_first(self, *shapes: Shape) -> None:
        """Draw shapes beneath all that is there."""
        self.shapes[:0] = shapes

    def place(
        self,
        candidates: Iterable[Candidate],
        near: float = float("inf"),
        most: float = float("inf"),
    ) -> float:
        """Draw the candidate that meets least for its distance.

        Parameters
        ----------
        candidates
            Each with what its place costs by itself, in the area it would be worth meeting to
            avoid it [px2]; the cheapest first.
        near
            Cost up to which a place is near enough to be read with what it belongs to.
        most
            Area met past which nothing is drawn, for words that a picture can do without [px2].

        Returns
        -------
        float
            Area the chosen one shares with what was there, and a part of what it costs beyond
            ``near`` [px2].
        """
        words = np.vstack((_NOTHING, *self.words))
        every = np.vstack((words, *self.lined, *self.solid))
        weight = _WORST * self.scale**2
        best: Sequence[Shape] = ()
        least = met_by_best = float("inf")
        for cost, shapes in candidates:
            if cost >= least:
                break
            met = 0.0
            # Words first: they meet most, and a place that is worse already need not be looked
            # at to its end.
            for shape in sorted(shapes, key=_words_first):
                there = words if shape.role == "extension" else every
                room = room_of(shape, self.scale)
                met += 0.0 if room is None else room.shared(there) * weight
                if met + cost >= least:
                    break
            else:
                best, least = shapes, met + cost
                met_by_best = met + _STRAY * max(0.0, cost - near)
        if met_by_best <= most:
            self.add(*best)
        return met_by_best

    def place_words(
        self, rows: Sequence[Row], spots: Iterable[Point], most: float = float("inf")
    ) -> None:
        """Stack lines of type about one of some places, the best first; ``most`` as there."""
        self.place(
            ((10.0 * k, self.centred(spot, rows)) for k, spot in enumerate(spots)), most=most
        )

    def lines(
        self, at: Point, rows: Sequence[Row], anchor: Anchor, leading: float = 1.3
    ) -> list[Text]:
        """Stack lines of type; ``at`` is the baseline of the first, sizes in px."""
        x, y = at
        texts: list[Text] = []
        for index, (text, size, role) in enumerate(rows):
            if index:
                y -= leading * size * self.px
            texts.append(Text(at=(x, y), text=text, size=size, role=role, anchor=anchor))
        return texts

    def centred(self, centre: Point, rows: Sequence[Row], anchor: Anchor = "middle") -> list[Text]:
        """Stack lines of type about a middle height."""
        box, baselines = self._stacked(rows)
        shift = centre[1] - (box.top + box.bottom) / 2
        return [
            Text(at=(centre[0], base + shift), text=text, size=size, role=role, anchor=anchor)
            for base, (text, size, role) in zip(baselines, rows, strict=True)
        ]

    def half_size(self, rows: Sequence[Row]) -> tuple[float, float]:
        """Half the width and half the height of stacked lines [mm]."""
        box, _ = self._stacked(rows)
        return (box.right - box.left) / 2, (box.top - box.bottom) / 2

    def _stacked(self, rows: Sequence[Row]) -> tuple[Box, tuple[float, ...]]:
        """Return the box around stacked lines, the first at 0, and the baseline of each."""
        key = tuple(rows)
        if key not in self._stacks:
            texts = self.lines((0.0, 0.0), rows, "middle")
            box = around(text_box(text, self.scale) for text in texts)
            self._stacks[key] = box, tuple(text.at[1] for text in texts)
        return self._stacks[key]

    def extent(self) -> Box:
        """Return the box around everything drawn."""
        return around(shape_box(shape, self.scale) for shape in self.shapes)


def _words_first(shape: Shape) -> bool:
    return not isinstance(shape, Text)


def middle_baseline(y: float, size: float, px: float) -> float:
    """Baseline that puts digits of ``size`` [px] about the height ``y`` [mm]."""
    return y - ASCENT / 2 * 0.9 * size * px
