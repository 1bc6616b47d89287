"""Holes and welds of a part, and how the ends of a closed shape meet."""

from __future__ import annotations

from typing import Any, Literal, Protocol

from attrs import frozen

from strapwright.shop.keys import Key, key, keys

Closure = Literal["gap", "overlap", "weld gap"]
Drilled = Literal["by rule", "flat", "after bending"]
Opens = Literal["no", "near edge", "far edge"]
CutKind = Literal["hole", "slot", "notch"]


class Cut(Protocol):
    """A hole, a slot along the bar, or a notch from an edge, wherever it is placed."""

    @property
    def diameter(self) -> float:
        """Diameter, or width of a slot [mm]."""

    @property
    def length(self) -> float | None:
        """Of a slot along the bar, end to end; ``None`` where it is round [mm]."""

    @property
    def opens(self) -> Opens:
        """Edge that a notch is open to."""


def cut_kind(cut: Cut) -> CutKind:
    """Tell a notch from a slot and a round hole.

    Parameters
    ----------
    cut
        Any of them.
    """
    if cut.opens != "no":
        return "notch"
    return "hole" if cut.length is None else "slot"


def cut_off_bar(cut: Cut, across: float, width: float) -> float:
    """How far it runs past the side of the bar, 0 or less where it stays on it.

    A notch may reach its own edge with its round end, and must leave metal at the other.

    Parameters
    ----------
    cut
        Any of them.
    across
        Its middle from the middle of the width, + to the far edge [mm].
    width
        Of the bar [mm].

    Returns
    -------
    float
        [mm]
    """
    radius = cut.diameter / 2
    if cut.opens == "no":
        return abs(across) + radius - width / 2
    side = 1.0 if cut.opens == "far edge" else -1.0
    return max(radius - side * across - width / 2, side * across - width / 2)


def cut_reach(cut: Cut) -> float:
    """Half of what it takes along the bar [mm].

    Parameters
    ----------
    cut
        Any of them.
    """
    return 0.5 * (cut.diameter if cut.length is None else cut.length)


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
    """One hole, slot or notch, placed on the finished part.

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
        Or width of a slot, and of the round end of a notch [mm].
    length, opens
        Of a slot, and the edge that a notch runs out at, straight, from its own width on.
    across
        Offset from the middle of the width, positive to the far side as drawn [mm].
    drilled
        When; by rule after bending where its edge is nearer to a bend than so many thicknesses,
        see :data:`strapwright.blank.flat_holes.NEAR`.
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
        help="of the hole, or width of a slot",
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
    length: float | None = key(
        "length",
        help="of a slot along the bar, end to end",
        left_out="it is round",
        inch="1-1/4 in",
        metric="30 mm",
        label="slot length",
        hint="along the bar, end to end; leave empty for a round hole",
    )
    opens: Opens = key(
        "choice",
        name="open",
        default="no",
        help='a notch comes in from the "near edge" or "far edge", else {options}',
        left_out="no",
        new=('"near edge"',),
        label="notch",
        words={"no": "closed", "near edge": "notch in the near edge",
               "far edge": "notch in the far edge"},
        hint="",
    )  # fmt: skip
    drilled: Drilled = key(
        "choice",
        default="by rule",
        help="{options}; by rule it is made flat, but after bending where it is nearer to a bend "
        "than two thicknesses, a slot four, a notch three",
        left_out="by rule",
        new=('"flat"',),
        label="drilled",
        words={"by rule": "by rule", "flat": "in the flat", "after bending": "after bending"},
        hint="",
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
        "choice",
        help="the ends leave or make {options}",
        new=('"weld gap"',),
        needed=True,
        label="Its ends",
        blank="open shape",
        words={
            "gap": "leave a gap",
            "weld gap": "leave a gap for a weld",
            "overlap": "overlap",
        },
    )
    size: float = keys(
        Key(
            kind="length",
            name="size",
            help="of the gap, or how far the ends overlap",
            inch="1/16 in",
            metric="1.5 mm",
            needed=True,
            label="Gap or overlap",
            hint="",
        )
    )
    absorb: int = keys(
        Key(
            kind="own",
            name="absorb",
            help="leg that takes up what is missing",
            inch="3",
            needed=True,
            label="Leg that closes it",
        )
    )
