"""Figures as a drawing shows them: those of the reader, fractions set."""

from __future__ import annotations

import math

from strapwright.bending.bend_values import Band
from strapwright.planning.plan_values import Plan, Step
from strapwright.quantities import show_length
from strapwright.quantities.inside_units import INCH_MM
from strapwright.scene.lettering import as_fractions
from strapwright.shop.job import Job
from strapwright.wording.figures import Banded, figures_for, reading_of


def length(job: Job, mm: float) -> str:
    """Return a length on the bar with its unit."""
    return as_fractions(figures_for(job).on_bar(mm))


def bare_length(job: Job, mm: float) -> str:
    """Return a length without its unit, for drawings that name the unit once."""
    return length(job, mm).removesuffix(" mm").removesuffix(" in")


def stated_length(job: Job, mm: float) -> str:
    """Return a bare length as a person states it: whole millimetres without a decimal."""
    return as_fractions(figures_for(job).stated(mm)).removesuffix(" mm").removesuffix(" in")


def setting(job: Job, mm: float) -> str:
    """Return what the ram is set to, in decimals with its unit."""
    return figures_for(job).setting(mm)


def length_unit(job: Job) -> str:
    """Name of the unit that bare lengths are in."""
    return "mm" if reading_of(job) == "mm" else "inches"


def fraction_of(inches: float) -> str:
    """Write sixteenths of an inch as a fraction, without the unit."""
    return as_fractions(show_length(inches * INCH_MM, "1/16")).removesuffix(" in")


def stated_angle(rad: float) -> str:
    """Return an angle as a person states it: whole degrees without a decimal."""
    return f"{round(math.degrees(rad), 1):g}°"


def banded_angle(job: Job, rad: float, band: Band) -> str:
    """Return an angle rounded to its band."""
    return figures_for(job).angle(rad, band)


def pressure_below(job: Job, mpa: float) -> str:
    """Return a pressure not to be passed: rounded down to a division one can read."""
    return figures_for(job).pressure_down(mpa)


def banded_load(job: Job, step: Step) -> Banded:
    """Reading at the end of the stroke, or the force where there is no gauge."""
    show = figures_for(job)
    if step.gauge is None:
        return show.banded(step.force, step.bands.force, "N")
    gauge = step.gauge
    return show.banded(gauge.value, Band(low=gauge.low, high=gauge.high), "MPa")


def section(plan: Plan) -> str:
    """Name the bar, e.g. ``1/4 by 2 in flat``, with the sign for by."""
    bar = plan.job.part.bar
    thick = stated_length(plan.job, bar.thickness)
    unit = "mm" if reading_of(plan.job) == "mm" else "in"
    if bar.section == "flat":
        return f"{thick} \N{MULTIPLICATION SIGN} {stated_length(plan.job, bar.width)} {unit} flat"
    return f"{thick} {unit} {bar.section}"
