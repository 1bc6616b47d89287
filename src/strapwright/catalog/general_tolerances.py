"""ISO 2768-1: what a size or an angle without limits of its own may be out by."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

GeneralClass = Literal["f", "m", "c", "v"]

# ISO 2768-1:1989, table 1: sizes up to [mm], deviation to either side [mm] of each class (from
# memory).  A size that the table leaves open has no row.
_LENGTHS: Mapping[GeneralClass, tuple[tuple[float, float], ...]] = MappingProxyType(
    {
        "f": (
            (6.0, 0.05),
            (30.0, 0.1),
            (120.0, 0.15),
            (400.0, 0.2),
            (1000.0, 0.3),
            (2000.0, 0.5),
        ),
        "m": (
            (6.0, 0.1),
            (30.0, 0.2),
            (120.0, 0.3),
            (400.0, 0.5),
            (1000.0, 0.8),
            (2000.0, 1.2),
            (4000.0, 2.0),
        ),
        "c": (
            (3.0, 0.2),
            (6.0, 0.3),
            (30.0, 0.5),
            (120.0, 0.8),
            (400.0, 1.2),
            (1000.0, 2.0),
            (2000.0, 3.0),
            (4000.0, 4.0),
        ),
        "v": (
            (6.0, 0.5),
            (30.0, 1.0),
            (120.0, 1.5),
            (400.0, 2.5),
            (1000.0, 4.0),
            (2000.0, 6.0),
            (4000.0, 8.0),
        ),
    }
)
_LEAST: Mapping[GeneralClass, float] = MappingProxyType({"f": 0.5, "m": 0.5, "c": 0.5, "v": 3.0})

# ISO 2768-1:1989, table 3: shorter leg of the angle up to [mm], deviation to either side [minutes
# of arc] (from memory).
_ANGLES: Mapping[GeneralClass, tuple[float, float, float, float, float]] = MappingProxyType(
    {
        "f": (60.0, 30.0, 20.0, 10.0, 5.0),
        "m": (60.0, 30.0, 20.0, 10.0, 5.0),
        "c": (90.0, 60.0, 30.0, 15.0, 10.0),
        "v": (180.0, 120.0, 60.0, 30.0, 20.0),
    }
)
_SHORTER_LEGS = (10.0, 50.0, 120.0, 400.0, math.inf)

# ISO 2768-2:1989, class K: straightness and flatness by the length, squareness by the shorter leg,
# up to [mm], within [mm] (from memory).
_FLAT_K = ((10.0, 0.05), (30.0, 0.1), (100.0, 0.2), (300.0, 0.4), (1000.0, 0.6), (3000.0, 0.8))
_SQUARE_K = ((100.0, 0.4), (300.0, 0.6), (1000.0, 0.8), (3000.0, 1.0))

CLASS = "ISO 2768-m"
STEPS = _LENGTHS["m"][:-1]  # no piece of tooling is longer than 2 m


def general_tolerance(size: float) -> float:
    """Return what a size of tooling without limits may be out by, to either side [mm].

    Parameters
    ----------
    size
        [mm]; one above 2 m is held as one of 2 m.
    """
    return next((out for most, out in STEPS if size <= most), STEPS[-1][1])


def flatness(length: float) -> float:
    """Return within what a face is flat, ISO 2768-2 class K (from memory) [mm].

    Parameters
    ----------
    length
        Of its longer side [mm]; one above 3 m is held as one of 3 m.
    """
    return next((out for most, out in _FLAT_K if length <= most), _FLAT_K[-1][1])


def squareness(leg: float) -> float:
    """Return within what two sides are square, ISO 2768-2 class K (from memory) [mm].

    Parameters
    ----------
    leg
        The shorter of the two [mm]; one above 3 m is held as one of 3 m.
    """
    return next((out for most, out in _SQUARE_K if leg <= most), _SQUARE_K[-1][1])


def length_deviation(general: GeneralClass, size: float) -> float | None:
    """Return what a length may be out by to either side [mm]; ``None`` where the table is open.

    ISO 2768-1:1989, table 1 (from memory).

    Parameters
    ----------
    general
        Tolerance class: fine, medium, coarse or very coarse.
    size
        [mm]
    """
    # The last bit of a length that was typed in inches is no new step.
    held = size * (1 - 1e-9)
    if size < _LEAST[general] or (general == "v" and held <= _LEAST[general]):
        return None
    return next((out for most, out in _LENGTHS[general] if held <= most), None)


def angle_deviation(general: GeneralClass, shorter_leg: float) -> float:
    """Return what an angle may be out by to either side [rad].

    ISO 2768-1:1989, table 3 (from memory).

    Parameters
    ----------
    general
        Tolerance class.
    shorter_leg
        Of the two legs of the angle [mm].
    """
    held = shorter_leg * (1 - 1e-9)
    step = next(i for i, most in enumerate(_SHORTER_LEGS) if held <= most)
    return math.radians(_ANGLES[general][step] / 60.0)
