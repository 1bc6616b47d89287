"""Rules of the trade, shown beside our own figures and never used for them.

Each line says what the rule leaves out, so a person can see why the two differ.
mm, N, MPa, rad.
"""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.bending.bend_values import BendSetup
from strapwright.bending.closed_forms import (
    rectangle_plastic_modulus,
    three_point_collapse_load,
)
from strapwright.errors import InputError
from strapwright.quantities.inside_units import InsideUnit

# Kalpakjian and Schmid (2003), the upper end for a vee (from memory).
V_DIE_FACTOR = 1.33
# Common practice, no source: half the opening under the leg, and an opening in thicknesses.
SMALLEST_LEG_SHARE = 0.5
OPENING_THICKNESSES = 8.0


@frozen(kw_only=True)
class CrossCheck:
    """One rule's figure, with where it comes from.

    Attributes
    ----------
    name
        What the rule is called in the shop.
    value
        In ``unit``.
    unit
        What ``value`` is held in.
    source
        Where it is printed, or that it is common practice.
    leaves_out
        What the rule does not know.
    """

    name: str
    value: float
    unit: InsideUnit
    source: str
    leaves_out: str


def handbook_force(
    tensile_strength: float,
    width: float,
    thickness: float,
    opening: float,
    *,
    factor: float = V_DIE_FACTOR,
) -> float:
    """Peak force on a vee or pair of shoulders [N]: k UTS b t^2/W.

    ``tensile_strength`` [MPa]; ``width``, ``thickness``, ``opening`` [mm]; ``factor`` k [-],
    1.2 to 1.33 for a vee, 0.33 for wiping over an edge.
    Source: Kalpakjian and Schmid, Manufacturing Processes for Engineering Materials (2003);
    Groover, Fundamentals of Modern Manufacturing (k from memory).
    Range: openings of about eight thicknesses; knows neither radii, friction nor angle, and was
    found 52 % too low to 7 % too high beside finite elements.

    Raises
    ------
    InputError
        Where the opening is not above 0.
    """
    if opening <= 0.0:
        raise InputError("opening", f"opening is {opening:g} mm", "give an opening above 0")
    return factor * tensile_strength * width * thickness**2 / opening


def moment_force(yield_stress: float, width: float, thickness: float, opening: float) -> float:
    """Collapse load of the bar as a beam over the opening [N]: 4 M_p/W with M_p = Y b t^2/4.

    ``yield_stress`` [MPa]; ``width``, ``thickness``, ``opening`` [mm].
    Source: plastic design; worked in a university laboratory report on bending of flat bar.
    Range: start of bending; the span does not shorten, the metal does not harden and no friction
    acts, so the force later in the stroke is higher.

    Raises
    ------
    InputError
        Where the opening is not above 0.
    """
    if opening <= 0.0:
        raise InputError("opening", f"opening is {opening:g} mm", "give an opening above 0")
    return three_point_collapse_load(
        rectangle_plastic_modulus(width, thickness), yield_stress, opening
    )


def springback_radius_ratio(
    inside_radius: float, yield_stress: float, modulus: float, thickness: float
) -> float:
    """Bend radius under load over radius after letting go [-]: 4 x^3 - 3 x + 1.

    x = R_i Y/(E t); ``inside_radius`` R_i and ``thickness`` t [mm], ``yield_stress`` Y and
    ``modulus`` E [MPa].
    Source: Kalpakjian and Schmid, Manufacturing Processes for Engineering Materials, chapter on
    sheet forming.
    Range: x from 0 to 1/2, where the section stays elastic and everything springs back.  Leaves
    out hardening and the curved legs: a fifth to a half of the real springback.

    Raises
    ------
    InputError
        Where x is outside 0 to 1/2.
    """
    x = inside_radius * yield_stress / (modulus * thickness)
    if not 0.0 <= x <= 0.5:
        raise InputError(
            "inside_radius",
            f"R Y/(E t) is {x:.3g}; past 0.5 the bar stays elastic and takes no bend",
            "give a smaller radius or a thicker bar",
        )
    return 4.0 * x**3 - 3.0 * x + 1.0


def springback_angle(
    loaded_angle: float, inside_radius: float, thickness: float, radius_ratio: float
) -> float:
    """Return what the wrapped arc alone opens on letting go [rad].

    ``loaded_angle`` [rad]; ``inside_radius`` R_i under load and ``thickness`` t [mm];
    ``radius_ratio`` R_i/R_f [-], above 0.  The mid-line keeps its length, so
    alpha_f = alpha_i (R_i + t/2)/(R_f + t/2).
    Source: Kalpakjian and Schmid, as :func:`springback_radius_ratio`.

    Raises
    ------
    InputError
        Where the ratio is outside 0 to 1.
    """
    share = _angle_share(inside_radius, thickness, radius_ratio)
    return loaded_angle * (1.0 - share)


def _angle_share(inside_radius: float, thickness: float, radius_ratio: float) -> float:
    if not 0.0 < radius_ratio <= 1.0:
        raise InputError(
            "radius_ratio",
            f"a radius ratio of {radius_ratio:.3g} is outside 0 to 1",
            "give a smaller radius or a thicker bar",
        )
    free_radius = inside_radius / radius_ratio
    return (inside_radius + thickness / 2.0) / (free_radius + thickness / 2.0)


def smallest_leg(opening: float, bend_angle: float, thickness: float) -> float:
    """Shortest outside leg that still rests on its shoulder when the bend is done [mm].

    Half the opening over the cosine of half the bend angle, plus one thickness.
    ``opening``, ``thickness`` [mm]; ``bend_angle`` total [rad], below pi.
    Source: common practice, no source (for 90 deg it is 0.71 W + t).

    Raises
    ------
    InputError
        Where the angle is outside 0 to 180 deg.
    """
    if not 0.0 <= bend_angle < math.pi:
        raise InputError(
            "bend_angle",
            f"{math.degrees(bend_angle):g}° is outside 0 to 180°",
            "give the angle through which the bar turns",
        )
    return SMALLEST_LEG_SHARE * opening / math.cos(bend_angle / 2.0) + thickness


def customary_opening(thickness: float) -> float:
    """Return an opening of eight thicknesses [mm]; ``thickness`` [mm].

    Source: common practice, no source.  Range: mild steel up to about 12 mm; thicker or stronger
    bar takes ten to twelve.
    """
    return OPENING_THICKNESSES * thickness


def cross_checks(
    setup: BendSetup, tensile_strength: float, loaded_angle: float, free_angle: float
) -> tuple[CrossCheck, ...]:
    """Collect the rules for one bend, forces over all bars.

    Parameters
    ----------
    setup
        The bend.  The two rules for force are stated for rectangles, so a round bar has neither.
    tensile_strength
        [MPa]
    loaded_angle, free_angle
        Total, under the ram and after letting go [rad].

    Raises
    ------
    InputError
        As the rules.
    """
    t = setup.thickness
    checks = []
    if setup.section != "round":
        handbook = handbook_force(tensile_strength, setup.width, t, setup.opening)
        collapse = moment_force(setup.flow.yield_stress, setup.width, t, setup.opening)
        checks += [
            CrossCheck(
                name="handbook force",
                value=handbook * setup.bars,
                unit="N",
                source="Kalpakjian and Schmid (2003), k = 1.33",
                leaves_out="radii, friction, angle, hardening beyond the tensile strength",
            ),
            CrossCheck(
                name="force of a plastic hinge",
                value=collapse * setup.bars,
                unit="N",
                source="plastic design, 4 M_p/W",
                leaves_out="hardening, friction, the span that shortens",
            ),
        ]
    ratio = springback_radius_ratio(
        setup.nose_radius, setup.flow.yield_stress, setup.flow.modulus, t
    )
    checks += [
        CrossCheck(
            name="classical springback",
            value=springback_angle(loaded_angle, setup.nose_radius, t, ratio),
            unit="rad",
            source="Kalpakjian and Schmid, 4 x^3 - 3 x + 1",
            leaves_out="hardening and the curved legs",
        ),
        CrossCheck(
            name="smallest leg",
            value=smallest_leg(setup.opening, free_angle, t),
            unit="mm",
            source="common practice, no source",
            leaves_out="radii and where the leg really touches",
        ),
        CrossCheck(
            name="eight times thickness",
            value=customary_opening(t),
            unit="mm",
            source="common practice, no source",
            leaves_out="material, radius, the force at hand",
        ),
    ]
    return tuple(checks)
