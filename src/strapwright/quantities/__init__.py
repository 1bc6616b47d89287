"""Lengths, angles, pressures, forces: read what people type, print what people read."""

from strapwright.quantities.printing import (
    ForceUnit,
    PressureUnit,
    Reading,
    either_length,
    round_band,
    round_to_band,
    show_angle,
    show_force,
    show_inch_parts,
    show_length,
    show_pressure,
    show_speed,
)
from strapwright.quantities.reading import (
    positive,
    read_angle,
    read_area_rate,
    read_flow,
    read_force,
    read_length,
    read_pressure,
    read_ratio,
    read_volume,
)
from strapwright.quantities.units import Units

__all__ = [
    "ForceUnit",
    "PressureUnit",
    "Reading",
    "Units",
    "either_length",
    "positive",
    "read_angle",
    "read_area_rate",
    "read_flow",
    "read_force",
    "read_length",
    "read_pressure",
    "read_ratio",
    "read_volume",
    "round_band",
    "round_to_band",
    "show_angle",
    "show_force",
    "show_inch_parts",
    "show_length",
    "show_pressure",
    "show_speed",
]
