"""Nose (punch) and shoulders (die): the rounds that the bar is bent between."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.keys import Key, key, keys

Held = Literal["both ends", "one end", "web"]
Floor = Literal["open", "flat", "vee", "channel"]
Groove = Literal["none", "fitted"]

# Share of the opening past which a nose off its middle was compared with nothing.
MOST_OFFSET = 0.1


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
    offset
        How far it may stand off the middle of the opening, to either side [mm].
    """

    radius: float = keys(
        Key(
            kind="length",
            name="shaft",
            help="its diameter",
            inch="1 in",
            metric="25 mm",
            needed=True,
            label="Nose diameter",
            hint="",
            group="nose",
            given=True,
        ),
        Key(
            kind="length",
            name="radius",
            help="half of it",
            instead_of="shaft",
            inch="1/2 in",
            metric="12.5 mm",
            needed=True,
            label="Nose radius",
            hint="",
            group="nose",
        ),
    )
    reach: float | None = keys(
        Key(
            kind="length",
            name="reach",
            help="from the push plate's face to the tip of the nose",
            left_out="height of the web and the shaft",
            inch="4-1/8 in",
            metric="103 mm",
            label="Push plate face to nose tip",
            hint="default: web height plus nose diameter",
            group="nose",
            place=4,
            later=True,
            late=2,
        ),
        default=None,
    )
    held: Held = key(
        "choice",
        default="both ends",
        help="how it is carried, {options} (its web alone)",
        note='or "one end", or "web" (its web alone); both ends if left out',
        label="Nose supported",
        words={"web": "by its web only"},
        hint="",
        group="nose",
        place=2,
        later=True,
        given=True,
    )
    drawable: bool = key(
        "flag",
        default=False,
        help="true if it slides out of the part endways",
        label="Nose slides out endways",
        hint="",
        group="nose",
        place=3,
        later=True,
        given=True,
    )
    groove: Groove = key(
        "choice",
        default="none",
        help="a groove of the rod's own round about the nose, for round rod: {options}",
        label="Groove about the nose",
        words={"fitted": "of the rod's own round"},
        hint="",
        group="nose",
        place=3,
        later=True,
        late=1,
    )
    span: float | None = key(
        "length",
        help="clear length of the nose between its supports",
        inch="4-1/2 in",
        metric="110 mm",
        label="Clear length of nose between its supports",
        hint="",
        group="nose",
        place=1,
        later=True,
        late=1,
    )
    offset: float = key(
        "length",
        default=0.0,
        zero=True,
        help="how far off centre between the shoulders the nose may stand, to either side",
        left_out="centred",
        inch="1/32 in",
        metric="1 mm",
        label="How far off centre between the shoulders",
        hint="measure from the nose to each shoulder: half of the difference",
        group="nose",
        place=4,
        later=True,
        late=2,
    )
    web_thickness: float | None = keys(
        Key(
            kind="table",
            name="web",
            help="plate that carries the shaft",
            left_out="no web",
            given=True,
        ),
        Key(
            kind="length",
            name="web.thick",
            help="its thickness",
            inch="1/2 in",
            metric="12 mm",
            needed=True,
            label="Web thickness",
            hint="plate that carries the nose",
            group="nose",
        ),
        default=None,
        own=False,
    )
    web_height: float | None = keys(
        Key(
            kind="length",
            name="web.height",
            help="from the push plate to the shaft",
            inch="3 in",
            metric="75 mm",
            needed=True,
            label="Web height",
            hint="",
            group="nose",
        ),
        default=None,
        own=False,
    )


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

    radius: float = key(
        "length",
        help="of each round",
        inch="3/8 in",
        metric="10 mm",
        needed=True,
        label="Shoulder radius",
        hint="",
        group="shoulders",
        given=True,
    )
    opening: float = keys(
        Key(
            kind="length",
            name="opening",
            help="from centre to centre of the two rounds",
            inch="2-1/2 in",
            metric="64 mm",
            needed=True,
            label="Opening",
            hint="centre to centre of the two rounds",
            group="shoulders",
            given=True,
        ),
        Key(
            kind="length",
            name="gap",
            help="the clear distance between them",
            instead_of="opening",
            inch="1-3/4 in",
            metric="44 mm",
            needed=True,
            label="Clear gap",
            hint="between the rounds",
            group="shoulders",
        ),
        written="opening",
    )
    depth: float | None = key(
        "length",
        help="free depth below the shoulder tops; needed with a floor",
        inch="1-3/4 in",
        metric="45 mm",
        label="Depth below the shoulder tops",
        hint="needed if there is a floor",
        group="shoulders",
        place=1,
        later=True,
        given=True,
    )
    floor: Floor = key(
        "choice",
        default="open",
        help="{options}",
        label="Under the bar, between the shoulders",
        words={"channel": "channel (U)"},
        hint="",
        group="shoulders",
        later=True,
        given=True,
    )
    vee_angle: float | None = keys(
        Key(
            kind="angle",
            name="vee_angle",
            help="a vee with its included angle in degrees",
            only_with=("floor", "vee"),
            inch="85",
            label="Vee angle",
            hint="with a vee floor only",
            group="shoulders",
            place=2,
            later=True,
        ),
        default=None,
    )
    channel_width: float | None = keys(
        Key(
            kind="length",
            name="channel_width",
            help="a channel (a U): clear between its walls, and how high they stand on its floor",
            only_with=("floor", "channel"),
            inch="1-1/2 in",
            metric="38 mm",
            label="Channel, clear width",
            hint="only if the channel is narrower than the gap",
            group="shoulders",
            place=3,
            later=True,
        ),
        default=None,
    )
    channel_walls: float | None = keys(
        Key(
            kind="length",
            name="channel_walls",
            help="from the channel's floor to the tops of its walls",
            follows=True,
            only_with=("floor", "channel"),
            inch="1/2 in",
            metric="12 mm",
            label="Channel, height of walls",
            hint="from its floor to their tops",
            group="shoulders",
            place=4,
            later=True,
        ),
        default=None,
    )
    height: float | None = key(
        "length",
        help="from the bed to the shoulder tops",
        note="from the bed to the shoulder tops; without it there is no stop block",
        lacking="no stop block",
        inch="4 in",
        metric="100 mm",
        label="Shoulder height",
        hint="bed to shoulder tops; needed for the stop block height",
        group="shoulders",
        place=5,
        given=True,
    )
    outer_edge: float | None = keys(
        Key(
            kind="length",
            name="outer_edge",
            help="from the centre of the opening to the outer edge that you see from above",
            left_out="half the opening and the shoulder radius",
            inch="2-1/4 in",
            metric="56 mm",
            label="Centre line to outer edge of a shoulder",
            hint="the edge you line the mark up with",
            group="shoulders",
            place=6,
            later=True,
        ),
        default=None,
    )
    length: float | None = key(
        "length",
        help="along the nose, evenly to both sides of the middle of the bar",
        left_out="taken to go on",
        inch="6 in",
        metric="150 mm",
        label="Length of the shoulders",
        hint="along the nose; default: as long as the nose",
        group="shoulders",
        place=7,
        later=True,
    )
