"""How fast a bend turns in words: by a little travel, and in a second."""

from __future__ import annotations

import math

from strapwright.planning.plan_values import Step
from strapwright.quantities import show_speed
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
    small, name = (0.1, "0.1 mm") if units == "metric" else (0.01 * INCH_MM, "0.010 in")
    turn = math.degrees(speed.sensitivity) * small
    said = [f"At full stroke, {name} more travel adds {turn:.1f}°."]
    if speed.ram is not None and speed.angle is not None:
        said.append(
            f"The ram moves at {show_speed(speed.ram, units)}; the angle changes by up to "
            f"{math.degrees(speed.angle):.0f}° per second."
        )
    return tuple(said)
