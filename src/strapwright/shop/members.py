"""The members of a tooling: what carries the nose and the shoulders, and what feeds the press.

Each value is one table of ``[tooling.members]``.  Whatever is ``None`` is not stated; a check that
needs it is listed as not made, with what to state.  A field says in its metadata how it is read.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Literal, get_args

from attrs import field, fields, frozen

from strapwright.quantities.inside_units import KSI_MPA

ShoulderKind = Literal["shaft", "block"]
CouplingKind = Literal["rigid", "pinned", "floating"]
Holds = Literal[
    "shoulders", "cheeks", "carriers", "push plate", "nose", "web", "side plates", "base"
]

UNKNOWN_STEEL = "unknown steel"
OFF_CENTRE = 3.0  # mm; about 1/8 in, how far a bar is laid off by eye; common practice, no source
GUIDE_FRICTION = 0.25  # static, the value behind the 2:1 rule


def _read_as(kind: str, default: Any = None, **more: Any) -> Any:
    metadata = {"kind": kind, **more}
    return (
        field(metadata=metadata)
        if kind.startswith("needed ")
        else field(default=default, metadata=metadata)
    )


def _length() -> Any:
    return _read_as("length")


def _steel() -> Any:
    return _read_as("steel", UNKNOWN_STEEL)


@frozen(kw_only=True)
class NoseMember:
    """The nose as a beam.

    Attributes
    ----------
    material
        Steel of the nose.
    between
        From the middle of one carrier to the middle of the other, or from the carrier to the
        farther edge of the bar where it is held at one end [mm].
    sag
        Most the nose may sag [mm]; ``between`` / 500 where not stated.
    web_material
        Steel of the web; the nose's where not stated.
    """

    material: str = _steel()
    web_material: str | None = _read_as("steel")
    between: float | None = _length()
    sag: float | None = _length()


@frozen(kw_only=True)
class Carriers:
    """The plates that hold the nose, one at each end, or one where it is held at one end.

    Attributes
    ----------
    thickness, width
        Along the nose, and across it [mm].
    height
        Free height of a carrier between push plate and nose [mm].
    pin, pin_material, cheek
        Pin through each carrier, and the thickness of each of the two cheeks beside it [mm].
    """

    material: str = _steel()
    thickness: float | None = _length()
    width: float | None = _length()
    height: float | None = _length()
    pin: float | None = _length()
    pin_material: str = _steel()
    cheek: float | None = _length()


@frozen(kw_only=True)
class PushPlate:
    """The plate between ram and carriers.

    Attributes
    ----------
    thickness, width
        [mm]; ``width`` is across the nose.
    pad
        How much of its length the ram's face backs [mm]; the piston rod's diameter if left out.
    """

    material: str = _steel()
    thickness: float | None = _length()
    width: float | None = _length()
    pad: float | None = _length()


@frozen(kw_only=True)
class ShoulderMember:
    """The two shoulders as beams and as rounds on their seats.

    Attributes
    ----------
    kind
        A ``shaft`` lies on its seat along a line; a ``block`` on a face.
    backed
        Whether the seat carries the shoulder all along; else it is a beam.
    between
        Between the middles of its supports, where it is not backed [mm].
    seat_material
        What it lies on.
    """

    material: str = _steel()
    kind: ShoulderKind = _read_as("choice", "shaft", options=("shaft", "block"))
    backed: bool = _read_as("flag", default=True)
    between: float | None = _length()
    seat_material: str = _steel()


@frozen(kw_only=True)
class DieBody:
    """Cheeks that keep the shoulders from spreading, on a floor or tied by side plates.

    Attributes
    ----------
    cheek, floor
        Thickness of each [mm].
    length
        Of cheek and floor along the nose [mm].
    height
        From the floor's upper face to where the shoulder pushes [mm]; the shoulders' height if
        left out.
    side_plate, between, tall
        Thickness of each of two plates bolted across the ends of the cheeks, which tie them, the
        distance between the middles of the two, and how tall cheeks and plates are [mm]; with
        them the floor carries nothing.
    """

    material: str = _steel()
    cheek: float | None = _length()
    floor: float | None = _length()
    length: float | None = _length()
    height: float | None = _length()
    side_plate: float | None = _length()
    between: float | None = _length()
    tall: float | None = _length()


_HOLDS: tuple[str, ...] = get_args(Holds)


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
    thinner
        Thickness of the thinner part [mm].
    spacing
        Between the two rows of weld that stand against tilting [mm].
    height
        From the weld up to where the shoulder pushes [mm]; the shoulders' height if left out.
    electrode
        Tensile strength of the weld metal [MPa]; 70 ksi if left out.
    """

    holds: Holds = _read_as("needed choice", options=_HOLDS)
    size: float = _read_as("needed length")
    length: float = _read_as("needed length")
    thinner: float | None = _length()
    spacing: float | None = _length()
    height: float | None = _length()
    electrode: float = _read_as("strength", 70 * KSI_MPA)


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
        Under the head, and what it passes before its thread takes hold [mm].
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

    holds: Holds = _read_as("needed choice", options=_HOLDS)
    size: str = _read_as("needed text")
    grade: str | None = _read_as("text")
    count: int = _read_as("count", 1)
    length: float | None = _length()
    grip: float | None = _length()
    into: str = _steel()
    spacing: float | None = _length()
    height: float | None = _length()
    circle: float | None = _length()


@frozen(kw_only=True)
class Guides:
    """Guide rods that keep the push plate square.

    Attributes
    ----------
    count, diameter, length
        ``length`` is free between what holds each rod [mm].
    spacing
        Between the rods [mm].
    bush
        Length of a bush on its rod [mm].
    clearance
        Of a bush on its rod, on the diameter [mm].
    friction
        Static, of bush on rod [-].
    """

    count: int = _read_as("count", 2)
    diameter: float | None = _length()
    length: float | None = _length()
    spacing: float | None = _length()
    bush: float | None = _length()
    clearance: float | None = _length()
    friction: float = _read_as("friction", GUIDE_FRICTION)
    material: str = _steel()


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

    kind: CouplingKind = _read_as("choice", "rigid", options=("rigid", "pinned", "floating"))
    play: float | None = _length()
    length: float | None = _length()
    pin: float | None = _length()
    pin_material: str = _steel()


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

    material: str = _steel()
    free_length: float | None = _length()
    guided: bool = _read_as("flag", default=False)


@frozen(kw_only=True)
class Frame:
    """The press frame.

    Attributes
    ----------
    rating
        What it is stated to stand [N].
    """

    rating: float | None = _read_as("force")


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

    hose: float | None = _read_as("pressure")
    fitting: float | None = _read_as("pressure")
    valve: float | None = _read_as("pressure")
    cylinder: float | None = _read_as("pressure")
    rod_side: float | None = _read_as("pressure")
    gauge: float | None = _read_as("pressure")
    holds_load: bool | None = _read_as("flag")


@frozen(kw_only=True)
class Members:
    """Every member stated; ``None`` or empty where nothing is said of it.

    Attributes
    ----------
    off_centre
        How far the bar may lie off the ram's axis [mm].
    """

    off_centre: float = OFF_CENTRE
    nose: NoseMember | None = None
    carriers: Carriers | None = None
    push_plate: PushPlate | None = None
    shoulders: ShoulderMember | None = None
    body: DieBody | None = None
    weld: tuple[Weld, ...] = ()
    bolt: tuple[Bolt, ...] = ()
    guides: Guides | None = None
    coupling: Coupling | None = None
    rod: PistonRod | None = None
    frame: Frame | None = None
    circuit: Circuit | None = None

    @property
    def held(self) -> tuple[Holds, ...]:
        """What welds and bolts hold, in their order."""
        return tuple(one.holds for one in self.weld) + tuple(one.holds for one in self.bolt)


# Key of [tooling.members] -> what its table makes.
SINGLE: Mapping[str, type] = MappingProxyType(
    {
        "nose": NoseMember,
        "carriers": Carriers,
        "push_plate": PushPlate,
        "shoulders": ShoulderMember,
        "body": DieBody,
        "guides": Guides,
        "coupling": Coupling,
        "rod": PistonRod,
        "frame": Frame,
        "circuit": Circuit,
    }
)
SEVERAL: Mapping[str, type] = MappingProxyType({"weld": Weld, "bolt": Bolt})
MEMBER_KEYS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "tooling.members": ("off_centre", *SINGLE, *SEVERAL),
        **{
            f"tooling.members.{key}": tuple(one.name for one in fields(made))
            for key, made in {**SINGLE, **SEVERAL}.items()
        },
    }
)
