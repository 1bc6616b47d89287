"""Mid-lines of the whole bar: the finished part, and the bar on the tooling for one bend."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

import numpy as np
from attrs import frozen

from strapwright.bending.shape import HalfShape
from strapwright.bending.values import Floats
from strapwright.blank.values import Blank
from strapwright.planning.values import DrawnPose, End

_STRAIGHT_CELLS = 2


@frozen(kw_only=True)
class Zone:
    """One bend as it lies in the bar once it is made.

    Attributes
    ----------
    begin, end
        Where the zone begins and ends in the flat, from end 1 [mm].
    lengths, curvatures
        Pieces of the bent mid-line from its first end to its last, shape (k,) [mm], [1/mm];
        curvature positive where the legs turn up as drawn.
    """

    begin: float
    end: float
    lengths: Floats
    curvatures: Floats


def released_zone(begin: float, end: float, shape: HalfShape, side: int) -> Zone:
    """Return a made bend from the solver's half shape."""
    half = np.diff(shape.arc)
    return Zone(
        begin=begin,
        end=end,
        lengths=np.concatenate([half[::-1], half]),
        curvatures=side * np.concatenate([shape.free[::-1], shape.free]),
    )


def arc_zone(begin: float, end: float, angle: float, radius: float, side: int) -> Zone:
    """Return a made bend as one even arc of mid-line radius ``radius`` [mm]."""
    cells = 24
    return Zone(
        begin=begin,
        end=end,
        lengths=np.full(cells, radius * angle / cells),
        curvatures=np.full(cells, side / radius),
    )


def finished_line(blank: Blank, zones: Sequence[Zone]) -> Floats:
    """Mid-line of the finished part from end 1, heading right, shape (k, 2) [mm]."""
    lengths, curvatures = _run(0.0, blank.length, zones, set(range(len(zones))))
    x, y = _walk(lengths, curvatures)
    return np.column_stack([x, y])


def half_bent(
    blank: Blank,
    zones: Sequence[Zone],
    made: Collection[int],
    bend: int,
    side: int,
    end_left: End,
    shape: HalfShape | None,
    *,
    released: bool,
) -> tuple[Floats, Floats, float, float]:
    """Mid-line of the bar while one bend is made, its middle at the origin, legs turning up.

    Parameters
    ----------
    made, bend
        0-based numbers of the bends made before and of the one being made.
    side
        +1 where the bend being made turns up as drawn.
    shape
        Of the bend being made, or ``None`` where it is still straight.

    Returns
    -------
    x, y
        From the left end to the right end, shape (k,) [mm].
    contact_x, contact_y
        Where the right leg becomes straight [mm].
    """
    middle = blank.marks[bend].nose
    half_flat = 0.5 * (zones[bend].end - zones[bend].begin)
    wings = []
    contact = (0.0, 0.0)
    for outward in (-1, 1):
        # Outward from the middle: +1 runs to end 2, -1 to end 1.
        lengths: list[Floats] = []
        curvatures: list[Floats] = []
        start = middle
        if shape is not None:
            lengths.append(np.diff(shape.arc))
            curvatures.append(shape.free if released else shape.loaded)
            start = middle + outward * half_flat
        if outward > 0:
            run_l, run_k = _run(start, blank.length, zones, made)
        else:
            run_l, run_k = _run(0.0, start, zones, made)
            run_l, run_k = run_l[::-1], run_k[::-1]
        lengths.append(run_l)
        # As held, the bend being made turns up; the others keep their sense relative to it.
        curvatures.append(side * run_k)
        x, y = _walk(np.concatenate(lengths), np.concatenate(curvatures))
        if shape is not None:
            k = shape.arc.shape[0] - 1
            contact = (float(x[k]), float(y[k]))
        wings.append((x, y))
    to_right = 1 if end_left == 1 else 0
    right, left = wings[to_right], wings[1 - to_right]
    x = np.concatenate([-left[0][:0:-1], right[0]])
    y = np.concatenate([left[1][:0:-1], right[1]])
    return x, y, contact[0], contact[1]


def pose(
    line: tuple[Floats, Floats, float, float],
    *,
    thickness: float,
    nose_radius: float,
    shoulder_radius: float,
    slope: float | None,
) -> DrawnPose:
    """Set a half-bent bar on the shoulders; ``slope`` is the loaded leg slope, ``None`` at rest."""
    x, y, _, contact_y = line
    if slope is None:
        lift = 0.5 * thickness
    else:
        seat = -shoulder_radius + (shoulder_radius + 0.5 * thickness) * math.cos(slope)
        lift = seat - contact_y
    return DrawnPose(x=x, y=y + lift, nose_y=lift + 0.5 * thickness + nose_radius)


def _run(
    start: float, stop: float, zones: Sequence[Zone], made: Collection[int]
) -> tuple[Floats, Floats]:
    """Pieces of the bar between two places in the flat; bends not made are straight."""
    lengths: list[Floats] = []
    curvatures: list[Floats] = []
    at = start
    for number, zone in enumerate(zones):
        if number not in made or zone.begin < start - 1e-9 or zone.end > stop + 1e-9:
            continue
        lengths += [np.full(_STRAIGHT_CELLS, (zone.begin - at) / _STRAIGHT_CELLS), zone.lengths]
        curvatures += [np.zeros(_STRAIGHT_CELLS), zone.curvatures]
        at = zone.end
    lengths.append(np.full(_STRAIGHT_CELLS, (stop - at) / _STRAIGHT_CELLS))
    curvatures.append(np.zeros(_STRAIGHT_CELLS))
    return np.concatenate(lengths), np.concatenate(curvatures)


def _walk(lengths: Floats, curvatures: Floats) -> tuple[Floats, Floats]:
    """Points along pieces of even curvature, from the origin heading right."""
    theta = np.concatenate([[0.0], np.cumsum(lengths * curvatures)])
    middle = 0.5 * (theta[1:] + theta[:-1])
    chord = lengths * np.sinc(0.5 * lengths * curvatures / math.pi)
    x = np.concatenate([[0.0], np.cumsum(chord * np.cos(middle))])
    y = np.concatenate([[0.0], np.cumsum(chord * np.sin(middle))])
    return x, y
