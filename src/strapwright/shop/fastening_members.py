"""The welds and bolts of a tooling's members."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.quantities.inside_units import KSI_MPA
from strapwright.shop.keys import key
from strapwright.shop.steel_names import UNKNOWN_STEEL

Holds = Literal[
    "shoulders", "cheeks", "carriers", "push plate", "nose", "web", "side plates", "base"
]


@frozen(kw_only=True)
class Weld:
    """The fillet welds that hold one member.

    Attributes
    ----------
    holds
        ``shoulders`` and ``cheeks`` on one side; ``carriers`` each; ``push plate`` on the ram;
        ``nose`` on its web; ``web`` on the push plate; ``side plates`` on the end of one cheek;
        ``base`` on the bed.
    size, length
        Leg, and effective length of all runs together [mm].
    runs
        In how many runs of one length; one along each of two sides where not stated.
    thinner
        Thickness of the thinner part [mm].
    spacing
        Between the two rows of weld that stand against tilting [mm].
    height
        From the weld up to where the shoulder pushes [mm]; the shoulders' height if left out.
    electrode
        Tensile strength of the weld metal [MPa]; 70 ksi if left out.
    """

    holds: Holds = key("choice", needed=True, label="Fastens", hint="")
    size: float = key(
        "length", needed=True, label="Fillet leg size", inch="1/4 in", metric="6 mm", hint=""
    )
    length: float = key(
        "length",
        needed=True,
        label="Length of all runs",
        inch="8 in",
        metric="200 mm",
        hint="one side or one carrier",
    )
    runs: int = key(
        "count", default=2, label="In how many runs", inch="2", hint="of one length each"
    )
    thinner: float | None = key(
        "length", label="Thinner part", inch="3/4 in", metric="20 mm", hint=""
    )
    spacing: float | None = key(
        "length",
        label="Row spacing",
        inch="3 in",
        metric="75 mm",
        hint="the spacing that resists tilting",
    )
    height: float | None = key(
        "length",
        label="Height from weld to the load line",
        inch="1-1/2 in",
        metric="40 mm",
        hint="",
    )
    electrode: float = key(
        "strength",
        default=70 * KSI_MPA,
        label="Weld metal",
        inch="70 ksi",
        metric="480 MPa",
        hint="tensile",
    )


@frozen(kw_only=True)
class Bolt:
    """The bolts that hold one member.

    Attributes
    ----------
    holds
        As of :class:`Weld`.
    size
        ``1/2-13`` or ``M12`` or ``M12x1.25``.
    grade
        SAE J429 or ISO 898-1; the lowest of its system where not stated.
    count
        Of bolts, of one side or one carrier.
    length, grip
        Under the head, and the thickness that it clamps before the thread engages [mm].
    into
        Steel of the tapped part.
    spacing
        Between the two rows that stand against tilting [mm].
    height
        From the bolted face, of side plates from the middle of the rows, up to where the shoulder
        pushes [mm]; the shoulders' height if left out.
    circle
        Of a round flange, the circle on which they stand [mm].
    """

    holds: Holds = key("choice", needed=True, label="Fastens", hint="")
    size: str = key("text", needed=True, label="Thread", inch="1/2-13", metric="M12", hint="")
    grade: str | None = key("text", label="Grade", inch="5", metric="8.8", hint="on its head")
    count: int = key(
        "count", default=1, label="How many", inch="4", hint="of one side or one carrier"
    )
    length: float | None = key(
        "length", label="Length", inch="1-3/4 in", metric="45 mm", hint="under the head"
    )
    grip: float | None = key(
        "length",
        label="Thickness clamped",
        inch="3/4 in",
        metric="20 mm",
        hint="before the thread engages",
    )
    into: str = key("steel", default=UNKNOWN_STEEL, label="Screwed into", hint="")
    spacing: float | None = key(
        "length",
        label="Row spacing",
        inch="3 in",
        metric="75 mm",
        hint="the spacing that resists tilting",
    )
    height: float | None = key(
        "length",
        label="Height from bolted face to the load line",
        inch="1-1/2 in",
        metric="40 mm",
        hint="",
    )
    circle: float | None = key(
        "length", label="Bolt circle", inch="3 in", metric="75 mm", hint="of a round flange"
    )
