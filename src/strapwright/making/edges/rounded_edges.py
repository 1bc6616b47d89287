"""How the edge of a block is rounded: by a cutter of its radius, or in flats and by file."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import frozen

from strapwright.making.plate_values import Cutter

# How far a cutter's radius may be from that of the drawing [mm]; common practice, no source.
ALIKE_RADIUS = 0.05
# Minutes, common practice, no source: to set block and cutter, and what three passes cut a minute.
SETTING = 10.0
PASSES, FEED = 3, 40.0  # and mm a minute of each
# Minutes, common practice, no source: three flats, half of a template for two blocks, and what a
# file rounds a minute.
FLATS, HALF_A_TEMPLATE = 15.0, 7.5
FILED_A_MINUTE = 4.0  # mm along the edge


@frozen(kw_only=True)
class EdgeMaking:
    """What rounds an edge.

    Attributes
    ----------
    radius, length
        Of the edge [mm].
    cutter
        Name of the radius cutter of the crib; empty where it has none of that radius.
    minutes
        For one block [min].
    """

    radius: float
    length: float
    cutter: str
    minutes: float

    @property
    def face_off(self) -> float:
        """What a flat at 45 degrees on the round takes off each face: r (2 - sqrt 2) [mm]."""
        return self.radius * (2 - math.sqrt(2))

    @property
    def one_flat(self) -> float:
        """How wide that flat is: 2 r tan(22.5 degrees) [mm]."""
        return 2 * self.radius * math.tan(math.pi / 8)

    @property
    def three_flats(self) -> float:
        """How wide each of three flats is that touch the round: 2 r tan(11.25 degrees) [mm]."""
        return 2 * self.radius * math.tan(math.pi / 16)


def round_edge(radius: float, length: float, cutters: Sequence[Cutter]) -> EdgeMaking:
    """Return what rounds an edge: the crib's radius cutter nearest to it, else a file.

    Parameters
    ----------
    radius, length
        Of the edge [mm].
    cutters
        Of the crib.
    """
    near = [
        one
        for one in cutters
        if one.kind == "radius cutter" and abs(one.diameter / 2 - radius) <= ALIKE_RADIUS
    ]
    best = min(near, key=lambda one: abs(one.diameter / 2 - radius), default=None)
    minutes = (
        FLATS + HALF_A_TEMPLATE + length / FILED_A_MINUTE
        if best is None
        else SETTING + PASSES * length / FEED
    )
    return EdgeMaking(
        radius=radius, length=length, cutter="" if best is None else best.name, minutes=minutes
    )
