"""Spindle speed, feed, power and time of a cutter in a metal, held to the machine's limits."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.catalog.cutting_speeds import Operation, cutting_speed, drill_feed
from strapwright.making.plate_values import Cut, Machine

HALF_POINT = math.radians(59)  # of a standard 118 degree drill
APPROACH = 2.0  # mm of feed before the point touches; common practice, no source
# Power that drilling takes of a motor, belts and gears off; common practice, no source.
EFFICIENCY = 0.8
# Source: the cutter catalogue of the two formulas below, steel of about 0.2 % carbon; softer metals
# take less.
_WORK_FACTOR = 2.22
# Rough cutters: share of the drilling speed.  Common practice, no source.
_HOLE_SAW = 0.5
_CENTRE_DIAMETER = 3.0  # mm, pilot of a centre drill: its thin end sets the speed

_OPERATIONS: dict[str, Operation] = {
    "centre drill": "drilling",
    "drill": "drilling",
    "hole saw": "drilling",
    "boring bar": "drilling",
    "end mill": "end milling",
    "counterbore": "countersinking",
    "countersink": "countersinking",
    "reamer": "reaming",
    "tap": "tapping",
}


@frozen(kw_only=True)
class Setting:
    """What to set for one cutter.

    Attributes
    ----------
    rpm
        Spindle speed [rpm], never above the machine's fastest.
    feed
        [mm/rev]
    surface
        Cutting speed that comes of it [mm/min].
    power
        At the cutter [W]; 0 where drilling formulas do not speak of the cutter.
    thrust
        Along the spindle [N]; 0 likewise.
    minutes
        In the cut [min].
    source
        Of the cutting speed.
    notes
        Sentences to mind: a machine that is too fast or too weak.
    """

    rpm: float
    feed: float
    surface: float
    power: float
    thrust: float
    minutes: float
    source: str
    notes: tuple[str, ...] = ()


def spindle_rpm(surface: float, diameter: float) -> float:
    """Return the spindle speed [rpm] for a cutting speed.

    Parameters
    ----------
    surface
        Cutting speed [mm/min].
    diameter
        Of the cutter [mm].
    """
    return surface / (math.pi * diameter)


def drilling_power(*, diameter: float, rpm: float, feed: float, opened: float = 0.0) -> float:
    """Return the power of a drill in steel at the cutter [W].

    Parameters
    ----------
    diameter
        [mm]
    rpm
        [rpm]
    feed
        [mm/rev]
    opened
        Diameter that a pilot has opened [mm].

    Notes
    -----
    Cutter catalogue: P = K D^2 n (0.647 + 17.29 f) 1e-6 kW, K = 2.22 for steel of 0.2 % carbon;
    over a pilot by what is left of the area (common practice, no source).
    """
    return _WORK_FACTOR * (diameter**2 - opened**2) * rpm * (0.647 + 17.29 * feed) * 1e-3


def drilling_thrust(*, diameter: float, feed: float) -> float:
    """Return the thrust of a drill in steel [N]; ``diameter`` [mm], ``feed`` [mm/rev].

    Notes
    -----
    Cutter catalogue: T = 570 K D f^0.85 N, K = 2.22 for steel of 0.2 % carbon.
    """
    return 570 * _WORK_FACTOR * diameter * math.pow(feed, 0.85)


def drilling_time(
    *, diameter: float, depth: float, rpm: float, feed: float, approach: float = APPROACH
) -> float:
    """Return how long a drill is in the cut [min].

    Parameters
    ----------
    diameter, depth
        Of the hole [mm].
    rpm
        [rpm]
    feed
        [mm/rev]
    approach
        Feed before the point touches [mm].

    Notes
    -----
    (depth + approach + height of the point) / (feed x rpm), the point being half the diameter over
    the tangent of its half angle.
    """
    return (depth + approach + diameter / 2 / math.tan(HALF_POINT)) / (feed * rpm)


def setting(
    cut: Cut,
    *,
    metal: str,
    depth: float,
    pitch: float = 0.0,
    opened: float = 0.0,
    machine: Machine,
    where: str,
) -> Setting:
    """Work out what to set for a cutter.

    Parameters
    ----------
    cut
        Cutter and what it does.
    metal
        One of the speed table.
    depth
        Of the hole [mm].
    pitch
        Of the thread, for a tap [mm].
    opened
        Diameter that a pilot has opened [mm].
    machine
        Whose limits hold.
    where
        Key path, for the message.

    Raises
    ------
    InputError
        Where the table has no speed for the metal.
    """
    kind = cut.cutter.kind
    speed = cutting_speed(_OPERATIONS[kind], metal, where)
    across = {"centre drill": _CENTRE_DIAMETER, "boring bar": cut.most}.get(
        kind, cut.cutter.diameter
    )
    share = _HOLE_SAW if kind == "hole saw" else 1.0
    # The slow end: a home shop drills dry or with a brush of oil.
    wanted = spindle_rpm(speed.low * share, across)
    notes: list[str] = []
    feed = _feed(kind, across, pitch)
    power = thrust = 0.0
    most = machine.power * EFFICIENCY
    rpm = min(wanted, machine.rpm_high)
    if kind == "drill":
        power = drilling_power(diameter=across, rpm=rpm, feed=feed, opened=opened)
        if power > most:
            rpm *= most / power
            power = most
            notes.append("speed limited by motor power: feed gently, or open the hole up in steps")
        thrust = drilling_thrust(diameter=across, feed=feed)
    if rpm < machine.rpm_low:
        notes.append(
            f"the slowest speed of the {machine.name}, {machine.rpm_low:.0f} rpm, is faster than "
            f"this cutter wants ({rpm:.0f} rpm): turn it by hand, use a slower machine, or let it "
            "cool often"
        )
        rpm = machine.rpm_low
        if kind == "drill":
            power = drilling_power(diameter=across, rpm=rpm, feed=feed, opened=opened)
            if power > most:
                notes.append(
                    f"at that speed this drill asks for {power:.0f} W and the motor gives "
                    f"{most:.0f} W: it stalls; open the hole up in steps, or use a stronger machine"
                )
    return Setting(
        rpm=rpm,
        feed=feed,
        surface=math.pi * across * rpm,
        power=power,
        thrust=thrust,
        minutes=drilling_time(diameter=across, depth=depth, rpm=rpm, feed=feed),
        source=speed.source,
        notes=tuple(notes),
    )


def _feed(kind: str, across: float, pitch: float) -> float:
    """Feed [mm/rev]; where no table speaks of the cutter: common practice, no source."""
    low, _ = drill_feed(across)
    if kind == "tap":
        return pitch
    if kind == "reamer":
        return 2 * low  # reamers take two to three times the feed of a drill of their size
    if kind in ("boring bar", "hole saw"):
        return 0.05
    if kind in ("end mill", "counterbore", "countersink"):
        return min(0.1, low)  # plunged
    return low
