"""Ways round corners within one region: straight moves that stay inside it."""

from __future__ import annotations

import heapq
import math

import numpy as np
import shapely
from shapely.geometry import Point, Polygon

Spot = tuple[float, float]
SKIN = 1e-3  # corners of the region are rounded this closely [mm]


def path(region: Polygon, start: Spot, targets: list[Spot]) -> list[Spot]:
    """Shortest way from ``start`` to the nearest of ``targets`` along straight moves [mm].

    Both lie in the region; the way may touch its edge.  It leads over corners of the edge, since
    a shortest way bends nowhere else.
    """
    rings = [region.exterior, *region.interiors]
    corners = [(float(x), float(y)) for ring in rings for x, y in ring.coords[:-1]]
    spots = np.array([start, *targets, *corners])
    room = region.buffer(SKIN)
    shapely.prepare(room)
    length = {0: 0.0}
    came: dict[int, int] = {}
    done: set[int] = set()
    queue = [(0.0, 0)]
    while queue:
        so_far, here = heapq.heappop(queue)
        if here in done:
            continue
        done.add(here)
        if 1 <= here <= len(targets):
            return _back(spots, came, here)
        rest = np.array([k for k in range(len(spots)) if k not in done])
        if not rest.size:
            break
        lines = shapely.linestrings(
            np.stack([np.broadcast_to(spots[here], (rest.size, 2)), spots[rest]], axis=1)
        )
        for k in rest[shapely.covers(room, lines)]:
            new = so_far + math.dist(spots[here], spots[k])
            if new < length.get(int(k), math.inf):
                length[int(k)] = new
                came[int(k)] = here
                heapq.heappush(queue, (new, int(k)))
    return [start, targets[0]]


def _back(spots: np.ndarray, came: dict[int, int], last: int) -> list[Spot]:
    order = [last]
    while order[-1] in came:
        order.append(came[order[-1]])
    return [(float(spots[k][0]), float(spots[k][1])) for k in reversed(order)]


def far_spots(region: Polygon, start: Spot) -> list[Spot]:
    """Spots of an open region far out, straight down from the nose first."""
    size = 0.98 * min(abs(v) for v in region.envelope.bounds if v != 0.0)
    found = []
    for k in range(16):
        a = -math.pi / 2.0 + math.pi * (k // 2 + k % 2) / 8.0 * (-1.0 if k % 2 else 1.0)
        spot = (start[0] + size * math.cos(a), start[1] + size * math.sin(a))
        if region.covers(Point(spot)):
            found.append(spot)
    return found
