"""What the pump does for a bend: strokes of a hand pump, force on its handle, seconds."""

from __future__ import annotations

import math

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import Floats
from strapwright.bending.hydraulics import piston_area, pressure_for
from strapwright.findings import BendAt, Finding, Force, Severity
from strapwright.planning.plan_values import Step
from strapwright.shop.by_hand.hand_pump import HandPump
from strapwright.shop.press import Press

# Share of the handle's work that reaches the oil, with packing and pins (common practice, no
# source).
HANDLE_EFFICIENCY = 0.9
# What an arm pushes down again and again without strain (common practice, no source) [N].
EASY_FORCE = 400.0


@frozen(kw_only=True)
class PumpWork:
    """What the pump does from first contact, for one hit.

    Attributes
    ----------
    first, whole
        Strokes to the first push of the stages, and to the full travel; ``None`` of a powered pump
        and, of ``first``, without stages.
    seconds
        Of pumping, to the full travel [s].
    handle, handle_most
        Most force on the handle on the way up to the highest pressure expected, and to the top of
        its band; ``None`` where piston and lever are not stated or it has no say [N].
    """

    first: float | None
    whole: float | None
    seconds: float
    handle: float | None = None
    handle_most: float | None = None


def pump_work(press: Press | None, step: Step) -> PumpWork | None:
    """Return what the pump does for a bend, ``None`` where bore or pump are not stated.

    Parameters
    ----------
    press
        As stated.
    step
        One bend; of a row one hit.

    Notes
    -----
    Oil = piston area x travel of the ram, over the oil of one stroke; that of the low stage counts
    while the gauge reads less than where it changes over.  Seconds = oil / delivery.  Both are
    conservation of volume; oil that leaks, is squeezed or stretches hoses is left out.
    """
    if press is None or press.bore is None or press.flow is None:
        return None
    area = piston_area(press.bore)
    travel = step.setting.travel
    pump = press.hand_pump
    if pump is None:
        return PumpWork(first=None, whole=None, seconds=area * travel / press.flow)
    at = _strokes(press, pump, step, area)
    x = step.curve.travel
    whole = float(np.interp(travel, x, at))
    first = None if step.staged is None else float(np.interp(step.staged.first_travel, x, at))
    most = None if step.gauge is None else max(step.gauge.peak, step.gauge.high)
    return PumpWork(
        first=first,
        whole=whole,
        seconds=whole / pump.strokes_per_minute * 60.0,
        handle=None if step.gauge is None else handle_force(pump, step.gauge.peak),
        handle_most=None if most is None else handle_force(pump, most),
    )


def _strokes(press: Press, pump: HandPump, step: Step, area: float) -> Floats:
    """Strokes from first contact at each point of the curve."""
    curve = step.curve
    each = np.full(len(curve.travel) - 1, pump.volume)
    if pump.low_volume is not None and pump.changes_at is not None and press.bore is not None:
        middle = 0.5 * (curve.force[1:] + curve.force[:-1])
        shown = np.array(
            [pressure_for(max(one, 0.0), press.bore, press.efficiency, press.no_load)
             for one in middle.tolist()]
        )  # fmt: skip
        each[shown < pump.changes_at] = pump.low_volume
    taken = area * np.diff(curve.travel) / each
    return np.concatenate([[0.0], np.cumsum(taken)])


def handle_force(pump: HandPump, pressure: float) -> float | None:
    """Most force on the handle on the way up to a pressure [N].

    It is ``None`` where piston and lever are not stated.

    Parameters
    ----------
    pump
        The hand pump.
    pressure
        Up to which it works [MPa].

    Notes
    -----
    F = p (pi d^2 / 4) arm / (lever eta): Pascal's law on the piston of the high stage, and the
    lever about its pivot; eta is a share for packing and pins.  The low stage moves more oil by the
    same stroke, so its area is larger by the share of the volumes (conservation of volume).  It may
    be hardest on the arm right before it changes over, above which the high stage works alone.
    """
    if pump.piston is None or pump.lever is None or pump.arm is None:
        return None
    area = math.pi * pump.piston**2 / 4.0
    on_piston = pressure * area
    if pump.low_volume is not None and pump.changes_at is not None:
        low_area = area * pump.low_volume / pump.volume
        low = min(pressure, pump.changes_at) * low_area
        on_piston = max(low, on_piston if pressure > pump.changes_at else 0.0)
    return on_piston * pump.arm / (pump.lever * HANDLE_EFFICIENCY)


def handle_findings(press: Press | None, step: Step) -> list[Finding]:
    """Say where the handle takes more than an arm gives easily."""
    work = pump_work(press, step)
    if work is None or work.handle_most is None or work.handle_most <= EASY_FORCE:
        return []
    return [
        Finding(
            code="handle-too-hard",
            severity=Severity.WARNING,
            about=(BendAt(step.bend),),
            facts={"force": Force(work.handle_most), "easy": Force(EASY_FORCE)},
        )
    ]
