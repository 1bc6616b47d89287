"""Plates of the press that stay when the die is changed: push plate, bed plate, bed of the frame.

They exist, or are made once for every die that shares them; a new die is made to their holes.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.keys import Key, key, keys
from strapwright.shop.steel_names import UNKNOWN_STEEL

PlateUse = Literal["tooling", "press", "guide rods"]


@frozen(kw_only=True)
class KeptHole:
    """One hole of a plate that stays.

    Attributes
    ----------
    along, across
        Its middle from the ram's axis [mm]: along the nose, away from who stands at the press, and
        along the bar to the right.
    diameter
        Of the hole, of a tapped one of its thread [mm].
    thread
        Name of the thread; empty of a hole that goes through.
    use
        What goes in it: bolts of a ``tooling``, of the ``press`` (ram or bed), or ``guide rods``.
    made_for
        Name of the tooling that the hole is still to be drilled for; empty where it is there.
    purpose
        What it is drilled for, of one that is not there yet.
    fit
        Its class, of one that is not there yet and not tapped; else empty.
    """

    along: float
    across: float
    diameter: float
    thread: str = ""
    use: PlateUse = "tooling"
    made_for: str = ""
    purpose: str = ""
    fit: str = ""


@frozen(kw_only=True)
class KeptPlate:
    """A plate that stays on the press.

    Attributes
    ----------
    name
        As the shop calls it; plates of one name are one plate.
    material
        A steel of the catalog.
    length, width, thickness
        Along the nose, across it, and in the direction of the ram, its middle in the ram's axis
        [mm].
    exists
        Whether it is there; else it is made, with the holes of every tooling on it.
    holes
        Of the plate.
    """

    name: str = key(
        "text",
        default="",
        help="what you call it; tooling on a plate of the same name shares it",
        left_out="its kind",
        inch="harbour plate",
        label="Name",
        hint="tooling on a plate of the same name shares it",
    )
    material: str = key(
        "steel",
        default=UNKNOWN_STEEL,
        help="its steel",
        inch="A36",
        label="Steel",
        hint="",
    )
    length: float = key(
        "length", help="along the nose", inch="9 in", metric="230 mm", needed=True, label="Length"
    )
    width: float = key(
        "length", help="across the nose", inch="5 in", metric="125 mm", needed=True, label="Width"
    )
    thickness: float = key(
        "length", help="of the plate", inch="3/4 in", metric="20 mm", needed=True, label="Thickness"
    )
    exists: bool = key(
        "flag",
        default=True,
        help="whether the plate exists; else it is made with the holes of every tooling named",
        new=("true",),
        label="It exists",
        hint="no: it is drawn with the holes of every tooling named",
    )
    holes: tuple[KeptHole, ...] = keys(
        Key(
            kind="own",
            name="holes",
            help="what is bored in it, places from the ram's axis along and across the nose, with "
            "; between: `9/16 at 1, 0`, `2 of 9/16 at 1, 0` (both sides of the axis), "
            "`4 of tap 1/2-13 at 2, 1` (all four corners), `for ram`, `for bed` or "
            "`for guide rods` at the end where it is not for tooling",
            left_out="no holes",
            inch="4 of 9/16 at 1-5/8, 3/4; 2 of 1 at 3-3/4, 0 for guide rods",
            metric="4 of 13 at 42, 20; 2 of 25 at 95, 0 for guide rods",
            new=(
                '"4 of 9/16 at 1-5/8, 3/4; 2 of 1 at 3-3/4, 0 for guide rods"',
                '"4 of 13 at 42, 20; 2 of 25 at 95, 0 for guide rods"',
            ),
            label="Holes",
            hint="places from the ram's axis, along and across the nose; 2: both sides of it, 4: "
            "all corners; tap 1/2-13 for a thread; end with for ram, for bed or for guide rods "
            "where it is not for tooling",
        ),
        default=(),
    )
