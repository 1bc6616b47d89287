"""Read ``[tooling.members]``, and write it back."""

from __future__ import annotations

from typing import Any

from strapwright.catalog.bolts import find_grade
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.quantities import Units, either_length
from strapwright.shop.members import SEVERAL, SINGLE, Bolt, Carriers, Members
from strapwright.shop_files.reading_values import read_plain, read_value, value_to_plain
from strapwright.shop_files.toml_table import Table


def read_members(table: Table, nose_radius: float) -> Members:
    """Read the members of a tooling.

    Parameters
    ----------
    table
        ``[tooling.members]``.
    nose_radius
        Of the nose they carry [mm].

    Raises
    ------
    InputError
        At the first thing that cannot be used: a steel or bolt not in the catalog, a bolt that
        cannot reach, a nose that fits no carrier.
    """
    made: dict[str, Any] = read_plain(table, Members)
    for key, kind in SINGLE.items():
        below = table.child(key)
        if below is not None:
            made[key] = read_value(below, kind)
            if key == "carriers":
                _hold_carriers(below, made[key], nose_radius)
    for key, kind in SEVERAL.items():
        read: list[object] = []
        for below in table.children(key):
            one: object = read_value(below, kind)
            if isinstance(one, Bolt):
                _hold_bolt(below, one)
            read.append(one)
        made[key] = tuple(read)
    return Members(**made)


def _hold_carriers(table: Table, carriers: Carriers, nose_radius: float) -> None:
    if carriers.width is not None and carriers.width <= 2 * nose_radius:
        raise table.refuse(
            "width",
            f"the nose, {either_length(2 * nose_radius, 2)} in diameter, fits no hole in a carrier "
            "this wide",
            "give carriers wider than the nose, or a thinner nose",
            value=table.data["width"],
        )
    if carriers.pin is not None and carriers.width is not None and carriers.pin >= carriers.width:
        raise table.refuse(
            "pin",
            "the hole for the pin is larger than its plate",
            "give a pin thinner than the carrier is wide",
            value=table.data["pin"],
        )


def _hold_bolt(table: Table, bolt: Bolt) -> None:
    for key in ("size", "grade"):
        if key not in table.data:
            continue
        try:
            thread = find_thread(bolt.size, table.where(table.at("size")))
            if bolt.grade is not None:
                find_grade(bolt.grade, thread, table.where(table.at("grade")))
        except InputError as error:
            raise table.placed(error, key) from None
    if bolt.length is not None and bolt.grip is not None and bolt.length <= bolt.grip:
        raise table.refuse(
            "length",
            "the bolt cannot reach its thread, for what it passes is not shorter than itself",
            f"give a bolt longer than the grip, {table.data['grip']}",
            value=table.data["length"],
        )


def members_to_plain(members: Members, units: Units) -> dict[str, Any]:
    """Return the members as a file writes them.

    Parameters
    ----------
    members
        As read.
    units
        Unit system to write in.
    """
    plain = value_to_plain(members, units)
    for key in SINGLE:
        one = getattr(members, key)
        if one is not None:
            plain[key] = value_to_plain(one, units)
    for key in SEVERAL:
        several = getattr(members, key)
        if several:
            plain[key] = [value_to_plain(one, units) for one in several]
    return plain
