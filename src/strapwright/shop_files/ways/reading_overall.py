"""Read the sizes over all, and the legs of the shape that are left open for them."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from strapwright.blank.overall_legs import MOST_LEGS_SOLVED, legs_of_size
from strapwright.errors import InputError
from strapwright.shop.overall_sizes import Overall
from strapwright.shop.part import Bend, Measured
from strapwright.shop_files.reading_values import read_plain
from strapwright.shop_files.toml_table import Table

_OPEN = re.compile(r"\s*\?\s*(?P<name>\w{0,20})\s*")
_RIGHT_ANGLE = math.radians(90.0) + 1e-9  # numerical


def is_open(item: object) -> bool:
    """Whether an entry of a shape is a leg that is left open, as ``?`` or ``? arm``."""
    return isinstance(item, str) and _OPEN.fullmatch(item) is not None


def read_overall(
    table: Table,
    legs: tuple[float, ...],
    bends: Sequence[Bend],
    *,
    rolled: bool,
    thickness: float,
    measured: Measured,
) -> tuple[tuple[float, ...], Overall | None]:
    """Read ``part.overall`` and solve the legs for it.

    Parameters
    ----------
    table
        ``[part]``.
    legs
        With 0 where one is left open [mm].
    bends, rolled
        Of the shape, and whether the bar is rolled between them.
    thickness
        Of the bar [mm].
    measured
        How the legs are measured.

    Returns
    -------
    legs, overall
        All legs [mm], and the sizes, ``None`` where the job states none.

    Raises
    ------
    InputError
        Where a leg is open and the sizes do not settle it, or sizes are given and none is open.
    """
    held = table.child("overall")
    plain = {} if held is None else read_plain(held, Overall)
    names = _names(table, legs)
    opened = list(dict.fromkeys(name for name in names if name))
    sizes = (plain.get("width"), plain.get("height"))
    stated = sum(size is not None for size in sizes)
    if not opened and held is None:
        return legs, None
    if not opened:
        raise table.refuse(
            "overall",
            "a size over all is given and no leg is left open for it",
            'write "?" for the leg that follows from it, or leave the size out',
        )
    if len(opened) != stated:
        many = "one leg is" if len(opened) == 1 else f"{len(opened)} legs are"
        raise table.refuse(
            "shape",
            f"{many} left open and {stated or 'no'} size{'' if stated == 1 else 's'} over all "
            f"{'is' if stated == 1 else 'are'} given",
            "give one size for each; legs of one length share a word, as in "
            '"? arm", "up 90", "?", "up 90", "? arm"',
        )
    if measured == "straight":
        raise table.refuse(
            "overall",
            "the size over all needs to know the radius, and the legs are measured straight",
            "measure them outside, inside or on the centre line, or leave the size out",
        )
    if rolled or "close" in table.data or any(bend.angle > _RIGHT_ANGLE for bend in bends):
        raise table.refuse(
            "overall",
            "legs are solved for open shapes with bends up to 90 degrees and no roll alone",
            "give every leg its length",
        )
    if len(legs) > MOST_LEGS_SOLVED:
        raise table.refuse(
            "overall",
            f"legs are solved for shapes with up to {MOST_LEGS_SOLVED} legs",
            "give every leg its length",
        )
    try:
        solved = legs_of_size(
            legs, names, bends, thickness=thickness, measured=measured, sizes=sizes
        )
    except InputError as error:
        raise table.placed(error, "overall") from None
    return solved, Overall(**plain, names=names)


def _names(table: Table, legs: tuple[float, ...]) -> tuple[str, ...]:
    """Name of each leg that is left open; one without a word of its own has its number."""
    shape = table.data.get("shape", [])
    items = shape if isinstance(shape, list) else []
    words = iter([found["name"] for item in items if (found := _OPEN.fullmatch(str(item)))])
    return tuple(
        "" if leg else next(words).lower() or f"leg {number}"
        for number, leg in enumerate(legs, start=1)
    )
