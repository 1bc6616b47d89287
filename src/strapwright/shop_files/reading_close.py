"""Read how the ends of a closed shape meet."""

from __future__ import annotations

from attrs import evolve

from strapwright.shop.keys import keys_of
from strapwright.shop.part import Closing
from strapwright.shop_files.reading_values import asked, exact_value, read_plain
from strapwright.shop_files.toml_table import Table, shown


def read_close(part: Table, legs: int) -> Closing | None:
    """Read the table ``[part.close]``.

    Parameters
    ----------
    part
        ``[part]``.
    legs
        How many legs the shape has.

    Returns
    -------
    Closing or None
        ``None`` where the shape is open.

    Raises
    ------
    InputError
        Where a key is missing or names nothing of the part.
    """
    table = part.child("close")
    if table is None:
        return None
    plain = read_plain(table, Closing)
    size = keys_of(Closing)["size"]
    table.need("size", asked(size))
    absorb = table.need("absorb", f"write the leg that takes up what is missing, 1 to {legs}")
    if type(absorb) is not int or not 1 <= absorb <= legs:
        raise table.refuse(
            "absorb", "there is no such leg", f"give a leg from 1 to {legs}", value=shown(absorb)
        )
    may_touch = evolve(size, zero=plain["kind"] != "overlap")
    return Closing(**plain, size=float(exact_value(table, may_touch) or 0), absorb=absorb)
