"""Axes of a stroke curve: round steps in the job's units, named with their unit in words."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.drawing import drawn_figures
from strapwright.planning.plan_values import Plan, Step
from strapwright.quantities.inside_units import INCH_MM
from strapwright.scene.frame import Frame
from strapwright.wording.figures import figures_for

_INCH_STEPS = (1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 5.0, 10.0)
_WORDS = {
    " psi": "gauge, pounds per square inch",
    " bar": "gauge, bar",
    " lbf": "force on the nose, pounds",
    " kN": "force on the nose, kilonewtons",
}


@frozen(kw_only=True)
class Axis:
    """One axis.

    Attributes
    ----------
    name
        What it shows and the unit, in words.
    size
        Of one unit of the axis, in the units inside.
    end
        Where it ends, a number on the axis.
    step
        Between the numbers written.
    """

    name: str
    size: float
    end: float
    step: float

    def ticks(self) -> list[tuple[float, str]]:
        """Values inside, from zero, each with what is written there."""
        count = math.floor(self.end / self.step + 1e-9)
        return [(k * self.step * self.size, self._written(k * self.step)) for k in range(count + 1)]

    def _written(self, number: float) -> str:
        if self.size == INCH_MM:
            return drawn_figures.fraction_of(number)
        return f"{number:g}"


def travel_axis(plan: Plan, last: float, frame: Frame) -> Axis:
    """Travel from touch to ``last`` [mm]."""
    most = 4 if frame.narrow else 8
    if plan.job.units == "metric":
        return Axis(
            name="travel from first contact, millimetres",
            size=1.0,
            end=last,
            step=round_step(last, most),
        )
    inches = last / INCH_MM
    step = next((one for one in _INCH_STEPS if inches / one <= most), inches)
    return Axis(name="travel from first contact, inches", size=INCH_MM, end=inches, step=step)


def load_axis(plan: Plan, step: Step, most: float) -> Axis:
    """Gauge [MPa] up to ``most``, or the force [N] where there is no gauge."""
    unit, size = figures_for(plan.job).size_of("N" if step.gauge is None else "MPa")
    end = most / size
    return Axis(name=_WORDS[unit], size=size, end=end, step=round_step(end, 5))


def round_step(span: float, most: int) -> float:
    """Return the least of 1, 2, 2.5, 5 times a power of ten that needs at most ``most`` steps."""
    raw = span / most
    power = 10.0 ** math.floor(math.log10(raw))
    return next(k * power for k in (1.0, 2.0, 2.5, 5.0, 10.0) if k * power >= raw * (1 - 1e-9))
