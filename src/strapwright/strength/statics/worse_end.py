"""What a push off the middle asks of the end that it lies nearer to.

A bar laid x off the ram's axis, along the nose, presses beside the middle of everything that holds
it.  Whatever stays straight under it takes the more, the nearer it is.  With N the force, or the
moment, that comes in at x:

    along a length l, as a root, a run of weld or a seat: N/l (1 + 12 x y/l^2), at its end y = l/2
    N/l (1 + 6 x/l), from N/l and N x y over l^3/12;
    along a length that is pressed and cannot be pulled: the same to x = l/6, where the far end
    lifts; beyond, a triangle 3 (l/2 - x) long with its middle under the push, N/l 2/(3 (1/2 - x/l))
    at the near end;
    over n bolts evenly in a row of length s: N/n (1 + x y n/sum y^2), at its end y = s/2, with
    sum y^2 = n (n + 1) s^2/(12 (n - 1)), N/n (1 + 6 x (n - 1)/(s (n + 1)));
    on two supports L apart: N (1/2 + x/L) on the nearer one, from the moments about the other

(statics; the first three as of an eccentric load on a straight section, Navier).
"""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.strength.check_values import Input


def end_share(off: float, length: float) -> float:
    """Line load at the worse end of a length over its mean [-]: 1 + 6 x/l.

    Parameters
    ----------
    off, length
        x off the middle, and l [mm].
    """
    if off == 0.0:
        return 1.0
    return 1 + 6 * off / length if length > 0.0 else math.inf


def pressed_share(off: float, length: float) -> float:
    """Line load at the worse end of a length that only presses, over its mean [-].

    1 + 6 x/l to x = l/6, then 2/(3 (1/2 - x/l)); no end holds what lies past it.

    Parameters
    ----------
    off, length
        x off the middle, and l [mm].
    """
    if off <= length / 6 or length <= 0.0:
        return end_share(off, length)
    return 2 / (3 * (0.5 - off / length)) if off < length / 2 else math.inf


@frozen
class RootStrip:
    """The length of a root that carries a push off the middle, and the push on it [mm].

    Attributes
    ----------
    carries
        Length that the push is spread over.
    off, length
        x and l of 1 + 6 x/l at its worse end.
    """

    carries: float
    off: float
    length: float


def root_strip(wide: float, height: float, length: float, off: float) -> RootStrip:
    """Return what carries a push at the free edge of a plate, by the worse of two pictures [mm].

    The push spreads to both sides of the middle, and its worse end takes 1 + 6 x/l of the whole
    plate.  Or it spreads about where it lies, as far as the plate goes: b/2 to one side and l/2 - x
    to the other, so that it lies half of their difference off the middle of what is left.  Near the
    end of a long plate the second asks more, past the end as well (statics).

    Parameters
    ----------
    wide, height, length
        As of :func:`spread_along`.
    off
        x of the push from the plate's middle [mm].
    """
    carries = spread_along(wide, height, length)
    whole = RootStrip(carries, off, length)
    left = length / 2 - off
    if off == 0.0 or left >= carries / 2:
        return whole
    if left <= -carries / 2:
        return RootStrip(carries, off, 0.0)  # nothing under it: without limit
    near = RootStrip(carries / 2 + left, (carries / 2 - left) / 2, carries / 2 + left)
    return max(whole, near, key=lambda one: end_share(one.off, one.length) / one.carries)


def outer_bolt_share(off: float, row: float, count: int) -> float:
    """Load of the outer bolt of a row over their mean [-]: 1 + 6 x (n - 1)/(s (n + 1)).

    One bolt alone takes all of it: 1.

    Parameters
    ----------
    off, row
        x off the row's middle, and s from the first bolt to the last [mm].
    count
        n, of bolts in the row.
    """
    if off == 0.0 or count < 2:
        return 1.0
    return 1 + 6 * off * (count - 1) / (row * (count + 1)) if row > 0.0 else math.inf


def nearer_share(off: float, span: float) -> float:
    """Share of a load on the nearer of two supports [-]: 1/2 + x/L.

    Parameters
    ----------
    off, span
        x off the middle, and L [mm].
    """
    if off == 0.0:
        return 0.5
    return 0.5 + off / span if span > 0.0 else math.inf


def spread_along(wide: float, height: float, length: float) -> float:
    """Length of a plate's root that stands a load on its free edge [mm]: a + 2 h, l at most.

    A load at the edge of a long plate bends its root by 0.51 of itself for a length of 1 beneath
    it, as if it spread by 45 degrees to both sides (elastic plates, from memory).

    Parameters
    ----------
    wide, height, length
        a of the load along the edge, h of the edge above the root, and l of the plate [mm].
    """
    return min(length, wide + 2 * height)


def off_inputs(off: float, length: float) -> tuple[Input, ...]:
    """Return x and l of a formula of the worse end [mm]; nothing of a push in the middle.

    Parameters
    ----------
    off, length
        x of the push, and l of what it presses on [mm].
    """
    return (("x", off, "mm"), ("l", length, "mm")) if off else ()


# How a line writes what the worse end of a length takes, whether it can be pulled or not.
TIED_END = "(1 + 6 x/l)"
LIFTED_END = "2/(3 (1/2 - x/l))"


def pressed_words(off: float, length: float) -> str:
    """How a line writes :func:`pressed_share` [mm]."""
    return TIED_END if off <= length / 6 else LIFTED_END
