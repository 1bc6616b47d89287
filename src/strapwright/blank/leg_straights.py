"""From legs as a person measures them to the straights between the bends.

Where a leg's dimension ends, at a bend with inside radius r in a bar of thickness s:

======================  ==============================  =====================================
measured                bend angle up to 90 deg         bend angle past 90 deg (acute opening)
======================  ==============================  =====================================
outside                 where the outer faces meet      farthest point of the outer face
inside                  where the inner faces meet      farthest point of the inner face
centre                  where the mid-lines meet        farthest point of the mid-line
======================  ==============================  =====================================

'Farthest' is along the leg.  The outside column is DIN 6935's (legs to the outside corner for
opening angles over 90 deg, to the outside tangent below).  For inside and centre dimensions of
acute bends the standard says nothing; carrying the tangent over to those two lines is our own
convention.  Both columns agree at exactly 90 deg.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, isfinite, tan

from attrs import frozen

from strapwright.bending.bend_values import ReleasedBend
from strapwright.blank.allowance_methods import RIGHT_ANGLE
from strapwright.errors import InputError, either_unit
from strapwright.quantities import either_length
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.part import Measured, Part

_ROUNDING = 1e-9  # mm, numerical


@frozen(kw_only=True)
class Setback:
    """How far a leg's dimension runs past the point where the leg stops being straight [mm]."""

    outside: float
    inside: float
    centre: float

    def to(self, measured: Measured) -> float:
        """Pick the setback for the way the legs are measured.

        Parameters
        ----------
        measured
            ``outside``, ``inside`` or ``centre``; a straight length ends where the bend begins.

        Returns
        -------
        float
            [mm]
        """
        if measured == "straight":
            return 0.0
        return {"outside": self.outside, "inside": self.inside, "centre": self.centre}[measured]


def arc_setback(angle: float, thickness: float, radius: float) -> Setback:
    """Setback at a bend that is an ideal arc.

    Parameters
    ----------
    angle
        Bend angle [rad].
    thickness, radius
        Of the bar, and inside radius [mm].

    Returns
    -------
    Setback
        Each line's own radius times tan(angle/2), or the radius itself past 90 deg.
    """
    share = tan(angle / 2) if angle <= RIGHT_ANGLE else 1.0
    return Setback(
        outside=(radius + thickness) * share,
        inside=radius * share,
        centre=(radius + thickness / 2) * share,
    )


def released_setback(bend: ReleasedBend) -> Setback:
    """Setback at a bend as the stroke solver shaped it.

    At the farthest point of a face the bar stands square to the leg, so outer face, mid-line and
    inner face follow each other at half a thickness along the leg.

    Parameters
    ----------
    bend
        Free shape of the bend.

    Returns
    -------
    Setback
        [mm]
    """
    half = bend.thickness / 2
    if bend.angle <= RIGHT_ANGLE:
        corner = half * tan(bend.angle / 2)
        return Setback(
            outside=bend.apex_distance + corner,
            inside=bend.apex_distance - corner,
            centre=bend.apex_distance,
        )
    return Setback(
        outside=bend.outside_reach,
        inside=bend.outside_reach - bend.thickness,
        centre=bend.outside_reach - half,
    )


def bar_thickness(part: Part) -> float:
    """Thickness as measured on the lot, else nominal.

    Parameters
    ----------
    part
        The finished part.

    Returns
    -------
    float
        [mm]
    """
    return part.bar.thickness if part.lot.thickness is None else part.lot.thickness


def setbacks(
    part: Part, bends: Sequence[ReleasedBend] | None, *, inside_radii: Sequence[float]
) -> tuple[Setback, ...]:
    """Setback at each bend of a part, from the solver's shapes or from ideal arcs.

    Parameters
    ----------
    part
        The finished part, with at least one bend.
    bends
        One a bend of the part, or ``None`` for ideal arcs.
    inside_radii
        Inside radius of each bend, used where ``bends`` is ``None`` [mm].

    Returns
    -------
    tuple of Setback
        Shape (bends,).

    Raises
    ------
    InputError
        Where the part has no bend, or a radius is negative or not a number.
    ValueError
        Where the shapes do not fit each other.
    """
    count = len(part.bends)
    if count == 0:
        raise InputError(
            "part.shape", "there is no bend in it", "give a leg, a bend and a leg at least"
        )
    given = len(inside_radii if bends is None else bends)
    if len(part.legs) != count + 1 or given != count or len(inside_radii) != count:
        raise ValueError(
            f"{count} bends need {count + 1} legs and {count} radii and released bends, "
            f"not {len(part.legs)}, {len(inside_radii)} and {given}"
        )
    for number, radius in enumerate(inside_radii, start=1):
        if not (isfinite(radius) and radius >= 0):
            raise InputError(
                "part.inside_radius",
                f"the inside radius of bend {number} is {either_length(radius)}",
                "give a radius of 0 or more",
            )
    if bends is not None:
        return tuple(released_setback(bend) for bend in bends)
    thickness = bar_thickness(part)
    return tuple(
        arc_setback(bend.angle, thickness, radius)
        for bend, radius in zip(part.bends, inside_radii, strict=True)
    )


def straights(
    part: Part, bends: Sequence[ReleasedBend] | None, *, inside_radii: Sequence[float]
) -> tuple[float, ...]:
    """Straight length of each leg, from where one bend ends to where the next begins.

    Parameters
    ----------
    part, bends, inside_radii
        As in :func:`setbacks`.

    Returns
    -------
    tuple of float
        Shape (legs,), none negative [mm].

    Raises
    ------
    InputError
        Where a leg is shorter than its bends need, naming the leg; else as :func:`setbacks`.
    """
    return straights_between(part, setbacks(part, bends, inside_radii=inside_radii))


def straights_between(part: Part, ends: Sequence[Setback]) -> tuple[float, ...]:
    """Straight length of each leg for known setbacks.

    Parameters
    ----------
    part
        The finished part.
    ends
        Setback at each bend, shape (bends,).

    Returns
    -------
    tuple of float
        Shape (legs,), none negative [mm].

    Raises
    ------
    InputError
        Where a leg is shorter than its bends need, naming the leg.
    """
    taken = (0.0, *(setback.to(part.measured) for setback in ends), 0.0)
    lengths = []
    for index, leg in enumerate(part.legs):
        least = taken[index] + taken[index + 1]
        if not leg - least >= -_ROUNDING:
            # Up in both systems: what is typed from this sentence is then long enough.
            shown = either_unit(
                f"{ceil(least * 100) / 100:.2f} mm", f"{ceil(least / INCH_MM * 1000) / 1000:.3f} in"
            )
            raise InputError(
                "part.shape",
                f"leg {index + 1} is {either_length(leg, 2)} measured {part.measured}, and the "
                f"bends beside it take up {shown}",
                f"make leg {index + 1} at least {shown}, or bend with a smaller radius",
            )
        lengths.append(max(leg - least, 0.0))
    return tuple(lengths)
