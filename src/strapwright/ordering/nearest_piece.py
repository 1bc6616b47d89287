"""How near one step comes to anything, and what it hits first if it is refused."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.ordering.kernel_advance import first_contact, least_distance
from strapwright.ordering.kernel_pieces import (
    ARC,
    CLOSING,
    CONTACT,
    FIRST,
    GROUP,
    KIND,
    MIDDLE,
    Floats,
)
from strapwright.ordering.order_arrays import Wing
from strapwright.ordering.possible_bends import Steps

FINE = 0.05  # resolution of the stated clearance [mm]
FAR_ENOUGH = 1000.0  # nothing further away is looked for [mm]


@frozen(kw_only=True)
class Hit:
    """First contact of one wing.

    Attributes
    ----------
    wing
        Which wing, as it lies.
    piece
        Name of what it hits.
    phase
        ``closing``, ``rest`` or ``stroke``.
    angle
        Bend angle at which it happens [rad].
    """

    wing: Literal["left", "right"]
    piece: str
    phase: Literal["closing", "rest", "stroke"]
    angle: float


def _pairs(steps: Steps, made: int, bend: int, end: int) -> list[tuple[int, Floats, int]]:
    """All (place, element row, piece) that must keep apart."""
    wings: tuple[Wing, Wing] = (0, 1)
    listed = []
    for wing in wings:
        place = steps.place(end, wing)
        tool = steps.tools[bend][place]
        for row in steps.rows(made, bend, wing):
            held = row[KIND] in (FIRST, ARC)
            listed += [
                (place, row, k)
                for k in range(tool.shape[0])
                if tool[k, GROUP] != MIDDLE and not (held and tool[k, CONTACT])
            ]
    return listed


def nearest_piece(steps: Steps, made: int, bend: int, end: int) -> tuple[float, str]:
    """Clearance kept at least over the step, and the piece that is nearest [mm]."""
    best = FAR_ENOUGH
    name = ""
    for place, row, k in _pairs(steps, made, bend, end):
        d, phi = least_distance(
            row,
            steps.strokes[bend],
            steps.tools[bend][place],
            k,
            best,
            FINE,
        )
        if phi >= 0.0:
            best, name = d, steps.shapes[bend][place][k].name
    return max(0.0, best - FINE), name


def first_hit(steps: Steps, made: int, bend: int, end: int) -> Hit | None:
    """What the step hits first: while the nose comes down, at rest, or in the stroke."""
    s = steps.settings
    found: list[tuple[float, Hit]] = []
    for place, row, k in _pairs(steps, made, bend, end):
        tool = steps.tools[bend][place]
        phi = first_contact(
            row,
            steps.strokes[bend],
            tool,
            k,
            s.clearance,
            s.tolerance,
        )
        if phi < 0.0:
            continue
        closing = tool[k, GROUP] == CLOSING
        phase: Literal["closing", "rest", "stroke"] = (
            "closing" if closing else "rest" if phi == 0.0 else "stroke"
        )
        hit = Hit(
            wing="left" if place == 0 else "right",
            piece=steps.shapes[bend][place][k].name,
            phase=phase,
            angle=2.0 * phi,
        )
        found.append((-1.0 if closing else phi, hit))
    return min(found, key=lambda f: f[0])[1] if found else None
