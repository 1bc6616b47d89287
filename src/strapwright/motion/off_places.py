"""The part on its way off, with both halves fully open, as mid-lines for pictures."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from strapwright.bending.bend_values import Floats
from strapwright.planning.plan_values import Step

_CLEAR_BY = 12.0  # mm below the nose the part is plainly off
_FINELY = 12  # places on a stretch without a turn, of which some are shown

_SHUT = ("overlap", "halves")  # the nose cannot rise from the part

Motion = tuple[float, float, float, float]
_STILL: Motion = (0.0, 0.0, 0.0, 0.0)


def off_lines(step: Step, nose_radius: float, count: int) -> tuple[Floats, ...]:
    """Mid-lines from where the part is once the halves are open to where it is off.

    Parameters
    ----------
    step
        With ``coming_off``.
    nose_radius
        [mm]
    count
        How many at most, the first and the last among them; at least 2.

    Returns
    -------
    tuple of array
        Shape (k, 2) each, the nose's centre at the origin, y away from the part [mm].  One alone
        where the part does not come off, lies on the shoulders with the nose gone up, or only
        slides along the nose.  What lies between two
        drawn places runs straight where the angle stays; a turn is shown by the places that the
        way out itself passes.
    """
    line = _let_go(step)
    return tuple(moved(line, one) for one in off_places(step, nose_radius, count))


def off_places(step: Step, nose_radius: float, count: int) -> tuple[Motion, ...]:
    """Where the part is on its way off, as motions from where it was let go on the nose.

    Parameters are those of :func:`off_lines`.

    Returns
    -------
    tuple of (x, y, z, theta)
        Shift [mm] and turn about the nose's centre [rad]; the first is where the part is with both
        halves fully open.
    """
    off = step.coming_off
    if off is None:
        return (_STILL,)
    start = open_place(step)
    lies = off.how == "drops" and not off.rides
    # The way off begins on the nose; where the part is by then is its second place.
    way = off.motion[2:] if off.spot != (0.0, 0.0) else off.motion[1:]
    if lies or not way:
        return (start,)
    line = _let_go(step)
    motion = _cut_short((start, *way), line, nose_radius)
    return tuple(_shown(_finely(motion), line, count))


def parts(step: Step) -> bool:
    """Whether nose and shoulders open as far as they go; else they stay as the part was let go."""
    off = step.coming_off
    return off is not None and off.verdict != "not decided" and off.held not in _SHUT


def nose_height(step: Step) -> float:
    """Height of the nose's centre over the shoulder tops once the halves are open [mm]."""
    off = step.coming_off
    return off.opened if off is not None and parts(step) else float(step.poses.released.nose_y)


def open_place(step: Step) -> Motion:
    """Where the part is with both halves fully open.

    One that stays lies as it was let go; one that rides is taken along, at once or once something
    of the nose side has caught it from within.
    """
    off = step.coming_off
    if off is None or not parts(step):
        return _STILL
    if off.rides:
        return (*off.spot, 0.0, 0.0)
    return (0.0, float(step.poses.released.nose_y) - off.opened, 0.0, 0.0)


def _let_go(step: Step) -> Floats:
    """Mid-line where the part was let go, the nose's centre at the origin, shape (k, 2) [mm]."""
    pose = step.poses.released
    return np.column_stack((pose.x, pose.y - pose.nose_y))


def moved(line: Floats, motion: Motion) -> Floats:
    """Turn a line about the origin by the motion's angle, then shift it, shape (k, 2) [mm]."""
    x, y, _, theta = motion
    c, s = math.cos(theta), math.sin(theta)
    placed: Floats = line @ np.array([[c, s], [-s, c]]) + np.array([x, y])
    return placed


def _cut_short(motion: tuple[Motion, ...], line: Floats, nose_radius: float) -> tuple[Motion, ...]:
    """End the way where the part is plainly clear instead of where it can go on for ever."""
    before, last = motion[-2], motion[-1]
    if before[3] != last[3]:
        return motion
    span = math.hypot(last[0] - before[0], last[1] - before[1])
    if span == 0.0:
        return motion
    highest = float(moved(line, before)[:, 1].max())
    size = float(np.hypot(*(line.max(axis=0) - line.min(axis=0))))
    fall = before[1] - last[1]
    needed = highest + nose_radius + _CLEAR_BY
    share = needed / fall if fall > 0.5 * span else size / span
    share = min(1.0, max(share, 0.0))
    x, y, z, theta = (a + share * (b - a) for a, b in zip(before, last, strict=True))
    return (*motion[:-1], (x, y, z, theta))


def _finely(motion: tuple[Motion, ...]) -> list[Motion]:
    """Add places on the way wherever the part moves without turning."""
    found = [motion[0]]
    for before, after in pairwise(motion):
        steps = _FINELY if before[3] == after[3] else 1
        for k in range(1, steps + 1):
            x, y, z, theta = (a + k / steps * (b - a) for a, b in zip(before, after, strict=True))
            found.append((x, y, z, theta))
    return found


def _shown(motion: list[Motion], line: Floats, count: int) -> list[Motion]:
    """Places that lie about evenly along the way of the part's points."""
    places = np.array([moved(line, one) for one in motion])
    steps = np.hypot(*np.diff(places, axis=0).transpose(2, 0, 1)).max(axis=1)
    way = np.concatenate(([0.0], np.cumsum(steps)))
    if way[-1] < 1.0:
        return [motion[0]]
    picked = sorted({int(np.argmin(np.abs(way - at))) for at in np.linspace(0, way[-1], count)})
    return [motion[k] for k in picked]
