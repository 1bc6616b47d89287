"""The blank of a part: its length by the wanted method, its marks and its holes."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import get_args

from attrs import frozen

from strapwright.bending.bend_values import ReleasedBend
from strapwright.blank.allowance_methods import arc_allowance
from strapwright.blank.blank_values import Alternative, Blank, Mark
from strapwright.blank.flat_holes import flat_holes, flat_welds
from strapwright.blank.leg_straights import (
    Setback,
    bar_thickness,
    setbacks,
    straights,
    straights_between,
)
from strapwright.errors import InputError
from strapwright.shop.job import BlankMethod, BlankSettings
from strapwright.shop.part import Part

METHODS: tuple[BlankMethod, ...] = get_args(BlankMethod)


@frozen(kw_only=True)
class _Development:
    """One method's way of laying a part flat."""

    ends: tuple[Setback, ...]
    straights: tuple[float, ...]
    allowances: tuple[float, ...]

    @property
    def length(self) -> float:
        return sum(self.straights) + sum(self.allowances)

    @property
    def zones(self) -> tuple[tuple[float, float], ...]:
        at = 0.0
        zones = []
        for straight, allowance in zip(self.straights, self.allowances, strict=False):
            begin = at + straight
            at = begin + allowance
            zones.append((begin, at))
        return tuple(zones)


def lay_out(
    part: Part,
    bends: Sequence[ReleasedBend] | None,
    settings: BlankSettings,
    *,
    inside_radii: Sequence[float],
    sight_offset: float,
    hits: Sequence[int] = (),
) -> Blank:
    """Lay a part flat.

    Parameters
    ----------
    part
        The finished part.
    bends
        Shape of each bend from the stroke solver, or ``None`` where there is no tooling.
    settings
        Which method, and its factor.
    inside_radii
        Inside radius of each bend for the table methods: the wrap radius where there is tooling,
        else as stated, shape (bends,) [mm].
    sight_offset
        From the middle of the nose to the edge of the tooling that can be seen, 0 or more [mm].
    hits
        How many hits make each bend, 0 for a bend made by one, shape (bends,); empty where there
        is no row.  The hits of a row share its zone evenly.

    Returns
    -------
    Blank
        ``alternatives`` holds every other method that applies to this part: that has what it
        needs, has a value for every bend angle, and leaves no leg too short.

    Raises
    ------
    InputError
        Where the method lacks something (naming the methods that do work), a leg is too short
        for its bends, or a hole is off the bar.
    ValueError
        Where the sequences do not fit the part, or ``sight_offset`` is negative.
    """
    if not (isfinite(sight_offset) and sight_offset >= 0):
        raise ValueError(f"sight_offset is {sight_offset}, it must be 0 or more")
    flat = _develop(settings.method, part, bends, settings, inside_radii)
    zones = flat.zones
    return Blank(
        length=flat.length,
        method=settings.method,
        allowances=flat.allowances,
        deductions=tuple(
            2 * end.to(part.measured) - allowance
            for end, allowance in zip(flat.ends, flat.allowances, strict=True)
        ),
        alternatives=_others(part, bends, settings, inside_radii),
        marks=tuple(
            mark
            for number, (zone, row) in enumerate(
                zip(zones, hits or [0] * len(zones), strict=True), start=1
            )
            for mark in _marks(number, zone, row, sight_offset)
        ),
        holes=flat_holes(part, flat.ends, zones, flat.length),
        welds=flat_welds(part, flat.ends, zones, flat.length),
    )


def _marks(bend: int, zone: tuple[float, float], row: int, sight_offset: float) -> list[Mark]:
    """Marks of one bend: in the middle of its zone, or of each hit's share of it."""
    begin, end = zone
    count = max(row, 1)
    marks = []
    for hit in range(count):
        nose = begin + (end - begin) * (2 * hit + 1) / (2 * count)
        marks.append(
            Mark(
                bend=bend,
                nose=nose,
                sight=nose + sight_offset,
                tangents=zone,
                hit=hit + 1 if row else 0,
            )
        )
    return marks


def _develop(
    method: BlankMethod,
    part: Part,
    bends: Sequence[ReleasedBend] | None,
    settings: BlankSettings,
    inside_radii: Sequence[float],
) -> _Development:
    if method == "strain":
        if bends is None:
            raise _needs_tooling(part, settings, inside_radii)
        ends = setbacks(part, bends, inside_radii=inside_radii)
        allowances = tuple(bend.flat_length for bend in bends)
    else:
        ends = setbacks(part, None, inside_radii=inside_radii)
        thickness = bar_thickness(part)
        allowances = tuple(
            arc_allowance(method, settings.factor, bend.angle, thickness, radius)
            for bend, radius in zip(part.bends, inside_radii, strict=True)
        )
    return _Development(ends=ends, straights=straights_between(part, ends), allowances=allowances)


def _others(
    part: Part,
    bends: Sequence[ReleasedBend] | None,
    settings: BlankSettings,
    inside_radii: Sequence[float],
) -> tuple[Alternative, ...]:
    found = []
    for method in METHODS:
        if method == settings.method or (method == "strain" and bends is None):
            continue
        try:
            flat = _develop(method, part, bends, settings, inside_radii)
        except InputError:
            continue  # does not apply to this part, as the docstring of lay_out says
        found.append(Alternative(method=method, length=flat.length))
    return tuple(found)


def _needs_tooling(
    part: Part, settings: BlankSettings, inside_radii: Sequence[float]
) -> InputError:
    straights(part, None, inside_radii=inside_radii)  # a leg too short is what to say first
    working: list[str] = [other.method for other in _others(part, None, settings, inside_radii)]
    if settings.factor is None:
        working.append("factor (with blank.factor)")
    return InputError(
        "blank.method",
        "it takes the shape of each bend from its stroke, and no tooling is entered",
        "enter the nose and the shoulders, or choose a method that works without them: "
        + ", ".join(working),
        value="strain",
    )
