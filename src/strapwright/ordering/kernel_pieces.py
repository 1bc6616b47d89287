"""Convex pieces and parts of the bar as plain arrays, as loops under ``strapwright.compiled`` take.

Their cache is keyed by the sources that name that module, so this one names it: the constants here
are frozen into the machine code.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

# Groups: what a piece moves with, and what a hit on it means.
NOSE = 0
SHOULDERS = 1
CLOSING = 2  # swept by the nose side while it comes down on the flat bar
MIDDLE = 3  # not a piece: the region in which the other wing and the arc may be

# Kinds of element.
STRAIGHT = 0
SECTOR = 1  # a made bend
FIRST = 2  # the run that the bend being made draws from
ARC = 3  # the bend being made

# Columns of an element row.
KIND, X, Y, ANGLE, HALF, INNER, OUTER, SPEED = range(8)


# Columns of a tool row: one convex piece, rounded by a radius.  Nose-side pieces are given from the
# arc's centre, shoulder-side pieces in die coordinates [mm].  One array, since each array handed
# to a compiled function costs more than the arithmetic on it.
COUNT, RADIUS, LOW_X, LOW_Y, HIGH_X, HIGH_Y, GROUP, CONTACT = range(8)
CORNERS = 8  # from here on five columns a corner, anticlockwise:
PER_CORNER = 5
PX, PY, NX, NY, OFF = range(
    8, 13
)  # corner; outward normal and offset of the edge that starts there

Tool = Floats


class Stroke(NamedTuple):
    """One bend's stroke, see :mod:`strapwright.ordering.kernel_kinematics` [rad, mm]."""

    phi_end: float
    rho: float
    half_opening: float
    a: float
    shoulder_radius: float
    inner: float  # wrap radius
    thickness: float
    needed: float  # straight on each side, margin included
    phi_begin: float = 0.0  # above 0 where the bar is bent before


class Outward(NamedTuple):
    """Bends met on the way from the bend being made to the bar's end, nearest first."""

    near: Floats  # developed distance from the middle of the bend being made to the arc
    far: Floats  # to the arc's other end
    turn: Floats  # positive towards the nose
    inner: Floats  # wrap radius
    bit: Ints  # of the bend in the mask of this wing
    end: float  # developed distance to the bar's end
