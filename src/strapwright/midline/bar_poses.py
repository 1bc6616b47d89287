"""Mid-lines of the whole bar: the finished part, and the bar on the tooling for one bend."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from strapwright.bending.bar_shape import HalfShape
from strapwright.bending.bend_values import Floats
from strapwright.midline.midline_points import Pieces, in_plane, in_space
from strapwright.midline.pose_values import DrawnPose, End, Zone

# Numerical.
_STRAIGHT_CELLS = 2
_ARC_CELLS = 24
_SAME_POINT = 1e-6  # mm


def released_zone(
    begin: float, end: float, shape: HalfShape, side: int, turned: float = 0.0
) -> Zone:
    """Return a made bend from the solver's half shape."""
    half = np.diff(shape.arc)
    return Zone(
        begin=begin,
        end=end,
        lengths=np.concatenate([half[::-1], half]),
        curvatures=side * np.concatenate([shape.free[::-1], shape.free]),
        turned=turned,
    )


def arc_zone(
    begin: float, end: float, angle: float, radius: float, side: int, turned: float = 0.0
) -> Zone:
    """Return a made bend as one even arc of mid-line radius ``radius`` [mm]."""
    return Zone(
        begin=begin,
        end=end,
        lengths=np.full(_ARC_CELLS, radius * angle / _ARC_CELLS),
        curvatures=np.full(_ARC_CELLS, side / radius),
        turned=turned,
    )


def finished_line(length: float, zones: Sequence[Zone]) -> Floats:
    """Mid-line of the finished part from end 1, heading right, shape (k, 2) [mm].

    A part that is rolled between bends is laid into one plane, every bend as it is made.
    """
    pieces = _run(0.0, length, zones)
    x, y = in_plane(pieces.lengths, pieces.curvatures)
    return np.column_stack([x, y])


def finished_in_space(length: float, zones: Sequence[Zone]) -> Floats:
    """Mid-line of the finished part in space, shape (k, 3) [mm].

    x to the right from end 1, y up, z towards the viewer.
    """
    return in_space(_run(0.0, length, zones), turned=0.0)


def zone_points(zones: Sequence[Zone]) -> tuple[tuple[int, int], ...]:
    """First and last point of every zone on the finished mid-line, shape (zones, 2)."""
    found = []
    at = 0
    for zone in zones:
        first = at + _STRAIGHT_CELLS
        at = first + zone.lengths.shape[0]
        found.append((first, at))
    return tuple(found)


def half_bent(
    length: float,
    made: Sequence[Zone],
    *,
    middle: float,
    half_flat: float,
    side: int,
    turned: float,
    end_left: End,
    shape: HalfShape | None,
    released: bool,
) -> tuple[Floats, Floats, float, float]:
    """Mid-line of the bar while one bend is made, its middle at the origin, legs turning up.

    Legs out of the plane of the bend are seen from the front.

    Parameters
    ----------
    length
        Of the blank [mm].
    made
        Zones made before, in the order along the bar, clear of the one being made.
    middle, half_flat
        Of the bend being made: its middle from end 1 and half its zone in the flat [mm].
    side
        +1 where the bend being made turns up as drawn.
    turned
        As in :class:`Zone`, of the bend being made [rad].
    shape
        Of the bend being made, or ``None`` where it is still straight.

    Returns
    -------
    x, y
        From the left end to the right end, shape (k,) [mm].
    contact_x, contact_y
        Where the right leg becomes straight [mm].
    """
    wings = []
    contact = (0.0, 0.0)
    for outward in (-1, 1):
        # Outward from the middle: +1 runs to end 2, -1 to end 1.
        start = middle if shape is None else middle + outward * half_flat
        run = _run(start, length, made) if outward > 0 else _run(0.0, start, made).backwards()
        # As held, the bend being made turns up; the others keep their sense relative to it.
        pieces = Pieces(lengths=run.lengths, curvatures=side * run.curvatures, turned=run.turned)
        if shape is not None:
            bent = np.diff(shape.arc)
            pieces = Pieces(
                lengths=np.concatenate([bent, pieces.lengths]),
                curvatures=np.concatenate(
                    [shape.free if released else shape.loaded, pieces.curvatures]
                ),
                turned=np.concatenate([np.full(bent.shape, turned), pieces.turned]),
            )
        if np.all(pieces.turned == turned):
            x, y = in_plane(pieces.lengths, pieces.curvatures)
        else:
            x, y = in_space(pieces, turned=turned)[:, :2].T
        if shape is not None:
            k = shape.arc.shape[0] - 1
            contact = (float(x[k]), float(y[k]))
        wings.append((x, y))
    to_right = 1 if end_left == 1 else 0
    right, left = wings[to_right], wings[1 - to_right]
    x = np.concatenate([-left[0][:0:-1], right[0]])
    y = np.concatenate([left[1][:0:-1], right[1]])
    # A leg that runs straight away from the viewer would leave points on one spot.
    apart = np.concatenate([[True], np.hypot(np.diff(x), np.diff(y)) > _SAME_POINT])
    return x[apart], y[apart], contact[0], contact[1]


def pose(
    line: tuple[Floats, Floats, float, float],
    *,
    thickness: float,
    nose_radius: float,
    shoulder_radius: float,
    slope: float | None,
    beneath: float = 0.0,
) -> DrawnPose:
    """Set a half-bent bar on the shoulders; ``slope`` is the loaded leg slope, ``None`` at rest.

    ``beneath`` is the thickness of the bars that lie between it and the shoulders, which
    ``shoulder_radius`` then includes [mm].
    """
    x, y, _, contact_y = line
    if slope is None:
        lift = 0.5 * thickness
    else:
        seat = -shoulder_radius + (shoulder_radius + 0.5 * thickness) * math.cos(slope)
        lift = seat - contact_y
    lift += beneath
    return DrawnPose(x=x, y=y + lift, nose_y=lift + 0.5 * thickness + nose_radius)


def _run(start: float, stop: float, zones: Sequence[Zone]) -> Pieces:
    """Pieces of the bar between two places in the flat; bends not made are straight."""
    lengths: list[Floats] = []
    curvatures: list[Floats] = []
    turned: list[Floats] = []
    at, turn = start, 0.0
    for zone in zones:
        if zone.begin < start - 1e-9 or zone.end > stop + 1e-9:
            continue
        turn = zone.turned
        lengths += [np.full(_STRAIGHT_CELLS, (zone.begin - at) / _STRAIGHT_CELLS), zone.lengths]
        curvatures += [np.zeros(_STRAIGHT_CELLS), zone.curvatures]
        turned.append(np.full(_STRAIGHT_CELLS + zone.lengths.shape[0], turn))
        at = zone.end
    lengths.append(np.full(_STRAIGHT_CELLS, (stop - at) / _STRAIGHT_CELLS))
    curvatures.append(np.zeros(_STRAIGHT_CELLS))
    turned.append(np.full(_STRAIGHT_CELLS, turn))
    return Pieces(
        lengths=np.concatenate(lengths),
        curvatures=np.concatenate(curvatures),
        turned=np.concatenate(turned),
    )
