"""Ways round corners within one region: straight moves that stay inside it."""

from __future__ import annotations

import heapq
import math
from typing import cast

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon

from strapwright.errors import SolverError
from strapwright.ordering.time_given import KeepGoing, always, ask

Spot = tuple[float, float]
# Numerical.
SKIN = 0.02  # the way may cut the region's edge by so much, as touching does on the nose [mm]


def path(
    region: Polygon, start: Spot, targets: list[Spot], keep_going: KeepGoing = always
) -> list[Spot]:
    """Shortest way from ``start`` to the nearest of ``targets`` along straight moves [mm].

    All lie in the region; the way may touch its edge.  It leads over corners of the edge, since
    a shortest way bends nowhere else.

    Raises
    ------
    OutOfTimeError
        Where nobody waits for the answer any longer.
    """
    room = region.buffer(SKIN)
    shapely.prepare(room)
    for target in sorted(targets, key=lambda t: math.dist(start, t)):
        if room.covers(LineString([start, target])):
            return [start, target]
    outline = cast("Polygon", region.simplify(0.5 * SKIN))
    rings = [outline.exterior, *outline.interiors]
    corners = [(float(x), float(y)) for ring in rings for x, y in ring.coords[:-1]]
    spots = np.array([start, *targets, *corners])
    # How far each spot is from the nearest target at least: the search heads that way.
    ahead = np.min([np.hypot(*(spots - t).T) for t in targets], axis=0)
    length = {0: 0.0}
    came: dict[int, int] = {}
    done: set[int] = set()
    queue = [(float(ahead[0]), 0)]
    while queue:
        ask(keep_going)
        _, here = heapq.heappop(queue)
        if here in done:
            continue
        done.add(here)
        if 1 <= here <= len(targets):
            return _back(spots, came, here)
        rest = np.array([k for k in range(len(spots)) if k not in done])
        if not rest.size:
            break
        from_here = np.broadcast_to(spots[here], (rest.size, 2))
        lines = shapely.linestrings(np.stack([from_here, spots[rest]], axis=1))
        for k in (int(v) for v in rest[shapely.covers(room, lines)]):
            new = length[here] + math.dist(spots[here], spots[k])
            if new < length.get(k, math.inf):
                length[k] = new
                came[k] = here
                heapq.heappush(queue, (new + float(ahead[k]), k))
    raise SolverError("no way was found within a connected region of the part's free positions")


def _back(spots: np.ndarray, came: dict[int, int], last: int) -> list[Spot]:
    order = [last]
    while order[-1] in came:
        order.append(came[order[-1]])
    return [(float(spots[k][0]), float(spots[k][1])) for k in reversed(order)]


def far_spots(region: Polygon, start: Spot, box: tuple[float, float, float, float]) -> list[Spot]:
    """Spots of an open region far out, straight down from the nose first.

    ``box`` is all that was looked at: left, low, right, high [mm].
    """
    size = 0.98 * min(abs(v) for v in box)
    found = []
    for k in range(16):
        a = -math.pi / 2.0 + math.pi * (k // 2 + k % 2) / 8.0 * (-1.0 if k % 2 else 1.0)
        spot = (start[0] + size * math.cos(a), start[1] + size * math.sin(a))
        if region.covers(Point(spot)):
            found.append(spot)
    return found or _beside(region, start, size)


def _beside(region: Polygon, start: Spot, size: float) -> list[Spot]:
    """Spots far out to both sides, where ground and ceiling leave a way between them."""
    found = []
    for x in (-size, size):
        across = region.intersection(LineString([(x, region.bounds[1]), (x, region.bounds[3])]))
        for part in shapely.get_parts(across):
            low, high = part.bounds[1], part.bounds[3]
            # As level as may be, and off the edge where there is room.
            margin = min(1.0, 0.5 * (high - low))
            found.append((x, min(max(start[1], low + margin), high - margin)))
    return found
