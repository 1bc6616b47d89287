"""Read how the ends of a closed shape meet."""

from __future__ import annotations

from typing import get_args

from strapwright.errors import in_file
from strapwright.shop.part import Closing, Closure
from strapwright.shop_files.quantity_fields import LENGTH, exact
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
    table.refuse_unknown()
    table.need("kind", in_file('write kind = "gap", "overlap" or "weld gap"'))
    kind: Closure = table.choice("kind", get_args(Closure), "gap")
    size = table.need("size", in_file('write for example size = "1/16 in"'))
    absorb = table.need("absorb", f"write the leg that takes up what is missing, 1 to {legs}")
    if type(absorb) is not int or not 1 <= absorb <= legs:
        raise table.refuse(
            "absorb", "there is no such leg", f"give a leg from 1 to {legs}", value=shown(absorb)
        )
    return Closing(
        kind=kind,
        size=float(exact(table, "size", size, LENGTH, zero=kind != "overlap")),
        absorb=absorb,
    )
