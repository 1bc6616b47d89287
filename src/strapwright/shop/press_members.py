"""What guides and feeds a tooling: guide rods, coupling, piston rod, frame and circuit."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.keys import key
from strapwright.shop.steel_names import UNKNOWN_STEEL

RodsHeld = Literal["below", "both ends"]
CouplingKind = Literal["rigid", "pinned", "floating"]

GUIDE_FRICTION = 0.25  # static, the value behind the 2:1 rule


@frozen(kw_only=True)
class Guides:
    """Guide rods that keep the push plate square.

    Attributes
    ----------
    count, diameter, length
        ``length`` is free between what holds each rod, or from there to the push plate [mm].
    held
        ``below`` alone, or at ``both ends``.
    spacing
        Between the rods [mm].
    bush
        Length of a bush on its rod [mm].
    clearance
        Of a bush on its rod, on the diameter [mm].
    friction
        Static, of bush on rod [-].
    """

    count: int = key("count", default=2, label="How many", inch="2", hint="")
    diameter: float | None = key("length", label="Diameter", inch="1 in", metric="25 mm", hint="")
    length: float | None = key(
        "length", label="Free length", inch="10 in", metric="250 mm", hint="between what holds it"
    )
    held: RodsHeld = key("choice", default="below", label="Rods held", blank="below", hint="")
    spacing: float | None = key("length", label="Spacing", inch="8 in", metric="200 mm", hint="")
    bush: float | None = key(
        "length", label="Length of a bush", inch="3 in", metric="75 mm", hint=""
    )
    clearance: float | None = key(
        "length", label="Bush on rod", inch="0.004 in", metric="0.1 mm", hint="on the diameter"
    )
    friction: float = key(
        "friction", default=GUIDE_FRICTION, label="Friction", inch="0.25", hint="static"
    )
    material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the rods", hint="")


@frozen(kw_only=True)
class Coupling:
    """What joins piston rod and push plate.

    Attributes
    ----------
    kind
        ``rigid``, ``pinned`` or ``floating``.
    play, length
        A floating coupling tilts until its play across this length is used up [mm].
    pin, pin_material
        What pulls back, in double shear [mm].
    """

    kind: CouplingKind = key(
        "choice", default="rigid", label="Ram and push plate are", blank="not entered", hint=""
    )
    play: float | None = key(
        "length", label="Play", inch="0.04 in", metric="1 mm", hint="floating only"
    )
    length: float | None = key(
        "length", label="across", inch="2 in", metric="50 mm", hint="floating only"
    )
    pin: float | None = key(
        "length", label="Pin that pulls back", inch="1/2 in", metric="12 mm", hint=""
    )
    pin_material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of that pin", hint="")


@frozen(kw_only=True)
class PistonRod:
    """The piston rod as a column.

    Attributes
    ----------
    free_length
        From the gland to the push plate with the ram fully out [mm].
    guided
        Whether guide rods keep its end from going sideways; fixed-free otherwise.
    """

    material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the rod", hint="")
    free_length: float | None = key(
        "length",
        label="Free length of rod",
        inch="10 in",
        metric="250 mm",
        hint="gland to push plate, ram fully out",
    )
    guided: bool = key("flag", default=False, label="Held sideways by guide rods", hint="")


@frozen(kw_only=True)
class Frame:
    """The press frame.

    Attributes
    ----------
    rating
        What it is stated to stand [N].
    """

    rating: float | None = key(
        "force", label="Frame rating", inch="12 tons (US)", metric="110 kN", hint=""
    )


@frozen(kw_only=True)
class Circuit:
    """Rated pressures of what the pump feeds [MPa].

    Attributes
    ----------
    hose, fitting, valve, cylinder
        On the piston side.
    rod_side
        Lowest rating on the rod side.
    gauge
        Range of the pressure gauge.
    holds_load
        Whether the circuit holds the load when the pump stops.
    """

    hose: float | None = key(
        "pressure", label="Hose rated to", inch="3000 psi", metric="210 bar", hint=""
    )
    fitting: float | None = key(
        "pressure", label="Fittings rated to", inch="3000 psi", metric="210 bar", hint=""
    )
    valve: float | None = key(
        "pressure", label="Valve rated to", inch="3000 psi", metric="210 bar", hint=""
    )
    cylinder: float | None = key(
        "pressure", label="Cylinder rated to", inch="2500 psi", metric="170 bar", hint=""
    )
    rod_side: float | None = key(
        "pressure", label="Rod side rated to", inch="2500 psi", metric="170 bar", hint="its lowest"
    )
    gauge: float | None = key(
        "pressure", label="Gauge reads to", inch="3000 psi", metric="250 bar", hint=""
    )
    holds_load: bool | None = key("flag", label="Load held with the pump off", hint="")
