"""A part with quarter twists as other parts: bent flat, as it ends up, and each side alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, TypeVar

from attrs import evolve

from strapwright.blank.blank_values import Blank
from strapwright.errors import HoleAt, InputError, KeyAt, Place
from strapwright.quantities import either_length
from strapwright.shop.by_hand.part_twist import Twist
from strapwright.shop.part import Hole, Part, Weld
from strapwright.shop.part_holes import cut_reach

Side = Literal[1, 2]  # of the twist, by the end of the bar that lies on it
_On = TypeVar("_On", Hole, Weld)


def flat_part(part: Part, runs: Sequence[float], lost: Sequence[float]) -> Part:
    """Return the part as it is bent, before it is twisted: its legs longer by what twists take.

    Parameters
    ----------
    part
        As stated.
    runs, lost
        Length of each twisted run, and by how much it gets shorter [mm].

    Raises
    ------
    InputError
        Where a hole or a weld lies in a twisted run.
    """
    legs = list(part.legs)
    for twist, less in zip(part.twists, lost, strict=True):
        legs[twist.leg - 1] += less

    def moved(one: _On, where: Place, reach: float) -> _On:
        for twist, run, less in zip(part.twists, runs, lost, strict=True):
            if twist.leg == one.leg:
                return _beside(part, one, twist, run=run, lost=less, where=where, reach=reach)
        return one

    return evolve(
        part,
        legs=tuple(legs),
        holes=tuple(
            moved(one, HoleAt(number), cut_reach(one))
            for number, one in enumerate(part.holes, start=1)
        ),
        welds=tuple(
            moved(one, KeyAt(f"part.weld[{number}]"), 0.0)
            for number, one in enumerate(part.welds, start=1)
        ),
        twists=(),
    )


def _beside(
    part: Part, one: _On, twist: Twist, *, run: float, lost: float, where: Place, reach: float
) -> _On:
    """A hole or weld on a twisted leg; measured across the twist, it is further off in the flat."""
    from_far = one.from_bend == one.leg or (one.from_bend is None and one.leg > 1)
    leg = part.legs[one.leg - 1]
    place = leg - one.distance if from_far else one.distance
    off = place - twist.middle
    if abs(off) < 0.5 * run + reach:
        raise InputError(
            where,
            f"it lies in the twisted run of leg {one.leg}, which is {either_length(run)} long",
            f"move it at least {either_length(0.5 * run + reach - abs(off))} further from its "
            "middle, or make it after twisting",
        )
    across = (off > 0.0) is not from_far
    return evolve(one, distance=one.distance + lost) if across else one


def turned_part(part: Part) -> Part:
    """Return the finished part, its bends turned out of one plane as the twists turn them.

    Parameters
    ----------
    part
        As stated.
    """
    return evolve(
        part,
        rolls=rolls_of(part),
        twists=(),
        finishes=(),
        holes=(),
        welds=(),
    )


def rolls_of(part: Part) -> tuple[float, ...]:
    """Roll of the bar before each bend that lays it as its twists do, shape (bends,) [rad].

    Where the top beyond a twist is turned towards the viewer, the bar is rolled back to bring it
    up again.
    """
    rolls = [0.0] * len(part.bends)
    for twist in part.twists:
        if twist.leg <= len(rolls):
            rolls[twist.leg - 1] -= twist.angle
    return tuple(rolls)


def bends_of_side(part: Part, twist: Twist, side: Side) -> tuple[int, ...]:
    """1-based bends on one side of a twist."""
    bends = range(1, len(part.bends) + 1)
    return tuple(bend for bend in bends if (bend < twist.leg) is (side == 1))


def one_side(
    part: Part, blank: Blank, twist: Twist, side: Side, *, straight: float | None
) -> Part | None:
    """Return one side of a twisted part as a part of its own, or ``None`` where that leaves no leg.

    Parameters
    ----------
    part
        As it is bent, flat.
    blank
        Of that part.
    twist
        Where the sides meet.
    side
        Which.
    straight
        Bar beyond the bends of this side, from the bend next to the twist to the run [mm];
        ``None`` for all of the bar, still straight.
    """
    own = bends_of_side(part, twist, side)
    setbacks = [
        0.5 * (taken + used) for taken, used in zip(blank.deductions, blank.allowances, strict=True)
    ]
    near = own[-1] if side == 1 else own[0]
    begin, end = blank.zone(near)
    rest = straight
    if rest is None:
        rest = blank.length - end if side == 1 else begin
    leg = rest + setbacks[near - 1]
    if rest <= 0.0 or leg <= 0.0:
        return None
    legs = (*part.legs[: len(own)], leg) if side == 1 else (leg, *part.legs[own[0] :])
    shift = own[0] - 1
    return evolve(
        part,
        legs=legs,
        bends=tuple(part.bends[bend - 1] for bend in own),
        finishes=tuple(
            evolve(one, bend=one.bend - shift) for one in part.finishes if one.bend in own
        ),
        others=tuple(
            evolve(one, bends=tuple(bend - shift for bend in one.bends if bend in own))
            for one in part.others
            if any(bend in own for bend in one.bends)
        ),
        holes=(),
        welds=(),
        limits=(),
        tolerance=None,
        order=None,
    )
