"""What a push off the middle asks of the end that it lies nearer to.

A bar laid x off the ram's axis, along the nose, presses beside the middle of everything that holds
it.  Whatever stays straight under it takes the more, the nearer it is.  With N the force, or the
moment, that comes in at x:

    along a length l, as a root, a run of weld or a seat: N/l (1 + 12 x y/l^2), at its end y = l/2
    N/l (1 + 6 x/l), from N/l and N x y over l^3/12;
    over n bolts evenly in a row of length s: N/n (1 + x y n/sum y^2), at its end y = s/2, with
    sum y^2 = n (n + 1) s^2/(12 (n - 1)), N/n (1 + 6 x (n - 1)/(s (n + 1)));
    on two supports L apart: N (1/2 + x/L) on the nearer one, from the moments about the other

(statics; the first two as of an eccentric load on a straight section, Navier).
"""

from __future__ import annotations

import math

from strapwright.strength.check_values import Input, Load


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


def off_inputs(load: Load, length: float) -> tuple[Input, ...]:
    """Return x and l of a formula of the worse end [mm]; nothing of a push in the middle.

    Parameters
    ----------
    load
        The push.
    length
        l of what it presses on [mm].
    """
    return (("x", load.offset, "mm"), ("l", length, "mm")) if load.offset else ()
