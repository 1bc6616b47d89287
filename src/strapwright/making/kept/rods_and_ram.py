"""Guide rods and bolts of the ram in a push plate that stays."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from strapwright.catalog.clearance import clearance_hole
from strapwright.errors import InputError
from strapwright.making.drawn_members.guide_places import SLIDES, GuidePlaces
from strapwright.making.kept.patterns import BUSH_WALL, in_room
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.press_bolts import floating_play
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.shop.members import Members

_GUIDES = "tooling.members.guides"
# Play of a guide rod in a bore that is there, above which it wants a bush [mm]; common practice.
_LOOSE = 0.25
_ALIKE = 0.05  # mm by which two bores of one size may differ, as measured; common practice
_SAME = 1.0  # mm between a rod's place and its bore, as measured


def with_rods(
    plate: PlateDrawing, rods: GuidePlaces, units: Units
) -> tuple[PlateDrawing, float]:  # fmt: skip
    """Return the plate with guide rods through it, and the diameter of their bushes [mm] or 0.

    Parameters
    ----------
    plate
        As it is.
    rods
        Of the tooling.
    units
        In which sizes are told.

    Raises
    ------
    InputError
        Where its bores are elsewhere, too small, or too large without room for a bush.
    """
    bores = [one for one in plate.holes if one.purpose == "guide rod"]
    if not bores:
        new = rods.holes_along_x(plate.width, plate.height, SLIDES)
        in_room(plate, new, plate.holes, _GUIDES, units)
        return evolve(plate, holes=(*plate.holes, *new)), 0.0
    wanted = [(plate.width / 2 + sign * rods.out, plate.height / 2) for sign in (-1, 1)]
    found = [
        next((one for one in bores if abs(one.x - x) <= _SAME and abs(one.y - y) <= _SAME), None)
        for x, y in wanted
    ]
    if None in found:
        apart = 2 * min(abs(one.x - plate.width / 2) for one in bores)
        raise InputError(
            f"{_GUIDES}.spacing",
            f"guide rods {size(2 * rods.out, units)} apart do not meet the bores of the push plate "
            f"that stays, which are {size(apart, units)} apart",
            f"set them {size(apart, units)} apart on the middle line",
        )
    bore, widest = (pick(one.diameter for one in found if one is not None) for pick in (min, max))
    play = bore - rods.diameter
    if play < -1e-3:
        raise InputError(
            f"{_GUIDES}.diameter",
            f"rods of {size(rods.diameter, units)} do not pass the bores of {size(bore, units)} in "
            "the push plate that stays",
            f"bore them out, or use rods of {size(bore, units)}",
        )
    loose = widest - rods.diameter > _LOOSE
    if loose and widest - bore > _ALIKE:
        wide = size(max(widest, rods.diameter + 2 * BUSH_WALL), units)
        raise InputError(
            f"{_GUIDES}.diameter",
            f"the bores in the push plate that stays are {size(bore, units)} and "
            f"{size(widest, units)} wide: rods of {size(rods.diameter, units)} are loose in the "
            "wider, and no two bushes alike go in both",
            f"bore both to {wide} for bushes",
        )
    if loose and play < 2 * BUSH_WALL - 1e-3:
        wide = size(rods.diameter + 2 * BUSH_WALL, units)
        raise InputError(
            f"{_GUIDES}.diameter",
            f"the bores of {size(bore, units)} in the push plate that stays leave rods of "
            f"{size(rods.diameter, units)} loose, and have no room for a bush",
            f"bore them to {wide} or more for a bush, or use thicker rods",
        )
    return plate, bore if loose else 0.0


def check_ram(
    plate: PlateDrawing, members: Members | None, places: Sequence[HoleSpec], units: Units
) -> PlateDrawing:
    """Return the plate with the ram's bolts: in holes that are there, or new ones.

    Parameters
    ----------
    plate
        As it is.
    members
        Whose bolts hold the push plate, and whose coupling may float.
    places
        Clearance holes of those bolts, as a new plate would have them; empty where not stated.
    units
        In which sizes are told.

    Raises
    ------
    InputError
        Where a hole leaves no room for the play of a floating coupling, or a new one finds none.
    """
    where = "tooling.members.bolt (push plate)"
    holes = list(plate.holes)
    ram = [k for k, one in enumerate(holes) if one.purpose == "bolt of the ram"]
    play = floating_play(members)
    new: list[HoleSpec] = []
    for hole in places:
        # A bolt may stand off the middle of its hole by half the difference.
        found = next(
            (k for k in ram
             if abs(holes[k].x - hole.x) <= _SAME and abs(holes[k].y - hole.y) <= _SAME), None
        )  # fmt: skip
        if found is None:
            new.append(hole)
            continue
        there = holes[found]
        close = clearance_hole(hole.thread, "close", where).diameter
        if there.kind != "tapped" and there.diameter < close - 1e-3:
            raise InputError(
                where,
                f"the hole of {size(there.diameter, units)} in the push plate that stays does not "
                f"pass a bolt {hole.thread}",
                f"open it to {size(hole.diameter, units)}, or use a thinner bolt",
            )
        if play and there.kind != "tapped" and there.diameter < hole.diameter - 1e-3:
            raise InputError(
                where,
                f"a hole of {size(there.diameter, units)} leaves the floating coupling less than "
                f"its play of {size(play, units)}",
                f"open the holes of the ram's bolts to {size(hole.diameter, units)}",
            )
        if there.kind != "tapped":
            holes[found] = evolve(
                hole, x=there.x, y=there.y, diameter=there.diameter, least=there.diameter,
                most=there.diameter, exists=there.exists,
            )  # fmt: skip
    in_room(plate, new, plate.holes, where, units)
    return evolve(plate, holes=(*holes, *new))
