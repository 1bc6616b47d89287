"""Read what legs and angles of the part may be out by."""

from __future__ import annotations

from strapwright.catalog.general_tolerances import length_deviation
from strapwright.errors import in_file
from strapwright.quantities.printing import either_length
from strapwright.shop.keys import keys_of
from strapwright.shop.part import Part
from strapwright.shop.part_limits import Limit, Tolerance
from strapwright.shop_files.quantity_fields import PI
from strapwright.shop_files.reading_values import asked, exact_value, read_plain, refuse_unknown
from strapwright.shop_files.toml_table import Table, shown

MOST_LIMITS = 80


def read_angle_tolerance(part: Table) -> float | None:
    """Read ``part.angle_tolerance`` [rad], ``None`` where it is left out.

    Parameters
    ----------
    part
        ``[part]``.

    Raises
    ------
    InputError
        Where it is no angle.
    """
    found = exact_value(part, keys_of(Part)["angle_tolerance"])
    return None if found is None else float(found * PI / 180)


def read_tolerance(part: Table, legs: tuple[float, ...]) -> Tolerance | None:
    """Read the table ``[part.tolerance]``.

    Parameters
    ----------
    part
        ``[part]``.
    legs
        Leg lengths [mm].

    Returns
    -------
    Tolerance or None
        ``None`` where the job says nothing of it.

    Raises
    ------
    InputError
        Where a key cannot be used, or a class of ISO 2768 has no figure for a leg.
    """
    table = part.child("tolerance")
    if table is None or not table.data:  # emptied on a page
        return None
    plain = read_plain(table, Tolerance)
    takes = _number(table, "takes", "leg", len(legs)) if "takes" in table.data else None
    general = plain["general"]
    if general is not None and plain["length"] is None:
        own = {one.data.get("leg") for one in part.children("limit")}
        for number, leg in enumerate(legs, start=1):
            if number not in own and length_deviation(general, leg) is None:
                raise table.refuse(
                    "class",
                    f"ISO 2768-{general} has no figure for leg {number}, {either_length(leg, 2)}",
                    in_file("write the job's own limit for all legs")
                    + ', for example length = "1/32 in", or a limit of that leg alone',
                    value=general,
                )
    return Tolerance(**plain, takes=takes)


def read_limits(part: Table, legs: int) -> tuple[Limit, ...]:
    """Read the tables ``[[part.limit]]``.

    Parameters
    ----------
    part
        ``[part]``.
    legs
        How many legs the shape has.

    Raises
    ------
    InputError
        Where one is of no leg or bend of the part, lacks its figure, or says again what another
        says.
    """
    tables = part.children("limit")
    if len(tables) > MOST_LIMITS:
        raise part.refuse(
            "limit", f"the part has {len(tables)} limits, more than {MOST_LIMITS}", "split the part"
        )
    found: dict[tuple[str, int], Limit] = {}
    for table in tables:
        refuse_unknown(table, Limit)
        table.only_one("leg", "bend")
        what, figure = ("bend", "angle") if "bend" in table.data else ("leg", "length")
        other = "length" if figure == "angle" else "angle"
        if other in table.data:
            raise table.refuse(
                other,
                f"a {what} is limited by its {figure}",
                in_file(f"write {figure} in place of {other}"),
                value=table.data[other],
            )
        number = _number(table, what, what, legs if what == "leg" else legs - 1)
        if (what, number) in found:
            raise table.refuse(
                what, f"{what} {number} has a limit already", "leave one of the two out"
            )
        key = keys_of(Limit)[figure]
        table.need(figure, asked(key))
        value = exact_value(table, key) or 0
        found[what, number] = (
            Limit(leg=number, length=float(value))
            if what == "leg"
            else Limit(bend=number, angle=float(value * PI / 180))
        )
    return tuple(found.values())


def _number(table: Table, key: str, what: str, most: int) -> int:
    value = table.need(key, in_file(f"write the number of the {what}, 1 to {most}"))
    if type(value) is not int or not 1 <= value <= most:
        raise table.refuse(
            key, f"there is no such {what}", f"give a {what} from 1 to {most}", value=shown(value)
        )
    return value
