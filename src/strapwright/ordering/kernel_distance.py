"""Distance from a straight or an arc of the bar to a convex piece.

Each function returns the distance, or any lower bound of it that is at least ``enough``; 0 where
they overlap.
"""

from __future__ import annotations

import math

from strapwright.compiled import jit
from strapwright.ordering.kernel_pieces import (
    COUNT,
    HIGH_X,
    HIGH_Y,
    LOW_X,
    LOW_Y,
    NX,
    NY,
    OFF,
    PER_CORNER,
    PX,
    PY,
    RADIUS,
    Tool,
)


@jit
def point_segment(x: float, y: float, ax: float, ay: float, bx: float, by: float) -> float:
    """Distance from a point to a segment [mm]."""
    ux = bx - ax
    uy = by - ay
    square = ux * ux + uy * uy
    s = 0.0
    if square > 0.0:
        s = min(1.0, max(0.0, ((x - ax) * ux + (y - ay) * uy) / square))
    return math.hypot(x - ax - s * ux, y - ay - s * uy)


@jit
def box_distance(x: float, y: float, tool: Tool, k: int) -> float:
    """Distance from a point to the piece's bounding box, its radius taken off [mm]."""
    dx = max(tool[k, LOW_X] - x, 0.0, x - tool[k, HIGH_X])
    dy = max(tool[k, LOW_Y] - y, 0.0, y - tool[k, HIGH_Y])
    return math.hypot(dx, dy) - float(tool[k, RADIUS])


@jit
def straight_distance(
    cx: float,
    cy: float,
    ux: float,
    uy: float,
    half_length: float,
    half_thickness: float,
    tool: Tool,
    k: int,
    want: float,
    enough: float,
) -> float:
    """Distance from a rectangle (centre, direction, half sizes) to piece ``k`` [mm].

    ``want`` is what would settle the question at once; a cheaper bound is tried for it first.
    """
    low = box_distance(cx, cy, tool, k) - math.hypot(half_length, half_thickness)
    if low >= want:
        return low
    n = int(tool[k, COUNT])
    r = float(tool[k, RADIUS])
    u_low = 1e30
    u_high = -1e30
    w_low = 1e30
    w_high = -1e30
    for j in range(n):
        dx = tool[k, PX + PER_CORNER * j] - cx
        dy = tool[k, PY + PER_CORNER * j] - cy
        u = dx * ux + dy * uy
        w = dy * ux - dx * uy
        u_low = min(u_low, u)
        u_high = max(u_high, u)
        w_low = min(w_low, w)
        w_high = max(w_high, w)
    sep_u = max(u_low - half_length, -u_high - half_length)
    sep_w = max(w_low - half_thickness, -w_high - half_thickness)
    sep = max(sep_u, sep_w)
    low = max(low, math.hypot(max(sep_u, 0.0), max(sep_w, 0.0)) - r)
    if n == 1 or low >= enough:
        return max(low, 0.0)
    for j in range(n):
        nx = tool[k, NX + PER_CORNER * j]
        ny = tool[k, NY + PER_CORNER * j]
        side = (
            nx * cx
            + ny * cy
            - tool[k, OFF + PER_CORNER * j]
            - abs(nx * ux + ny * uy) * half_length
            - abs(ny * ux - nx * uy) * half_thickness
        )
        sep = max(sep, side)
    low = max(low, sep - r)
    if low >= enough:
        return low
    if sep <= 0.0:
        return 0.0
    best = 1e30
    for j in range(n):
        dx = tool[k, PX + PER_CORNER * j] - cx
        dy = tool[k, PY + PER_CORNER * j] - cy
        u = max(abs(dx * ux + dy * uy) - half_length, 0.0)
        w = max(abs(dy * ux - dx * uy) - half_thickness, 0.0)
        best = min(best, math.hypot(u, w))
    for c in range(4):
        su = half_length if c < 2 else -half_length
        sw = half_thickness if c % 2 == 0 else -half_thickness
        px = cx + su * ux - sw * uy
        py = cy + su * uy + sw * ux
        for j in range(n):
            i = j + 1 if j + 1 < n else 0
            best = min(
                best,
                point_segment(
                    px,
                    py,
                    tool[k, PX + PER_CORNER * j],
                    tool[k, PY + PER_CORNER * j],
                    tool[k, PX + PER_CORNER * i],
                    tool[k, PY + PER_CORNER * i],
                ),
            )
    return max(best - r, 0.0)


@jit
def _point_sector(u: float, w: float, c: float, s: float, inner: float, outer: float) -> float:
    """From a point in the sector's own frame (middle along +u) to the sector."""
    r = math.hypot(u, w)
    if u >= r * c:
        return max(inner - r, r - outer, 0.0)
    w = abs(w)
    along = min(outer, max(inner, u * c + w * s))
    return math.hypot(u - along * c, w - along * s)


@jit
def _crosses(
    ax: float, ay: float, bx: float, by: float, px: float, py: float, qx: float, qy: float
) -> bool:
    """Whether segment a-b crosses segment p-q."""
    d1 = (bx - ax) * (py - ay) - (by - ay) * (px - ax)
    d2 = (bx - ax) * (qy - ay) - (by - ay) * (qx - ax)
    d3 = (qx - px) * (ay - py) - (qy - py) * (ax - px)
    d4 = (qx - px) * (by - py) - (qy - py) * (bx - px)
    return d1 * d2 <= 0.0 and d3 * d4 <= 0.0


@jit
def _meets_circle(
    au: float, du: float, foot: float, radius: float, r: float, square: float, c: float
) -> bool:
    """Whether an edge, nearest to the centre at ``foot`` and there ``r`` away, meets the arc."""
    step = math.sqrt((radius * radius - r * r) / square)
    one = foot - step
    two = foot + step
    return (0.0 <= one <= 1.0 and au + one * du >= radius * c) or (
        0.0 <= two <= 1.0 and au + two * du >= radius * c
    )


@jit
def _edge_sector(
    au: float, aw: float, bu: float, bw: float, c: float, s: float, inner: float, outer: float
) -> float:
    """From an edge in the sector's own frame to the sector, the edge's own ends left out."""
    du = bu - au
    dw = bw - aw
    square = du * du + dw * dw
    if square == 0.0:
        return 1e30
    best = 1e30
    for k in range(4):
        r = inner if k < 2 else outer
        w = r * s if k % 2 == 0 else -r * s
        best = min(best, point_segment(r * c, w, au, aw, bu, bw))
    if _crosses(
        au, aw, bu, by=bw, px=inner * c, py=inner * s, qx=outer * c, qy=outer * s
    ) or _crosses(au, aw, bu, by=bw, px=inner * c, py=-inner * s, qx=outer * c, qy=-outer * s):
        return 0.0
    foot = -(au * du + aw * dw) / square
    r = math.hypot(au + foot * du, aw + foot * dw)
    if 0.0 <= foot <= 1.0 and au + foot * du >= r * c and r >= inner:
        best = min(best, max(r - outer, 0.0))
    for k in range(2):
        radius = inner if k == 0 else outer
        if radius > r and _meets_circle(au, du, foot, radius=radius, r=r, square=square, c=c):
            return 0.0
    return best


@jit
def sector_distance(
    ox: float,
    oy: float,
    angle: float,
    half: float,
    inner: float,
    outer: float,
    tool: Tool,
    k: int,
    enough: float,
) -> float:
    """Distance from a sector of a ring (centre, direction of its middle, half angle) [mm]."""
    c = math.cos(half)
    s = math.sin(half)
    mx = math.cos(angle)
    my = math.sin(angle)
    out = max(outer * s, outer * (1.0 - c), math.hypot((outer - inner) * c, inner * s))
    low = box_distance(ox + outer * c * mx, oy + outer * c * my, tool, k) - out
    if low >= enough:
        return low
    n = int(tool[k, COUNT])
    best = 1e30
    inside = n > 2
    px = ox + 0.5 * (inner + outer) * mx
    py = oy + 0.5 * (inner + outer) * my
    for j in range(n):
        i = j + 1 if j + 1 < n else 0
        dx = tool[k, PX + PER_CORNER * j] - ox
        dy = tool[k, PY + PER_CORNER * j] - oy
        au = dx * mx + dy * my
        aw = dy * mx - dx * my
        best = min(best, _point_sector(au, aw, c, s, inner, outer))
        if n > 1:
            dx = tool[k, PX + PER_CORNER * i] - ox
            dy = tool[k, PY + PER_CORNER * i] - oy
            best = min(
                best,
                _edge_sector(
                    au,
                    aw,
                    dx * mx + dy * my,
                    bw=dy * mx - dx * my,
                    c=c,
                    s=s,
                    inner=inner,
                    outer=outer,
                ),
            )
        if (
            inside
            and tool[k, NX + PER_CORNER * j] * px + tool[k, NY + PER_CORNER * j] * py
            > tool[k, OFF + PER_CORNER * j]
        ):
            inside = False
    if inside:
        return 0.0
    return float(max(best - tool[k, RADIUS], 0.0))
