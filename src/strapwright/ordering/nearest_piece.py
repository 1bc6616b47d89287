"""How near one step comes to anything, and what it hits first if it is refused."""

from __future__ import annotations

from strapwright.ordering.kernel_advance import first_contact, least_distance
from strapwright.ordering.kernel_pieces import (
    ARC,
    CLOSING,
    CONTACT,
    FIRST,
    GROUP,
    KIND,
    Floats,
)
from strapwright.ordering.order_arrays import Wing
from strapwright.ordering.order_values import Piece
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import Hits, Phase

# Numerical.
FINE = 0.05  # resolution of the stated clearance [mm]
FAR_ENOUGH = 1000.0  # nothing further away is looked for [mm]


def _pairs(steps: Steps, made: int, bend: int, end: int) -> list[tuple[int, Floats, Piece, int]]:
    """All (place, element row, piece, its number) that must keep apart."""
    wings: tuple[Wing, Wing] = (0, 1)
    listed = []
    for wing in wings:
        place = steps.place(end, wing)
        tool = steps.tools[bend][place]
        for row in steps.rows_at(made, bend, wing, end):
            held = row[KIND] in (FIRST, ARC)
            listed += [
                (place, row, shape.piece, k)
                for k, shape in enumerate(steps.shapes[bend][place])
                if shape.piece is not None and not (held and tool[k, CONTACT])
            ]
    return listed


def nearest_piece(steps: Steps, made: int, bend: int, end: int) -> tuple[float, Piece | None]:
    """Clearance kept at least over the step, and the piece that is nearest [mm]."""
    best = FAR_ENOUGH
    nearest: Piece | None = None
    for place, row, piece, k in _pairs(steps, made, bend, end):
        d, phi = least_distance(
            row,
            steps.stroke_at(bend, place),
            steps.tools[bend][place],
            k,
            best,
            FINE,
        )
        if phi >= 0.0:
            best, nearest = d, piece
    return max(0.0, best - FINE), nearest


def first_hit(steps: Steps, made: int, bend: int, end: int) -> Hits | None:
    """What the step hits first: while the nose comes down, at rest, or in the stroke."""
    s = steps.settings
    found: list[tuple[float, Hits]] = []
    for place, row, piece, k in _pairs(steps, made, bend, end):
        tool = steps.tools[bend][place]
        phi = first_contact(
            row,
            steps.stroke_at(bend, place),
            tool,
            k,
            s.clearance,
            s.tolerance,
        )
        if phi < 0.0:
            continue
        closing = tool[k, GROUP] == CLOSING
        phase: Phase = (
            "closing" if closing else "rest" if phi <= steps.strokes[bend].phi_begin else "stroke"
        )
        hit = Hits(
            wing="left" if place == 0 else "right",
            piece=piece,
            phase=phase,
            angle=2.0 * phi,
        )
        found.append((-1.0 if closing else phi, hit))
    return min(found, key=lambda f: f[0])[1] if found else None
