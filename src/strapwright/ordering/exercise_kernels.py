"""Uses every compiled loop of this package once, so that the first real part does not wait."""

from __future__ import annotations

import math

from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection


def exercise() -> None:
    """Look for the order of three small parts: one that can be made, two that cannot."""
    nose = Piece(name="nose", side="nose", centre=(0.0, 0.0), radius=10.0, contact=True)
    rod = Piece(
        name="rod",
        side="shoulders",
        polygon=((90.0, 40.0), (100.0, 40.0), (100.0, 50.0), (90.0, 50.0)),
    )
    square = math.pi / 2.0
    for pieces, straights in (
        ((nose,), (60.0, 60.0, 60.0, 60.0, 60.0)),  # spirals into itself
        ((nose,), (45.0, 110.0, 110.0, 110.0, 45.0)),  # a ring with a gap
        ((nose, rod), (100.0, 110.0, 110.0, 110.0, 100.0)),  # hits the rod
    ):
        part = PartGeometry(
            straights=straights, angles=(square,) * 4, radii=(10.0,) * 4, thickness=5.0
        )
        section = ToolSection(
            opening=70.0, shoulder_radius=6.0, nose_radius=10.0, depth=90.0, pieces=pieces
        )
        find_order(section, part, SearchSettings(), alternatives=True)
        find_order(section, part, SearchSettings(), table_bends=0)
