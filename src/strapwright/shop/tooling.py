"""The tooling: one nose (punch), one pair of shoulders (die) and what carries them."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.keys import Key, key, keys
from strapwright.shop.members import Members
from strapwright.shop.nose_and_shoulders import Floor, Groove, Held, Nose, Shoulders
from strapwright.shop.press import Axis

__all__ = [
    "FRICTION",
    "MARK_ERROR",
    "TOUCH_ERROR",
    "Floor",
    "Groove",
    "Held",
    "Nose",
    "NosePlace",
    "Obstacle",
    "RamSide",
    "Rod",
    "Shoulders",
    "Tooling",
]

RamSide = Literal["nose", "shoulders"]
NosePlace = Literal["above", "below", "beside"]

FRICTION = 0.1  # oiled or dry mill scale on steel; common practice, no source
TOUCH_ERROR = 0.3  # mm; by eye and feeler, common practice, no source
MARK_ERROR = 0.5  # mm; a scribed line by eye, or a bar pushed to a stop: common practice, no source


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

    out: float = key(
        "length",
        help="from the middle of the opening to its middle",
        inch="5 in",
        metric="125 mm",
        needed=True,
    )
    along: float = key(
        "signed length",
        default=0.0,
        help="where its middle is along the nose",
        left_out="in the middle of the bar",
        inch="3 in",
        metric="75 mm",
    )
    diameter: float = key("length", help="of each", inch="1 in", metric="25 mm", needed=True)


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

    name: str = key(
        "text",
        default="obstacle",
        help="what it is called",
        ask="write what it is called",
        inch="stop",
    )
    side: RamSide = key(
        "choice",
        default="shoulders",
        help="the half it moves with, {options}",
        new=('"shoulders"',),
    )
    box: tuple[float, float, float, float] = keys(
        Key(
            kind="own",
            name="box",
            help="left, low, right, high from the middle of the shoulder tops (from the nose's "
            "centre where it moves with the nose)",
            new=('["8", "0", "9", "2"]', '["200", "0", "225", "50"]'),
            needed=True,
        )
    )
    along: tuple[float, float] | None = keys(
        Key(
            kind="own",
            name="along",
            help="from where to where along the nose",
            left_out="all along",
            new=('["-1", "1"]', '["-25", "25"]'),
        ),
        default=None,
    )


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
    mark_error
        Half width of the band on where a bend comes on the bar [mm].
    rating
        Weakest member, as a force on the nose [N]; ``None`` where not stated.
    members
        What carries nose and shoulders; ``None`` where nothing is said of it.
    plate_width, plate_thickness, plate_length
        Push plate across the bar and in the direction of the ram [mm]; ``None`` where not stated.
    own_plate
        Whether it has a push plate of its own though the press has one that stays.
    rods, obstacles
        What else stands about.
    """

    ram_side: RamSide = key(
        "choice",
        default="nose",
        help="which half moves, {options}",
        label="What moves",
        words={"nose": "the nose", "shoulders": "the shoulders"},
        hint="",
        group="nose",
        place=6,
        later=True,
        given=True,
    )
    friction: float = key(
        "friction",
        default=FRICTION,
        zero=True,
        help="friction between bar and shoulders, 0 to {high}",
        inch="0.12",
        label="Friction between bar and shoulders",
        hint="0.1 where nothing is known",
        group="setting",
        later=True,
    )
    touch_error: float = key(
        "length",
        default=TOUCH_ERROR,
        zero=True,
        help="how closely you can find first contact of nose and bar",
        inch="0.005 in",
        metric="0.1 mm",
        label="First contact is found within",
        hint="how closely you see nose and bar touch",
        group="setting",
        later=True,
    )
    mark_error: float = key(
        "length",
        default=MARK_ERROR,
        zero=True,
        help="how closely a bend comes where its mark is, by end stop or sight line",
        inch="1/64 in",
        metric="0.4 mm",
        label="A bend comes on its mark within",
        hint="by end stop or sight line",
        group="setting",
        later=True,
    )
    rating: float | None = key(
        "force",
        help="most force the weakest member may carry",
        note="Most force the weakest member may carry. If left out, only the relief valve limits "
        "the force.",
        lacking="what the `members` can carry, and it does no more than they do; without them only "
        "the relief valve limits the force",
        inch="8 tons (US)",
        metric="70 kN",
        label="Tooling rating",
        hint="most force the weakest member may carry",
        group="nose",
        place=7,
        later=True,
    )
    plate_width: float | None = keys(
        Key(
            kind="table",
            name="plate",
            help="push plate that carries the nose, across the bar",
            left_out="assumed",
        ),
        Key(
            kind="length",
            name="plate.width",
            help="across the bar",
            inch="6 in",
            metric="150 mm",
            needed=True,
            label="Push plate, across the bar",
            hint="",
            group="nose",
            place=5,
            later=True,
        ),
        default=None,
        own=False,
    )
    plate_thickness: float | None = key(
        "length",
        name="plate.thick",
        help="in the direction of the ram",
        inch="3/4 in",
        metric="20 mm",
        label="Push plate thickness",
        hint="",
        group="nose",
        place=5,
        later=True,
    )
    plate_length: float | None = key(
        "length",
        name="plate.length",
        help="along the nose, evenly to both sides of the middle of the bar",
        left_out="taken to go on",
        inch="6 in",
        metric="150 mm",
        label="Push plate length",
        hint="along the nose",
        group="nose",
        place=5,
        later=True,
    )
    own_plate: bool = key(
        "flag",
        default=False,
        help="whether it has a push plate of its own, on a press with one that stays",
        label="Push plate of its own",
        hint="where another push plate stays on the press",
        group="nose",
        place=5,
        later=True,
    )
    nose: Nose = keys(Key(kind="table", name="nose", help="see below", needed=True))
    shoulders: Shoulders = keys(Key(kind="table", name="shoulders", help="see below", needed=True))
    rods: tuple[Rod, ...] = keys(
        Key(
            kind="list",
            name="rod",
            help="a pair of guide rods, one to each side: how far out, and where along the nose",
        ),
        default=(),
    )
    obstacles: tuple[Obstacle, ...] = keys(
        Key(
            kind="list",
            name="obstacle",
            help="anything else in the way, as left, low, right, high from the middle of the "
            "shoulder tops (from the nose's centre where it moves with the nose), and from where "
            "to where along the nose",
        ),
        default=(),
    )
    members: Members | None = keys(
        Key(
            kind="table",
            name="members",
            help="what carries nose and shoulders, to be checked; see the page on tooling for all "
            "of it",
            lacking="nothing is checked",
            new=(
                '{ off_centre = "1/8", push_plate = { thickness = "3/4", material = "A36" } }',
                '{ off_centre = "3", push_plate = { thickness = "20", material = "A36" } }',
            ),
        ),
        default=None,
    )


def nose_place(ram_side: RamSide, axis: Axis) -> NosePlace:
    """Where the nose is, seen from the bar.

    Parameters
    ----------
    ram_side
        Which half the ram moves.
    axis
        Which way it pushes: what it moves comes from the other way.
    """
    if axis == "level":
        return "beside"
    return "above" if (ram_side == "nose") == (axis == "down") else "below"
