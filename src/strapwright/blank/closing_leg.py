"""Closed shapes: where the two ends of the bar come, and the leg that takes up what is missing.

End 1 lies at the origin, its leg runs along x; a shape that closes clockwise is looked at from
behind.  The bar follows its mid-line from apex to apex, so end 2 is a sum over the legs.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, degrees, pi, radians, sin

from attrs import evolve, frozen

from strapwright.blank.leg_straights import Setback, bar_thickness
from strapwright.errors import InputError
from strapwright.quantities import either_length
from strapwright.shop.part import Closing, Part

# How far the ends may lie beside each other; common practice, no source.
SIDEWAYS = 1.0  # mm
# Angles are typed; what is meant to be a full turn is one within this; likewise.
_TURN = radians(0.5)
# A flatter corner is no corner; the leg would lie along the first one; likewise.
_FLATTEST = radians(15.0)
# A leg nearer than this to square across the closing direction cannot take up the rest;
# likewise.
_ACROSS = 0.2


@frozen(kw_only=True)
class Closed:
    """A part whose ends meet as stated.

    Attributes
    ----------
    part
        With the absorbing leg as it became.
    change
        What that leg gained [mm].
    sideways
        How far the ends still lie beside each other [mm].
    corner
        Whether the last end meets the face of the first leg, else both ends are in line.
    """

    part: Part
    change: float
    sideways: float
    corner: bool


def close_shape(part: Part, ends: Sequence[Setback], apexes: Sequence[float]) -> Closed:
    """Let the absorbing leg take up what keeps the ends from meeting as stated.

    Parameters
    ----------
    part
        With ``close``.
    ends
        Setback at each bend, shape (bends,).
    apexes
        On the mid-line, from the apex of the two legs of each bend to where a leg is straight,
        shape (bends,) [mm].

    Returns
    -------
    Closed
        Ends in line: the faces of the two ends stand ``size`` apart, or lie over each other by it,
        one thickness beside.  At a corner: the last end stands ``size`` off the inner face of the
        first leg, its outer face flush with end 1.

    Raises
    ------
    InputError
        Where the bends do not close the shape, the absorbing leg runs across, or the ends miss
        each other sideways by more than ``SIDEWAYS``, naming the two legs that disagree.
    ValueError
        Where the part has no ``close``.
    """
    closing = part.close
    if closing is None:
        raise ValueError("the part is open")
    thickness = bar_thickness(part)
    turn = _turn(part)
    # From behind, a shape that closes clockwise closes the other way round.
    sense = 1.0 if turn > 0 else -1.0
    headings = [0.0]
    for bend in part.bends:
        headings.append(headings[-1] + sense * bend.side * bend.angle)
    ways = [(cos(heading), sin(heading)) for heading in headings]
    reach = [0.0, *apexes, 0.0]
    taken = [0.0, *(end.to(part.measured) for end in ends), 0.0]
    # Not held to be positive yet: the absorbing leg may have been stated too short on purpose.
    straights = [leg - taken[i] - taken[i + 1] for i, leg in enumerate(part.legs)]
    runs = [s + reach[i] + reach[i + 1] for i, s in enumerate(straights)]
    end = [sum(run * way[axis] for run, way in zip(runs, ways, strict=True)) for axis in (0, 1)]
    corner = abs(abs(turn) - 2 * pi) > _TURN
    along, wanted = _wanted(closing, ways[-1], thickness, end, corner=corner)
    absorbing = ways[closing.absorb - 1]
    if abs(absorbing[along]) < _ACROSS:
        fit = [str(i + 1) for i, way in enumerate(ways) if abs(way[along]) >= _ACROSS]
        raise InputError(
            "part.close.absorb",
            f"leg {closing.absorb} runs across the direction in which the ends close, so no length "
            "of it makes them meet",
            f"let one of the legs {', '.join(fit)} take it up",
            value=str(closing.absorb),
        )
    change = (wanted[along] - end[along]) / absorbing[along]
    across = 1 - along
    miss = end[across] + change * absorbing[across] - wanted[across]
    if abs(miss) > SIDEWAYS:
        raise _disagree(part, closing, ways, along, miss)
    _check_length(part, closing, straights[closing.absorb - 1] + change, change)
    legs = list(part.legs)
    legs[closing.absorb - 1] += change
    return Closed(
        part=evolve(part, legs=tuple(legs)), change=change, sideways=abs(miss), corner=corner
    )


def _turn(part: Part) -> float:
    """How far all bends turn the bar, with sign [rad]."""
    turn = sum(bend.side * bend.angle for bend in part.bends)
    in_line = abs(abs(turn) - 2 * pi) <= _TURN
    at_corner = pi + _FLATTEST <= abs(turn) <= 2 * pi - _FLATTEST
    if not (in_line or at_corner):
        raise InputError(
            "part.close",
            f"the bends turn the bar by {abs(degrees(turn)):.4g}° in all, so its ends do not meet",
            "let them turn 360° for ends in line, or 195 to 345° for a corner",
        )
    return turn


def _wanted(
    closing: Closing,
    last: tuple[float, float],
    thickness: float,
    end: Sequence[float],
    *,
    corner: bool,
) -> tuple[int, tuple[float, float]]:
    """Axis along which the ends close (0 x, 1 y), and where the middle of end 2 must come [mm]."""
    half = thickness / 2
    if not corner:
        if closing.kind == "overlap":
            beside = thickness if end[1] > 0 else -thickness
            return 0, (closing.size, beside)
        return 0, (-closing.size, 0.0)
    if closing.kind == "overlap":
        raise InputError(
            "part.close.kind",
            "ends that meet at a corner cannot lie over each other",
            'write "gap" or "weld gap", or turn the shape by 360° for ends in line',
            value=closing.kind,
        )
    # A square cut touches first with the corner that the leg's slant turns to the face.
    return 1, (half * abs(last[1]), half + half * abs(last[0]) + closing.size)


def _disagree(
    part: Part,
    closing: Closing,
    ways: Sequence[tuple[float, float]],
    along: int,
    miss: float,
) -> InputError:
    """Name the two legs that move the ends most sideways, the absorbing leg following."""
    across = 1 - along
    follows = ways[closing.absorb - 1][across] / ways[closing.absorb - 1][along]
    shares = [way[across] - way[along] * follows for way in ways]
    others = [i for i in range(len(ways)) if i != closing.absorb - 1]
    pair = sorted(others, key=lambda i: -abs(shares[i]))[:2]
    first, second = sorted(i + 1 for i in pair)
    # The later of the two is changed: the first was likely stated first and meant.
    share = shares[second - 1]
    change = -miss / share if abs(share) >= _ACROSS else 0.0
    remedy = (
        f"make leg {second} {either_length(part.legs[second - 1] + change, 2)}, or change leg "
        f"{first} likewise"
        if change
        else "check the bend angles"
    )
    return InputError(
        "part.shape",
        f"the legs {first} and {second} disagree by {either_length(abs(miss), 2)}, so the ends "
        f"pass each other by that sideways, more than {either_length(SIDEWAYS)}",
        remedy,
    )


def _check_length(part: Part, closing: Closing, straight: float, change: float) -> None:
    if straight < 0.0:
        leg = part.legs[closing.absorb - 1]
        raise InputError(
            "part.close.absorb",
            f"leg {closing.absorb} would have to go from {either_length(leg, 2)} to "
            f"{either_length(leg + change, 2)} for the ends to meet, which leaves it no straight "
            "bar between its bends",
            "check the lengths of the legs, or let another leg take it up",
            value=str(closing.absorb),
        )
