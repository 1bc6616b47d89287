"""Read the shape: leg, bend, leg, bend, leg ..."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from strapwright.shop.fields import ANGLE, LENGTH, PI, exact
from strapwright.shop.keys import nearest, one_of
from strapwright.shop.part import Bend
from strapwright.shop.table import Table

SIDES: Mapping[str, Literal[1, -1]] = MappingProxyType({"up": 1, "down": -1})
MOST_LEGS = 40
_EXAMPLE = 'write leg, bend, leg in turn, for example shape = ["6", "up 90", "3-1/2"]'
_BEND = re.compile(r"\s*(?P<word>[^\W\d_]+)\s*(?P<angle>.*)", re.DOTALL)


def read_shape(table: Table) -> tuple[tuple[float, ...], tuple[Bend, ...]]:
    """Read ``part.shape``.

    Parameters
    ----------
    table
        ``[part]``.

    Returns
    -------
    legs, bends
        Leg lengths [mm], and the bends between them.

    Raises
    ------
    InputError
        Where legs and bends do not alternate, or one of them cannot be used.
    """
    value = table.need("shape", _EXAMPLE)
    if not isinstance(value, list):
        raise table.refuse("shape", "this is not a list", _EXAMPLE, value=value)
    for number, item in enumerate(value, start=1):
        _check_turn(table, number, item)
    if len(value) < 3:
        raise table.refuse(
            "shape", "the shape has fewer than two legs", f"{_EXAMPLE}, at least two legs"
        )
    if len(value) % 2 == 0:
        raise table.refuse(
            "shape", "the shape ends with a bend", "write the last leg behind the last bend"
        )
    if len(value) > 2 * MOST_LEGS:
        raise table.refuse(
            "shape",
            f"the shape has {len(value) // 2 + 1} legs, more than {MOST_LEGS}",
            "split the part",
        )
    legs = tuple(
        float(exact(table, f"shape[{number}]", value[number - 1], LENGTH, name="leg"))
        for number in range(1, len(value) + 1, 2)
    )
    return legs, tuple(
        _read_bend(table, number, value[number - 1]) for number in range(2, len(value), 2)
    )


def _check_turn(table: Table, number: int, item: object) -> None:
    """Refuse what is no bend where a bend is due, and no leg where a leg is due."""
    word = _word(item)
    if word is not None and word not in SIDES:
        near = nearest(word, SIDES)
        hint = "" if near is None else f'; did you mean "{near}"'
        raise table.refuse(
            f"shape[{number}]",
            f"there is no bend {word[:20]!r} here",
            f"a bend is {one_of(SIDES)} and an angle, for example up 90{hint}",
            value=item,
        )
    if number == 1 and word is not None:
        raise table.refuse(
            "shape[1]", "the shape starts with a bend", "write the first leg before it", value=item
        )
    if number % 2 == 1 and word is not None:
        raise table.refuse(
            f"shape[{number}]",
            "two bends stand side by side",
            "write the leg between them",
            value=item,
        )
    if number % 2 == 0 and word is None:
        raise table.refuse(
            f"shape[{number}]",
            "two legs stand side by side",
            f"write the bend between them, {one_of(SIDES)} and an angle, for example up 90",
            value=item,
        )


def _word(item: object) -> str | None:
    """Word that a bend begins with, or ``None`` where the item is a leg."""
    found = _BEND.fullmatch(item) if isinstance(item, str) else None
    return None if found is None else found["word"].lower()


def _read_bend(table: Table, number: int, item: object) -> Bend:
    key = f"shape[{number}]"
    found = _BEND.fullmatch(str(item))
    if found is None or not found["angle"].strip():
        raise table.refuse(
            key, "the bend has no angle", "write how far it turns, for example up 90", value=item
        )
    degrees = exact(table, key, found["angle"].strip(), ANGLE, name="bend angle")
    return Bend(angle=float(degrees * PI / 180), side=SIDES[found["word"].lower()])
