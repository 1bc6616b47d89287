"""Read a joggle: a leg set off to the side, by two bends with one angle that turn opposite ways.

With the offset h of one leg's face from the other's and the length L over which it is made, corner
to corner along the bar, the bends turn atan(h/L), and the mid-line between their corners is
h/sin(angle) long (geometry).  As the shape states legs, the piece between is longer or shorter than
that by t tan(angle/2): outside dimensions end at corners of the two faces, see
:mod:`strapwright.blank.leg_straights`.
"""

from __future__ import annotations

import math
import re
from typing import Literal

from strapwright.shop.part_bend import Bend
from strapwright.shop_files.quantity_fields import LENGTH, exact
from strapwright.shop_files.toml_table import Table

JOGGLE = "joggle"
_EXAMPLE = 'write for example "joggle up 1/2 over 2": which way, how far off, over which length'
_PARTS = re.compile(r"(?P<way>up|down)\s+(?P<off>.+?)\s+over\s+(?P<over>.+)", re.IGNORECASE)
_WAYS: dict[str, Literal[1, -1]] = {"up": 1, "down": -1}
_LINES = {"outside": 1.0, "inside": -1.0, "centre": 0.0, "center": 0.0}


def read_joggle(table: Table, key: str, item: object, thickness: float) -> tuple[Bend, float, Bend]:
    """Read one joggle of a shape.

    Parameters
    ----------
    table, key, item
        ``[part]``, the place in its shape, and what is written there.
    thickness
        Of the bar [mm].

    Returns
    -------
    Bend, float, Bend
        The two bends, and the leg between them as the part measures legs [mm].

    Raises
    ------
    InputError
        Where it does not say which way, how far or over which length.
    """
    said = str(item).strip()[len(JOGGLE) :].strip()
    found = _PARTS.fullmatch(said)
    if found is None:
        raise table.refuse(
            key, "this does not say how the joggle is made", _EXAMPLE, value=str(item)[:60]
        )
    if table.data.get("measured") == "straight":
        raise table.refuse(
            key,
            "a joggle ends where its faces meet, and the legs are measured straight",
            "write its two bends and the leg between them",
            value=str(item)[:60],
        )
    off = float(exact(table, key, found["off"], LENGTH, name="offset"))
    over = float(exact(table, key, found["over"], LENGTH, name="length of the joggle"))
    angle = math.atan2(off, over)
    side = _WAYS[found["way"].lower()]
    line = _LINES.get(str(table.data.get("measured", "outside")), 1.0)
    leg = off / math.sin(angle) + line * thickness * math.tan(0.5 * angle)
    back: Literal[1, -1] = -1 if side > 0 else 1
    return Bend(angle=angle, side=side), leg, Bend(angle=angle, side=back)
