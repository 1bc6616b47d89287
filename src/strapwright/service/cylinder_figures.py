"""What can be said about a cylinder from whichever figures a person has."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Literal, cast

from attrs import frozen

from strapwright.bending import hydraulics
from strapwright.errors import InputError
from strapwright.quantities import (
    Units,
    positive,
    read_flow,
    read_force,
    read_length,
    read_pressure,
    read_ratio,
    show_force,
    show_length,
    show_pressure,
    show_speed,
)
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed
from strapwright.wording.caution_words import ESTIMATE, NEVER_ABOVE

_HORSEPOWER = 745.6998715822702  # W; 550 ft lbf/s by definition


@frozen(kw_only=True)
class Cylinder:
    """The figures stated; ``None`` where not stated [mm, MPa, N, mm3/s, -]."""

    bore: float | None
    rod: float | None
    pressure: float | None
    force: float | None
    flow: float | None
    efficiency: float


@frozen(kw_only=True)
class Answer:
    """One figure.

    Attributes
    ----------
    key
        In JSON, with the unit of ``value`` at its end.
    value
        In mm, MPa, N or W.
    name
        For a person.
    inch, metric
        The figure for a person in each system.
    more
        What follows the figure, whatever its unit.
    """

    key: str
    value: float
    name: str
    inch: str
    metric: str
    more: str = ""

    def text(self, units: Units | None) -> str:
        """Return the figure in one system, or in both where ``units`` is ``None``."""
        own = {"inch": self.inch, "metric": self.metric}
        shown = f"{self.inch} = {self.metric}" if units is None else own[units]
        return f"{shown}{self.more}"


NO_FRICTION = "Friction is not included; seals and guides usually cost about 5 % of a push."


def read_cylinder(
    *,
    bore: str | None,
    rod: str | None,
    pressure: str | None,
    force: str | None,
    flow: str | None,
    efficiency: str,
    units: str | None,
) -> Cylinder:
    """Read what was typed.

    Parameters
    ----------
    bore, rod, pressure, force, flow, efficiency
        As typed, ``None`` where not.
    units
        ``inch``, ``metric`` or ``None``, which refuses a number without a unit.

    Returns
    -------
    Cylinder
        The figures [mm, MPa, N, mm3/s, -].

    Raises
    ------
    InputError
        If one is not a quantity of its kind, or not above 0, or the efficiency is above 1.
    """
    system = cast("Literal['inch', 'metric'] | None", units)

    def read(
        text: str | None,
        what: str,
        reader: Callable[[str, str, Units | None], Fraction],
    ) -> float | None:
        if text is None:
            return None
        where = f"--{what}"
        return float(positive(reader(text, where, system), where, text, what))

    share = float(
        positive(read_ratio(efficiency, "--efficiency"), "--efficiency", efficiency, "share")
    )
    if share > 1.0:
        raise InputError(
            "--efficiency",
            "it is above 1",
            "give a share up to 1, for example 0.95",
            value=efficiency,
        )
    return Cylinder(
        bore=read(bore, "bore", read_length),
        rod=read(rod, "rod", read_length),
        pressure=read(pressure, "pressure", read_pressure),
        force=read(force, "force", read_force),
        flow=read(flow, "flow", read_flow),
        efficiency=share,
    )


def answers(given: Cylinder) -> tuple[Answer, ...]:
    """Work out everything that the stated figures allow.

    Parameters
    ----------
    given
        See :func:`read_cylinder`.

    Returns
    -------
    tuple of Answer
        At least one.

    Raises
    ------
    InputError
        If nothing can be worked out, or the rod does not pass through the bore.
    """
    found: list[Answer] = []
    if given.bore is not None:
        found = _with_bore(given, given.bore)
    elif given.pressure is not None and given.force is not None:
        area = given.force / (given.pressure * given.efficiency)
        found.append(_bore(math.sqrt(4.0 * area / math.pi)))
    elif given.force is not None:
        found.append(_force("force", given.force))
    if given.pressure is not None and given.flow is not None:
        found.append(_power(hydraulics.hydraulic_power(given.pressure, given.flow)))
    if not found:
        raise InputError(
            "force",
            "nothing follows from what was given",
            "give two of --bore, --pressure, --force and --flow",
        )
    return tuple(found)


def cautions() -> str:
    """Say what stands beside every figure of a cylinder."""
    return f"{NEVER_ABOVE} {ESTIMATE}"


def _with_bore(given: Cylinder, bore: float) -> list[Answer]:
    rod, share = given.rod, given.efficiency
    found = [_area("piston", hydraulics.piston_area(bore))]
    if rod is not None:
        found.append(_area("rod side", hydraulics.annulus_area(bore, rod)))
    if given.pressure is not None:
        found.append(_force("push", hydraulics.push_force(bore, given.pressure, share)))
        if rod is not None:
            found.append(_force("pull", hydraulics.pull_force(bore, rod, given.pressure, share)))
    if given.force is not None:
        found.append(_pressure(hydraulics.pressure_for(given.force, bore, share)))
    if given.flow is not None:
        found.append(_speed("out", hydraulics.ram_speed(given.flow, bore)))
        if rod is not None:
            found.append(_speed("back", hydraulics.retract_speed(given.flow, bore, rod)))
    return found


def _force(name: str, newtons: float) -> Answer:
    return Answer(
        key="force_N" if name == "force" else f"{name}_force_N",
        value=newtons,
        name=name,
        inch=f"{show_force(newtons, 'lbf')} = {show_force(newtons, 'tons (US)')}",
        metric=f"{show_force(newtons, 'kN')} = {show_force(newtons, 'tonnes')}",
    )


def _area(name: str, area: float) -> Answer:
    return Answer(
        key=f"{name.replace(' ', '_')}_area_mm2",
        value=area,
        name=f"{name} area",
        inch=f"{fixed(area / INCH_MM**2, 4)} in²",
        metric=f"{fixed(area, 0)} mm²",
    )


def _pressure(mpa: float) -> Answer:
    return Answer(
        key="pressure_MPa",
        value=mpa,
        name="gauge",
        inch=show_pressure(mpa, "psi"),
        metric=f"{show_pressure(mpa, 'bar')} = {show_pressure(mpa, 'MPa')}",
    )


def _speed(way: str, speed: float) -> Answer:
    return Answer(
        key=f"speed_{way}_mm_s",
        value=speed,
        name=f"speed {way}",
        inch=show_speed(speed, "inch"),
        metric=show_speed(speed, "metric"),
    )


def _bore(bore: float) -> Answer:
    return Answer(
        key="bore_mm",
        value=bore,
        name="bore",
        inch=show_length(bore, "decimal"),
        metric=show_length(bore, "mm"),
        more=", at least",
    )


def _power(watts: float) -> Answer:
    return Answer(
        key="power_W",
        value=watts,
        name="power",
        inch=f"{fixed(watts / _HORSEPOWER, 2)} hp",
        metric=f"{fixed(watts / 1000.0, 2)} kW",
        more=" in the oil",
    )
