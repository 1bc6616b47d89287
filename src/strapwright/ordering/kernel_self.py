"""The part against itself during a stroke: one wing against the other and against the arc.

Both wings turn up about the arc, so their speeds add.  Made bends of the one wing are covered by
chord pieces that hold the whole band: they may refuse by a hair, never allow.
"""

from __future__ import annotations

import math

import numpy as np

from strapwright.compiled import jit
from strapwright.ordering.kernel_distance import sector_distance, straight_distance
from strapwright.ordering.kernel_pieces import (
    ANGLE,
    ARC,
    CORNERS,
    COUNT,
    FIRST,
    HALF,
    HIGH_X,
    INNER,
    KIND,
    LOW_X,
    NX,
    NY,
    OFF,
    OUTER,
    PER_CORNER,
    PX,
    PY,
    SECTOR,
    SPEED,
    Floats,
    Stroke,
    Tool,
    X,
    Y,
)

# Numerical, to the safe side.
CHORD = 0.18  # largest angle of one chord piece [rad]


@jit
def scratch_tool() -> Tool:
    """Room for one four-cornered piece."""
    piece = np.zeros((1, CORNERS + 4 * PER_CORNER))
    piece[0, COUNT] = 4.0
    return piece


@jit
def _finish(piece: Tool) -> None:
    """Normals, offsets and box of the four corners."""
    for j in range(4):
        i = (j + 1) % 4
        dx = piece[0, PX + PER_CORNER * i] - piece[0, PX + PER_CORNER * j]
        dy = piece[0, PY + PER_CORNER * i] - piece[0, PY + PER_CORNER * j]
        size = math.hypot(dx, dy)
        piece[0, NX + PER_CORNER * j] = dy / size
        piece[0, NY + PER_CORNER * j] = -dx / size
        piece[0, OFF + PER_CORNER * j] = (
            piece[0, NX + PER_CORNER * j] * piece[0, PX + PER_CORNER * j]
            + piece[0, NY + PER_CORNER * j] * piece[0, PY + PER_CORNER * j]
        )
    for axis in range(2):
        low = 1e30
        high = -1e30
        for j in range(4):
            low = min(low, piece[0, PX + axis + PER_CORNER * j])
            high = max(high, piece[0, PX + axis + PER_CORNER * j])
        piece[0, LOW_X + axis] = low
        piece[0, HIGH_X + axis] = high


@jit
def _place(row: Floats, phi: float, stroke: Stroke) -> tuple[float, float, float, float]:
    """Centre, direction and half length of an element from the arc's centre, wing to the right."""
    along = row[X]
    across = row[Y]
    half = row[HALF]
    if row[KIND] == FIRST:
        half = 0.5 * (along - stroke.rho * phi)
        along = 0.5 * (along + stroke.rho * phi)
        across = 0.0
    along -= stroke.rho * phi
    c = math.cos(phi)
    s = math.sin(phi)
    return (
        stroke.rho * s + along * c - across * s,
        -stroke.rho * c + along * s + across * c,
        row[ANGLE] + phi,
        half,
    )


@jit
def pieces_of(row: Floats) -> int:
    """How many convex pieces cover an element."""
    return math.ceil(2.0 * row[HALF] / CHORD) if row[KIND] == SECTOR else 1


@jit
def set_piece(
    piece: Tool, row: Floats, part: int, phi: float, stroke: Stroke, mirror: float
) -> None:
    """Write cover piece ``part`` of an element at half angle ``phi``."""
    x, y, angle, half = _place(row, phi, stroke)
    for j in range(4):
        q = 3 - j if mirror < 0.0 else j
        far = 1 <= q <= 2
        if row[KIND] == SECTOR:
            count = pieces_of(row)
            step = 2.0 * half / count
            at = angle - half + step * (part + (1 if q > 1 else 0))
            r = row[OUTER] / math.cos(0.5 * step) if far else row[INNER]
            px = x + r * math.cos(at)
            py = y + r * math.sin(at)
        else:
            u = half if far else -half
            w = row[INNER] if q > 1 else -row[INNER]
            px = x + u * math.cos(angle) - w * math.sin(angle)
            py = y + u * math.sin(angle) + w * math.cos(angle)
        piece[0, PX + PER_CORNER * j] = mirror * px
        piece[0, PY + PER_CORNER * j] = py
    _finish(piece)


@jit
def _distance(row: Floats, phi: float, stroke: Stroke, piece: Tool, enough: float) -> float:
    """From an element of the wing to the right, or from the whole arc, to the piece."""
    if row[KIND] == ARC:
        return sector_distance(
            0.0,
            0.0,
            -0.5 * math.pi,
            half=phi,
            inner=row[INNER],
            outer=row[OUTER],
            tool=piece,
            k=0,
            enough=enough,
        )
    x, y, angle, half = _place(row, phi, stroke)
    if row[KIND] == SECTOR:
        return sector_distance(
            x,
            y,
            angle,
            half=half,
            inner=row[INNER],
            outer=row[OUTER],
            tool=piece,
            k=0,
            enough=enough,
        )
    return straight_distance(
        x,
        y,
        math.cos(angle),
        uy=math.sin(angle),
        half_length=half,
        half_thickness=row[INNER],
        tool=piece,
        k=0,
        want=1e30,
        enough=enough,
    )


@jit
def pair_contact(
    row: Floats,
    other: Floats,
    part: int,
    stroke: Stroke,
    piece: Tool,
    clearance: float,
    mirror: float,
) -> float:
    """Half angle at which ``other``, of the left wing if ``mirror`` is -1, comes near; else -1."""
    low = 0.75 * clearance
    speed = row[SPEED] + other[SPEED]
    at = stroke.phi_begin
    while True:
        set_piece(piece, other, part, at, stroke, mirror)
        d = _distance(row, at, stroke, piece, clearance)
        if d < clearance:
            return at
        if at >= stroke.phi_end:
            return -1.0
        at = min(stroke.phi_end, at + (d - low) / speed)


@jit
def self_contact(
    left: Floats, right: Floats, stroke: Stroke, clearance: float
) -> tuple[float, int, int]:
    """First half angle at which the part comes within ``clearance`` of itself.

    ``left`` and ``right`` are the rows of :func:`wing_rows`; returns -1 where it never does, and
    the rows that met (the arc is row 0).  The two first runs and the arc between them are one
    piece of bar.
    """
    piece = scratch_tool()
    best = 1e30
    where = (-1, -1)
    for b in range(right.shape[0]):
        for a in range(left.shape[0]):
            if (a < 2 and b < 2) or (a == 0 and b > 0):
                continue
            for part in range(pieces_of(left[a])):
                phi = pair_contact(
                    right[b],
                    left[a],
                    part,
                    stroke=stroke,
                    piece=piece,
                    clearance=clearance,
                    mirror=-1.0,
                )
                if 0.0 <= phi < best:
                    best = phi
                    where = (a, b)
    for b in range(2, right.shape[0]):
        for part in range(pieces_of(right[b])):
            phi = pair_contact(
                left[0], right[b], part, stroke=stroke, piece=piece, clearance=clearance, mirror=1.0
            )
            if 0.0 <= phi < best:
                best = phi
                where = (0, b)
    if best > 1e29:
        return -1.0, -1, -1
    return best, where[0], where[1]


@jit
def chain_gap(rows: Floats, enough: float) -> float:
    """Smallest distance between elements of a chain at rest, or ``enough`` if it is no less.

    Left out are neighbours and the two straights beside one bend, which only part from it.
    """
    piece = scratch_tool()
    still = Stroke(
        phi_end=0.0,
        rho=0.0,
        half_opening=0.0,
        a=0.0,
        shoulder_radius=0.0,
        inner=0.0,
        thickness=0.0,
        needed=0.0,
        phi_begin=0.0,
    )
    best = enough
    for b in range(rows.shape[0]):
        for a in range(b - 1):
            if b - a == 2 and rows[a, KIND] != SECTOR:
                continue
            for part in range(pieces_of(rows[a])):
                set_piece(piece, rows[a], part, 0.0, still, 1.0)
                best = min(best, _distance(rows[b], 0.0, still, piece, best))
    return best
