"""The tooling: one nose (punch), one pair of shoulders (die) and what carries them."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.members import Members

RamSide = Literal["nose", "shoulders"]
Held = Literal["both ends", "one end", "web"]
Floor = Literal["open", "flat", "vee", "channel"]
Groove = Literal["none", "fitted"]


@frozen(kw_only=True)
class Nose:
    """The round the bar bends around.

    Attributes
    ----------
    radius
        [mm]
    reach
        From the push plate's face to the tip of the nose [mm]; ``None`` where not stated.
    web_thickness, web_height
        Web between plate and nose [mm]; ``None`` where not stated.
    held, drawable
        How the nose is carried along its length, ``web`` being on its web alone with nothing beside
        the bar, and whether it can be drawn out of the part.
    groove
        ``fitted``: a groove of the rod's own round runs about the nose.
    span
        Clear length of the nose between what carries it [mm]; ``None`` where not stated.
    """

    radius: float
    reach: float | None = None
    web_thickness: float | None = None
    web_height: float | None = None
    held: Held = "both ends"
    drawable: bool = False
    groove: Groove = "none"
    span: float | None = None


@frozen(kw_only=True)
class Shoulders:
    """The two rounds that carry the bar.

    Attributes
    ----------
    radius
        [mm]
    opening
        Centre to centre of the two shoulder circles [mm].
    depth
        Free depth below the shoulder tops [mm]; ``None`` where it is open.
    floor
        ``open``, ``flat``, ``vee`` or ``channel``, a U.
    vee_angle
        Included angle of a vee floor [rad].
    channel_width
        Clear width between the walls of a channel [mm]; ``None`` where they are the inner faces of
        the shoulders themselves.
    channel_walls
        From the channel's floor to the tops of its walls [mm]; stated with its width.
    height
        From the face the shoulders stand on (bed) to their tops [mm].
    outer_edge
        From the middle of the opening to the outer edge that can be seen [mm].
    length
        Along the nose, evenly to both sides of the bar's middle [mm]; ``None`` where not stated.
    """

    radius: float
    opening: float
    depth: float | None = None
    floor: Floor = "open"
    vee_angle: float | None = None
    channel_width: float | None = None
    channel_walls: float | None = None
    height: float | None = None
    outer_edge: float | None = None
    length: float | None = None


@frozen(kw_only=True)
class Rod:
    """A pair of guide rods, one to each side.

    Attributes
    ----------
    out
        From the middle of the opening to the rod's middle [mm].
    along
        Place of its middle along the nose, 0 in the middle of the bar [mm].
    diameter
        [mm]
    """

    out: float
    along: float
    diameter: float


@frozen(kw_only=True)
class Obstacle:
    """Anything else the bar could run into: a stop, a riser, a bracket.

    Attributes
    ----------
    name
        What it is called.
    side
        Which half it moves with.
    box
        Left, low, right, high [mm]; on the nose side from the nose's centre, on the shoulder side
        from the middle of the opening at the height of the shoulder tops.
    along
        From where to where along the nose, 0 in the middle of the bar [mm]; ``None``: all along.
    """

    name: str
    side: RamSide
    box: tuple[float, float, float, float]
    along: tuple[float, float] | None = None


@frozen(kw_only=True)
class Tooling:
    """One nose and one pair of shoulders.

    Attributes
    ----------
    ram_side
        Which half moves.
    friction
        Coefficient between bar and shoulders [-].
    touch_error
        Half width of the band on finding touch [mm].
    rating
        Weakest member, as a force on the nose [N]; ``None`` where not stated.
    members
        What carries nose and shoulders; ``None`` where nothing is said of it.
    plate_width, plate_thickness, plate_length
        Push plate across the bar, in the direction of the ram, and along the nose, there evenly to
        both sides of the bar's middle [mm]; ``None`` where not stated.
    rods, obstacles
        What else stands about.
    """

    nose: Nose
    shoulders: Shoulders
    ram_side: RamSide = "nose"
    friction: float = 0.1
    touch_error: float = 0.3
    rating: float | None = None
    members: Members | None = None
    plate_width: float | None = None
    plate_thickness: float | None = None
    plate_length: float | None = None
    rods: tuple[Rod, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()


def from_below(tooling: Tooling, axis: str) -> bool:
    """Whether the nose comes from below: the picture is then turned over."""
    if axis == "up":
        return tooling.ram_side == "nose"
    return axis == "down" and tooling.ram_side == "shoulders"
