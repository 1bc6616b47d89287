"""How long a tooling takes to make: sawing, squaring, holes, seats and welds, in one sum."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from strapwright.making.plate_making import PlateMaking
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.shop.members import Holds, Members
from strapwright.shop.tooling import Tooling

# Common practice, no source.
MINUTES_A_CUT = 5.0
CUT_AREA_A_MINUTE = 600.0  # mm2 through steel on a small band saw
SHAFT_MINUTES = 15.0  # to face and chamfer one
MINUTES_A_CLAMPING = 10.0  # two pieces clamped together to be bored as one
MINUTES_A_BORE = 10.0  # to set a boring bar and to measure
MINUTES_ROUND = 60.0  # the way round a cutter that is missing: another machine, a sleeve, or a trip
MINUTES_A_WEB = 20.0  # to bed a shaft on the edge of its web
WELD_A_MINUTE = 15.0  # mm


def making_minutes(
    plates: Sequence[PlateMaking], shafts: Sequence[ShaftDrawing], tooling: Tooling | None
) -> float:
    """Return how long it takes to make everything [min].

    Parameters
    ----------
    plates, shafts
        All of it.
    tooling
        Whose welds are laid; ``None`` for a plate of one's own.
    """
    minutes = sum(one.plate.quantity * plate_minutes(one) for one in plates)
    minutes += sum(one.quantity * _shaft(one) for one in shafts)
    if any(one.plate.name == "nose carrier" and one.plate.quantity > 1 for one in plates):
        minutes += MINUTES_A_CLAMPING
    if tooling is not None:
        minutes += sum(_welds(tooling)) / WELD_A_MINUTE
        if tooling.nose.held == "web":
            minutes += MINUTES_A_WEB
    return minutes


def plate_minutes(made: PlateMaking) -> float:
    """Return how long one plate, or one face of it, takes with its way round [min]."""
    plate = made.plate
    minutes = made.minutes + _sawing(plate)
    for group in made.groups:
        if not group.cuts:
            minutes += MINUTES_ROUND
        elif any(one.cut.role == "bore" for one in group.cuts):
            minutes += MINUTES_A_BORE * len(group.rows)
    return minutes + (MINUTES_A_CLAMPING if plate.joint else 0.0)


def _sawing(plate: PlateDrawing) -> float:
    """Of one cut across the stock [min]; a face is cut with its piece, what exists is not cut."""
    if plate.piece or plate.exists:
        return 0.0
    return MINUTES_A_CUT + plate.thickness * min(plate.width, plate.height) / CUT_AREA_A_MINUTE


def _shaft(shaft: ShaftDrawing) -> float:
    return (
        SHAFT_MINUTES
        + MINUTES_A_CUT
        + math.pi * shaft.diameter**2 / 4 / CUT_AREA_A_MINUTE
    )  # fmt: skip


def _welds(tooling: Tooling) -> Iterator[float]:
    """Lengths of all runs [mm]."""
    members = tooling.members or Members()
    carriers = {"both ends": 2, "one end": 1, "web": 0}[tooling.nose.held]
    times: dict[Holds, int] = {"carriers": carriers, "cheeks": 2, "shoulders": 2, "side plates": 4}
    for weld in members.weld:
        yield times.get(weld.holds, 1) * weld.length
