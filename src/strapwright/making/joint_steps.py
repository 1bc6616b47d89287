"""Steps for a bore on the joint of two pieces that are clamped together, such as both seats."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.making.plate_making import PlateMaking
from strapwright.making.shop_lengths import fine, place, size
from strapwright.quantities.inside_units import INCH_MM

STRIP = {"inch": INCH_MM / 4, "metric": 6.0}  # mm; common practice, no source


def joint_set_up(made: PlateMaking) -> Iterator[str]:
    """Say how the two pieces are clamped, and how the joint is found.

    Parameters
    ----------
    made
        The pair, seen on its end.
    """
    plate, units = made.plate, made.units
    row = made.rows[0]
    yield (
        "Mark the two pieces 1 and 2, clamp them inner side to inner side, upper edges level, and "
        "put a third clamp across the middle."
    )
    yield (
        f"Clamp a strip of steel {size(STRIP[units], units)} thick along the upper edges, so that "
        "the bore does not break out there."
    )
    yield f"Stand the {plate.piece} on end in the vice, the joint square to the table."
    yield (
        f"Find the joint: touch both outer sides with the edge finder's {size(made.tip, units)} "
        "tip and set X to zero half-way between."
    )
    yield (
        f"Touch the lower edges and set Y to {fine(made.tip / 2, units)} outside: the bore is at "
        f"X 0 and Y {place(row.y, units)}."
    )


def joint_end() -> Iterator[str]:
    """Say how the pair is taken apart again."""
    yield (
        "Take the strip off, lay the round in each seat, and see that it is level with the upper "
        "edge and touches all along."
    )
    yield "File the thin lip off each upper edge, and deburr both ends of each seat."
