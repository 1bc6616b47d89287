"""How near its place a hole must be, and what sizes without limits may be out by, in words."""

from __future__ import annotations

import math

from strapwright.catalog.clearance import clearance_hole
from strapwright.catalog.general_tolerances import (
    CLASS,
    STEPS,
    flatness,
    general_tolerance,
    squareness,
)
from strapwright.catalog.iso286_limits import limits
from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.assembly.piece_steels import metal_words
from strapwright.making.fits import iso_fit
from strapwright.making.plate_values import HoleSpec, PlateDrawing, ShaftDrawing
from strapwright.making.shop_lengths import fine, size
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed

# Holes of two pieces that one shaft goes through: no dial places them as near as the fit asks.
_MATES = ("nose", "guide rod")


def place_within(hole: HoleSpec, plate: PlateDrawing) -> float | None:
    """Return how far X and Y of a hole may each be out [mm]; ``None`` if it is made with its mate.

    Parameters
    ----------
    hole
        Of the plate.
    plate
        As drawn.

    Notes
    -----
    A bolt in a clearance hole H into a thread F: each place may be off by a circle of (H - F)/2
    across, the fixed fastener of ASME Y14.5, appendix B (from memory).  In X and Y alike that is
    1/(2 sqrt 2) of it to either side.  Other holes: the general tolerance of the larger coordinate.
    """
    if hole.kind in {"clearance", "tapped"}:
        thread = find_thread(hole.thread, plate.name) if hole.kind == "tapped" else None
        name = hole.thread if thread is None else thread.size
        most = hole.least if thread is None else clearance_hole(name, "normal", plate.name).diameter
        bolt = _bolt(name, plate.name) if thread is None else thread.major
        return (most - bolt) / 2 / (2 * math.sqrt(2))
    if hole.kind == "fit" and (hole.purpose in _MATES or plate.joint):
        return None
    return general_tolerance(max(hole.x, hole.y))


def _bolt(name: str, where: str) -> float:
    """Diameter of a bolt by the size that its clearance hole names [mm]."""
    return find_thread(name if name.startswith("M") else f"{name} UNC", where).major


def place_words(hole: HoleSpec, plate: PlateDrawing, units: Units) -> str:
    """Say how far X and Y may be out: ``0.005`` in the unit of the job, or ``with mate``."""
    out = place_within(hole, plate)
    if out is None:
        return "with mate"
    # Rounded down: a hole that is held to it is never worse than it may be.
    per, decimals = (1.0, 2) if units == "metric" else (INCH_MM, 3)
    return fixed(math.floor(out / per * 10**decimals + 1e-6) / 10**decimals, decimals)


def shaft_limits(shaft: ShaftDrawing, units: Units) -> str:
    """Say a shaft's class with its limits: `` h6 (0.9995 in to 1.0000 in)``; empty without one."""
    if not shaft.fit:
        return ""
    found = limits(shaft.diameter, shaft.fit, shaft.name)
    return f" {shaft.fit} ({fine(found.least, units)} to {fine(found.most, units)})"


def shaft_words(shaft: ShaftDrawing, units: Units) -> str:
    """Say a shaft in one line: how many, diameter with its limits, length, metal."""
    return (
        f"qty {shaft.quantity}, {size(shaft.diameter, units)} round{shaft_limits(shaft, units)}, "
        f"{size(shaft.length, units)} long, {metal_words(shaft, units)}"
        + (", hardened" if shaft.hardened else "")
    )


def general_words(largest: float, units: Units) -> str:
    """Say what sizes without limits may be out by.

    Parameters
    ----------
    largest
        Size of the piece [mm]; no step beyond it is told.
    units
        In which it is told.
    """
    said: list[str] = []
    low = 0.0
    for most, out in STEPS:
        if low >= largest:
            break
        reach = f"up to {_bound(most, units)}" if largest > most else "above that"
        said.append(f"{fine_out(out, units)} {reach}" if said or largest > most else
                    fine_out(out, units))  # fmt: skip
        low = most
    return f"Sizes without limits, {CLASS}: {', '.join(said)}."


# Roughness of bores and seats, of faces that meet, in each system; common practice, no source.
_FINISH = {"inch": ("63 \N{MICRO SIGN}in", "125 \N{MICRO SIGN}in"),
           "metric": ("1.6 \N{MICRO SIGN}m", "3.2 \N{MICRO SIGN}m")}  # fmt: skip


def form_words(plate: PlateDrawing, units: Units) -> str:
    """Say how flat and square a plate is, and how smooth.

    Parameters
    ----------
    plate
        As drawn.
    units
        In which it is told.
    """
    flat = _down(flatness(max(plate.width, plate.height)), units)
    square = _down(squareness(min(plate.width, plate.height)), units)
    bore, face = _FINISH[units]
    return (
        f"ISO 2768-K: flat within {flat}, square within {square}. Ra {bore} in bores and seats, "
        f"{face} on faces that meet, the rest as bought."
    )


def _down(out: float, units: Units) -> str:
    """Print a limit rounded down, so that what is held to it is never worse: ``0.007 in``."""
    per, decimals, unit = (1.0, 2, "mm") if units == "metric" else (INCH_MM, 3, "in")
    return f"{fixed(math.floor(out / per * 10**decimals + 1e-6) / 10**decimals, decimals)} {unit}"


def fit_words(nominal: float, name: str, units: Units) -> str:
    """Say a fit with the play that it leaves: ``H7/h6: 0.0000 in to 0.0013 in of play``.

    Parameters
    ----------
    nominal
        Size of both [mm].
    name
        Hole and shaft by ISO 286.
    units
        In which it is told.
    """
    found = iso_fit(nominal, name, name)
    return f"{name}: {fine(found.least, units)} to {fine(found.most, units)} of play"


def fine_out(out: float, units: Units) -> str:
    """Print a deviation to either side [mm]: ``±0.012 in``."""
    return f"±{fixed(out, 1)} mm" if units == "metric" else f"±{fixed(out / INCH_MM, 3)} in"


def _bound(mm: float, units: Units) -> str:
    return f"{mm:g} mm" if units == "metric" else f"{fixed(mm / INCH_MM, 2)} in"
