"""Bend allowance: how much flat bar the arc of one bend uses up, by each table method.

All take the bend angle (how far the bend turns the bar) and the inside radius of an ideal arc.
The method ``strain`` is not here: its flat length comes from the stroke solver.
"""

from __future__ import annotations

from math import degrees, log10, pi, tan

from strapwright.errors import InputError, key_of
from strapwright.shop.job import BlankMethod

RIGHT_ANGLE = pi / 2

# Machinery's Handbook, bend allowance for straight bends, formulas (32) to (34):
# L = c T + 1.57 R for 90 deg, R with 1.57 as printed.
BOOK_LINES: dict[BlankMethod, float] = {
    "book soft": 0.55,  # (32) soft brass, soft copper
    "book medium": 0.64,  # (33) half-hard copper and brass, soft steel, aluminium
    "book hard": 0.71,  # (34) bronze, hard copper, cold-rolled steel, spring steel
}

DIN_FLOOR_RATIO = 0.5
"""Below this r/s the DIN 6935 k is held at its value here [-]."""

DIN_NEGLIGIBLE = pi / 12
"""Bend angle under which DIN 6935 takes v as 0: opening angles over 165 deg [rad]."""

_ROUNDING = 1e-12  # rad, numerical; so that 15 deg, however it was computed, is still 15 deg


def book_allowance(method: BlankMethod, angle: float, thickness: float, radius: float) -> float:
    """Bend allowance by a handbook line.

    Parameters
    ----------
    method
        ``book soft``, ``book medium`` or ``book hard``.
    angle
        Bend angle [rad].
    thickness, radius
        Of the bar, and inside radius [mm].

    Returns
    -------
    float
        [mm]

    Notes
    -----
    Machinery's Handbook, formulas (32) to (34) for 90 deg; 'for other angles multiply by the
    angle actually bent over 90'.
    """
    return (BOOK_LINES[method] * thickness + 1.57 * radius) * angle / RIGHT_ANGLE


def factor_allowance(factor: float, angle: float, thickness: float, radius: float) -> float:
    """Bend allowance of an arc at a neutral-axis factor, (R + K T) angle.

    Parameters
    ----------
    factor
        K, from the inside face, as a share of the thickness [-].
    angle
        Bend angle [rad].
    thickness, radius
        Of the bar, and inside radius [mm].

    Returns
    -------
    float
        [mm]

    Notes
    -----
    Kalpakjian and Schmid, Manufacturing Engineering and Technology, eq. 16.2.
    """
    return (radius + factor * thickness) * angle


def textbook_factor(radius: float, thickness: float) -> float:
    """Neutral-axis factor K that a textbook suggests.

    Parameters
    ----------
    radius, thickness
        Inside radius R and thickness T [mm].

    Returns
    -------
    float
        0.33 for R < 2 T, else 0.5 [-].

    Notes
    -----
    Kalpakjian and Schmid, Manufacturing Engineering and Technology, beside eq. 16.2.  The book
    leaves R = 2 T open; 0.5 is taken there, because a blank too long can be trimmed.
    """
    return 0.33 if radius < 2 * thickness else 0.5


def din_factor(radius: float, thickness: float) -> float:
    """Correction k of DIN 6935; the neutral axis lies at k s/2 from the inside face.

    Parameters
    ----------
    radius, thickness
        Inside radius r and thickness s [mm].

    Returns
    -------
    float
        k = 0.65 + 0.5 log10(r/s), at most 1 [-].

    Notes
    -----
    The formula falls to 0 at r/s = 0.05 and below 0 beyond.  It is held at its value for
    r/s = 0.5 (k = 0.4995): the last point at which a printed table for tool design
    (q = 0.5 at R/s = 0.5) still confirms it.
    """
    ratio = max(radius / thickness, DIN_FLOOR_RATIO)
    return min(0.65 + 0.5 * log10(ratio), 1.0)


def _outside_setback(angle: float, thickness: float, radius: float) -> float:
    return (radius + thickness) * (tan(angle / 2) if angle <= RIGHT_ANGLE else 1.0)


def din_compensation(angle: float, thickness: float, radius: float) -> float:
    """Compensation value v of DIN 6935: flat length = sum of outside legs - v.

    Parameters
    ----------
    angle
        Bend angle; the standard's opening angle is pi - ``angle`` [rad].
    thickness, radius
        s and inside radius r [mm].

    Returns
    -------
    float
        v, of either sign for opening angles under about 65 deg [mm].

    Raises
    ------
    InputError
        Past a bend angle of 180 deg, where the standard has no value.

    Notes
    -----
    Opening 0..90 deg: v = 2 (r + s) - angle (r + k s/2), legs to the outside tangent.
    90..165 deg: v = 2 (r + s) tan(angle/2) - angle (r + k s/2), legs to the outside corner.
    Over 165 deg: v = 0, so v has a small step at 165 deg.
    """
    if angle > pi + _ROUNDING:
        raise InputError(
            "blank.method",
            f"a {degrees(angle):g}° bend is past 180°, where DIN 6935 ends",
            f"use another method, for example factor with {key_of('blank.factor')} = 0.5",
            value="din 6935",
        )
    if angle < DIN_NEGLIGIBLE - _ROUNDING:
        return 0.0
    arc = factor_allowance(din_factor(radius, thickness) / 2, angle, thickness, radius)
    return 2 * _outside_setback(angle, thickness, radius) - arc


def din_allowance(angle: float, thickness: float, radius: float) -> float:
    """Flat length between the tangents of the arc that goes with DIN 6935's v.

    The straights between tangents and this allowance add up to the sum of outside legs less v,
    so the same part measured inside or centre gives the same blank.

    Parameters
    ----------
    angle
        Bend angle [rad].
    thickness, radius
        s and inside radius r [mm].

    Returns
    -------
    float
        Twice the outside setback less v [mm].

    Raises
    ------
    InputError
        As :func:`din_compensation`.
    """
    outside = _outside_setback(angle, thickness, radius)
    return 2 * outside - din_compensation(angle, thickness, radius)


def arc_allowance(
    method: BlankMethod, factor: float | None, angle: float, thickness: float, radius: float
) -> float:
    """Bend allowance by any method that needs no tooling.

    Parameters
    ----------
    method
        Any but ``strain``.
    factor
        Neutral-axis factor K, needed by the method ``factor``, 0 to 1 [-].
    angle
        Bend angle [rad].
    thickness, radius
        Of the bar, and inside radius [mm].

    Returns
    -------
    float
        [mm]

    Raises
    ------
    InputError
        Where the method lacks its factor or has no value for the angle.
    ValueError
        For ``strain``, which is not a table method.
    """
    if method in BOOK_LINES:
        return book_allowance(method, angle, thickness, radius)
    if method == "din 6935":
        return din_allowance(angle, thickness, radius)
    if method != "factor":
        raise ValueError(f"{method!r} has no allowance formula")
    if factor is None:
        usual = textbook_factor(radius, thickness)
        raise InputError(
            "blank.factor",
            "the method 'factor' needs a neutral-axis factor and none is given",
            f"give one between 0 and 1, for example the textbook's {usual:g} for this radius",
        )
    if not 0 <= factor <= 1:
        raise InputError(
            "blank.factor",
            "a neutral-axis factor lies between 0 (inside face) and 1 (outside face)",
            "give one in that range, usually 0.33 to 0.5",
            value=f"{factor:g}",
        )
    return factor_allowance(factor, angle, thickness, radius)
