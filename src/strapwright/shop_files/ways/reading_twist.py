"""Read a quarter twist of a flat bar, between two lengths of a leg."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from attrs import frozen

from strapwright.shop.bar import Bar
from strapwright.shop.by_hand.part_twist import Twist
from strapwright.shop_files.quantity_fields import ANGLE, LENGTH, exact, raw
from strapwright.shop_files.toml_table import Table

TWIST = "twist"
_OVER = re.compile(r"\bover\b", re.IGNORECASE)
_EXAMPLE = 'write "twist 90" or "twist -90", and how long the twisted run is: "twist 90 over {}"'


@frozen(kw_only=True)
class ReadTwist:
    """A twist as it is written, before its leg is known.

    Attributes
    ----------
    angle, over
        As of :class:`Twist` [rad], [mm].
    """

    angle: float
    over: float | None

    def placed(self, leg: int, middle: float) -> Twist:
        """Return the twist in a 1-based leg, its middle so far from where the leg begins [mm]."""
        return Twist(leg=leg, middle=middle, angle=self.angle, over=self.over)


def read_twist(table: Table, key: str, item: object, bar: Bar) -> ReadTwist:
    """Read one twist of a shape.

    Parameters
    ----------
    table, key, item
        ``[part]``, the place in its shape, and what is written there.
    bar
        The bar: only a flat is twisted.

    Raises
    ------
    InputError
        Where the bar is not flat, or it is no quarter of a turn.
    """
    if bar.section != "flat":
        raise table.refuse(
            key,
            f"a {bar.section} bar needs no twist to bend in another plane",
            "roll it before the next bend, for example roll 90",
            value=str(item)[:60],
        )
    said = str(item).strip()[len(TWIST) :].strip()
    angle, *over = (one.strip() for one in _OVER.split(said, maxsplit=1))
    example = _EXAMPLE.format("3" if bar.width < 80.0 else "8")
    if not angle:
        raise table.refuse(
            key, "nothing says which way it is twisted", example, value=str(item)[:60]
        )
    degrees = raw(table, key, angle, ANGLE)
    if abs(degrees) != 90:
        raise table.refuse(
            key,
            "only a quarter twist is worked out here",
            "give 90 or -90, or leave the twist out",
            value=angle,
        )
    if over and not over[0]:
        raise table.refuse(
            key, "nothing says how long the twisted run is", example, value=str(item)[:60]
        )
    length = float(exact(table, key, over[0], LENGTH, name="twisted run")) if over else None
    return ReadTwist(angle=math.copysign(0.5 * math.pi, degrees), over=length)


def refuse_with_twist(part: Table, twists: Sequence[Twist]) -> None:
    """Refuse what a twisted part cannot be beside.

    Parameters
    ----------
    part
        ``[part]``.
    twists
        Its twists.

    Raises
    ------
    InputError
        Where its ends are to meet, or its legs to follow from the size over all.
    """
    if not twists:
        return
    for key, what in (
        ("close", "the ends of a twisted part do not meet in one plane"),
        ("overall", "the size over all of a twisted part is not worked out here"),
    ):
        if key in part.data:
            raise part.refuse(key, what, "leave it out and enter every leg")
