"""A job: everything one plan is made from."""

from __future__ import annotations

from typing import Literal

from attrs import evolve, field, frozen

from strapwright.shop.by_hand.handling_minutes import HandlingMinutes
from strapwright.shop.keys import Key, key, keys
from strapwright.shop.part import Part
from strapwright.shop.press import Press
from strapwright.shop.tooling import Tooling

Units = Literal["inch", "metric"]
BlankMethod = Literal["strain", "book soft", "book medium", "book hard", "din 6935", "factor"]
Reading = Literal["1/64", "1/32", "1/16", "decimal", "mm"]


@frozen(kw_only=True)
class BlankSettings:
    """How the blank is worked out and read.

    Attributes
    ----------
    method
        ``strain`` is the stroke solver's own strain state.
    factor
        Neutral-axis factor K for the method ``factor`` [-].
    reading
        How lengths are printed on the sheet; ``None`` follows the job's units.
    """

    method: BlankMethod = key(
        "choice",
        default="strain",
        help="{options}; strain is from the bend itself",
        note='"strain" (from the bend itself), "book soft", "book medium", "book hard", "din 6935" '
        'or "factor"; strain if left out.',
        given=True,
        label="Blank worked out",
        words={
            "strain": "from the bend itself",
            "book soft": "by the book, soft",
            "book medium": "by the book, medium",
            "book hard": "by the book, hard",
            "din 6935": "by DIN 6935",
            "factor": "by a factor of the shop",
        },
    )
    factor: float | None = keys(
        Key(
            kind="share",
            name="factor",
            help="where the neutral axis lies, as a share of the thickness",
            only_with=("method", "factor"),
            inch="0.42",
            label="Factor of the shop",
        ),
        default=None,
    )
    reading: Reading | None = key(
        "choice",
        help="{options}: how the sheets read",
        note='"1/64", "1/32", "1/16", "decimal" or "mm": how the sheets read. By the unit system '
        "if left out.",
        left_out="by the unit system",
        label="Sheets read",
        blank="by the unit system",
        words={"1/64": "to 1/64 in", "1/32": "to 1/32 in", "1/16": "to 1/16 in"},
        new=('"1/32"', '"decimal"'),
    )


# Chord height of a row of hits from the true arc, 1/32 in; common practice, no source.
HITS_TOLERANCE = 0.79375  # mm


@frozen(kw_only=True)
class HitSettings:
    """How fine a row of hits is.

    Attributes
    ----------
    tolerance
        How far the made shape may stand off the true arc [mm].
    """

    tolerance: float = key(
        "length",
        default=HITS_TOLERANCE,
        help="how far the finished shape may be from the true arc",
        left_out="{1/32 in|0.8 mm}",
        inch="1/64 in",
        metric="0.4 mm",
        label="A large radius may be off the arc by",
        hint="how fine its series of hits is",
    )


@frozen(kw_only=True)
class Job:
    """One part with the press and tooling it is made on; either may be missing."""

    units: Units
    part: Part
    press: Press | None = None
    tooling: Tooling | None = None
    blank: BlankSettings = BlankSettings()
    hits: HitSettings = HitSettings()
    handling: HandlingMinutes = field(factory=HandlingMinutes)

    def toolings(self) -> tuple[Tooling, ...]:
        """Return its own tooling and all other, as ``part.tool_of`` counts them; empty without."""
        if self.tooling is None:
            return ()
        own = self.tooling
        return (own, *(one.on(own) for one in self.part.others))

    def on_tooling_of(self, bend: int) -> Job:
        """Return the job with all on the tooling of a 1-based bend."""
        tool = self.part.tool_of(bend)
        if tool == 0 or self.tooling is None:
            return self
        return evolve(self, tooling=self.toolings()[tool], part=evolve(self.part, others=()))
