"""The finished part: legs, bends and holes, as a person states them."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.bar import Bar, Lot
from strapwright.shop.by_hand.part_twist import Twist
from strapwright.shop.keys import Key, key, keys
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.overall_sizes import Overall
from strapwright.shop.part_bend import Bend
from strapwright.shop.part_finish import MAIN_TOOLING, Finish
from strapwright.shop.part_holes import Closing, Closure, Hole, Weld
from strapwright.shop.part_limits import ANGLE_TOLERANCE, Limit, Tolerance

__all__ = [
    "MOST_AT_ONCE", "MOST_PARTS", "MOST_STACKED", "Bend", "Closing", "Closure", "Edges", "Grain",
    "Hole", "Measured", "Part", "Weld",
]  # fmt: skip

Measured = Literal["outside", "inside", "centre", "straight"]
Grain = Literal["across", "along", "unknown"]
Edges = Literal["mill", "sheared", "flame cut"]

MOST_PARTS = 10_000
MOST_AT_ONCE = 20
MOST_STACKED = 5


@frozen(kw_only=True)
class Part:
    """A bent bar part.

    Attributes
    ----------
    legs
        Leg lengths in order from end 1, one more than the bends, measured as ``measured`` says
        [mm].
    inside_radius
        Wanted inside radius: a demand on the tooling [mm].
    assumed_radius
        Inside radius of the blank where no tooling is given, the wanted one where ``None`` [mm].
    order
        Bend numbers in the order they are made, or ``None`` for the best one.
    natural
        Without a stated order: the natural order from end 1 instead of the best one.
    at_once
        How many bars lie side by side under the nose.
    stacked
        How many bars lie on each other under the nose.
    rolls
        Turn of the bar about itself before each bend, one a bend; empty where none is rolled [rad].
        Positive turns the top of the bar, as drawn with end 1 on the left, towards the viewer.
    twists
        Quarter twists of a flat, from end 1.
    every_angle
        How far off every bend angle may be, to either side, where the job states it [rad].
    tolerance, limits
        What legs and angles may be out by: in general, and of single legs and bends.
    close
        How the ends meet, or ``None`` where the shape is open.
    overall
        Sizes that legs were solved for, or ``None`` where every leg is stated.
    trim_1, trim_2
        What the leg at end 1 or 2 is left longer for bending, sawn off after; ``None``: nothing
        [mm].
    grain
        How the bend lines run to the rolling direction of the metal.
    edges
        How the edges of the bar were made.
    finishes, others
        Bends that the press makes part of the way; tooling that some bends are made on in place of
        the job's own.
    """

    name: str = key(
        "text",
        default="part",
        help="printed at the top of the sheet",
        left_out='"part"',
        ask="name the part",
        inch="fender hanger",
        new=('"oar rest"',),
        label="Name",
        hint="",
        group="part",
        given=True,
    )
    quantity: int = key(
        "count",
        default=1,
        most=MOST_PARTS,
        help="how many",
        inch="12",
        new=("4",),
        label="How many",
        hint="",
        group="part",
        given=True,
    )
    bar: Bar = keys(
        Key(
            kind="own",
            name="bar",
            help='"flat thickness x width", "square side" or "round diameter"',
            new=('"flat 1/4 x 2"', '"flat 6 x 50"'),
            needed=True,
            given=True,
        )
    )
    material: str = keys(
        Key(
            kind="own",
            name="material",
            help='a name of the catalog; "unknown mild steel" will do, with wider bands',
            inch="A36 hot rolled",
            metric="S235",
            needed=True,
            label="Metal",
            hint="",
            group="bar",
            place=1,
            given=True,
        )
    )
    lot: Lot
    measured: Measured = keys(
        Key(
            kind="choice",
            name="measured",
            help="how the legs are measured: {options}",
            default="outside",
            label="Legs are measured",
            words={"centre": "on the centre line", "straight": "straight, from bend to bend"},
            hint="",
            group="part",
            given=True,
        ),
        default="outside",
    )
    legs: tuple[float, ...] = keys(
        Key(
            kind="own",
            name="shape",
            help="leg, bend, leg, bend, leg: a bend is up or down and how far it turns the bar, in "
            'degrees (90 for a square corner), above 0 and below 180. "up 90 radius {6|150}" makes '
            'a large inside radius in a series of hits. "joggle up {1/2|12} over {2|50}" sets the '
            'bar off by two bends and the leg between them. "roll 90" before a bend turns a square '
            'or round bar, top towards you. "twist 90" between two lengths of a leg gives a flat a '
            'quarter twist there, "twist 90 over {3|80}" states the twisted run',
            new=(
                '["6", "up 90", "4-1/2", "down 45", "4"]',
                '["150", "up 90", "115", "down 45", "100"]',
            ),
            needed=True,
            given=True,
        )
    )
    bends: tuple[Bend, ...]
    rolls: tuple[float, ...] = ()
    twists: tuple[Twist, ...] = ()
    inside_radius: float | None = key(
        "length",
        help="inside radius wanted",
        note="Inside radius wanted. Default: what the tooling makes.",
        left_out="what the tooling makes",
        inch="1/2 in",
        metric="12.5 mm",
        label="Inside radius wanted",
        hint="tooling from the rack must give it",
        group="part",
    )
    assumed_radius: float | None = key(
        "length",
        help="inside radius to plan with until there is tooling",
        note="Inside radius to plan with until there is tooling; no demand. If left out: the one "
        "wanted.",
        left_out="the inside radius wanted",
        inch="1/4 in",
        metric="6 mm",
        label="Assumed radius",
        hint="for a first blank, until you enter tooling",
        group="part",
    )
    order: tuple[int, ...] | None = keys(
        Key(
            kind="own",
            name="order",
            help='bends in the order they are made; "best" finds the order with the least '
            'handling, "natural" goes from end 1',
            note='Bends in the order they are made; "best" finds the order with the least handling '
            'and is meant if left out, "natural" goes from end 1.',
            left_out="best",
            inch="[2, 1]",
        ),
        default=None,
    )
    natural: bool = False
    at_once: int = key(
        "count",
        default=1,
        most=MOST_AT_ONCE,
        help="bars side by side under the nose",
        inch="1",
        new=("2",),
        label="Bars bent at once",
        hint="side by side under the nose",
        group="bar",
        place=4,
    )
    due: str | None = key(
        "text",
        help="day it must be finished on: year, month, day",
        ask="write year, month and day in quotes",
        inch="2026-12-04",
        late=1,
        label="Due",
        hint="year-month-day, for the week",
        group="part",
        later=True,
    )
    stacked: int = key(
        "count", default=1, most=MOST_STACKED, inch="2", help="bars on each other under the nose",
        label="Bars on each other", hint="under the nose", group="bar", place=5, later=True,
    )  # fmt: skip
    every_angle: float | None = keys(
        Key(
            kind="angle",
            name="angle_tolerance",
            help="how far off a bend angle may be, to either side",
            left_out="1°, or by the class of the tolerance",
            inch="0.5",
        ),
        default=None,
    )
    tolerance: Tolerance | None = keys(
        Key(
            kind="table",
            name="tolerance",
            help="what legs and angles without limits of their own may be out by",
            left_out="legs by ISO 2768-c, angles 1°",
            late=1,
        ),
        default=None,
    )
    limits: tuple[Limit, ...] = keys(
        Key(
            kind="list",
            name="limit",
            help="limits of single legs and bends",
            new=(
                '[{ leg = 2, length = "1/64" }, { bend = 1, angle = 0.5 }]',
                '[{ leg = 2, length = "0.4" }, { bend = 1, angle = 0.5 }]',
            ),
            left_out="none",
            note="Limits of single legs and bends:",
            late=1,
        ),
        default=(),
    )
    close: Closing | None = keys(
        Key(
            kind="table",
            name="close",
            help='a closed shape: the ends leave a "gap" or "weld gap" or make an "overlap"; one '
            "leg gives way",
            lacking="open",
            late=1,
        ),
        default=None,
    )
    grain: Grain = key(
        "choice",
        default="across",
        help='bend lines "across" the rolling direction, "along" it or "unknown"',
        label="Bend lines run",
        words={
            "across": "across the grain",
            "along": "along the grain",
            "unknown": "not known",
        },
        hint="",
        group="bar",
        place=3,
    )
    edges: Edges = key(
        "choice",
        default="mill",
        help='edges as they came from the "mill", "sheared" or "flame cut"',
        new=('"sheared"',),
        label="Edges",
        words={"mill": "as rolled"},
        hint="",
        group="bar",
        place=2,
    )
    welds: tuple[Weld, ...] = keys(
        Key(
            kind="flag",
            name="hot",
            help="hot bending is not covered",
            note="all bends are cold; hot bending is not covered",
            default=False,
            given=True,
        ),
        Key(
            kind="list",
            name="weld",
            help="welds across the bar, placed as holes are",
            left_out="none",
            note="Welds across the bar, placed as holes are:",
            late=1,
        ),
        default=(),
    )
    overall: Overall | None = keys(
        Key(kind="table", name="overall", left_out="every leg is stated", late=1,
            help='size of the finished part over all; legs written "?" follow from it',
            only_with=("shape", '["? arm", "up 90", "?", "up 90", "? arm"]')),
        default=None,
    )  # fmt: skip
    trim_1: float | None = keys(
        Key(
            kind="table",
            name="trim",
            help="what an end leg is left longer for bending and sawn off after",
            lacking="each is cut to its length before bending",
            late=1,
        ),
        Key(
            kind="length",
            name="trim.end_1",
            help="at end 1",
            inch="3/4 in",
            metric="20 mm",
            label="Leave long at end 1",
            hint="sawn off after bending; for a leg that is too short to bend",
            group="part",
            later=True,
        ),
        default=None,
        own=False,
    )
    trim_2: float | None = key(
        "length", name="trim.end_2", help="at end 2", inch="3/4 in", metric="20 mm",
        label="Leave long at end 2", group="part", later=True,
    )  # fmt: skip
    finishes: tuple[Finish, ...] = keys(
        Key(kind="list", name="finish", left_out="none", late=1,
            help="bends made part of the way, and what finishes them: the bench or other tooling",
            new=('[{ bend = 1, at = 45, by = "tooling", tooling = "narrow die" }]',)), default=(),
    )  # fmt: skip
    others: tuple[OtherTooling, ...] = keys(
        Key(
            kind="list",
            name="other_tooling",
            help="bends that are made on another nose or other shoulders",
            left_out="every bend is made on `[tooling]`",
            late=1,
        ),
        default=(),
    )
    holes: tuple[Hole, ...] = keys(
        Key(kind="list", name="hole", help="see below", left_out="none"), default=()
    )

    @property
    def angle_tolerance(self) -> float:
        """How far off a bend angle may be where nothing nearer is stated [rad]."""
        return ANGLE_TOLERANCE if self.every_angle is None else self.every_angle

    def finish_of(self, bend: int) -> Finish | None:
        """How a 1-based bend is finished off the tooling; ``None`` where the press makes it."""
        return next((one for one in self.finishes if one.bend == bend), None)

    def pressed_angle(self, bend: int) -> float:
        """Angle after release that the press makes of a 1-based bend [rad]."""
        finish = self.finish_of(bend)
        return self.bends[bend - 1].angle if finish is None else finish.at

    def tool_named(self, name: str) -> int | None:
        """Place of a tooling as ``tool_of`` counts them, by its name; ``None`` for no such one."""
        names = (MAIN_TOOLING, *(one.name for one in self.others))
        return names.index(name) if name in names else None

    def tool_of(self, bend: int) -> int:
        """0 where a 1-based bend is made on the job's own tooling, else the place in ``others``."""
        return next((k for k, one in enumerate(self.others, start=1) if bend in one.bends), 0)

    @property
    def several_toolings(self) -> bool:
        """Whether a bend is made on other tooling than the job's own."""
        return any(one.bends for one in self.others)

    def roll_before(self, bend: int) -> float:
        """Turn of the bar about itself right before a bend, counted from 0 [rad]."""
        return self.rolls[bend] if self.rolls else 0.0
