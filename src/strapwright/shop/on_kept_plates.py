"""A tooling on plates that stay on the press: what is not stated of it follows from them."""

from __future__ import annotations

from attrs import evolve

from strapwright.errors import InputError, key_of
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.members import Guides, Members, PushPlate
from strapwright.shop.press import Press
from strapwright.shop.steel_names import UNKNOWN_STEEL
from strapwright.shop.tooling import Tooling

# Millimetres between what is measured on a plate and what is stated of the tooling on it that are
# taken for one size: a ruler is read to half of it (common practice, no source).
SAME = 1.0


def press_for(tooling: Tooling | None, press: Press | None) -> Press | None:
    """Return the press as a tooling finds it: one with a plate of its own leaves the other off.

    Parameters
    ----------
    tooling, press
        As stated.
    """
    if tooling is None or press is None or not tooling.own_plate:
        return press
    return evolve(press, push_plate=None)


def on_kept_plates(
    tooling: Tooling | None, press: Press | None, units: Units = "inch"
) -> Tooling | None:
    """Return a tooling with the sizes of the push plate that stays, where there is one.

    Parameters
    ----------
    tooling
        As stated; its members stay unstated where they are.
    press
        From :func:`press_for`.
    units
        In which a size is told.

    Raises
    ------
    InputError
        Where the tooling states another size of that plate.
    """
    plate = None if press is None else press.push_plate
    if tooling is None or plate is None:
        return tooling
    members = tooling.members
    stated = {
        "tooling.plate.width": (tooling.plate_width, plate.width),
        "tooling.plate.thick": (tooling.plate_thickness, plate.thickness),
        "tooling.plate.length": (tooling.plate_length, plate.length),
    }
    own = None if members is None else members.push_plate
    if own is not None:
        stated |= {
            f"tooling.members.push_plate.{key}": (getattr(own, key), getattr(plate, key))
            for key in ("thickness", "width", "length")
        }
    for path, (here, there) in stated.items():
        if here is not None and abs(here - there) > SAME:
            raise InputError(
                path,
                f"this is {_told(here, units)}, and the push plate that stays on the press has "
                f"{_told(there, units)}",
                f"correct {key_of('press.push_plate')}, leave this out, or enter "
                f"{key_of('tooling.own_plate')} where the tooling has a push plate of its own",
            )
    return evolve(
        tooling,
        plate_width=plate.width,
        plate_thickness=plate.thickness,
        plate_length=plate.length,
        members=None if members is None else members_on(members, plate),
    )


def members_on(members: Members, plate: KeptPlate) -> Members:
    """Return members with a push plate that stays, and guide rods where its bores are.

    Parameters
    ----------
    members
        As stated.
    plate
        The push plate that stays.
    """
    own = members.push_plate or PushPlate()
    return evolve(
        members,
        push_plate=evolve(
            own,
            material=plate.material if own.material == UNKNOWN_STEEL else own.material,
            thickness=plate.thickness,
            width=plate.width,
            length=plate.length,
        ),
        guides=None if members.guides is None else _guides(members.guides, plate),
    )


def _guides(guides: Guides, plate: KeptPlate) -> Guides:
    """Guide rods as far apart as the plate's bores, where that is not stated or near enough."""
    bores = [abs(one.along) for one in plate.holes if one.use == "guide rods" and one.along]
    if not bores:
        return guides
    apart = 2 * min(bores)
    if guides.spacing is not None and abs(guides.spacing - apart) > SAME:
        return guides
    return evolve(guides, spacing=apart)


def _told(mm: float, units: Units) -> str:
    return f"{mm:.4g} mm" if units == "metric" else f"{mm / INCH_MM:.4g} in"
