"""Holes of a plate that stays: as they are drawn, which bolts pass them, and rows to follow."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

from attrs import evolve, frozen

from strapwright.catalog.clearance import clearance_hole
from strapwright.catalog.thread_sizes import Thread
from strapwright.errors import InputError
from strapwright.making.hole_table import (
    bolt_hole,
    fit_hole,
    least_wall,
    plain_hole,
    tapped_hole,
    to_edge,
)
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.shop.kept_plates import KeptHole

PUSH_PLATE = "push plate"
BUSH_WALL = 1.5  # mm of a bush at least; common practice, no source
SAME = 0.3  # mm, numerical: places on both sides of the axis, as measured
_PURPOSES = {"tooling": "", "press": "bolt of the ram", "guide rods": "guide rod"}


@frozen(kw_only=True)
class Seat:
    """Where the carriers stand under the plate [mm], along the nose and across it.

    Attributes
    ----------
    off
        From the plate's middle to the middle of a carrier.
    width, thickness
        Of a carrier, across the nose and along it.
    count
        Of carriers, the one of a nose held at one end to the right [-].
    """

    off: float
    width: float
    thickness: float
    count: int

    @property
    def signs(self) -> tuple[int, ...]:
        """Sides on which a carrier stands."""
        return (-1, 1)[2 - self.count :]


@frozen(kw_only=True)
class Passing:
    """How a bolt passes a hole that is there.

    Attributes
    ----------
    bush
        Outside diameter of the bush that the hole wants [mm]; 0 where the bolt passes as it is.
    """

    bush: float = 0.0


def drawn_hole(
    hole: KeptHole, x: float, y: float, where: str, *, exists: bool, press_bolt: str
) -> HoleSpec:
    """Return a hole of a plate that stays as its drawing has it.

    Parameters
    ----------
    hole
        Of the plate.
    x, y
        Its middle from the plate's lower left corner [mm].
    where
        Name of the plate.
    exists
        Whether the plate is there.
    press_bolt
        What a bolt of the press is called in this plate.
    """
    purpose = hole.purpose or (press_bolt if hole.use == "press" else _PURPOSES[hole.use])
    if hole.thread:
        found = tapped_hole(x, y, hole.thread, where, purpose=purpose)
    elif hole.fit:
        found = fit_hole(x, y, hole.diameter, hole.fit, where, purpose=purpose)
    elif hole.use == "guide rods" and not exists:
        found = fit_hole(x, y, hole.diameter, "F8", where, purpose=purpose)
    else:
        found = plain_hole(x, y, hole.diameter, where, purpose=purpose)
    return evolve(found, exists=exists and not hole.made_for)


def passing(hole: HoleSpec, thread: Thread, where: str) -> Passing | None:
    """Return how a bolt passes a hole, or ``None`` where it does not.

    Parameters
    ----------
    hole
        Of the plate that stays.
    thread
        Of the bolt.
    where
        For messages.

    Notes
    -----
    From the close to the loose clearance of its tables a hole takes the bolt as it is; one with
    room for a bush about the normal clearance takes it in a bush.
    """
    if hole.kind == "tapped" or hole.depth is not None:
        return None
    close, normal, loose = (
        clearance_hole(thread.size, fit, where).diameter for fit in ("close", "normal", "loose")
    )  # fmt: skip
    if close - 1e-3 <= hole.diameter <= loose + 1e-3:
        return Passing()
    if hole.diameter >= normal + 2 * BUSH_WALL - 1e-3:
        return Passing(bush=hole.diameter)
    return None


def used(hole: HoleSpec, thread: Thread, where: str, purpose: str) -> HoleSpec:
    """Return a hole that is there as the clearance hole of a bolt.

    Parameters
    ----------
    hole, thread, where
        As for :func:`passing`.
    purpose
        What the bolt is called.
    """
    through = bolt_hole(hole.x, hole.y, thread.size, "normal", where, purpose=purpose)
    return evolve(
        through, diameter=hole.diameter, least=hole.diameter, most=hole.diameter,
        exists=hole.exists,
    )  # fmt: skip


def columns(holes: Iterable[HoleSpec]) -> dict[float, list[HoleSpec]]:
    """Return holes by their x, nearly equal ones together [mm]."""
    found: dict[float, list[HoleSpec]] = {}
    for hole in sorted(holes, key=lambda one: (one.x, one.y)):
        x = next((known for known in found if abs(known - hole.x) <= SAME), hole.x)
        found.setdefault(x, []).append(hole)
    return found


def evenly(places: Sequence[float], count: int, least: float) -> tuple[float, ...] | None:
    """Choose some of a row of places, from end to end, or ``None`` where they stand too close.

    Parameters
    ----------
    places
        In order [mm].
    count
        How many are wanted [-].
    least
        Between two of them [mm].
    """
    if len(places) < count:
        return None
    if count == 1:
        return (places[len(places) // 2],)
    step = (len(places) - 1) / (count - 1)
    chosen = tuple(places[round(step * k)] for k in range(count))
    if any(b - a < least - 1e-6 for a, b in itertools.pairwise(chosen)):
        return None
    return chosen


def in_room(
    plate: PlateDrawing, new: Sequence[HoleSpec], there: Sequence[HoleSpec], where: str,
    units: Units,
) -> bool:  # fmt: skip
    """See that new holes of a plate find room beside those that are there.

    Parameters
    ----------
    plate
        Whose edges count.
    new, there
        Holes to drill, and holes of before.
    where
        Key path, for the message.
    units
        In which sizes are told.

    Raises
    ------
    InputError
        With the hole, its place and the metal that is left.
    """
    for hole in new:
        least = least_wall(hole.diameter)
        edge = to_edge(hole, plate)
        if edge < least - 1e-6:
            raise _no_room(
                plate, hole, wall=edge, beside="the edge", least=least, where=where, units=units
            )
        for other in there:
            apart = math.hypot(hole.x - other.x, hole.y - other.y)
            apart -= (hole.diameter + other.diameter) / 2
            wanted = min(least, least_wall(other.diameter))
            if apart < wanted - 1e-6:
                whose = f"the {size(other.diameter, units)} hole at {_at(plate, other, units)}"
                if not other.exists and other.purpose:
                    whose += f" ({other.purpose})"
                raise _no_room(
                    plate, hole, wall=apart, beside=whose, least=wanted, where=where, units=units
                )
    return True


def _no_room(
    plate: PlateDrawing, hole: HoleSpec, wall: float, beside: str, least: float, where: str,
    units: Units,
) -> InputError:  # fmt: skip
    left = f"leaves {size(wall, units)} to" if wall > 0 else "runs into"
    return InputError(
        where,
        f"in the {plate.name} that stays, the hole for the {hole.purpose} at "
        f"{_at(plate, hole, units)} {left} {beside}",
        f"leave {size(least, units)} between them: another span, size or count, or plug the hole",
    )


def _at(plate: PlateDrawing, hole: HoleSpec, units: Units) -> str:
    """Place of a hole from the ram's axis, in words."""
    x, y = hole.x - plate.width / 2, hole.y - plate.height / 2
    # Along the nose first, as a job file has it; a plate on the bed is drawn across the nose.
    pair = (x, y) if plate.name == PUSH_PLATE else (y, x)
    told = (f"{'-' if mm < 0 else ''}{size(abs(mm), units)}" if abs(mm) > 1e-6 else "0"
            for mm in pair)  # fmt: skip
    return ", ".join(told)
