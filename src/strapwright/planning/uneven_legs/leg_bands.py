"""Between which lengths the legs come out, by how closely bends come where their marks are.

A bend that comes s beside its mark makes one of its legs s longer and the other s shorter: nothing
is stretched or lost.  The end stop finds s anew for every bend, so between two bends the two add by
their squares.  What a bend takes up otherwise than worked out, its share of the band of the blank,
falls to its two legs by halves.  A nose off the middle of the opening moves all bends one way along
the tooling, but which way that is along the bar depends on which end points left: it is added whole
(statistics of independent errors; our own derivation).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import frozen

from strapwright.bending.bend_values import Band


@frozen(kw_only=True)
class LegBand:
    """A leg of the finished part, as it is measured.

    Attributes
    ----------
    leg
        1-based number.
    length
        As stated [mm].
    off
        Half width of its band [mm].
    lands
        What a nose off the middle has in that, always to one side [mm].
    """

    leg: int
    length: float
    off: float
    lands: float

    @property
    def band(self) -> Band:
        """Least and greatest length [mm]."""
        return Band(low=max(self.length - self.off, 0.0), high=self.length + self.off)


def leg_bands(
    legs: Sequence[float],
    deductions: Sequence[float],
    blank_off: float,
    marks: float,
    lands: Sequence[float],
) -> tuple[LegBand, ...]:
    """Return the band of every leg.

    Parameters
    ----------
    legs
        As stated, one more than bends [mm].
    deductions
        What each bend takes off the sum of the legs [mm].
    blank_off
        Half width of the band of the blank's length [mm].
    marks
        Half width of the band on where a bend comes on the bar [mm].
    lands
        How far off its mark each bend may come by a nose off the middle [mm].
    """
    taken = sum(abs(one) for one in deductions)
    shares = [abs(one) / taken if taken > 0.0 else 1.0 / len(deductions) for one in deductions]
    found = []
    for i, length in enumerate(legs):
        beside = [bend for bend in (i - 1, i) if 0 <= bend < len(deductions)]
        off = marks * math.sqrt(len(beside))
        off += sum(0.5 * blank_off * shares[bend] for bend in beside)
        moved = sum(lands[bend] for bend in beside)
        found.append(LegBand(leg=i + 1, length=length, off=off + moved, lands=moved))
    return tuple(found)
