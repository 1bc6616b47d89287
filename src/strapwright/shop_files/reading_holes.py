"""Read holes and welds of the part, each placed from a free end or from a bend beside its leg."""

from __future__ import annotations

from strapwright.errors import either_unit, in_file
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.bar import Bar
from strapwright.shop.keys import keys_of
from strapwright.shop.part import Hole, Weld
from strapwright.shop.part_holes import cut_kind, cut_off_bar, cut_reach
from strapwright.shop_files.quantity_fields import LENGTH, raw
from strapwright.shop_files.reading_values import asked, exact_value, read_plain, refuse_unknown
from strapwright.shop_files.toml_table import Table

MOST_HOLES = 200
MOST_WELDS = 50
_SLACK = 1e-9  # mm; a hole of the full width or length is the person's own matter


def read_holes(part: Table, legs: tuple[float, ...], bar: Bar) -> tuple[Hole, ...]:
    """Read the tables ``[[part.hole]]``.

    Parameters
    ----------
    part
        ``[part]``.
    legs
        Leg lengths [mm].
    bar
        The bar they are in.

    Raises
    ------
    InputError
        Where a hole lies on no leg, is placed from the wrong thing, or runs off the bar.
    """
    tables = part.children("hole")
    if len(tables) > MOST_HOLES:
        raise part.refuse(
            "hole", f"the part has {len(tables)} holes, more than {MOST_HOLES}", "split the part"
        )
    return tuple(_read_hole(table, legs, bar) for table in tables)


def read_welds(part: Table, legs: tuple[float, ...]) -> tuple[Weld, ...]:
    """Read the tables ``[[part.weld]]``.

    Parameters
    ----------
    part
        ``[part]``.
    legs
        Leg lengths [mm].

    Raises
    ------
    InputError
        Where a weld lies on no leg, or is placed from the wrong thing.
    """
    tables = part.children("weld")
    if len(tables) > MOST_WELDS:
        raise part.refuse(
            "weld", f"the part has {len(tables)} welds, more than {MOST_WELDS}", "split the part"
        )
    welds = []
    for table in tables:
        refuse_unknown(table, Weld)
        leg = _read_leg(table, len(legs))
        from_bend, distance = _read_place(table, leg, len(legs), "weld")
        _check_on_leg(table, from_bend, distance, 0.0, legs[leg - 1])
        welds.append(Weld(leg=leg, from_bend=from_bend, distance=distance))
    return tuple(welds)


def _read_leg(table: Table, legs: int) -> int:
    table.need("leg", f"write the number of its leg, 1 to {legs}")
    leg = table.data["leg"]
    if type(leg) is not int or not 1 <= leg <= legs:
        raise table.refuse("leg", "there is no such leg", f"give a leg from 1 to {legs}", value=leg)
    return leg


def _read_hole(table: Table, legs: tuple[float, ...], bar: Bar) -> Hole:
    plain = read_plain(table, Hole)
    leg = _read_leg(table, len(legs))
    diameter = plain["diameter"]
    across = (
        float(raw(table, "across", table.data["across"], LENGTH)) if "across" in table.data else 0.0
    )
    from_bend, distance = _read_place(table, leg, len(legs), "hole")
    hole = Hole(**plain, leg=leg, from_bend=from_bend, distance=distance, across=across)
    kind = cut_kind(hole)
    if cut_off_bar(hole, across, bar.width) > _SLACK:
        key = "across" if diameter <= bar.width and "across" in table.data else "diameter"
        raise table.refuse(
            key,
            f"the {kind} runs off the bar, which is {_size(bar.width)} wide",
            "give a smaller diameter, or an offset nearer to the middle",
            value=table.data[key],
        )
    if hole.length is not None and hole.length < diameter - _SLACK:
        raise table.refuse(
            "length",
            f"the {kind} is shorter along the bar than it is wide",
            "give its length end to end, or leave it out for a round hole",
            value=table.data["length"],
        )
    _check_on_leg(table, from_bend, distance, 2.0 * cut_reach(hole), legs[leg - 1])
    return hole


def _read_place(table: Table, leg: int, legs: int, what: str) -> tuple[int | None, float]:
    """Which bend the distance starts from (``None``: the free end), and the distance [mm]."""
    table.only_one("from_end", "from_bend")
    beside = [bend for bend in (leg - 1, leg) if 1 <= bend < legs]
    bends = " or ".join(str(bend) for bend in beside)
    if "from_end" in table.data:
        if "distance" in table.data:
            raise table.refuse(
                "distance",
                "from_end already says the distance",
                "leave distance out, or write from_bend in place of from_end",
            )
        if len(beside) == 2:
            raise table.refuse(
                "from_end",
                f"leg {leg} has no free end",
                in_file(f"write from_bend = {bends} and distance"),
                value=table.data["from_end"],
            )
        return None, _length(table, "from_end")
    if "from_bend" not in table.data:
        raise table.refuse(
            "from_end" if len(beside) == 1 else "from_bend",
            f"nothing says where along the leg the {what} is",
            in_file(f'write from_bend = {bends} and distance = "1 in"')
            + (', or from_end = "1 in"' if len(beside) == 1 else ""),
        )
    bend = table.data["from_bend"]
    if type(bend) is not int or bend not in beside:
        raise table.refuse(
            "from_bend",
            f"this is not the number of a bend beside leg {leg}",
            in_file(f"write from_bend = {bends}"),
            value=bend,
        )
    return bend, _length(table, "distance")


def _length(table: Table, name: str) -> float:
    key = keys_of(Hole)[name]
    table.need(name, asked(key))
    return float(exact_value(table, key) or 0)


def _check_on_leg(
    table: Table, from_bend: int | None, distance: float, diameter: float, leg: float
) -> None:
    key = "from_end" if from_bend is None else "distance"
    if distance > leg + _SLACK:
        raise table.refuse(
            key,
            f"this is beyond the leg, which is {_size(leg)} long",
            "give a smaller distance",
            value=table.data[key],
        )
    if from_bend is None and distance < diameter / 2 - _SLACK:
        raise table.refuse(
            key,
            "the hole runs off the end of the bar",
            f"give at least half {'its length' if 'length' in table.data else 'the diameter'}",
            value=table.data[key],
        )


def _size(mm: float) -> str:
    return either_unit(f"{mm:.4g} mm", f"{mm / INCH_MM:.4g} in")
