"""Figures as a drawing shows them: in the job's units, rounded to what their band supports."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.bending.values import Band
from strapwright.drawing.lettering import as_fractions
from strapwright.planning.values import Plan, Step
from strapwright.quantities import round_to_band, show_length, show_pressure
from strapwright.quantities.units import PSI
from strapwright.shop.job import Job, Reading

_BAR = 0.1  # MPa
KN = 1000.0  # N
LBF = 4.4482216152605  # N, pound times standard gravity


def reading_of(job: Job) -> Reading:
    """How lengths are read: as the job says, else sixty-fourths or millimetres."""
    return job.blank.reading or ("1/64" if job.units == "inch" else "mm")


def length(job: Job, mm: float) -> str:
    """Return a length with its unit."""
    return as_fractions(show_length(mm, reading_of(job)))


def bare_length(job: Job, mm: float) -> str:
    """Return a length without its unit, for drawings that name the unit once."""
    return length(job, mm).removesuffix(" mm").removesuffix(" in")


def stated_length(job: Job, mm: float) -> str:
    """Return a bare length as a person states it: whole millimetres without a decimal."""
    return bare_length(job, mm).removesuffix(".0")


def length_unit(job: Job) -> str:
    """Name of the unit that bare lengths are in."""
    return "mm" if reading_of(job) == "mm" else "inches"


def fraction_of(inches: float) -> str:
    """Write sixteenths of an inch as a fraction, without the unit."""
    return as_fractions(show_length(inches * 25.4, "1/16")).removesuffix(" in")


def stated_angle(rad: float) -> str:
    """Return an angle as a person states it: whole degrees without a decimal."""
    return f"{round(math.degrees(rad), 1):g}°"


def banded_angle(rad: float, band: Band) -> str:
    """Return an angle rounded to its band in degrees."""
    return f"{round_to_band(math.degrees(rad), band.low, band.high)}°"


def pressure(job: Job, mpa: float) -> str:
    """Return a pressure with its unit."""
    return show_pressure(mpa, job.units)


def force_unit(job: Job) -> tuple[str, float]:
    """Name of the job's force unit and its size [N]."""
    return ("lbf", LBF) if job.units == "inch" else ("kN", KN)


def pressure_unit(job: Job) -> tuple[str, float]:
    """Name of the job's pressure unit and its size [MPa]."""
    return ("psi", float(PSI)) if job.units == "inch" else ("bar", _BAR)


def pressure_below(job: Job, mpa: float) -> str:
    """Return a pressure not to be passed: rounded down to a division one can read."""
    name, size = pressure_unit(job)
    division = 10.0 if job.units == "inch" else 1.0
    whole = math.floor(mpa / size / division + 1e-9) * division
    return f"{whole:.0f} {name}" if whole > 0 else pressure(job, mpa)


@frozen(kw_only=True)
class Banded:
    """A figure and the limits of its band, as words."""

    value: str
    low: str
    high: str


def banded_load(job: Job, step: Step) -> Banded:
    """Reading at the end of the stroke, or the force where there is no gauge."""
    if step.gauge is None:
        band = step.bands["force_N"]
        name, size = force_unit(job)
        return _banded(step.force / size, band.low / size, band.high / size, name)
    gauge = step.gauge
    name, size = pressure_unit(job)
    return _banded(gauge.value / size, gauge.low / size, gauge.high / size, name)


def _banded(value: float, low: float, high: float, name: str) -> Banded:
    # The limits keep one digit more than the figure, or a narrow band would print as one number.
    finer = (high - low) / 10
    return Banded(
        value=f"{round_to_band(value, low, high)} {name}",
        low=round_to_band(low, low - finer, low + finer),
        high=f"{round_to_band(high, high - finer, high + finer)} {name}",
    )


def section(plan: Plan) -> str:
    """Name the bar, e.g. ``1/4 by 2 in flat``, with the sign for by."""
    bar = plan.job.part.bar
    thick = stated_length(plan.job, bar.thickness)
    unit = "mm" if reading_of(plan.job) == "mm" else "in"
    if bar.section == "flat":
        return f"{thick} \N{MULTIPLICATION SIGN} {stated_length(plan.job, bar.width)} {unit} flat"
    return f"{thick} {unit} {bar.section}"
