"""What a tolerance on thickness and radius does to the length of the blank."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from strapwright.bending.bend_values import ReleasedBend
from strapwright.blank.allowance_methods import arc_allowance
from strapwright.blank.flat_layout import lay_out
from strapwright.blank.leg_straights import arc_setback, bar_thickness
from strapwright.shop.job import BlankMethod, BlankSettings
from strapwright.shop.part import Part

_STRAIN_FACTORS = (1 / 3, 1 / 2)
"""Range of the neutral axis in a cold bend, from the textbook's factors [-]."""


def length_band(
    part: Part,
    bends: Sequence[ReleasedBend] | None,
    settings: BlankSettings,
    *,
    inside_radii: Sequence[float],
    thickness_tolerance: float,
    radius_tolerance: float,
) -> tuple[float, float]:
    """Least and greatest blank length for a bar and radii within a tolerance.

    The legs of the finished part are held; the effects of thickness and of each radius are
    added without regard to sign, so this is the widest, not the likely, interval.

    Parameters
    ----------
    part, bends, settings, inside_radii
        As in :func:`strapwright.blank.flat_layout.lay_out`.
    thickness_tolerance
        Half width, less than the thickness [mm].
    radius_tolerance
        Half width for every bend; a radius does not fall below 0 [mm].

    Returns
    -------
    tuple of float
        (low, high) [mm].

    Raises
    ------
    InputError
        As :func:`strapwright.blank.flat_layout.lay_out`.
    ValueError
        Where a tolerance is negative or as large as the thickness.

    Notes
    -----
    For ``strain`` the effects are those of ideal arcs of the given radii, with the neutral axis
    at a third or at half of the thickness, whichever moves the length more.
    """
    thickness = bar_thickness(part)
    if not (0 <= thickness_tolerance < thickness and radius_tolerance >= 0):
        raise ValueError(
            f"tolerances {thickness_tolerance} and {radius_tolerance} must be 0 or more, and the "
            f"first under the thickness {thickness}"
        )
    middle = lay_out(part, bends, settings, inside_radii=inside_radii, sight_offset=0.0).length
    half = max(
        _spread(part, way, inside_radii, thickness_tolerance, radius_tolerance)
        for way in _ways(settings)
    )
    return middle - half, middle + half


def deduction_spread(
    part: Part,
    settings: BlankSettings,
    *,
    inside_radii: Sequence[float],
    thickness_tolerance: float,
    radius_tolerance: float,
) -> tuple[float, ...]:
    """Half width of what each bend takes off the sum of its two legs, shape (bends,) [mm].

    Parameters
    ----------
    part, settings, inside_radii, thickness_tolerance, radius_tolerance
        As in :func:`length_band`, of which these are the parts, bend by bend.
    """
    return tuple(
        max(
            _spread(
                evolve(part, bends=(bend,)),
                way,
                (radius,),
                thickness_tolerance,
                radius_tolerance,
            )
            for way in _ways(settings)
        )
        for bend, radius in zip(part.bends, inside_radii, strict=True)
    )


def _ways(settings: BlankSettings) -> list[tuple[BlankMethod, float | None]]:
    if settings.method == "strain":
        return [("factor", k) for k in _STRAIN_FACTORS]
    return [(settings.method, settings.factor)]


def _spread(
    part: Part,
    way: tuple[BlankMethod, float | None],
    inside_radii: Sequence[float],
    thickness_tolerance: float,
    radius_tolerance: float,
) -> float:
    thickness = bar_thickness(part)
    stated = _taken(part, way, thickness, inside_radii)
    # One bar: its thickness is off the same way at every bend.
    by_thickness = max(
        abs(sum(_taken(part, way, thickness + change, inside_radii)) - sum(stated))
        for change in (-thickness_tolerance, thickness_tolerance)
    )
    tight = [max(radius - radius_tolerance, 0.0) for radius in inside_radii]
    wide = [radius + radius_tolerance for radius in inside_radii]
    by_radius = sum(
        max(abs(low - middle), abs(high - middle))
        for low, middle, high in zip(
            _taken(part, way, thickness, tight),
            stated,
            _taken(part, way, thickness, wide),
            strict=True,
        )
    )
    return by_thickness + by_radius


def _taken(
    part: Part,
    way: tuple[BlankMethod, float | None],
    thickness: float,
    inside_radii: Sequence[float],
) -> list[float]:
    """Deduction of each bend, as an ideal arc [mm]."""
    return [
        2 * arc_setback(bend.angle, thickness, radius).to(part.measured)
        - arc_allowance(*way, bend.angle, thickness, radius)
        for bend, radius in zip(part.bends, inside_radii, strict=True)
    ]
