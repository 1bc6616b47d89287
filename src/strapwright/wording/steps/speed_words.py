"""How fast a bend turns in words: by a little travel, and in a second."""

from __future__ import annotations

import math

from strapwright.planning.plan_values import Step
from strapwright.quantities import Units, show_speed
from strapwright.quantities.inside_units import INCH_MM
from strapwright.wording.reader import Reader


def speed_words(step: Step, reader: Reader) -> tuple[str, ...]:
    """Say how far a little more travel turns the bend, and how fast the ram turns it where known.

    Parameters
    ----------
    step
        Of a plan.
    reader
        Who reads it.
    """
    speed, units = step.speed, reader.figures.units
    name, turn = turn_per_travel(step, units)
    said = [f"At full stroke, {name} more travel adds {turn:.1f}°."]
    if speed.ram is not None and speed.angle is not None:
        said.append(
            f"The ram moves at {show_speed(speed.ram, units)}; the angle changes by up to "
            f"{math.degrees(speed.angle):.0f}° per second."
        )
    return tuple(said)


def turn_per_travel(step: Step, units: Units) -> tuple[str, float]:
    """Name a little travel at full stroke, and return how far it turns the bend [deg].

    Parameters
    ----------
    step
        Of a plan.
    units
        Unit system to print in.
    """
    name, small = ("0.1 mm", 0.1) if units == "metric" else ("0.010 in", 0.01 * INCH_MM)
    return name, math.degrees(step.speed.sensitivity) * small
