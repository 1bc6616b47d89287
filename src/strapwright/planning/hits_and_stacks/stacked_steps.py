"""Every bar of a stack held against the tooling by itself.

While a stack bends its bars slide on each other, the outer ones reach further along the legs, and
each lies on what the bars beneath it make of the shoulders: so each is held by itself.  The stack
as one thick bar, whose ends are no bar's, is asked only whether it meets itself.  Where bends turn
both ways, the bar at the nose in the one lies at the shoulders in the other.
"""

from __future__ import annotations

import math

from attrs import evolve

from strapwright.ordering.freeing.bar_under_nose import StackedBar
from strapwright.ordering.nearest_piece import nearest_piece
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_reasons import refusal_of
from strapwright.ordering.refusal_values import Hits, InStack, MeetsItself, Reason, TooNear


class StackedSteps:
    """Single steps of every bar of a stack.

    Parameters
    ----------
    section
        The tooling as it stands.
    part
        One bar at the nose in every bend, its own thickness.
    bars
        How many lie on each other.
    """

    def __init__(
        self, section: ToolSection, part: PartGeometry, settings: SearchSettings, bars: int
    ) -> None:
        self.part = part
        self._section = section
        self._bars = bars
        self._steps = {
            (bar, up): Steps(
                _lifted(
                    section,
                    self._place(bar, up=up) * part.thickness,
                    (bars - 1 - self._place(bar, up=up)) * part.thickness,
                ),
                self._bar(bar),
                settings,
            )
            for bar in range(bars)
            for up in {angle > 0.0 for angle in part.angles}
        }

    def why_not(self, made: int, bend: int, end: int) -> InStack | None:
        """Find which bar a step cannot be made with and why: what is met first, or None."""
        up = self.part.angles[bend] > 0.0
        found = []
        for bar in range(self._bars):
            steps = self._steps[bar, up]
            if steps.clear(made, bend, end) and not steps.meets_itself(made, bend):
                continue
            refusal = refusal_of(steps, lambda *_: None, made, bend, end)
            if refusal is not None:
                found.append((bar, refusal.reason))
        if not found:
            return None
        bar, reason = min(found, key=lambda one: _when(one[1]))
        if isinstance(reason, Hits | TooNear) and reason.piece is not None:
            reason = evolve(reason, piece=self._as_it_stands(self._steps[bar, up], reason.piece))
        return InStack(bar=self._place(bar, up=up) + 1, reason=reason)

    def nearest(self, made: int, bend: int, end: int) -> tuple[float, Piece | None]:
        """Clearance that every bar keeps over a step, and the piece that one is nearest to [mm]."""
        up = self.part.angles[bend] > 0.0
        least: tuple[float, Piece | None] = (math.inf, None)
        for bar in range(self._bars):
            steps = self._steps[bar, up]
            distance, piece = nearest_piece(steps, made, bend, end)
            if distance < least[0]:
                least = distance, None if piece is None else self._as_it_stands(steps, piece)
        return least

    def bars_at(self, bend: int) -> tuple[StackedBar, ...]:
        """Every bar as it lies for a 0-based bend."""
        up, t = self.part.angles[bend] > 0.0, self.part.thickness
        return tuple(
            StackedBar(
                part=self._bar(bar),
                above=self._place(bar, up=up) * t,
                beneath=(self._bars - 1 - self._place(bar, up=up)) * t,
            )
            for bar in range(self._bars)
        )

    def _as_it_stands(self, steps: Steps, piece: Piece) -> Piece:
        """Piece of the tooling that one bar finds lifted."""
        return self._section.pieces[steps.section.pieces.index(piece)]

    def _place(self, bar: int, *, up: bool) -> int:
        """How many bars lie between a bar and the nose."""
        return bar if up else self._bars - 1 - bar

    def _bar(self, bar: int) -> PartGeometry:
        t = self.part.thickness
        radii = tuple(
            radius + t * self._place(bar, up=angle > 0.0)
            for radius, angle in zip(self.part.radii, self.part.angles, strict=True)
        )
        return evolve(self.part, radii=radii)


def _when(reason: Reason) -> float:
    """When in a step a reason is met: what the bend lacks before anything else [rad]."""
    if isinstance(reason, MeetsItself):
        return reason.angle
    if isinstance(reason, Hits):
        return -1.0 if reason.phase == "closing" else reason.angle
    return math.inf if isinstance(reason, TooNear) else -math.inf


def thick_bar(part: PartGeometry, bars: int) -> PartGeometry:
    """Return the stack as one bar."""
    return evolve(part, thickness=bars * part.thickness)


def _lifted(section: ToolSection, above: float, beneath: float) -> ToolSection:
    """Return the tooling as a bar with other bars above and beneath it finds it [mm].

    The bars beneath make the shoulders larger about the same centres and those above the nose, and
    heights count from the tops of the larger shoulders.
    """
    pieces = []
    for piece in section.pieces:
        if piece.side == "nose":
            pieces.append(piece)
        elif piece.centre is not None:
            x, y = piece.centre
            pieces.append(evolve(piece, centre=(x, y - beneath)))
        else:
            moved = tuple((x, y - beneath) for x, y in piece.polygon)
            pieces.append(evolve(piece, polygon=moved))
    return evolve(
        section,
        pieces=tuple(pieces),
        shoulder_radius=section.shoulder_radius + beneath,
        nose_radius=section.nose_radius + above,
        depth=None if section.depth is None else section.depth + beneath,
    )
