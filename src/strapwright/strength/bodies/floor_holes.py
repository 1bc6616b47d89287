"""What the bolts that come up into cheeks or blocks leave of the floor under them."""

from __future__ import annotations

import math

from strapwright.catalog.clearance import widest_hole
from strapwright.catalog.steels import Steel
from strapwright.catalog.thread_sizes import find_thread
from strapwright.shop.members import Bolt
from strapwright.shop.tooling import Tooling
from strapwright.strength.allowable_stress import ON_BREAKING, ON_YIELD


def floor_left(tooling: Tooling, steel: Steel, length: float, carries: float) -> float:
    """Return how wide a floor counts past the holes of one row of bolts [mm], 0 where none is left.

    A floor yields all across at Re/1.67 and breaks past its holes at Rm/2, so of the net width b_n
    as much counts as stands Rm/2 at Re/1.67: 0.835 b_n Rm/Re, and no more than all of it (AISC 360
    D2 and F13.1).

    Parameters
    ----------
    tooling
        With its bolts.
    steel
        Of the floor.
    length, carries
        Of the cheek or block along the nose, and of what of it carries the push [mm].
    """
    bolts = () if tooling.members is None else tooling.members.bolt
    taken = max(
        (
            _row_of_holes(one, length, carries)
            for one in bolts
            if one.holds in {"shoulders", "cheeks"}
        ),
        default=0.0,
    )
    if not taken:
        return carries
    stands = (steel.tensile_strength / ON_BREAKING) / (steel.yield_strength / ON_YIELD)
    return min(carries, max(carries - taken, 0.0) * stands)


def _row_of_holes(bolt: Bolt, length: float, carries: float) -> float:
    """What one of two rows takes out of the length that carries, as they are drawn [mm].

    The first and the last stand one and a half bolts from the ends of the length.
    """
    thread, each = find_thread(bolt.size, "tooling.members.bolt"), math.ceil(bolt.count / 2)
    row = length - 3 * thread.major
    within = 1 + int(carries * (each - 1) / row) if row > 0.0 else each
    return min(each, within) * widest_hole(thread.size, thread.major)
