"""A bush in a bore that is larger than what goes through it."""

from __future__ import annotations

from strapwright.catalog.clearance import clearance_hole
from strapwright.catalog.iso286_limits import limits
from strapwright.catalog.thread_sizes import Thread
from strapwright.making.plate_metals import MILD
from strapwright.making.plate_values import ShaftDrawing
from strapwright.making.shop_lengths import fine, size
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM

# Millimetres that a bush is larger than its bore, so that it stays where it is pressed in; common
# practice, no source.
PRESSED: dict[Units, tuple[float, float]] = {
    "inch": (0.0005 * INCH_MM, 0.0015 * INCH_MM), "metric": (0.01, 0.04),
}  # fmt: skip


def bolt_bush(thread: Thread, across: float, long: float, count: int, units: Units) -> ShaftDrawing:
    """Return the bushes of carrier bolts.

    Parameters
    ----------
    thread
        Of the bolts.
    across, long
        Bore that a bush is pressed into, and thickness of the plate [mm].
    count
        How many [-].
    units
        Of the job.
    """
    inside = clearance_hole(thread.size, "normal", "bush").diameter
    bore = f"Drill it through {size(inside, units)} for the bolt {thread.name}."
    return _bush("bush of a carrier bolt", across, long, count, bore, units)


def rod_bush(rod: float, across: float, long: float, units: Units) -> ShaftDrawing:
    """Return the two bushes of guide rods; the same parameters, the rod's diameter [mm] first."""
    found = limits(rod, "F8", "guides")
    bore = (
        f"Bore or ream it through to {fine(found.least, units)} to {fine(found.most, units)} (F8) "
        "after it is pressed in."
    )
    return _bush("bush of a guide rod", across, long, 2, bore, units)


def _bush(
    name: str, across: float, long: float, count: int, bore: str, units: Units
) -> ShaftDrawing:
    low, high = PRESSED[units]
    return ShaftDrawing(
        name=name, metal=MILD, diameter=across, length=long, quantity=count,
        notes=(
            (f"Turn it {fine(low, units)} to {fine(high, units)} larger than the bore in the plate "
            "as measured, and press it in level with both faces."),
            bore,
        ),
    )  # fmt: skip
