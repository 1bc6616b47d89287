"""Read what stands about the bar: push plate, guide rods, columns and anything else in the way."""

from __future__ import annotations

from typing import get_args

from strapwright.shop.tooling import Obstacle, RamSide, Rod
from strapwright.shop_files.quantity_fields import LENGTH, needed, quantity, raw
from strapwright.shop_files.toml_table import Table

MOST = 40  # pieces of a kind; more is a slip (common practice, no source)


def read_plate(table: Table) -> tuple[float | None, float | None, float | None]:
    """Width, thickness and length along the nose of the push plate from ``[tooling]`` [mm]."""
    plate = table.child("plate")
    if plate is None:
        return None, None, None
    plate.refuse_unknown()
    return (
        needed(plate, "width", LENGTH, "6 in"),
        quantity(plate, "thick", LENGTH),
        quantity(plate, "length", LENGTH),
    )


def read_rods(table: Table) -> tuple[Rod, ...]:
    """Guide rods from ``[[tooling.rod]]``; each stands for a pair, one to each side."""
    return tuple(
        Rod(
            out=needed(one, "out", LENGTH, "4 in"),
            along=_signed(one, "along") if "along" in one.data else 0.0,
            diameter=needed(one, "diameter", LENGTH, "1 in"),
        )
        for one in _listed(table, "rod")
    )


def read_obstacles(table: Table) -> tuple[Obstacle, ...]:
    """Anything else from ``[[tooling.obstacle]]``."""
    obstacles = []
    for one in _listed(table, "obstacle"):
        left, low, right, high = _figures(one, "box", 4, "left, low, right, high")
        if not (left < right and low < high):
            raise one.refuse(
                "box",
                "the box has no size: left must be under right and low under high",
                'write for example box = ["3", "-2", "4", "1"] (left, low, right, high)',
            )
        along = None
        if "along" in one.data:
            begin, end = _figures(one, "along", 2, "from, to")
            if not begin < end:
                raise one.refuse(
                    "along",
                    "it ends before it begins",
                    'write the smaller figure first, for example along = ["-1", "1"]',
                )
            along = (begin, end)
        obstacles.append(
            Obstacle(
                name=one.line_text("name", 'write what it is called, for example name = "stop"')
                or "obstacle",
                side=one.choice("side", get_args(RamSide), "shoulders"),
                box=(left, low, right, high),
                along=along,
            )
        )
    return tuple(obstacles)


def read_columns(table: Table) -> tuple[float | None, float | None]:
    """Clear distance between the columns and their width from ``[press]`` [mm]."""
    columns = table.child("columns")
    if columns is None:
        return None, None
    columns.refuse_unknown()
    return needed(columns, "apart", LENGTH, "20 in"), quantity(columns, "width", LENGTH)


def _listed(table: Table, key: str) -> tuple[Table, ...]:
    found = table.children(key)
    if len(found) > MOST:
        raise table.refuse(key, f"there are {len(found)} of them", f"give at most {MOST}")
    for one in found:
        one.refuse_unknown()
    return found


def _signed(table: Table, key: str) -> float:
    """Return a length of either sign [mm]."""
    return _held(table, key, table.data[key])


def _held(table: Table, key: str, value: object) -> float:
    found = raw(table, key, value, LENGTH)
    if abs(found) > LENGTH.high:
        raise table.refuse(
            key, "the length is out of range", f"give {LENGTH.span} or its negative", value=value
        )
    return float(found)


def _figures(table: Table, key: str, count: int, words: str) -> list[float]:
    value = table.need(key, f"write its {count} figures: {words}")
    if not isinstance(value, list) or len(value) != count:
        raise table.refuse(key, f"this is not {count} figures", f"write {words} in brackets")
    return [_held(table, f"{key}[{number}]", one) for number, one in enumerate(value, start=1)]
