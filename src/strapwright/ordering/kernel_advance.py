"""One element of the bar against one piece over a whole stroke, sound between poses.

Conservative advancement: no point of the element comes nearer to the piece by more than
``SPEED`` per radian (plus the sinking of the arc's centre for the shoulder side), so a distance d
found at one pose clears (d - low)/speed on both sides of it.
"""

from __future__ import annotations

import math

import numpy as np

from strapwright.compiled import jit
from strapwright.ordering.kernel_distance import sector_distance, straight_distance
from strapwright.ordering.kernel_kinematics import arc_centre, sinking
from strapwright.ordering.kernel_pieces import (
    ANGLE,
    ARC,
    CLOSING,
    CONTACT,
    FIRST,
    GROUP,
    HALF,
    INNER,
    KIND,
    MIDDLE,
    OUTER,
    SECTOR,
    SHOULDERS,
    SPEED,
    STRAIGHT,
    Floats,
    Stroke,
    Tool,
    X,
    Y,
)


@jit
def set_straight(
    row: Floats, x: float, y: float, theta: float, length: float, stroke: Stroke
) -> None:
    """Write a straight that starts at (x, y) of the wing and runs along theta."""
    row[KIND] = STRAIGHT
    row[X] = x + 0.5 * length * math.cos(theta)
    row[Y] = y + 0.5 * length * math.sin(theta)
    row[ANGLE] = theta
    row[HALF] = 0.5 * length
    row[INNER] = 0.5 * stroke.thickness
    far = max(
        math.hypot(x, y),
        math.hypot(x - stroke.rho * stroke.phi_end, y),
        math.hypot(x + length * math.cos(theta), y + length * math.sin(theta)),
        math.hypot(
            x + length * math.cos(theta) - stroke.rho * stroke.phi_end,
            y + length * math.sin(theta),
        ),
    )
    row[SPEED] = far + 0.5 * stroke.thickness


@jit
def set_first(row: Floats, length: float, stroke: Stroke) -> None:
    """Write the run from the arc's end to ``length`` from the bend's middle."""
    row[KIND] = FIRST
    row[X] = length
    row[ANGLE] = 0.0
    row[INNER] = 0.5 * stroke.thickness
    # Its start is drawn into the arc; seen backwards it grows by rho per radian.
    row[SPEED] = length + 0.5 * stroke.thickness + stroke.rho


@jit
def set_arc(row: Floats, stroke: Stroke) -> None:
    """Write the half of the bend being made that belongs to this wing."""
    row[KIND] = ARC
    row[INNER] = stroke.inner
    row[OUTER] = stroke.inner + stroke.thickness
    row[SPEED] = row[OUTER]  # fixed to the nose; its end grows along the outside


@jit
def set_sector(
    row: Floats, x: float, y: float, theta: float, turn: float, inner: float, stroke: Stroke
) -> None:
    """Write a made bend that starts at (x, y) heading along theta."""
    side = 1.0 if turn > 0.0 else -1.0
    rho = inner + 0.5 * stroke.thickness
    row[KIND] = SECTOR
    row[X] = x - side * rho * math.sin(theta)
    row[Y] = y + side * rho * math.cos(theta)
    row[ANGLE] = theta + 0.5 * turn - side * 0.5 * math.pi
    row[HALF] = 0.5 * abs(turn)
    row[INNER] = inner
    row[OUTER] = inner + stroke.thickness
    row[SPEED] = (
        max(math.hypot(row[X], row[Y]), math.hypot(row[X] - stroke.rho * stroke.phi_end, row[Y]))
        + row[OUTER]
    )


@jit
def pose_distance(
    row: Floats,
    phi: float,
    stroke: Stroke,
    tool: Tool,
    k: int,
    want: float,
    enough: float,
) -> float:
    """Distance between the element and piece ``k`` with the bend at ``2 phi`` [mm]."""
    c = math.cos(phi)
    s = math.sin(phi)
    kind = row[KIND]
    lift = 0.0
    if tool[k, GROUP] == SHOULDERS:
        lift = arc_centre(phi, stroke.half_opening, stroke.a, stroke.shoulder_radius)
    if kind == ARC:
        return sector_distance(
            0.0,
            lift,
            0.5 * (phi - math.pi),
            half=0.5 * phi,
            inner=row[INNER],
            outer=row[OUTER],
            tool=tool,
            k=k,
            enough=enough,
        )
    along = row[X]
    across = row[Y]
    half = row[HALF]
    if kind == FIRST:
        start = stroke.rho * phi
        half = 0.5 * (along - start)
        along = 0.5 * (along + start)
        across = 0.0
    along -= stroke.rho * phi
    x = stroke.rho * s + along * c - across * s
    y = -stroke.rho * c + along * s + across * c + lift
    if kind == SECTOR:
        return sector_distance(
            x,
            y,
            row[ANGLE] + phi,
            half=half,
            inner=row[INNER],
            outer=row[OUTER],
            tool=tool,
            k=k,
            enough=enough,
        )
    a = row[ANGLE] + phi
    return straight_distance(
        x,
        y,
        math.cos(a),
        uy=math.sin(a),
        half_length=half,
        half_thickness=row[INNER],
        tool=tool,
        k=k,
        want=want,
        enough=enough,
    )


@jit
def piece_speed(row: Floats, stroke: Stroke, group: int) -> float:
    """How fast the element can near a piece of this group [mm/rad]."""
    speed = float(row[SPEED])
    if group == SHOULDERS:
        speed += sinking(stroke.phi_end, stroke.half_opening, stroke.a)
    return speed


@jit
def keeps_clear(
    row: Floats, stroke: Stroke, tool: Tool, k: int, clearance: float, tolerance: float
) -> bool:
    """Whether the element stays ``clearance`` from piece ``k`` over its whole motion.

    Where it says yes the distance is at least ``clearance - tolerance`` throughout; where it says
    no a pose nearer than ``clearance`` was seen.
    """
    if tool[k, GROUP] == CLOSING:
        return (
            pose_distance(
                row, stroke.phi_begin, stroke, tool=tool, k=k, want=clearance, enough=clearance
            )
            >= clearance
        )
    if tool[k, GROUP] != SHOULDERS and row[KIND] == ARC:  # it only grows, seen from the nose
        return (
            pose_distance(
                row, stroke.phi_end, stroke, tool=tool, k=k, want=clearance, enough=clearance
            )
            >= clearance
        )
    low = clearance - tolerance
    speed = piece_speed(row, stroke, tool[k, GROUP])
    d = pose_distance(
        row,
        stroke.phi_end,
        stroke,
        tool=tool,
        k=k,
        want=low + speed * (stroke.phi_end - stroke.phi_begin),
        enough=clearance,
    )
    if d < clearance:
        return False
    done = stroke.phi_begin
    end = stroke.phi_end - (d - low) / speed
    leap = min((d - low) / speed, 0.5 * (end - done))
    tries = 0
    while done < end:
        at = min(done + leap, end)
        d = pose_distance(
            row, at, stroke, tool=tool, k=k, want=low + speed * (end - done), enough=clearance
        )
        if d < clearance:
            return False
        cover = (d - low) / speed
        if at - cover <= done:
            done = at + cover
            leap = cover
            tries = 0
        else:
            tries += 1
            leap = cover if tries < 4 else 0.0
    return True


@jit
def least_distance(
    row: Floats, stroke: Stroke, tool: Tool, k: int, cap: float, tolerance: float
) -> tuple[float, float]:
    """Smallest distance over the motion and the half angle where it was seen.

    The true smallest is at most ``tolerance`` less; nothing above ``cap`` is looked for.
    """
    best = cap
    where = -1.0
    if tool[k, GROUP] == CLOSING or (tool[k, GROUP] != SHOULDERS and row[KIND] == ARC):
        phi = stroke.phi_begin if tool[k, GROUP] == CLOSING else stroke.phi_end
        d = pose_distance(row, phi, stroke, tool=tool, k=k, want=cap, enough=cap)
        return (d, phi) if d < best else (best, where)
    speed = piece_speed(row, stroke, tool[k, GROUP])
    at = stroke.phi_begin
    while True:
        d = pose_distance(
            row, at, stroke, tool=tool, k=k, want=best + speed * (stroke.phi_end - at), enough=best
        )
        if d < best:
            best = d
            where = at
        if at >= stroke.phi_end:
            return best, where
        at = min(stroke.phi_end, at + (d - best + tolerance) / speed)


@jit
def first_contact(
    row: Floats, stroke: Stroke, tool: Tool, k: int, clearance: float, tolerance: float
) -> float:
    """Half angle at which the element first comes within ``clearance``, or -1 if it never does."""
    if tool[k, GROUP] == CLOSING:
        d = pose_distance(
            row, stroke.phi_begin, stroke, tool=tool, k=k, want=clearance, enough=clearance
        )
        return stroke.phi_begin if d < clearance else -1.0
    low = clearance - 0.01 * tolerance  # finer than the check itself, so as to see what it saw
    speed = piece_speed(row, stroke, tool[k, GROUP])
    at = stroke.phi_begin
    while True:
        d = pose_distance(
            row,
            at,
            stroke,
            tool=tool,
            k=k,
            want=low + speed * (stroke.phi_end - at),
            enough=clearance,
        )
        if d < clearance:
            return at
        if at >= stroke.phi_end:
            return -1.0
        at = min(stroke.phi_end, at + (d - low) / speed)


@jit
def element_clear(
    row: Floats, stroke: Stroke, tool: Tool, clearance: float, tolerance: float
) -> bool:
    """Whether the element keeps clear of every piece that it must not touch."""
    held = row[KIND] == FIRST or row[KIND] == ARC
    for k in range(tool.shape[0]):
        if tool[k, GROUP] == MIDDLE or (held and tool[k, CONTACT] == 1):
            continue
        if not keeps_clear(row, stroke, tool, k, clearance, tolerance):
            return False
    return True


@jit
def element_outside(row: Floats, stroke: Stroke, tool: Tool, clearance: float) -> bool:
    """Whether the element stays out of the region where it could meet the rest of the part."""
    for k in range(tool.shape[0]):
        if tool[k, GROUP] == MIDDLE and not keeps_clear(
            row, stroke, tool, k, clearance, 0.25 * clearance
        ):
            return False
    return True


@jit
def empty_row() -> Floats:
    """Return a fresh element row."""
    return np.zeros(8)
