"""Holes and welds of a part, and how the ends of a closed shape meet."""

from __future__ import annotations

from typing import Any, Literal

from attrs import frozen

from strapwright.shop.keys import Key, key, keys

Closure = Literal["gap", "overlap", "weld gap"]
Drilled = Literal["by rule", "flat", "after bending"]


def _on_leg() -> Any:
    return keys(
        Key(
            kind="own",
            name="leg",
            help="which leg, counted from the first",
            inch="1",
            needed=True,
            label="on",
            given=True,
        )
    )


def _place_on_leg(what: str, inch: str, metric: str) -> Any:
    return keys(
        Key(
            kind="length",
            name="from_end",
            help=f"from the free end of the first or last leg to the middle of the {what}",
            inch=inch,
            metric=metric,
            needed=True,
            label="at",
            hint="",
            given=True,
        ),
        Key(
            kind="own",
            name="from_bend",
            help="from a bend beside the leg, measured like the leg",
            instead_of="from_end",
            inch="1",
            label="from",
        ),
    )


def _distance() -> Any:
    return keys(
        Key(
            kind="length",
            name="distance",
            help="from that bend to its middle",
            instead_of="from_end",
            follows=True,
            inch="1 in",
            metric="25 mm",
            new=('"4-1/2"', '"115"'),
            needed=True,
        )
    )


@frozen(kw_only=True)
class Hole:
    """One hole, placed on the finished part.

    Attributes
    ----------
    leg
        1-based leg number.
    from_bend
        Bend number (1-based, next to the leg) that ``distance`` starts from, or ``None`` where it
        starts from the free end of the bar on that leg.
    distance
        Along the leg to the hole's centre [mm]; from a bend it starts where the leg's own
        dimension starts (outside, inside or centre apex).
    diameter
        [mm]
    across
        Offset from the middle of the width, positive to the far side as drawn [mm].
    drilled
        When; by rule after bending where its edge is nearer to a bend than two thicknesses.
    """

    leg: int = _on_leg()
    from_bend: int | None = _place_on_leg("hole", "1 in", "25 mm")
    distance: float = _distance()
    diameter: float = key(
        "length",
        inch="9/16 in",
        metric="14 mm",
        needed=True,
        label="size",
        help="of the hole",
        hint="",
        given=True,
    )
    across: float = keys(
        Key(
            kind="signed length",
            name="across",
            help="off the centre of the width, + towards the far edge",
            inch="3/8 in",
            metric="10 mm",
            label="off centre",
            hint="+ towards the far edge; leave empty for the middle of the width",
        ),
        default=0.0,
    )
    drilled: Drilled = key(
        "choice",
        default="by rule",
        help="{options}; by rule it is drilled flat, but after bending where its edge is nearer to "
        "a bend than two thicknesses",
        left_out="by rule",
        new=('"flat"',),
    )


@frozen(kw_only=True)
class Weld:
    """A weld across the bar, placed on the finished part as a :class:`Hole` is.

    Attributes
    ----------
    leg, from_bend, distance
        As for a hole.
    """

    leg: int = _on_leg()
    from_bend: int | None = _place_on_leg("weld", "2-1/2 in", "60 mm")
    distance: float = _distance()


@frozen(kw_only=True)
class Closing:
    """How the ends of a closed shape meet.

    Attributes
    ----------
    kind
        ``gap``, ``weld gap`` (the gap a weld fills) or ``overlap``.
    size
        Of the gap between the ends, or how far they lie over each other [mm].
    absorb
        1-based number of the leg that takes up what is missing.
    """

    kind: Closure = key(
        "choice", help="the ends leave or make {options}", new=('"weld gap"',), needed=True
    )
    size: float = keys(
        Key(
            kind="length",
            name="size",
            help="of the gap, or how far the ends overlap",
            inch="1/16 in",
            metric="1.5 mm",
            needed=True,
        )
    )
    absorb: int = keys(
        Key(
            kind="own",
            name="absorb",
            help="leg that takes up what is missing",
            inch="3",
            needed=True,
        )
    )
