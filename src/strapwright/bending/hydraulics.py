"""Cylinder and pump: pressure to force and back, ram speed, hydraulic power.

Static pressure on an area (Pascal's law, p = F / A) and conservation of flow (v = Q / A); both are
definitions, found in any text on fluid power.  What seals and guides take is one share,
``efficiency``, and one pressure, ``no_load``.  Units: mm, N, MPa, mm3/s, mm/s, W.
"""

from __future__ import annotations

import math

from strapwright.errors import InputError
from strapwright.quantities import either_length


def piston_area(bore: float) -> float:
    """Area that the pressure pushes on.

    Parameters
    ----------
    bore
        Bore of the cylinder, above 0 [mm].

    Returns
    -------
    float
        A = pi D^2 / 4 [mm2].

    Raises
    ------
    InputError
        If the bore is not above 0.
    """
    _above_zero(bore, "press.bore", "bore")
    return math.pi * bore * bore / 4.0


def annulus_area(bore: float, rod: float) -> float:
    """Area that the pressure pulls on: the piston less its rod.

    Parameters
    ----------
    bore, rod
        Diameters, 0 < rod < bore [mm].

    Returns
    -------
    float
        A = pi (D^2 - d^2) / 4 [mm2].

    Raises
    ------
    InputError
        If a diameter is not above 0, or the rod does not pass through the bore.
    """
    whole = piston_area(bore)
    _above_zero(rod, "press.rod", "rod")
    if rod >= bore:
        raise InputError(
            "press.rod",
            f"the rod, {either_length(rod, 2)}, is not thinner than the bore, "
            f"{either_length(bore, 2)}",
            "give the diameter of the piston rod",
        )
    return whole - math.pi * rod * rod / 4.0


def push_force(bore: float, pressure: float, efficiency: float = 1.0) -> float:
    """Force of the ram pushing.

    Parameters
    ----------
    bore
        [mm]
    pressure
        What drives the piston, the no-load pressure already taken off [MPa].
    efficiency
        Share of the hydraulic force that arrives, above 0 up to 1 [-].

    Returns
    -------
    float
        F = eta p A [N].

    Raises
    ------
    InputError
        If a value is out of its range.
    """
    _share(efficiency)
    _not_negative(pressure, "pressure")
    return efficiency * pressure * piston_area(bore)


def pull_force(bore: float, rod: float, pressure: float, efficiency: float = 1.0) -> float:
    """Force of the ram pulling back, on the rod side.

    Parameters
    ----------
    bore, rod
        [mm]
    pressure
        What drives the piston, the no-load pressure already taken off [MPa].
    efficiency
        Share of the hydraulic force that arrives, above 0 up to 1 [-].

    Returns
    -------
    float
        F = eta p (A - A_rod) [N].

    Raises
    ------
    InputError
        If a value is out of its range.
    """
    _share(efficiency)
    _not_negative(pressure, "pressure")
    return efficiency * pressure * annulus_area(bore, rod)


def pressure_for(force: float, bore: float, efficiency: float = 1.0, no_load: float = 0.0) -> float:
    """Gauge reading while the ram pushes with a force.

    Parameters
    ----------
    force
        On the nose [N].
    bore
        [mm]
    efficiency
        Share of the hydraulic force that arrives, above 0 up to 1 [-].
    no_load
        What the gauge reads while the ram moves against nothing [MPa].

    Returns
    -------
    float
        p = F / (A eta) + p_0 [MPa].

    Raises
    ------
    InputError
        If a value is out of its range.
    """
    _share(efficiency)
    _not_negative(force, "force")
    _not_negative(no_load, "no_load")
    return force / (piston_area(bore) * efficiency) + no_load


def most_force(relief: float, bore: float, efficiency: float = 1.0, no_load: float = 0.0) -> float:
    """Most that the ram pushes with when the relief valve opens.

    Parameters
    ----------
    relief
        Setting of the relief valve [MPa].
    bore
        [mm]
    efficiency
        Share of the hydraulic force that arrives, above 0 up to 1 [-].
    no_load
        What the gauge reads while the ram moves against nothing [MPa].

    Returns
    -------
    float
        F = eta A max(p_relief - p_0, 0), the inverse of :func:`pressure_for` [N].

    Raises
    ------
    InputError
        If a value is out of its range.
    """
    _not_negative(relief, "relief")
    _not_negative(no_load, "no_load")
    return push_force(bore, max(relief - no_load, 0.0), efficiency)


def ram_speed(flow: float, bore: float) -> float:
    """Speed of the ram going out.

    Parameters
    ----------
    flow
        What the pump delivers [mm3/s].
    bore
        [mm]

    Returns
    -------
    float
        v = Q / A [mm/s].

    Raises
    ------
    InputError
        If a value is out of its range.
    """
    _not_negative(flow, "flow")
    return flow / piston_area(bore)


def retract_speed(flow: float, bore: float, rod: float) -> float:
    """Speed of the ram coming back.

    Parameters
    ----------
    flow
        What the pump delivers [mm3/s].
    bore, rod
        [mm]

    Returns
    -------
    float
        v = Q / (A - A_rod) [mm/s].

    Raises
    ------
    InputError
        If a value is out of its range.
    """
    _not_negative(flow, "flow")
    return flow / annulus_area(bore, rod)


def hydraulic_power(pressure: float, flow: float) -> float:
    """Power in the oil.

    Parameters
    ----------
    pressure
        [MPa]
    flow
        [mm3/s]

    Returns
    -------
    float
        P = p Q [W]; 1 MPa mm3/s is 1 mW.

    Raises
    ------
    InputError
        If a value is negative.
    """
    _not_negative(pressure, "pressure")
    _not_negative(flow, "flow")
    return pressure * flow / 1000.0


def _above_zero(value: float, where: str, name: str) -> None:
    if not (math.isfinite(value) and value > 0.0):
        raise InputError(where, f"{name} is {value:.6g} mm", f"give the {name} as a length above 0")


def _not_negative(value: float, name: str) -> None:
    if not (math.isfinite(value) and value >= 0.0):
        raise InputError(f"press.{name}", f"it is {value:.6g}", "give a value of 0 or more")


def _share(efficiency: float) -> None:
    if not 0.0 < efficiency <= 1.0:
        raise InputError(
            "press.efficiency",
            f"it is {efficiency:.6g}",
            "give a share above 0 and up to 1, for example 0.95",
        )
