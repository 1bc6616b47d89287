"""What a finished part is held to, and how likely each leg and angle comes out within it."""

from __future__ import annotations

from attrs import frozen

from strapwright.shop.part_limits import LimitBy


@frozen(kw_only=True)
class Chance:
    """How likely a figure comes out within its limits.

    Attributes
    ----------
    half
        Half width of the interval that holds the figure nine times in ten, in the figure's unit.
    first
        Of the part as planned now [-].
    later
        Of the next part, once the first one was measured and logged [-].
    """

    half: float
    first: float
    later: float


@frozen(kw_only=True)
class LegLimits:
    """One leg of the part.

    Attributes
    ----------
    leg
        1-based number.
    size, within
        As wanted, and what it may be out by to either side [mm].
    by
        Whose limit that is.
    chance
        ``None`` where nothing is proven of it.
    """

    leg: int
    size: float
    within: float
    by: LimitBy
    chance: Chance | None


@frozen(kw_only=True)
class BendLimits:
    """One bend angle of the part.

    Attributes
    ----------
    bend
        1-based number.
    angle, within
        As wanted, and what it may be out by to either side [rad].
    by
        Whose limit that is.
    chance
        ``None`` where nothing is proven of it.
    """

    bend: int
    angle: float
    within: float
    by: LimitBy
    chance: Chance | None


@frozen(kw_only=True)
class Limits:
    """All that a part is held to.

    Attributes
    ----------
    legs, bends
        Each, along the bar.
    takes
        1-based number of the leg that takes what the others leave.
    stated
        Whether the job states a limit; else all of them are assumed.
    from_end_2
        Marks that are measured from end 2, by their labels: where the middle of the nose comes from
        there [mm].
    """

    legs: tuple[LegLimits, ...]
    bends: tuple[BendLimits, ...]
    takes: int
    stated: bool
    from_end_2: tuple[tuple[str, float], ...]
