"""Tables of wing answers: one entry for every set of bends made in a wing.

A wing moves the same way whatever the other wing looks like.  Runs and arcs are shared between
sets: a run depends only on the made bends further in, so the sets form a tree and a hit settles
all sets beyond it.
"""

from __future__ import annotations

import math

import numpy as np

from strapwright.compiled import jit
from strapwright.ordering.kernel_advance import (
    element_clear,
    element_outside,
    empty_row,
    set_arc,
    set_first,
    set_sector,
    set_straight,
)
from strapwright.ordering.kernel_pieces import (
    ANGLE,
    HALF,
    INNER,
    KIND,
    STRAIGHT,
    Floats,
    Ints,
    Outward,
    Stroke,
    Tool,
    X,
)


@jit
def _write_run(row: Floats, node: Floats, length: float, stroke: Stroke, first: bool) -> None:
    if first:
        set_first(row, length, stroke)
    else:
        set_straight(row, node[0], node[1], node[2], length, stroke)


@jit
def advance(x: float, y: float, theta: float, length: float, turn: float, rho: float) -> Floats:
    """Frame behind a straight and the made bend that follows it: x, y, theta."""
    x += length * math.cos(theta)
    y += length * math.sin(theta)
    side = 1.0 if turn > 0.0 else -1.0
    cx = x - side * rho * math.sin(theta)
    cy = y + side * rho * math.cos(theta)
    theta += turn
    return np.array([cx + side * rho * math.sin(theta), cy - side * rho * math.cos(theta), theta])


@jit
def wing_begun(
    out: Outward, stroke: Stroke, tool: Tool, clearance: float, tolerance: float
) -> Floats | None:
    """Stack to begin a table with, shape (k, 7); ``None`` where no set of the wing is clear."""
    row = empty_row()
    set_arc(row, stroke)
    if out.end < stroke.needed or not element_clear(row, stroke, tool, clearance, tolerance):
        return None
    m = out.near.size
    return np.zeros((m * m + 2 * m + 2, 7))


@jit
def wing_table(
    out: Outward,
    stroke: Stroke,
    tool: Tool,
    clearance: float,
    tolerance: float,
    flags: Ints,
    reach: Floats,
    stack: Floats,
    top: int,
    most: int,
) -> int:
    """Fill ``flags`` and ``reach`` for sets of made bends of one wing, at most ``most`` of them.

    ``flags[mask]`` is 1 where the wing keeps clear, ``reach[mask]`` how far the straights reach
    along the first run with the bar flat [mm]; both stay 0 where the wing hits something.
    ``stack[:top]`` are the sets still to look at, at first one of zeros; returned is how many there
    are then, 0 once the table is full.
    """
    m = out.near.size
    row = empty_row()
    half = 0.5 * stroke.thickness
    seen = 0
    # One node: x, y, theta, developed start, reach, next bend, mask.
    while top > 0 and seen < most:
        top -= 1
        node = stack[top].copy()
        seen += 1
        mask = int(node[6])
        first = mask == 0
        _write_run(row, node, out.end - node[3], stroke, first)
        whole = element_clear(row, stroke, tool, clearance, tolerance)
        across = half * abs(math.sin(node[2]))
        if whole:
            flags[mask] = 1
            far = node[0] + max(0.0, (out.end - node[3]) * math.cos(node[2])) + across
            reach[mask] = max(node[4], far)
        for j in range(int(node[5]), m):
            length = out.near[j] - node[3]
            if first and out.near[j] < stroke.needed:
                continue
            if not whole:
                # Runs to nearer bends are parts of this one: the first that hits ends the row.
                _write_run(row, node, length, stroke, first)
                if not element_clear(row, stroke, tool, clearance, tolerance):
                    break
            x = node[0] + length * math.cos(node[2])
            y = node[1] + length * math.sin(node[2])
            set_sector(
                row, x, y, theta=node[2], turn=out.turn[j], inner=out.inner[j], stroke=stroke
            )
            if not element_clear(row, stroke, tool, clearance, tolerance):
                continue
            stack[top, :3] = advance(
                node[0], node[1], node[2], length, out.turn[j], out.inner[j] + half
            )
            stack[top, 3] = out.far[j]
            stack[top, 4] = max(node[4], node[0] + max(0.0, length * math.cos(node[2])) + across)
            stack[top, 5] = j + 1
            stack[top, 6] = mask | out.bit[j]
            top += 1
    return top


@jit
def wing_rows(out: Outward, stroke: Stroke, mask: int) -> Floats:
    """Element rows of one wing: arc, first run, then arcs and straights outwards."""
    made = 0
    for j in range(out.near.size):
        if mask & out.bit[j]:
            made += 1
    rows = np.zeros((2 * made + 2, 8))
    set_arc(rows[0], stroke)
    node = np.zeros(3)
    start = 0.0
    at = 1
    for j in range(out.near.size + 1):
        last = j == out.near.size
        if not last and not mask & out.bit[j]:
            continue
        length = (out.end if last else out.near[j]) - start
        if at == 1:
            set_first(rows[1], length, stroke)
        else:
            set_straight(rows[at], node[0], node[1], node[2], length, stroke)
        if not last:
            x = node[0] + length * math.cos(node[2])
            y = node[1] + length * math.sin(node[2])
            set_sector(
                rows[at + 1],
                x,
                y,
                theta=node[2],
                turn=out.turn[j],
                inner=out.inner[j],
                stroke=stroke,
            )
            node = advance(
                node[0],
                node[1],
                node[2],
                length,
                out.turn[j],
                out.inner[j] + 0.5 * stroke.thickness,
            )
            start = out.far[j]
        at += 2
    return rows


@jit
def wing_answer(
    out: Outward, stroke: Stroke, tool: Tool, clearance: float, tolerance: float, mask: int
) -> tuple[int, float]:
    """Flag and reach of one wing in one state, as in :func:`wing_table`."""
    rows = wing_rows(out, stroke, mask)
    reach = rows[1, X]
    if reach < stroke.needed:
        return 0, 0.0
    for j in range(rows.shape[0]):
        if not element_clear(rows[j], stroke, tool, clearance, tolerance):
            return 0, 0.0
        if rows[j, KIND] == STRAIGHT:
            along = rows[j, HALF] * abs(math.cos(rows[j, ANGLE]))
            across = rows[j, INNER] * abs(math.sin(rows[j, ANGLE]))
            reach = max(reach, rows[j, X] + along + across)
    return 1, reach


@jit
def wing_outside(
    out: Outward, stroke: Stroke, tool: Tool, self_clearance: float, mask: int
) -> bool:
    """Whether all beyond the first run stays where it cannot meet the other wing or the arc."""
    rows = wing_rows(out, stroke, mask)
    for j in range(2, rows.shape[0]):
        if not element_outside(rows[j], stroke, tool, self_clearance):
            return False
    return True
