"""What was assumed of the surroundings, since nobody stated it."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.findings import Fact

Assumed = Literal[
    "web length",
    "clear span",
    "no plate",
    "plate width",
    "plate length",
    "ram width",
    "shoulder height",
    "outer edge",
    "shoulder length",
    "bed width",
    "column width",
    "column length",
    "daylight",
]


@frozen(kw_only=True)
class Assumption(Fact):
    """One size that nobody stated.

    Attributes
    ----------
    what
        ``web length``: of nose and web.  ``clear span``: of the nose between what carries it.
        ``no plate``: the reach of the nose is not stated, so no push plate is in the way.
        ``plate width``: of the push plate across the bar; ``plate length``: along the nose, where
        it goes on.  ``ram width``: of what moves or holds the push plate.  ``shoulder height``:
        above a bed.  ``outer edge``: how far a shoulder reaches past its round.  ``shoulder
        length``: along the nose, where they go on.  ``bed width``: it goes on past the bar.
        ``column width``: across the bar; ``column length``: along the nose.  ``daylight``: of the
        nose above the bar when that is laid in.
    size
        [mm]; 0 for what is not there and for what goes on.
    """

    what: Assumed
    size: float = 0.0
