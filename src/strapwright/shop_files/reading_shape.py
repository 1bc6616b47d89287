"""Read the shape: leg, bend, leg, bend, leg ..., with rolls and twists of the bar in legs."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from strapwright.errors import in_file
from strapwright.shop.bar import Bar
from strapwright.shop.by_hand.part_twist import Twist
from strapwright.shop.part import Bend
from strapwright.shop_files.known_keys import nearest, one_of
from strapwright.shop_files.quantity_fields import ANGLE, LENGTH, PI, exact, raw
from strapwright.shop_files.toml_table import Table
from strapwright.shop_files.ways.reading_joggle import JOGGLE, read_joggle
from strapwright.shop_files.ways.reading_overall import is_open
from strapwright.shop_files.ways.reading_twist import TWIST, ReadTwist, read_twist

SIDES: Mapping[str, Literal[1, -1]] = MappingProxyType({"up": 1, "down": -1})
ROLL = "roll"
MOST_LEGS = 40
_EXAMPLE = in_file('write leg, bend, leg in turn, for example shape = ["6", "up 90", "3-1/2"]')
_ITEM = re.compile(r"\s*(?P<word>[^\W\d_]+)\s*(?P<rest>.*)", re.DOTALL)
_RADIUS = re.compile(r"\bradius\b", re.IGNORECASE)

_BOTH_LENGTHS = "write how far its middle is from each end of its leg"

What = Literal["leg", "bend", "roll", "joggle", "twist"]
_BEHIND: Mapping[tuple[What, What], tuple[str, str]] = MappingProxyType(
    {
        ("leg", "leg"): (
            "there are two legs in a row",
            f"write the bend between them, {one_of(SIDES)} and an angle, for example up 90",
        ),
        ("bend", "bend"): ("there are two bends in a row", "write the leg between them"),
        ("bend", "joggle"): ("a joggle stands right behind a bend", "write the leg between them"),
        ("joggle", "bend"): ("a bend stands right behind a joggle", "write the leg between them"),
        ("joggle", "joggle"): ("there are two joggles in a row", "write the leg between them"),
        ("joggle", "roll"): ("a roll stands right behind a joggle", "write the leg between them"),
        ("bend", "roll"): ("a roll stands right behind a bend", "write the leg between them"),
        ("roll", "roll"): ("there are two rolls in a row", "add them up"),
        ("roll", "twist"): ("a twist stands right behind a roll", "write the leg between them"),
        ("twist", "roll"): ("a roll stands right behind a twist", "write the leg between them"),
        **{
            pair: (f"there is no length between a twist and a {beside}", _BOTH_LENGTHS)
            for beside in ("bend", "joggle", "twist")
            for pair in ((beside, "twist"), ("twist", beside))
        },
    }
)


def read_shape(
    table: Table, bar: Bar, thickness: float
) -> tuple[tuple[float, ...], tuple[Bend, ...], tuple[float, ...], tuple[Twist, ...]]:
    """Read ``part.shape``.

    Parameters
    ----------
    table
        ``[part]``.
    bar
        The bar, which decides whether it can be rolled.
    thickness
        Of the bar as measured, or nominal [mm].

    Returns
    -------
    legs, bends, rolls, twists
        Leg lengths [mm], 0 for one that is left open, the bends between them, the turn of the
        bar about itself before each bend [rad], empty where there is none, and its twists.

    Raises
    ------
    InputError
        Where legs and bends do not alternate, or one of them cannot be used.
    """
    value = table.need("shape", _EXAMPLE)
    if not isinstance(value, list):
        raise table.refuse("shape", "this is not a list", _EXAMPLE, value=value)
    kinds = [_what(table, number, item) for number, item in enumerate(value, start=1)]
    _check_turns(table, value, kinds)
    legs: list[Fraction] = []
    bends: list[Bend] = []
    rolls: list[float] = []
    twists: list[Twist] = []
    joined = False  # the next length goes on the leg that was begun before a roll
    for number, (item, kind) in enumerate(zip(value, kinds, strict=True), start=1):
        key = f"shape[{number}]"
        if kind == "leg":
            length = Fraction(0)
            if not is_open(item):
                length = exact(table, key, item, LENGTH, name="leg")
            if joined:
                legs[-1] += length
            else:
                legs.append(length)
            joined = False
        elif kind == "joggle":
            first, between, second = read_joggle(table, key, item, thickness)
            bends += (first, second)
            legs.append(Fraction(between))
            rolls += [0.0] * (len(bends) - len(rolls))
            joined = False
        elif kind == "bend":
            bends.append(_read_bend(table, key, item))
            rolls += [0.0] * (len(bends) - len(rolls))
            joined = False
        elif kind == "twist":
            twists.append(_in_leg(table, key, read_twist(table, key, item, bar), legs, twists))
            joined = True
        else:
            if len(rolls) > len(bends):
                raise table.refuse(key, "this leg is rolled twice", "add the two rolls up")
            rolls.append(_read_roll(table, key, item, bar))
            joined = True
    lengths = tuple(float(leg) for leg in legs)
    return lengths, tuple(bends), tuple(rolls) if any(rolls) else (), tuple(twists)


def _in_leg(
    table: Table, key: str, read: ReadTwist, legs: Sequence[Fraction], before: Sequence[Twist]
) -> Twist:
    """A twist in the leg that was begun before it."""
    if any(one.leg == len(legs) for one in before):
        raise table.refuse(key, "this leg is twisted twice", "leave one of the two out")
    return read.placed(len(legs), float(legs[-1]))


def _what(table: Table, number: int, item: object) -> What:
    """Tell legs, bends, rolls and twists apart."""
    found = _ITEM.fullmatch(item) if isinstance(item, str) else None
    if found is None:
        return "leg"
    word = found["word"].lower()
    if word in SIDES:
        return "bend"
    if word == JOGGLE:
        return "joggle"
    if word == ROLL:
        return "roll"
    if word == TWIST:
        return "twist"
    near = nearest(word, (*SIDES, ROLL, JOGGLE, TWIST))
    hint = "" if near is None else f'; did you mean "{near}"?'
    raise table.refuse(
        f"shape[{number}]",
        f"there is no bend {word[:20]!r} here",
        f"a bend is {one_of(SIDES)} and an angle, for example up 90{hint}",
        value=item,
    )


def _check_turns(table: Table, items: list[object], kinds: list[What]) -> None:
    """Refuse what does not follow what stands before it, and shapes that stop short."""
    if kinds and kinds[0] != "leg":
        raise table.refuse(
            "shape[1]",
            f"the shape starts with a {kinds[0]}",
            "write the first leg before it",
            value=items[0],
        )
    for place in range(1, len(kinds)):
        wrong = _BEHIND.get((kinds[place - 1], kinds[place]))
        if wrong is not None:
            raise table.refuse(f"shape[{place + 1}]", *wrong, value=items[place])
    bends = [place for place, kind in enumerate(kinds) if kind in ("bend", "joggle")]
    if not bends or len(kinds) < 3:
        raise table.refuse(
            "shape", "the shape has fewer than two legs", f"{_EXAMPLE}, at least two legs"
        )
    if kinds[-1] != "leg":
        raise table.refuse(
            "shape",
            f"the shape ends with a {kinds[-1]}",
            f"write the last leg after the last {kinds[-1]}",
        )
    for place, kind in enumerate(kinds):
        if kind == "roll" and not bends[0] < place < bends[-1]:
            when = "before" if place < bends[0] else "after"
            raise table.refuse(
                f"shape[{place + 1}]",
                f"nothing is bent {when} this roll, so it changes nothing",
                "leave it out, or write it between two bends",
                value=items[place],
            )
    if len(bends) >= MOST_LEGS:
        raise table.refuse(
            "shape",
            f"the shape has {len(bends) + 1} legs, more than {MOST_LEGS}",
            "split the part",
        )


def _parted(item: object) -> tuple[str, str]:
    """Word that an item begins with, and what stands behind it."""
    word, rest = _ITEM.fullmatch(str(item)).groups()  # type: ignore[union-attr]  # told apart above
    return word.lower(), rest.strip()


def _read_bend(table: Table, key: str, item: object) -> Bend:
    word, rest = _parted(item)
    angle, *radii = (one.strip() for one in _RADIUS.split(rest, maxsplit=1))
    if not angle:
        raise table.refuse(
            key, "the bend has no angle", "write how far it turns, for example up 90", value=item
        )
    degrees = exact(table, key, angle, ANGLE, name="bend angle")
    radius = None
    if radii:
        if not radii[0]:
            raise table.refuse(
                key,
                "nothing says how large the radius is",
                "write the inside radius behind it, for example up 90 radius 6 in",
                value=item,
            )
        radius = float(exact(table, key, radii[0], LENGTH, name="inside radius"))
    return Bend(angle=float(degrees * PI / 180), side=SIDES[word], radius=radius)


def _read_roll(table: Table, key: str, item: object, bar: Bar) -> float:
    """Turn of the bar about itself [rad]."""
    if bar.section == "flat":
        raise table.refuse(
            key,
            "a flat bar bends on its flat only and cannot be rolled",
            "leave the roll out, or use square or round bar",
            value=item,
        )
    _, text = _parted(item)
    if not text:
        raise table.refuse(
            key,
            "the roll has no angle",
            "write how far the bar turns about itself, for example roll 90",
            value=item,
        )
    degrees = raw(table, key, text, ANGLE)
    if degrees == 0 or not -180 <= degrees <= 180:
        raise table.refuse(
            key,
            f"the roll is {'0' if degrees == 0 else 'out of range'}",
            "give an angle from -180 to 180 degrees, but not 0",
            value=text,
        )
    if bar.section == "square" and degrees % 90:
        raise table.refuse(
            key,
            "a square bar lies on one of its sides, and this roll leaves it on a corner",
            "give a roll of 90, -90 or 180",
            value=text,
        )
    return float(degrees * PI / 180)
