"""Read what stands about the bar: guide rods and anything else in the way."""

from __future__ import annotations

from strapwright.errors import in_file
from strapwright.shop.tooling import Obstacle, Rod
from strapwright.shop_files.quantity_fields import signed
from strapwright.shop_files.reading_values import read_value, refuse_unknown
from strapwright.shop_files.toml_table import Table

MOST = 40  # pieces of a kind; more is a slip (common practice, no source)


def read_rods(table: Table) -> tuple[Rod, ...]:
    """Guide rods from ``[[tooling.rod]]``; each stands for a pair, one to each side."""
    return tuple(read_value(one, Rod) for one in _listed(table, "rod"))


def read_obstacles(table: Table) -> tuple[Obstacle, ...]:
    """Anything else from ``[[tooling.obstacle]]``."""
    obstacles = []
    for one in _listed(table, "obstacle"):
        refuse_unknown(one, Obstacle)
        left, low, right, high = _figures(one, "box", 4, "left, low, right, high")
        if not (left < right and low < high):
            raise one.refuse(
                "box",
                "the box has no size: left must be under right and low under high",
                in_file('write for example box = ["3", "-2", "4", "1"] (left, low, right, high)'),
            )
        along = None
        if "along" in one.data:
            begin, end = _figures(one, "along", 2, "from, to")
            if not begin < end:
                raise one.refuse(
                    "along",
                    "it ends before it begins",
                    in_file('write the smaller figure first, for example along = ["-1", "1"]'),
                )
            along = (begin, end)
        obstacles.append(read_value(one, Obstacle, box=(left, low, right, high), along=along))
    return tuple(obstacles)


def _listed(table: Table, key: str) -> tuple[Table, ...]:
    found = table.children(key)
    if len(found) > MOST:
        raise table.refuse(key, f"there are {len(found)} of them", f"give at most {MOST}")
    return found


def _figures(table: Table, key: str, count: int, words: str) -> list[float]:
    value = table.need(key, f"write its {count} figures: {words}")
    if not isinstance(value, list) or len(value) != count:
        raise table.refuse(key, f"this is not {count} figures", f"write {words} in brackets")
    return [signed(table, f"{key}[{number}]", one) for number, one in enumerate(value, start=1)]
